package bot

import (
	"fmt"
	"unicode/utf8"

	"yardbell/bot/conversation"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// hidden tells a crew, once a day, how somebody is heard who writes in the name of the
// group or of a channel.
func (b *Bot) hidden(tx *store.Tx, in Incoming) error {
	c, found, err := tx.Crew(in.Source, in.Chat)
	if err != nil || !found || !utf8.ValidString(in.Text) || utf8.RuneCountInString(in.Text) > wording.MostRunes || wording.Clean(in.Text) == "" {
		return err
	}
	sc, err := (&conversation.Scene{Crew: c, Addressed: in.Addressed || in.ReplyTo != 0}).Seeing(tx.Look())
	if err != nil {
		return err
	}
	if a := conversation.Emergency(in.Text); a.Langs != nil {
		m := store.Message{Crew: c.ID, Key: fmt.Sprintf("emergency/%s/%d", in.Source, in.UpdateID), Answers: in.Message}
		if err := conversation.QueueEmergency(tx, sc.Settings, a, "", m); err != nil {
			return err
		}
	}
	sc.Origin = store.Update{Said: tx.Now, Text: in.Text}
	res, _, err := sc.Made(in.Text)
	if err != nil || !sc.Addressed && !conversation.ForBot(res) {
		return err
	}
	return b.Tell(tx, c, "hidden/"+rules.DateOf(tx.Now, sc.Settings.Zone).String(), "g_hidden")
}
