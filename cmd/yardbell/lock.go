package main

import (
	"context"
	"fmt"
	"time"

	"github.com/gofrs/flock"

	"yardbell/store"
)

// lockFile takes the lock that says that a process serves a database, or is about to
// replace it.
func lockFile(db string) (*flock.Flock, error) {
	lock := flock.New(db+".lock", flock.SetPermissions(0o600))
	switch ok, err := lock.TryLock(); {
	case err != nil:
		return nil, fmt.Errorf("database %s cannot be locked: its folder must allow writing", db)
	case !ok:
		return nil, fmt.Errorf("database %s is served by another process already; stop that one first", db)
	}
	return lock, nil
}

// whose says whether a file has crews of a transport in it, and of which other one.
// All crews of a file share one outbox: what is due to the others would be given to this
// transport, to nobody or to a stranger's chat, and count as sent.
func whose(ctx context.Context, db *store.DB, now time.Time, source string) (own bool, other string, err error) {
	err = db.View(ctx, now, func(tx *store.Tx) error {
		crews, err := tx.Crews()
		for _, c := range crews {
			if c.Source == source {
				own = true
			} else {
				other = c.Source
			}
		}
		return err
	})
	return own, other, err
}
