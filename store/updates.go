package store

import (
	"context"
	"os"
	"time"
)

// Update is one thing that came in: a message, an edit of one, a button press.
type Update struct {
	ID       int64 // our row
	Source   string
	UpdateID int64 // the transport's number
	Crew     int64
	Member   int64
	Kind     string // message, edit, press
	Message  int64  // chat message it is, or edits, or was pressed under
	ReplyTo  int64
	Text     string
	Said     time.Time
	Outcome  string // logged, asked, refused, silent …
}

// MarkUpdate records an update; fresh is false where it was seen before, and
// nothing is then to be done.
func (t *Tx) MarkUpdate(u Update) (row int64, fresh bool, err error) {
	res, err := t.execute(`INSERT INTO updates (source, update_id, crew_id, member_id, kind, message_id, reply_to, text, said_at, read_at)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (source, update_id) DO NOTHING`,
		[]any{u.Source, u.UpdateID, u.Crew, u.Member, u.Kind, u.Message, u.ReplyTo, u.Text, toMS(u.Said), toMS(t.Now)})
	if err != nil {
		return 0, false, t.wrap(err)
	}
	if n, err := res.RowsAffected(); err != nil || n == 0 {
		return 0, false, err
	}
	row, err = res.LastInsertId()
	return row, true, err
}

// Settle notes what became of an update. The text of one that was not for the
// bot is not kept.
func (t *Tx) Settle(row int64, outcome string, keepText bool) error {
	if keepText {
		_, err := t.exec(`UPDATE updates SET outcome = ? WHERE id = ?`, outcome, row)
		return err
	}
	_, err := t.exec(`UPDATE updates SET outcome = ?, text = '' WHERE id = ?`, outcome, row)
	return err
}

const updateColumns = `id, source, update_id, crew_id, member_id, kind, message_id, reply_to, text, said_at, outcome`

func scanUpdate(s scanner) (u Update, err error) {
	err = s.Scan(&u.ID, &u.Source, &u.UpdateID, &u.Crew, &u.Member, &u.Kind, &u.Message, &u.ReplyTo, &u.Text, instant{&u.Said}, &u.Outcome)
	return u, err
}

// UpdateRow reads one update.
func (t *Tx) UpdateRow(row int64) (Update, bool, error) {
	list, err := all(t, scanUpdate, `SELECT `+updateColumns+` FROM updates WHERE id = ?`, row)
	if err != nil || len(list) == 0 {
		return Update{}, false, err
	}
	return list[0], true, nil
}

// FirstOfMessage is the update that brought a chat message, before any edit.
func (t *Tx) FirstOfMessage(crew, message int64) (Update, bool, error) {
	list, err := all(t, scanUpdate, `SELECT `+updateColumns+` FROM updates
		WHERE crew_id = 0 + ? AND message_id = ? AND kind = 'message' ORDER BY id LIMIT 1`, crew, message)
	if err != nil || len(list) == 0 {
		return Update{}, false, err
	}
	return list[0], true, nil
}

// LastOfMessage is the update that brought a chat message as it was last read.
func (t *Tx) LastOfMessage(crew, message int64) (Update, bool, error) {
	list, err := all(t, scanUpdate, `SELECT `+updateColumns+` FROM updates
		WHERE crew_id = 0 + ? AND message_id = ? AND kind IN ('message', 'edit') ORDER BY id DESC LIMIT 1`, crew, message)
	if err != nil || len(list) == 0 {
		return Update{}, false, err
	}
	return list[0], true, nil
}

// LastUpdateID is the highest number seen from a source, 0 for none.
func (t *Tx) LastUpdateID(source string) (id int64, err error) {
	_, err = t.one(`SELECT coalesce(max(update_id), 0) FROM updates WHERE source = ?`, []any{source}, &id)
	return id, err
}

// LastMessageOf is the newest chat message a member wrote.
func (t *Tx) LastMessageOf(crew, member int64) (message int64, found bool, err error) {
	found, err = t.one(`SELECT message_id FROM updates WHERE crew_id = 0 + ? AND member_id = ? AND kind = 'message' AND message_id <> 0
		ORDER BY id DESC LIMIT 1`, []any{crew, member}, &message)
	return message, found, err
}

// LatestOf lists what a member last wrote or changed before an update, newest first.
func (t *Tx) LatestOf(crew, member, before int64, limit int) ([]Update, error) {
	return all(t, scanUpdate, `SELECT `+updateColumns+` FROM updates
		WHERE crew_id = 0 + ? AND member_id = ? AND kind IN ('message', 'edit') AND id < ? ORDER BY id DESC LIMIT ?`, crew, member, before, limit)
}

// SetOffset stores where the transport should read on.
func (t *Tx) SetOffset(source string, next int64) error {
	_, err := t.exec(`INSERT INTO offsets (source, next) VALUES (?, ?)
		ON CONFLICT (source) DO UPDATE SET next = excluded.next`, source, next)
	return err
}

// Offset is where the transport should read on, 0 at the start.
func (t *Tx) Offset(source string) (next int64, err error) {
	_, err = t.one(`SELECT next FROM offsets WHERE source = ?`, []any{source}, &next)
	return next, err
}

// Newest is the latest time at which anything came in or went out.
func (t *Tx) Newest() (at time.Time, err error) {
	_, err = t.one(`SELECT max((SELECT coalesce(max(read_at), 0) FROM updates), (SELECT coalesce(max(sent_at), 0) FROM outbox))`, nil, instant{&at})
	return at, err
}

// watchSource is the row of offsets that Probe writes; no transport has that name.
const watchSource = "watch"

// Probe writes to the file as far as the disk, and so finds one that is full, read-only
// or locked.
func (d *DB) Probe(ctx context.Context, now time.Time) error {
	return d.Update(ctx, now, func(tx *Tx) error { return tx.SetOffset(watchSource, toMS(now)) })
}

// Size is how many bytes the file takes on the disk, with what SQLite keeps beside it.
func (d *DB) Size() (n int64, err error) {
	for _, path := range []string{d.path, d.path + "-wal"} {
		st, err := os.Stat(path)
		switch {
		case err == nil:
			n += st.Size()
		case path == d.path:
			return 0, &FileError{d.path, "cannot be read: " + reason(err)}
		}
	}
	return n, nil
}
