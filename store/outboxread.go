package store

import (
	"cmp"
	"slices"
	"time"

	"yardbell/rules"
)

// SentMessage finds the message with that number in the crew's group.
func (t *Tx) SentMessage(crew, number int64) (Message, bool, error) {
	return t.SentIn(crew, 0, number)
}

// SentIn finds the message with that number in a private chat, or for chat 0 in
// the crew's group: every chat numbers its own.
func (t *Tx) SentIn(crew, chat, number int64) (Message, bool, error) {
	list, err := all(t, scanMessage, `SELECT `+messageColumns+` FROM outbox WHERE crew_id = 0 + ? AND message_id = ? AND chat_id = ? AND message_id <> 0 AND reason <> '`+Summed+`'`, crew, number, chat)
	if err != nil || len(list) == 0 {
		return Message{}, false, err
	}
	// Of a message that stands for several rows one carries its text and buttons.
	return list[max(0, slices.IndexFunc(list, func(m Message) bool { return m.Text != "" }))], true, nil
}

// LastNumber is the highest message number in a crew's chat.
func (t *Tx) LastNumber(crew int64) (n int64, err error) {
	_, err = t.one(`SELECT coalesce(max(message_id), 0) FROM outbox WHERE crew_id = 0 + ? AND message_id <> 0`, []any{crew}, &n)
	return n, err
}

// LastPing is the newest ping in a crew's chat.
func (t *Tx) LastPing(crew int64) (Message, bool, error) {
	return t.lastMessage(`crew_id = 0 + ? AND chat_id = 0 AND state = 'sent' AND (kind = 'ping' OR ping IN ('noanswer', 'again'))`, crew)
}

// LastWithButtons is the newest message with buttons in a crew's chat.
func (t *Tx) LastWithButtons(crew int64) (Message, bool, error) {
	return t.lastMessage(`crew_id = 0 + ? AND chat_id = 0 AND state = 'sent' AND buttons <> '[]'`, crew)
}

func (t *Tx) lastMessage(where string, args ...any) (Message, bool, error) {
	// message_id <> 0 stands in the query so that SQLite sees that the index, which
	// leaves out what is not sent, will do.
	list, err := all(t, scanMessage, `SELECT `+messageColumns+` FROM outbox WHERE `+where+` AND message_id <> 0 AND reason <> '`+Summed+`' ORDER BY message_id DESC LIMIT 1`, args...)
	if err != nil || len(list) == 0 {
		return Message{}, false, err
	}
	return list[0], true, nil
}

// Shown are the messages about tasks that stand in the chat with buttons and are
// young enough to be changed there. Of one that is about several it is the row that
// carries them.
func (t *Tx) Shown(crew int64, tasks ...rules.Task) ([]Message, error) {
	var keys []string
	for _, k := range tasks {
		if !t.unshown[crewTask{crew, k.Key}] {
			keys = append(keys, k.Key)
		}
	}
	if len(keys) == 0 {
		return nil, nil
	}
	var list []Message
	err := manyRows(keys, 1, func(k string) []any { return []any{k} }, func(values string, args []any) error {
		more, err := all(t, scanMessage, `SELECT `+messageColumns+` FROM `+aboutTasks(values)+` WHERE o.state = 'sent'
			AND o.message_id <> 0 AND o.edits = 0 AND o.sent_at > ?`, append(args, crew, toMS(t.Now.Add(-48*time.Hour)))...)
		list = append(list, more...)
		return err
	})
	for i, m := range list {
		if err == nil && len(m.Buttons) == 0 {
			list[i], _, err = t.SentIn(crew, m.Chat, m.Message)
		}
	}
	list = slices.DeleteFunc(list, func(m Message) bool { return len(m.Buttons) == 0 || m.Edits != 0 })
	slices.SortFunc(list, func(a, b Message) int { return cmp.Compare(a.ID, b.ID) })
	return slices.CompactFunc(list, func(a, b Message) bool { return a.ID == b.ID }), err
}

// ShownDigest is the row and the number in the chat of the newest digest of a local day
// that stands there.
func (t *Tx) ShownDigest(crew int64, day rules.Date, zone *time.Location) (row, number int64, found bool, err error) {
	d, found, err := t.lastDigest(crew)
	return d.id, d.message, found && d.message != 0 && !d.sent.Before(rules.DayStart(day, zone)), err
}

// AnswerTo marks a question as answered by an update; false where it was already.
func (t *Tx) AnswerTo(m Message, update int64) (bool, error) {
	n, err := t.exec(`UPDATE outbox SET answered = ? WHERE id = ? AND answered = 0`, update, m.ID)
	return n > 0, err
}

// AnswerOf is the answer that an update got in the chat.
func (t *Tx) AnswerOf(crew, update int64) (Message, bool, error) {
	list, err := all(t, scanMessage, `SELECT `+messageColumns+` FROM outbox WHERE crew_id = 0 + ? AND key = 'answer/' || ? LIMIT 1`, crew, update)
	if err != nil || len(list) == 0 {
		return Message{}, false, err
	}
	return list[0], true, nil
}

// DigestSent reports whether a crew had a digest on a local day, be it that
// day's own or, after the service was away, one of a day before.
func (t *Tx) DigestSent(crew int64, day rules.Date, zone *time.Location) (bool, error) {
	d, found, err := t.lastDigest(crew)
	return found && rules.DateOf(d.sent, zone) == day, err
}

// lastDigest is the digest that was sent last: no later day's can have gone yet.
func (t *Tx) lastDigest(crew int64) (d sentDigest, found bool, err error) {
	list, err := all(t, func(s scanner) (d sentDigest, err error) {
		err = s.Scan(&d.id, &d.message, instant{&d.sent})
		return d, err
	}, `SELECT id, message_id, sent_at FROM outbox WHERE crew_id = 0 + ? AND `+digestKeys+` AND state = 'sent' ORDER BY key DESC LIMIT 1`, crew)
	if err != nil || len(list) == 0 {
		return d, false, err
	}
	return list[0], true, nil
}
