package bot

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strconv"
	"strings"
	"time"

	"yardbell/bot/conversation"
	"yardbell/store"
)

// NotSent is a transport's own word on a message that the chat did not take.
type NotSent struct {
	Final bool          // it never will
	Gone  bool          // the bot may not write there any more
	Muted bool          // the bot may only read there
	Lacks bool          // the bot has not got the right to pin or delete
	Held  bool          // it was not tried: the chat's limit, or the server asked to wait
	Share bool          // held, but only by the share that answers of its kind have of the limit
	After time.Duration // not before
	Err   error
}

func (e *NotSent) Error() string { return e.Err.Error() }
func (e *NotSent) Unwrap() error { return e.Err }

// ButtonData names a button to a transport that can only carry a few bytes: its
// place and a mark of what it does, so that a press of a keyboard that has changed
// since is not taken for another button's.
func ButtonData(place int, b store.Button) string {
	sum := sha256.Sum256([]byte(b.Label + "\x00" + b.Do))
	return fmt.Sprintf("%d:%s", place+1, hex.EncodeToString(sum[:4]))
}

// ButtonOf finds the button that data names. Anybody can send any data: what is
// not exactly one of the message's own buttons is none.
func ButtonOf(data string, buttons []store.Button) (store.Button, bool) {
	place, _, ok := strings.Cut(data, ":")
	i, err := strconv.Atoi(place)
	if !ok || err != nil || i < 1 || i > len(buttons) || ButtonData(i-1, buttons[i-1]) != data {
		return store.Button{}, false
	}
	return buttons[i-1], true
}

// ThumbsUp reports whether a reaction says that something was read.
func ThumbsUp(emoji string) bool { return conversation.ThumbsUp(emoji) }
