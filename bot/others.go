package bot

import (
	"fmt"
	"time"
	"unicode/utf8"

	"yardbell/bot/wording"
	"yardbell/rules"
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
	text := sc.origin.Text
	if wording.Clean(text) == "" || !utf8.ValidString(text) || utf8.RuneCountInString(text) > wording.MostRunes {
		ans.hush()
		return ans, nil
	}
	res, sc, err := sc.made(text)
	if err != nil {
		return ans, err
	}
	ans.of = sc
	switch {
	case sc.chat != 0 && asksBot(res):
		return ans.then(sc.message())
	case !sc.addressed && !forBot(res) || asksBot(res):
		ans.hush()
		return ans, nil
	}
	// Several that are passed on at a time get one answer, which is about all of them.
	key := fmt.Sprintf("forwarded/%d/%d", sc.member.ID, sc.update.Said.Truncate(toldWhen).Unix())
	ans.hush()
	m := store.Message{Crew: sc.crew.ID, Key: key, Kind: "error", Update: sc.update.ID, Chat: sc.chat, Answers: sc.update.Message,
		Step: stepOf(res), Text: wording.Upper(sc.v.Say("r_forwarded", "Example", sc.example(&reading{step: stepOf(res)})))}
	ans.write(func(tx *store.Tx) error { return tx.Queue(m) })
	return ans, nil
}

// hidden tells a crew, once a day, how somebody is heard who writes in the name of the
// group or of a channel.
func (b *Bot) hidden(tx *store.Tx, in Incoming) error {
	c, found, err := tx.Crew(in.Source, in.Chat)
	if err != nil || !found || !utf8.ValidString(in.Text) || utf8.RuneCountInString(in.Text) > wording.MostRunes || wording.Clean(in.Text) == "" {
		return err
	}
	sc := &Scene{tx: tx, crew: c, addressed: in.Addressed || in.ReplyTo != 0}
	if sc.s, err = tx.Settings(c.ID); err != nil {
		return err
	}
	if a := emergency(in.Text); a.langs != nil {
		m := store.Message{Crew: c.ID, Key: fmt.Sprintf("emergency/%s/%d", in.Source, in.UpdateID), Answers: in.Message}
		if err := queueEmergency(tx, sc.s, a, "", m); err != nil {
			return err
		}
	}
	sc.origin = store.Update{Said: tx.Now, Text: in.Text}
	res, _, err := sc.made(in.Text)
	if err != nil || !sc.addressed && !forBot(res) {
		return err
	}
	return b.tell(tx, c, "hidden/"+rules.DateOf(tx.Now, sc.s.Zone).String(), "g_hidden")
}
