package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"strings"

	"github.com/pressly/goose/v3"
)

// chainFile is the one migration that takes more than SQL: the lines that are in a
// file already are chained in its transaction, between the two halves of the file.
const (
	chainFile    = "00006_chain.sql"
	chainVersion = 6
	chainHere    = "-- +yardbell chain"
)

// chainMigration runs that file.
func chainMigration(files fs.FS) (*goose.Migration, error) {
	text, err := fs.ReadFile(files, chainFile)
	if err != nil {
		return nil, err
	}
	up, down, ok := strings.Cut(string(text), "-- +goose Down")
	first, rest, both := strings.Cut(up, chainHere)
	if !ok || !both {
		return nil, errors.New(chainFile + " is not in its two halves")
	}
	return goose.NewGoMigration(chainVersion,
		&goose.GoFunc{RunTx: func(ctx context.Context, tx *sql.Tx) error {
			if _, err := tx.ExecContext(ctx, first); err != nil {
				return err
			}
			if err := chainAll(ctx, tx); err != nil {
				return err
			}
			_, err := tx.ExecContext(ctx, rest)
			return err
		}},
		&goose.GoFunc{RunTx: func(ctx context.Context, tx *sql.Tx) error {
			_, err := tx.ExecContext(ctx, down)
			return err
		}}), nil
}

// chainAll chains every line of a file as it stands.
func chainAll(ctx context.Context, tx *sql.Tx) error {
	before, after := []byte{}, int64(0)
	for {
		id, found, err := chainNext(ctx, tx, &before, after)
		if err != nil {
			return fmt.Errorf("chain the line after %d: %w", after, err)
		}
		if !found {
			return nil
		}
		after = id
	}
}

// chainNext chains the first line after one. Lines are read one by one: a logbook of
// ten seasons need not be in memory, and no row is open while one is written.
func chainNext(ctx context.Context, tx *sql.Tx, before *[]byte, after int64) (id int64, found bool, err error) {
	n := strings.Count(chained, ",") + 1
	v, into := make([]any, n+1), make([]any, n+1)
	for i := range v {
		into[i] = &v[i]
	}
	row := tx.QueryRowContext(ctx, `SELECT `+chained+`, raw FROM entries WHERE id > ? ORDER BY id LIMIT 1`, after)
	switch err := row.Scan(into...); {
	case errors.Is(err, sql.ErrNoRows):
		return 0, false, nil
	case err != nil:
		return 0, false, err
	}
	salt, err := newSalt()
	if err != nil {
		return 0, false, err
	}
	detail, _ := v[detailAt].(string)
	raw, _ := v[n].(string)
	_, reason := splitReason(detail)
	v[n-1] = wordsHash(salt, raw, reason)
	hash := link(*before, v[:n])
	if _, err := tx.ExecContext(ctx, `UPDATE entries SET salt = ?, words_hash = ?, hash = ? WHERE id = ?`, salt, v[n-1], hash, v[0]); err != nil {
		return 0, false, err
	}
	*before = hash
	return v[0].(int64), true, nil
}
