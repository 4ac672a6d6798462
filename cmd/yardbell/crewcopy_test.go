package main

import (
	"database/sql"
	"testing"

	"github.com/stretchr/testify/require"
)

// copyCrew puts so many copies of the one crew in a file beside it, as rows: playing
// thousands of seasons through the chat would take hours. The chain of the logbook does
// not hold in such a file.
func copyCrew(t testing.TB, path string, crews int) {
	t.Helper()
	db, err := sql.Open("sqlite", "file:"+path)
	require.NoError(t, err)
	defer func() { require.NoError(t, db.Close()) }()
	db.SetMaxOpenConns(1)
	for _, q := range []string{`PRAGMA journal_mode = WAL`, `PRAGMA synchronous = OFF`, `PRAGMA cache_size = -64000`} {
		_, err := db.Exec(q)
		require.NoError(t, err)
	}
	tx, err := db.Begin()
	require.NoError(t, err)
	// Row numbers of copy k lie beyond those of the ones before; ?1 is k, ?2 the distance.
	for k := 1; k < crews; k++ {
		for _, q := range []string{
			`INSERT INTO crews (id, source, chat_id, created_at) SELECT id + ?1 + 0 * ?2, source, chat_id + ?1, created_at FROM crews WHERE id = 1`,
			`INSERT INTO members (id, crew_id, user_key, name) SELECT id + ?1 * ?2, 1 + ?1, user_key, name FROM members WHERE crew_id = 1`,
			`INSERT INTO updates (id, source, update_id, crew_id, member_id, kind, message_id, reply_to, text, said_at, read_at, outcome)
				SELECT id + ?1 * ?2, source, update_id + ?1 * ?2, 1 + ?1, member_id + ?1 * ?2, kind, message_id, reply_to, text, said_at, read_at, outcome FROM updates WHERE crew_id = 1`,
			`INSERT INTO entries (id, crew_id, update_row, member_id, said_at, happened_at, action, step, subject_kind, subject_key, count, of, from_breeder, into_place, mark, detail, ref, raw, message_id, salt, words_hash, hash)
				SELECT id + ?1 * ?2, 1 + ?1, update_row + ?1 * ?2, member_id + ?1 * ?2, said_at, happened_at, action, step, subject_kind, subject_key, count, of, from_breeder, into_place, mark, detail, ref + ?1 * ?2, raw, message_id, salt, words_hash, hash
				FROM entries WHERE crew_id = 1`,
			`INSERT INTO tasks SELECT 1 + ?1, key, subject_kind, subject_key, step, occ, earliest, best, latest, ideal, weight, guard, state, claimed_by,
				snoozed, reason, anchor, batch, breeder, count, from_place, into_place, mark, unfit, stake, source FROM tasks WHERE crew_id = 1 AND ?2 > 0`,
			`INSERT INTO outbox (crew_id, key, kind, ping, task_key, step, subject, day, fire_at, due_at, priority, state, attempt, lease_until, reply_to, update_row, text, buttons, message_id, sent_at, answered, reason, chat_id, answers, edits, attach)
				SELECT 1 + ?1, key, kind, ping, task_key, step, subject, day, fire_at, due_at, priority, state, attempt, lease_until, reply_to, iif(update_row = 0, 0, update_row + ?1 * ?2), text, buttons, message_id, sent_at, answered, reason, chat_id, answers, edits, attach
				FROM outbox WHERE crew_id = 1`,
		} {
			_, err := tx.Exec(q, k, 1_000_000)
			require.NoError(t, err, q)
		}
		if k%100 == 0 {
			require.NoError(t, tx.Commit())
			tx, err = db.Begin()
			require.NoError(t, err)
		}
	}
	require.NoError(t, tx.Commit())
	_, err = db.Exec(`PRAGMA wal_checkpoint(TRUNCATE)`)
	require.NoError(t, err)
}
