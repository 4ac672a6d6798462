package bot

import (
	"slices"
	"strings"

	"yardbell/bot/wording"
	"yardbell/store"
)

// speak settles the language of the answer: the sender's own, else the one the
// message is plainly written in, else the crew's first.
func (t *talk) speak(written string) {
	t.written = written
	lang := t.s.Langs()[0]
	switch own := t.s.Own[t.member.ID]; {
	case own != "":
		lang = own
	case slices.Contains(wording.Languages, written):
		lang = written
	}
	t.v = wording.In(lang, t.s, t.tx.Now)
}

// mostPresses is how far back a press of a press is followed.
const mostPresses = 8

// writtenIn is the language of the text that a message of the bot answers, "" for
// what answers none.
func (t *talk) writtenIn(m store.Message) (string, error) {
	for range mostPresses {
		if m.Update == 0 {
			return "", nil
		}
		u, found, err := t.tx.UpdateRow(m.Update)
		if err != nil || !found {
			return "", err
		}
		if u.Kind != "press" {
			if len(strings.Fields(u.Text)) == 1 {
				return "", nil
			}
			return understand().Language(u.Text, t.s.Lang), nil
		}
		if m, found, err = t.tx.SentIn(t.crew.ID, t.chat, u.Message); err != nil || !found {
			return "", err
		}
	}
	return "", nil
}
