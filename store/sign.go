package store

import (
	"fmt"

	"yardbell/rules"
)

// This file is about the sign "seen, not logged" on a person's own message: the rows that
// set and remove it, and the list of the evening. Which messages carry it is told by the
// outcome of their updates alone.

// Notice is the outcome of an update that got the sign and was not logged since.
const Notice = "notice"

const (
	Sign   rules.PingKind = "sign"   // set it, as a reaction
	Unsign rules.PingKind = "unsign" // remove it
	Seen   rules.PingKind = "seen"   // the list of what got it, in the evening
)

// Signs reports whether a row only sets or removes the sign.
func (m Message) Signs() bool { return m.Ping == Sign || m.Ping == Unsign }

// QueueSign has the sign set on a message, and has it listed in the evening. What is
// written after the evening's list stands in that of the next day.
func (t *Tx) QueueSign(u Update, s *rules.Settings) error {
	day := rules.DateOf(t.Now, s.Zone)
	for !rules.At(day, s.Evening, s.Zone).After(t.Now) {
		day = day.Add(1)
	}
	if _, err := t.exec(`INSERT INTO outbox (crew_id, key, kind, ping, day, fire_at, due_at, priority, state) VALUES (?, ?, 'ask', ?, ?, ?, ?, ?, 'queued')
		ON CONFLICT DO NOTHING`, u.Crew, "seen/"+day.String(), string(Seen), day.String(),
		toMS(rules.At(day, s.Evening, s.Zone)), toMS(rules.At(day, s.Evening, s.Zone)), DigestPing); err != nil {
		return err
	}
	return t.Queue(Message{Crew: u.Crew, Key: fmt.Sprintf("sign/%s/%d", day, u.ID), Kind: "digest", Ping: Sign, Day: day.String(), Edits: u.Message, Update: u.ID})
}

// Unsign settles the updates of a message that carry the sign, and has it removed where
// it stands in the chat or is on its way there. keep leaves the sign: a newer update of
// the message carries it now.
func (t *Tx) Unsign(crew, message int64, outcome string, keep bool) error {
	list, err := all(t, scanUpdate, `SELECT `+updateColumns+` FROM updates
		WHERE crew_id = 0 + ? AND message_id = ? AND kind IN ('message', 'edit') AND outcome = '`+Notice+`'`, crew, message)
	if err != nil {
		return err
	}
	for _, u := range list {
		if err := t.Settle(u.ID, outcome, true); err != nil {
			return err
		}
		if keep {
			continue
		}
		rows, err := all(t, scanMessage, `SELECT `+messageColumns+` FROM outbox WHERE crew_id = 0 + ? AND key > 'sign/' AND key < 'sign0' AND update_row = ?`, crew, u.ID)
		if err != nil {
			return err
		}
		for _, m := range rows {
			switch m.State {
			case "queued":
				_, err = t.exec(`UPDATE outbox SET state = 'cancelled', reason = 'no sign any more' WHERE id = ?`, m.ID)
			case "claimed", "sent":
				err = t.Queue(Message{Crew: crew, Key: fmt.Sprintf("unsign/%d", u.ID), Kind: "digest", Ping: Unsign, Edits: message, Update: u.ID})
			}
			if err != nil {
				return err
			}
		}
	}
	return nil
}

// Noticed is the update of a message that carries the sign, as it was last read.
func (t *Tx) Noticed(crew, message int64) (u Update, found bool, err error) {
	u, found, err = t.LastOfMessage(crew, message)
	return u, found && u.Outcome == Notice, err
}

// Unlogged are the updates of a day's list that still carry the sign, in the order in
// which they came. Those of people who were forgotten have no words any more.
func (t *Tx) Unlogged(crew int64, day string) ([]Update, error) {
	return all(t, scanUpdate, `SELECT `+updateColumns+` FROM updates
		WHERE id IN (SELECT update_row FROM outbox WHERE crew_id = 0 + ? AND key > ? AND key < ?) AND outcome = '`+Notice+`' AND text <> '' ORDER BY id`,
		crew, "sign/"+day+"/", "sign/"+day+"0")
}

// Thumb is the text under which a thumb on a message of the bot is kept, as a press: it is
// no button's label.
const Thumb = "👍"

// Thumbed reports whether anybody's thumb on a message of the bot was answered before an
// update.
func (t *Tx) Thumbed(crew, message, before int64) (bool, error) {
	var n int
	return t.one(`SELECT 1 FROM updates WHERE crew_id = 0 + ? AND message_id = ? AND kind = 'press' AND text = '`+Thumb+`' AND outcome <> 'silent' AND id < ? LIMIT 1`, []any{crew, message, before}, &n)
}

// Covers is how many rows one message in the crew's group stands for.
func (t *Tx) Covers(crew, number int64) (n int, err error) {
	_, err = t.one(`SELECT count(*) FROM outbox WHERE crew_id = 0 + ? AND chat_id = 0 AND message_id = ? AND message_id <> 0`, []any{crew, number}, &n)
	return n, err
}
