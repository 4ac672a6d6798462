package conversation

import (
	"slices"
	"strings"

	"yardbell/bot/wording"
	"yardbell/store"
)

// Speaking is the scene with the language of the answer settled: the sender's own, else the
// one the message is plainly written in, else the crew's first.
func (sc *Scene) Speaking(written string) *Scene {
	next := *sc
	next.written = written
	lang := sc.Settings.Langs()[0]
	switch own := sc.Settings.Own[sc.Member.ID]; {
	case own != "":
		lang = own
	case slices.Contains(wording.Languages, written):
		lang = written
	}
	next.Voice = wording.In(lang, sc.Settings, sc.Look.Now)
	next.Voice.Customers = sc.customerNames()
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
		u, found, err := sc.Look.UpdateRow(m.Update)
		if err != nil || !found {
			return "", err
		}
		if u.Kind != "press" {
			if len(strings.Fields(u.Text)) == 1 {
				return "", nil
			}
			return Understand().Language(u.Text, sc.Settings.Lang), nil
		}
		if m, found, err = sc.Look.SentIn(sc.Crew.ID, sc.Chat, u.Message); err != nil || !found {
			return "", err
		}
	}
	return "", nil
}
