package store

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

func (d *diary) claim() (list []Message) {
	d.do(func(tx *Tx) (err error) {
		require.NoError(d.t, tx.Release(nil))
		list, err = claimDue(tx, 100)
		return err
	})
	return list
}

func (d *diary) queue(key string) {
	d.do(func(tx *Tx) error { return tx.Queue(Message{Crew: d.crew.ID, Key: key, Kind: "reply", Text: key}) })
}

func (d *diary) sent(m Message, number int64) (ok bool) {
	d.do(func(tx *Tx) (err error) {
		ok, err = tx.MarkSent(m, number, "text", nil, "due")
		return err
	})
	return ok
}

// A claim belongs to one taker until its lease runs out; then it is due exactly
// once more, and what the first taker still says of it changes nothing.
func TestClaimLeaseAndGuard(t *testing.T) {
	d := newDiary(t, fresh(t))
	d.queue("answer/1")
	first := d.claim()
	require.Len(t, first, 1)
	assert.Equal(t, 1, first[0].Attempt)
	assert.Empty(t, d.claim(), "claimed already")

	d.now = d.now.Add(Lease)
	assert.Empty(t, d.claim(), "the lease holds to its last instant")
	d.now = d.now.Add(time.Millisecond)
	second := d.claim()
	require.Len(t, second, 1)
	assert.Equal(t, 2, second[0].Attempt)

	assert.False(t, d.sent(first[0], 1), "a stale finish")
	d.do(func(tx *Tx) error {
		require.NoError(t, tx.Reschedule(first[0], d.now.Add(time.Hour), false, "stale"))
		return tx.Finish(first[0], "failed", "stale")
	})
	m := d.message("answer/1")
	assert.Equal(t, "claimed", m.State)
	assert.Equal(t, 2, m.Attempt)
	assert.NotEqual(t, "stale", m.Reason)

	assert.True(t, d.sent(second[0], 1))
	assert.False(t, d.sent(second[0], 2), "recorded twice")
	d.now = d.now.Add(24 * time.Hour)
	for _, m := range d.claim() {
		assert.NotEqual(t, "answer/1", m.Key)
	}
	assert.EqualValues(t, 1, d.message("answer/1").Message)
}

func TestHoldGivesTheAttemptBack(t *testing.T) {
	d := newDiary(t, fresh(t))
	d.queue("answer/1")
	for _, c := range []struct {
		back    bool
		attempt int
	}{{true, 0}, {false, 1}, {true, 1}, {false, 2}} {
		m := d.claim()[0]
		d.do(func(tx *Tx) error { return tx.Reschedule(m, d.now, c.back, "") })
		assert.Equal(t, c.attempt, d.message("answer/1").Attempt)
	}
}

// A claim of a clock that was ahead does not hold until that hour comes again.
func TestLeaseOfAClockPutBack(t *testing.T) {
	d := newDiary(t, fresh(t))
	d.queue("answer/1")
	d.now = d.now.Add(3 * time.Hour)
	require.Len(t, d.claim(), 1)
	assert.Empty(t, d.claim(), "claimed already")
	d.now = d.now.Add(-2 * time.Hour)
	assert.Len(t, d.claim(), 1)
}

// A crash leaves claims; at the start, when nobody else can hold one, they are
// due at once.
func TestReleaseAll(t *testing.T) {
	d := newDiary(t, fresh(t))
	d.queue("answer/1")
	require.Len(t, d.claim(), 1)
	d.do(func(tx *Tx) error { return tx.ReleaseAll() })
	assert.Len(t, d.claim(), 1)
}

func TestAnswerIsQueuedOnce(t *testing.T) {
	d := newDiary(t, fresh(t))
	d.queue("answer/1")
	d.queue("answer/1")
	require.Len(t, d.claim(), 1)
	d.queue("answer/1")
	assert.Empty(t, d.claim())
}

func (d *diary) pings(step rules.Step, state string) (keys []string) {
	for _, m := range d.outbox() {
		if m.Step == step && m.State == state {
			keys = append(keys, m.Key)
		}
	}
	return keys
}

// The pings of a task follow its plan: moved, called off, brought back; one that
// went out is never sent again, whatever becomes of the plan.
func TestPingsFollowThePlan(t *testing.T) {
	d := newDiary(t, fresh(t))
	graft := d.graft(7, 45, "B2", 1)
	queued := d.pings(rules.Move, "queued")
	require.Contains(t, queued, "batch 1/move/eve/2031-05-02")
	eve := d.message("batch 1/move/eve/2031-05-02")
	assert.Equal(t, CriticalPing, eve.Priority)

	// The crew moves its evening hour: same key, another time.
	d.set("evening", "18:00")
	assert.Equal(t, eve.Fire.Add(-time.Hour), d.message(eve.Key).Fire)
	assert.Equal(t, eve.ID, d.message(eve.Key).ID)

	// The graft is taken back, then the taking back.
	d.now = d.now.Add(time.Hour)
	void := d.log(rules.Entry{Action: rules.Void, Ref: graft, Step: rules.Graft, Subject: rules.BatchSubject(1), From: 7, Into: "B2"})
	assert.Empty(t, d.pings(rules.Move, "queued"))
	assert.Equal(t, "replanned", d.message(eve.Key).Reason)
	d.log(rules.Entry{Action: rules.Void, Ref: void, Step: rules.Graft, Subject: rules.BatchSubject(1), From: 7, Into: "B2"})
	assert.ElementsMatch(t, queued, d.pings(rules.Move, "queued"))

	// It goes out, and no replanning sends it again.
	d.now = d.message(eve.Key).Fire
	for _, m := range d.claim() {
		if m.Key == eve.Key {
			require.True(t, d.sent(m, 9))
		}
	}
	d.set("evening", "19:30")
	d.log(rules.Entry{Action: rules.Void, Ref: graft, Step: rules.Graft, Subject: rules.BatchSubject(1), From: 7, Into: "B2"})
	m := d.message(eve.Key)
	assert.Equal(t, "sent", m.State)
	assert.EqualValues(t, 9, m.Message)
	assert.Len(t, d.keysOf("move", "eve"), 1)
}

// A ping that the chat did not take, planned otherwise meanwhile, goes by the new plan:
// not beside the one of the new day, not at the old hour.
func TestPingsPutBackFollowThePlan(t *testing.T) {
	const eve = "batch 1/move/eve/2031-05-02"
	for _, c := range []struct {
		name  string
		meant func(d *diary, graft int64)
		state string
		moved time.Duration
	}{
		{"nothing changed", func(*diary, int64) {}, "queued", 0},
		{"another day", func(d *diary, graft int64) {
			n := 45
			d.log(rules.Entry{Action: rules.Amend, Ref: graft, Step: rules.Graft, Subject: rules.BatchSubject(1), Count: &n, From: 7, Into: "B2", Happened: start.Add(24 * time.Hour)})
		}, "cancelled", 0},
		{"another hour", func(d *diary, _ int64) { d.set("evening", "20:00") }, "queued", time.Hour},
		{"done", func(d *diary, _ int64) {
			n := 45
			d.log(rules.Entry{Step: rules.Move, Subject: rules.BatchSubject(1), Count: &n, Into: "North"})
		}, "queued", 0}, // to be dropped as done
	} {
		t.Run(c.name, func(t *testing.T) {
			d := newDiary(t, fresh(t))
			graft := d.graft(7, 45, "B2", 1)
			was := d.message(eve)
			d.now = was.Fire
			taken := d.claim()
			c.meant(d, graft)
			for _, m := range taken {
				d.do(func(tx *Tx) error { return tx.Reschedule(m, d.now.Add(time.Minute), false, "not sent") })
			}
			m := d.message(eve)
			assert.Equal(t, c.state, m.State)
			assert.Equal(t, was.Fire.Add(c.moved), m.Fire)
		})
	}
}

func (d *diary) keysOf(step, kind string) (keys []string) {
	for _, m := range d.outbox() {
		if string(m.Step) == step && strings.Contains(m.Key, "/"+kind+"/") {
			keys = append(keys, m.Key)
		}
	}
	return keys
}

// A ping whose time is over when it is planned is not begun; one that is queued
// stays, and one that a new hour would put into the past keeps its own.
func TestPingsOfThePast(t *testing.T) {
	d := newDiary(t, fresh(t))
	cells := 45
	d.now = d.now.Add(7 * 24 * time.Hour)
	d.log(rules.Entry{Step: rules.Graft, Subject: rules.BatchSubject(1), Count: &cells, From: 7, Happened: start})
	assert.Empty(t, d.keysOf("accept", "eve"))
	assert.NotEmpty(t, d.keysOf("move", "eve"))

	eve := d.message(d.keysOf("move", "eve")[0])
	d.now = eve.Fire.Add(-time.Hour)
	d.set("evening", "07:00")
	assert.Equal(t, eve.Fire, d.message(eve.Key).Fire)
	assert.Equal(t, "queued", d.message(eve.Key).State)
}

// One digest is queued at a time: the next morning to come that has had none.
func TestDigestChain(t *testing.T) {
	d := newDiary(t, fresh(t)) // 08:00, so today's hour is over
	queued := func() (days []string) {
		for _, m := range d.outbox() {
			if m.Kind == "digest" && m.State == "queued" {
				days = append(days, m.Day+" "+m.Fire.In(time.FixedZone("", -5*3600)).Format("15:04"))
			}
		}
		return days
	}
	ensure := func() { d.do(func(tx *Tx) error { return tx.EnsureDigest(d.crew.ID) }) }
	assert.Equal(t, []string{"2031-04-25 06:30"}, queued())
	ensure()
	assert.Equal(t, []string{"2031-04-25 06:30"}, queued())

	d.set("morning", "09:00")
	assert.Equal(t, []string{"2031-04-24 09:00"}, queued(), "today's hour is still to come again")
	d.set("morning", "06:30")
	assert.Equal(t, []string{"2031-04-25 06:30"}, queued())

	// It goes out; the hour is moved to later that day: no second one.
	d.now = time.Date(2031, 4, 25, 11, 30, 0, 0, time.UTC)
	m := d.claim()
	require.Len(t, m, 1)
	require.True(t, d.sent(m[0], 1))
	ensure()
	assert.Equal(t, []string{"2031-04-26 06:30"}, queued())
	d.set("morning", "09:00")
	assert.Equal(t, []string{"2031-04-26 09:00"}, queued())
	d.set("morning", "06:30")

	// Away for three days, the missed one goes on the fourth; that day has had it.
	d.now = time.Date(2031, 4, 29, 14, 0, 0, 0, time.UTC)
	assert.Equal(t, []string{"2031-04-26 06:30"}, queued())
	m = d.claim()
	require.Len(t, m, 1)
	require.True(t, d.sent(m[0], 2))
	d.set("morning", "12:00")
	assert.Equal(t, []string{"2031-04-30 12:00"}, queued())
	require.NoError(t, d.db.View(ctx, d.now, func(tx *Tx) error {
		s, err := tx.Settings(d.crew.ID)
		require.NoError(t, err)
		for day, want := range map[rules.Date]bool{{Year: 2031, Month: 4, Day: 29}: true, {Year: 2031, Month: 4, Day: 28}: false} {
			got, err := tx.DigestSent(d.crew.ID, day, s.Zone)
			require.NoError(t, err)
			assert.Equal(t, want, got, day)
		}
		return nil
	}))
}

// Crews share the file and nothing else.
func TestCrewsStayApart(t *testing.T) {
	db := fresh(t)
	a := newDiary(t, db)
	b := &diary{t: t, db: db, now: start, update: 1000}
	b.do(func(tx *Tx) (err error) {
		b.crew, err = tx.NewCrew("test", 2, nil)
		return err
	})
	a.graft(7, 45, "B2", 1)
	before := a.dump()
	b.graft(7, 12, "B2", 1)
	b.set("zone", "Pacific/Auckland")
	require.NoError(t, db.View(ctx, start, func(tx *Tx) error {
		for crew, want := range map[int64]int{a.crew.ID: 45, b.crew.ID: 12} {
			got, found, err := tx.Batch(crew, 1)
			require.NoError(t, err)
			assert.True(t, found)
			assert.Equal(t, want, *got.Counts.Grafted)
		}
		return nil
	}))
	rows := func(dump, crew string) (n int) {
		for _, l := range strings.Split(dump, "\n") {
			if strings.HasPrefix(l, crew+"|") {
				n++
			}
		}
		return n
	}
	assert.Equal(t, rows(before, "1"), rows(a.dump(), "1"))
	assert.Positive(t, rows(a.dump(), "2"))
}

// The queries that run with every message and tick are led by an index.
func TestHotQueriesUseAnIndex(t *testing.T) {
	db := fresh(t)
	for _, q := range []string{
		`SELECT id FROM outbox WHERE state = 'queued' AND due_at <= 1 ORDER BY due_at, priority, id LIMIT 200`,
		`UPDATE outbox SET state = 'queued', reason = 'lease expired' WHERE state = 'claimed' AND lease_until < 1`,
		`SELECT coalesce(max(message_id), 0) FROM outbox WHERE crew_id = 1 AND message_id <> 0`,
		`SELECT id FROM outbox WHERE crew_id = 1 AND message_id = 4 AND message_id <> 0 ORDER BY message_id DESC LIMIT 1`,
		`SELECT o.id FROM ` + strings.NewReplacer("+ ?", "+ 1").Replace(aboutTasks("('batch 1/move')")),
		`SELECT key FROM tasks WHERE crew_id = 1 AND key > 'batch 1/' AND key < 'batch 10' AND subject_kind = 'batch' AND subject_key = '1'`,
		`SELECT sent_at FROM outbox WHERE crew_id = 1 AND ` + digestKeys + ` AND state = 'sent' ORDER BY key DESC LIMIT 1`,
		entryQuery + `e.crew_id = 1 AND e.step IN ('dearth', 'flow') ORDER BY e.id`,
		entryQuery + `e.crew_id = 1 AND e.subject_kind = '' ORDER BY e.id`,
		entryQuery + `e.crew_id = 1 AND e.message_id = -4 AND e.message_id <> 0 ORDER BY e.id`,
		entryQuery + `e.crew_id = 1 AND e.ref = 4 ORDER BY e.id`,
		`SELECT key FROM tasks WHERE crew_id = 1 AND state = 'open' ORDER BY best, key`,
	} {
		rows, err := db.r.QueryContext(ctx, "EXPLAIN QUERY PLAN "+q)
		require.NoError(t, err, q)
		var steps []string
		for rows.Next() {
			var a, b, c int
			var detail string
			require.NoError(t, rows.Scan(&a, &b, &c, &detail))
			steps = append(steps, detail)
		}
		require.NoError(t, rows.Close())
		plan := strings.TrimPrefix(strings.Join(steps, "; "), "CO-ROUTINE (subquery-1); SCAN CONSTANT ROW; SCAN (subquery-1); ") // a list that was given
		assert.NotContains(t, plan, "SCAN", q)
		assert.NotRegexp(t, `tasks USING PRIMARY KEY \(crew_id=\?\)$`, plan, q)
		assert.NotContains(t, plan, "sqlite_autoindex_entries", q)
		assert.NotContains(t, plan, "entries_subject (crew_id=?)", q)
		assert.NotRegexp(t, `outbox USING INDEX sqlite_autoindex_outbox_1 \(crew_id=\?\)$`, plan, q)
	}
}

// Crews name their tasks alike. What is planned for one, in a transaction that is about
// both, says nothing of what stands in the chat of the other.
func TestShownIsOfItsCrew(t *testing.T) {
	db := fresh(t)
	one := newDiary(t, db)
	two := &diary{t: t, db: db, now: start, update: 1000}
	two.do(func(tx *Tx) (err error) {
		two.crew, err = tx.NewCrew("test", 2, map[string]string{"zone": "America/Chicago"})
		return err
	})
	two.graft(7, 45, "B1", 1)
	finish := rules.Task{Key: rules.TaskKey(rules.BatchSubject(1), rules.Finish, "")} // its pings are due by then
	two.now = two.now.Add(4 * 24 * time.Hour)
	for n, m := range two.claim() {
		two.do(func(tx *Tx) error {
			_, err := tx.MarkSent(m, int64(1+n), "text", []Button{{Label: "Done", Do: "done"}}, "due")
			return err
		})
	}
	count := 30
	graft := rules.Entry{Said: start, Happened: start, Action: rules.Did, Step: rules.Graft, Subject: rules.BatchSubject(1), Count: &count, From: 9, Into: "B2"}
	two.do(func(tx *Tx) error {
		before, err := tx.Shown(two.crew.ID, finish)
		require.NoError(t, err)
		require.NotEmpty(t, before)
		twice, err := tx.Shown(two.crew.ID, finish, finish)
		require.NoError(t, err)
		assert.Equal(t, before, twice, "a task that closed again in one message")
		m, err := tx.Member(one.crew, "wren", "Wren")
		require.NoError(t, err)
		row, _, err := tx.MarkUpdate(Update{Source: "test", UpdateID: 1, Crew: one.crew.ID, Member: m.ID, Kind: "message", Message: 1, Said: start})
		require.NoError(t, err)
		_, err = tx.Append(one.crew.ID, row, m, 1, "as typed", graft)
		require.NoError(t, err)
		require.NoError(t, tx.Replan(one.crew.ID))
		tx.Closed = nil
		after, err := tx.Shown(two.crew.ID, finish)
		assert.Equal(t, before, after)
		return err
	})
}
