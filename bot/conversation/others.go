package conversation

import (
	"fmt"
	"time"
	"unicode/utf8"

	"yardbell/bot/wording"
	"yardbell/store"
)

// This file is about messages that are nobody's own words: those that were forwarded, and
// those that were written in the name of a group or a channel. Neither is logged, since
// who did it, or when, is not known; and neither is passed over without a word, or the crew
// would believe that it was.

// toldWhen is for how long somebody who passes on reports is told but once.
const toldWhen = 10 * time.Minute

// passedOn answers a forwarded message. A question to the bot is one whoever asked it first.
func (sc *Scene) passedOn() (Answer, error) {
	var ans Answer
	text := sc.Origin.Text
	if wording.Clean(text) == "" || !utf8.ValidString(text) || utf8.RuneCountInString(text) > wording.MostRunes {
		ans.Ignore()
		return ans, nil
	}
	res, sc, err := sc.Made(text)
	if err != nil {
		return ans, err
	}
	ans.of = sc
	switch {
	case sc.Chat != 0 && asksBot(res):
		return ans.then(sc.message())
	case !sc.Addressed && !ForBot(res) || asksBot(res):
		ans.Ignore()
		return ans, nil
	}
	// Several that are passed on at a time get one answer, which is about all of them.
	key := fmt.Sprintf("forwarded/%d/%d", sc.Member.ID, sc.Update.Said.Truncate(toldWhen).Unix())
	ans.Ignore()
	m := store.Message{Crew: sc.Crew.ID, Key: key, Kind: "error", Update: sc.Update.ID, Chat: sc.Chat, Answers: sc.Update.Message,
		Step: stepOf(res), Text: wording.Upper(sc.Voice.Say("r_forwarded", "Example", sc.example(&reading{step: stepOf(res)})))}
	ans.write(func(tx *store.Tx) error { return tx.Queue(m) })
	return ans, nil
}
