package store

import "time"

// Note is something that the leads of a crew are told in private, once one of them
// has a private chat with the bot. It is worded when it goes, since "today" may be
// long past by then.
type Note struct {
	ID    int64
	Crew  int64
	Words string // id of the sentence
	What  string
	Made  time.Time
}

func scanNote(s scanner) (n Note, err error) {
	err = s.Scan(&n.ID, &n.Crew, &n.Words, &n.What, instant{&n.Made})
	return n, err
}

// KeepNote keeps a note. One with the same key is kept once, told or not.
func (t *Tx) KeepNote(crew int64, key, words, what string) error {
	_, err := t.exec(`INSERT INTO notes (crew_id, key, words, what, made_at) VALUES (?, ?, ?, ?, ?) ON CONFLICT DO NOTHING`, crew, key, words, what, toMS(t.Now))
	return err
}

// Notes are those of a crew that nobody was told, oldest first.
func (t *Tx) Notes(crew int64) ([]Note, error) {
	return all(t, scanNote, `SELECT id, crew_id, words, what, made_at FROM notes WHERE crew_id = 0 + ? AND told = 0 ORDER BY id`, crew)
}

// SetTold marks a note as on its way, or as still to be told.
func (t *Tx) SetTold(note int64, told bool) error {
	_, err := t.exec(`UPDATE notes SET told = ? WHERE id = ?`, told, note)
	return err
}

// CountNotes is how many notes wait for a lead to write to the bot.
func (t *Tx) CountNotes() (n int, err error) {
	_, err = t.one(`SELECT count(*) FROM notes WHERE told = 0`, nil, &n)
	return n, err
}
