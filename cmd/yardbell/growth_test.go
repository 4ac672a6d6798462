package main

import (
	"log/slog"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot"
	"yardbell/scheduler"
	"yardbell/store"
)

// A message waits for the disk once, and costs no more statements and no more rows read
// after a long season than after a short one. Counts, since times tell of the machine.
func TestMessageCostsWhatItChanges(t *testing.T) {
	inSequence(t)
	cost := func(rounds int) (work store.Work, messages int64) {
		ctx := t.Context()
		p := service(t, seasonFile(t, rounds))
		say := func(after time.Duration, text string) {
			p.now = p.now.Add(after)
			in, err := p.incoming(ctx, scriptLine{kind: sayLine, who: "Wren", text: text})
			require.NoError(t, err)
			before := p.db.Work()
			require.NoError(t, p.bot.Handle(ctx, p.now, in))
			w := p.db.Work().Less(before)
			require.EqualValues(t, 1, w.Commits, "%q", text)
			work.Statements, work.Rows = work.Statements+w.Statements, work.Rows+w.Rows
			messages++
		}
		// The first rounds read what the rest finds at hand.
		for n := rounds + 1; n <= rounds+6; n++ {
			if n == rounds+3 {
				work, messages = store.Work{}, 0
			}
			for _, r := range nextRound(n) {
				say(r.after, r.text)
			}
			require.NoError(t, p.tick(ctx))
		}
		return work, messages
	}
	few, n := cost(6)
	many, _ := cost(30)
	t.Logf("a message takes %.1f statements and %.1f rows after 6 rounds, %.1f and %.1f after 30", per(few.Statements, n), per(few.Rows, n), per(many.Statements, n), per(many.Rows, n))
	assert.Less(t, per(few.Statements, n), 24.0)
	assert.Less(t, per(many.Statements, n), 1.1*per(few.Statements, n))
	assert.Less(t, per(many.Rows, n), 1.1*per(few.Rows, n))
}

// What goes out to a crew that has left memory costs no more statements and no more rows
// after a long season than after a short one: neither its lines nor its closed tasks are
// read again to say what is due.
func TestTickCostsNoMoreAfterALongSeason(t *testing.T) {
	inSequence(t)
	cost := func(rounds int) (work store.Work, messages int64) {
		ctx := t.Context()
		path := filepath.Join(t.TempDir(), "crew.db")
		require.NoError(t, os.WriteFile(path, []byte(read(t, seasonFile(t, rounds))), 0o600))
		db, err := store.Open(ctx, path, store.Options{})
		require.NoError(t, err)
		defer func() { require.NoError(t, db.Close()) }()
		out := &silentChat{}
		sched := scheduler.New(db, bot.Post{To: out}, slog.New(slog.DiscardHandler))
		now, err := newest(ctx, db)
		require.NoError(t, err)
		require.NoError(t, sched.Tick(ctx, now))
		// Pings of a round ask for the crew's model: it is folded once and then kept.
		require.NoError(t, db.Update(ctx, now, func(tx *store.Tx) error {
			crews, err := tx.Crews()
			for _, c := range crews {
				if _, err := tx.Model(c.ID); err != nil {
					return err
				}
			}
			return err
		}))
		before, had := db.Work(), out.n
		for h := range 10 * 24 {
			require.NoError(t, sched.Tick(ctx, now.Add(time.Duration(h+1)*time.Hour)))
		}
		return db.Work().Less(before), out.n - had
	}
	few, n := cost(6)
	many, m := cost(30)
	t.Logf("%d messages in ten days take %.1f statements and %.1f rows each after 6 rounds, %d take %.1f and %.1f after 30", n, per(few.Statements, n), per(few.Rows, n), m, per(many.Statements, m), per(many.Rows, m))
	require.Greater(t, n, int64(20))
	assert.Less(t, per(many.Statements, m), 1.1*per(few.Statements, n))
	assert.Less(t, per(many.Rows, m), 1.1*per(few.Rows, n))
}

func per(sum, n int64) float64 { return float64(sum) / float64(n) }
