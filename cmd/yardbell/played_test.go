package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"yardbell/store"
)

// played is what came of a script.
type played struct {
	text  string // as it is read
	jsonl string // field by field
	model error  // where the model in memory was not the fold of the file
	moved error  // where the rows were others after a rebuild
}

// plays holds every script that was played: it is played once for all that is tested
// of it.
var plays sync.Map

func (c conversation) played(t testing.TB) played {
	t.Helper()
	once, _ := plays.LoadOrStore(c.name, sync.OnceValues(c.playOnce))
	p, err := once.(func() (played, error))()
	require.NoError(t, err, c.name)
	return p
}

// playOnce plays a script on a fresh database, with an eye on the model after each line,
// and derives everything anew in the end.
func (c conversation) playOnce() (got played, err error) {
	ctx := context.Background()
	dir, err := os.MkdirTemp("", "played-")
	if err != nil {
		return got, err
	}
	defer func() { _ = os.RemoveAll(dir) }()
	zoneName, start, err := headOf(c.text)
	if err != nil {
		return got, err
	}
	zone, err := loadZone(zoneName)
	if err != nil {
		return got, err
	}
	now, err := parseNow(start, zone)
	if err != nil {
		return got, err
	}
	var text, jsonl, errOut bytes.Buffer
	path := filepath.Join(dir, "crew.db")
	p := &player{e: testEnv("", &text, &errOut), path: path, files: dir, first: map[string]string{"zone": zoneName, "language": c.lang}, out: &output{w: &text}, echo: true}
	if err := p.open(ctx); err != nil {
		return got, err
	}
	p.con.Beside = &jsonl
	err = p.begin(ctx, now)
	for n, s := range strings.Split(c.text, "\n") {
		if err != nil {
			break
		}
		var l scriptLine
		if l, err = parseLine(trimEOL(s)); err == nil {
			err = p.do(ctx, n+1, l)
		}
		if got.model == nil && err == nil {
			if e := p.db.CheckModels(ctx, p.now); e != nil {
				got.model = fmt.Errorf("after line %d, %q: %w", n+1, s, e)
			}
		}
	}
	if e := p.close(); err == nil {
		err = e
	}
	if err != nil {
		return got, fmt.Errorf("%w; standard error: %s", err, errOut.String())
	}
	got.text, got.jsonl = text.String(), jsonl.String()
	got.moved = sameAfterRebuild(ctx, path)
	return got, nil
}

// sameAfterRebuild derives everything anew from the logbook and finds it as it was.
func sameAfterRebuild(ctx context.Context, path string) (err error) {
	db, err := store.Open(ctx, path, store.Options{})
	if err != nil {
		return err
	}
	defer func() {
		if e := db.Close(); err == nil {
			err = e
		}
	}()
	var last time.Time
	err = db.View(ctx, time.Time{}, func(tx *store.Tx) error {
		crews, err := tx.Crews()
		if err != nil {
			return err
		}
		out, err := tx.Outbox(crews[0].ID)
		for _, m := range out {
			if m.Sent.After(last) {
				last = m.Sent
			}
		}
		return err
	})
	if err != nil {
		return err
	}
	var before, after string
	err = db.Update(ctx, last, func(tx *store.Tx) (err error) {
		if before, err = tx.Dump(); err != nil {
			return err
		}
		if _, err = tx.Rebuild(); err != nil {
			return err
		}
		after, err = tx.Dump()
		return err
	})
	if err == nil && before != after {
		err = fmt.Errorf("derived rows differ after a rebuild:\n%s\nwere\n%s", after, before)
	}
	return err
}

// Every script says exactly what is written beside it, as text and field by field.
func TestConversations(t *testing.T) {
	inSequence(t)
	for _, c := range scripts(t) {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			got := c.played(t)
			expect(t, c.base+".out", got.text)
			expect(t, c.base+".jsonl", got.jsonl)
			require.NoError(t, got.moved)
		})
	}
}

// The model in memory is the fold of the file, and its tasks are their rows, at every step of every
// conversation.
func TestConversationsKeepTheModel(t *testing.T) {
	inSequence(t)
	for _, c := range scripts(t) {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			require.NoError(t, c.played(t).model)
		})
	}
}
