package main

import (
	"fmt"

	"github.com/gofrs/flock"
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
