package bot

import (
	"slices"
	"strings"

	"yardbell/bot/wording"
	"yardbell/store"
)

// speaking is the scene with the language of the answer settled: the sender's own, else the
// one the message is plainly written in, else the crew's first.
func (sc *Scene) speaking(written string) *Scene {
	next := *sc
	next.written = written
	lang := sc.s.Langs()[0]
	switch own := sc.s.Own[sc.member.ID]; {
	case own != "":
		lang = own
	case slices.Contains(wording.Languages, written):
		lang = written
	}
	next.v = wording.In(lang, sc.s, sc.tx.Now)
	return &next
}

// mostPresses is how far back a press of a press is followed.
const mostPresses = 8

// writtenIn is the language of the text that a message of the bot answers, "" for
// what answers none.
func (sc *Scene) writtenIn(m store.Message) (string, error) {
	for range mostPresses {
		if m.Update == 0 {
			return "", nil
		}
		u, found, err := sc.tx.UpdateRow(m.Update)
		if err != nil || !found {
			return "", err
		}
		if u.Kind != "press" {
			if len(strings.Fields(u.Text)) == 1 {
				return "", nil
			}
			return understand().Language(u.Text, sc.s.Lang), nil
		}
		if m, found, err = sc.tx.SentIn(sc.crew.ID, sc.chat, u.Message); err != nil || !found {
			return "", err
		}
	}
	return "", nil
}
