package store

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

// What each tick and each message asks of tables that only ever grow is led to its rows
// by an index: no plan scans such a table, sorts what it found, or walks through the
// rows of a whole crew.
func TestPlansUseIndexes(t *testing.T) {
	db := fresh(t)
	d := newDiary(t, db)
	d.do(func(tx *Tx) error {
		_, err := claimDue(tx, 10)
		require.NoError(t, err)
		_, _, err = tx.NextDue()
		require.NoError(t, err)
		_, _, err = tx.NextAfter(start)
		require.NoError(t, err)
		_, err = tx.ClaimAbout(d.crew.ID, "batch 1/move", start)
		require.NoError(t, err)
		require.NoError(t, tx.Hold(Lane{Crew: d.crew.ID}, Echo, start))
		_, err = tx.WhoWrote([]int64{1})
		require.NoError(t, err)
		_, err = tx.UpdatesLines([]int64{1})
		require.NoError(t, err)
		require.NoError(t, tx.Release(nil))
		_, err = tx.DigestSent(d.crew.ID, rules.DateOf(start, time.UTC), time.UTC)
		require.NoError(t, err)
		_, _, err = tx.SentIn(d.crew.ID, 0, 7)
		require.NoError(t, err)
		_, _, err = tx.Task(d.crew.ID, "batch 1/move")
		require.NoError(t, err)
		_, _, err = tx.Batch(d.crew.ID, 1)
		require.NoError(t, err)
		_, err = tx.MarkSent(Message{}, 1, "", nil, "due")
		require.NoError(t, err)
		_, err = tx.Offset("test")
		require.NoError(t, err)
		_, _, err = tx.LineByID(d.crew.ID, 1)
		require.NoError(t, err)
		return nil
	})
	seen := 0
	for _, query := range slices.Collect(maps.Keys(db.w.stmts)) {
		if !slices.Contains([]string{"SELECT", "INSERT", "UPDATE", "DELETE", "WITH"}, strings.Fields(query)[0]) {
			continue
		}
		assert.NotRegexp(t, `(crew_id|subject_\w+) = \?`, query, "it is compiled anew for every crew: see doc.go")
		rows, err := db.w.conn.QueryContext(ctx, `EXPLAIN QUERY PLAN `+query, make([]any, strings.Count(query, "?"))...)
		require.NoError(t, err, query)
		for rows.Next() {
			var id, parent, unused int
			var detail string
			require.NoError(t, rows.Scan(&id, &parent, &unused, &detail))
			for _, table := range []string{"outbox", "tasks", "entries", "updates", "batches"} {
				// The next due message is the head of an index, which SQLite calls a scan.
				if head := strings.Contains(detail, "USING INDEX outbox_due") || strings.Contains(detail, "USING COVERING INDEX outbox_due"); head {
					continue
				}
				assert.False(t, strings.HasPrefix(detail, "SCAN "+table) && !strings.Contains(query, "ORDER BY id DESC LIMIT 1"), "%s\n%s", query, detail)
			}
			assert.NotContains(t, detail, "USE TEMP B-TREE", query)
			seen++
		}
		require.NoError(t, rows.Close())
	}
	assert.Greater(t, seen, 20)
}

// A tick over many open tasks reads and writes as much as one over few: what is due, however
// the others are spread.
func TestTickCostsWhatIsDue(t *testing.T) {
	cost := func(s spread, open int) Work {
		db := fresh(t)
		fill(t, db, s, open, 50, start)
		before := db.Work()
		var claimed []Message
		require.NoError(t, db.Update(ctx, start, func(tx *Tx) (err error) {
			require.NoError(t, tx.Release(nil))
			claimed, err = claimDue(tx, 200)
			return err
		}))
		require.Len(t, claimed, 50)
		return db.Work().Less(before)
	}
	for _, s := range spreads {
		assert.Equal(t, cost(s, 1_000), cost(s, 20_000), s.name)
	}
}

// spread is how open tasks lie over crews, of which there are mostCrews, and over the time
// to come: the crew of task i, and the minutes until its ping.
type spread struct{ name, crew, minutes string }

const mostCrews = 10_000

var spreads = []spread{
	{"one-crew", `1`, `1 + i % 10000`},
	{"even", `1 + i % 10000`, `1 + i * 7919 % 10000`},
	{"one-hour", `1 + i % 10000`, `1 + i * 7919 % 60`},
	// The k-th crew has 1/k of what the first has, and as many pings come in the first ten
	// minutes as in the next ninety.
	{"power-law", `CAST(pow(10000.0, mod(i * 0.6180339887, 1.0)) AS INTEGER)`, `CAST(pow(10000.0, mod(i * 0.4142135623, 1.0)) AS INTEGER)`},
}

// fill puts so many open tasks with a queued ping each into the file past the planner,
// so many of them due at now. Those were planned at about the same time, as what is due
// in one evening is, so that their rows lie as far apart in a large file as in a small.
func fill(tb testing.TB, db *DB, s spread, open, due int, now time.Time) {
	tb.Helper()
	set := func(pragma string) {
		_, err := db.w.conn.ExecContext(ctx, `PRAGMA `+pragma)
		require.NoError(tb, err)
	}
	set(`cache_size = -1000000`) // rows of the power law go into the indexes at random
	set(`synchronous = OFF`)
	defer set(`cache_size = -16000`)
	defer set(`synchronous = FULL`)
	tx, err := db.w.conn.BeginTx(ctx, nil)
	require.NoError(tb, err)
	for _, q := range []string{
		`WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < ?4)
		INSERT INTO crews (id, source, chat_id, created_at) SELECT i, 'spread', i, ?2 FROM n WHERE ?1 <> ?3`,
		`WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < ?1)
		INSERT INTO tasks (crew_id, key, subject_kind, subject_key, step, occ, earliest, best, latest, ideal, weight, guard, state, claimed_by,
			snoozed, reason, anchor, batch, breeder, count, from_place, into_place, mark, unfit, stake, source)
		SELECT ` + s.crew + `, 'batch ' || i || '/move', 'batch', i, 'move', '', ?2, ?2, ?2 + 86400000, ?2, 3, 0, 'open', '', 0, 'grafted', ?2 - 864000000, i, 7, 34, 'B1', 'North', '', 0, 'stake', 'source' FROM n WHERE ?3 <> ?4`,
		`WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < ?1),
			at (i, crew, ms) AS (SELECT i, ` + s.crew + `, CASE WHEN i <= 10 * ?3 AND i % 10 = 0 THEN ?2 ELSE ?2 + 60000 * (` + s.minutes + `) END FROM n WHERE ?4 > 0)
		INSERT INTO outbox (crew_id, key, kind, ping, task_key, step, subject, day, fire_at, due_at, priority, state)
		SELECT crew, 'batch ' || i || '/move/eve', 'ping', 'eve', 'batch ' || i || '/move', 'move', 'batch ' || i, '2031-04-24', ms, ms, 1, 'queued' FROM at`,
	} {
		_, err := tx.Exec(q, open, toMS(now), due, mostCrews)
		require.NoError(tb, err)
	}
	require.NoError(tb, tx.Commit())
}

// claimAll claims all that is due as a tick does and gives how many there were.
func claimAll(tb testing.TB, db *DB, now time.Time) (n int) {
	tb.Helper()
	for {
		var list []Message
		require.NoError(tb, db.Update(ctx, now, func(tx *Tx) (err error) {
			if err := tx.Release(nil); err != nil {
				return err
			}
			list, err = claimDue(tx, 200)
			return err
		}))
		n += len(list)
		if len(list) < 200 {
			return n
		}
	}
}

// BenchmarkTick claims 1,000 due pings among so many open tasks, in each spread. Beside it
// runs the bare query, on an index of the due time alone, that finds as many rows.
func BenchmarkTick(b *testing.B) {
	for _, s := range spreads {
		b.Run(s.name, func(b *testing.B) { benchmarkTick(b, s) })
	}
}

func benchmarkTick(b *testing.B, s spread) {
	const due = 1000
	best := map[string]time.Duration{}
	note := func(what string, began time.Time) {
		if d := time.Since(began); best[what] == 0 || d < best[what] {
			best[what] = d
		}
	}
	files := map[string]*DB{}
	for _, open := range []int{10_000, 1_000_000} {
		db := fresh(b)
		fill(b, db, s, open, due, start)
		for _, q := range []string{`CREATE TABLE bare (id INTEGER PRIMARY KEY, at INTEGER NOT NULL, text TEXT NOT NULL)`,
			`INSERT INTO bare SELECT id, due_at, key FROM outbox`, `CREATE INDEX bare_at ON bare (at)`, `PRAGMA wal_checkpoint(TRUNCATE)`} {
			_, err := db.w.conn.ExecContext(ctx, q)
			require.NoError(b, err)
		}
		files[fmt.Sprint(open)] = db
	}
	b.ResetTimer()
	for range b.N {
		for open, db := range files {
			began := time.Now()
			require.Equal(b, due, claimAll(b, db, start))
			note(open, began)
			require.NoError(b, db.Update(ctx, start, func(tx *Tx) error { return tx.ReleaseAll() }))
			began = time.Now()
			var n int
			rows, err := db.w.conn.QueryContext(ctx, `SELECT id, at, text FROM bare WHERE at <= ? ORDER BY at, id LIMIT 1000`, toMS(start))
			require.NoError(b, err)
			for ; rows.Next(); n++ {
				var id, at int64
				var text string
				require.NoError(b, rows.Scan(&id, &at, &text))
			}
			require.NoError(b, rows.Close())
			require.Equal(b, due, n)
			note("bare "+open, began)
		}
	}
	few, many := best["10000"].Seconds(), best["1000000"].Seconds()
	b.ReportMetric(1000*few, "ms/10k-open")
	b.ReportMetric(1000*many, "ms/1M-open")
	b.ReportMetric(many/few, "1M/10k")
	b.ReportMetric(many/best["bare 1000000"].Seconds(), "claim/bare-query")
	b.ReportMetric(0, "ns/op")
}
