package store

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"yardbell/rules"
)

func (d *diary) rebuild() {
	d.do(func(tx *Tx) error { _, err := tx.Rebuild(); return err })
}

// walk draws a logbook that no conversation would allow: in any order, at any
// time, with voids of voids and amends of what was taken back.
type walk struct {
	*diary
	rt   *rapid.T
	past []rules.Entry
}

func (w *walk) pick(name string, n int) int { return rapid.IntRange(0, n-1).Draw(w.rt, name) }

func (w *walk) count() *int {
	if w.pick("counted", 4) == 0 {
		return nil
	}
	n := w.pick("count", 60)
	return &n
}

func (w *walk) entry() rules.Entry {
	happened := w.now.Add(-time.Duration(w.pick("ago", 96)) * time.Hour)
	e := rules.Entry{Action: rules.Did, Happened: happened}
	breeder, builder := 7+w.pick("breeder", 2), fmt.Sprintf("B%d", 1+w.pick("builder", 2))
	yard, batch := []string{"North", "South"}[w.pick("yard", 2)], rules.BatchSubject(1+w.pick("batch", 3))
	comb := func() (id int64) {
		for _, p := range w.past {
			if p.Action == rules.Did && p.Step == rules.Confine && p.Subject == rules.BreederSubject(breeder) {
				id = p.ID
			}
		}
		return id
	}
	bees := true
	switch w.pick("form", 19) {
	case 0:
		e.Step, e.Subject = rules.Add, rules.BreederSubject(breeder)
	case 1:
		e.Step, e.Subject, e.Into = rules.Add, rules.BuilderSubject(builder), yard
	case 2:
		e.Step, e.Subject, e.Count = rules.Add, rules.YardSubject(yard), w.count()
	case 3, 4:
		e.Step, e.Subject, e.Mark = rules.Confine, rules.BreederSubject(breeder), []string{"", "red"}[w.pick("mark", 2)]
		e.Detail.BeesIn = &bees
	case 5:
		e.Step, e.Subject = rules.Eggs, rules.BreederSubject(breeder)
		e.Detail = rules.Detail{Comb: comb(), NoEggs: w.pick("none", 2) == 0}
	case 6:
		e.Step, e.Subject = rules.CombOut, rules.BreederSubject(breeder)
		e.Detail = rules.Detail{Comb: comb(), Release: w.pick("release", 2) == 0, NoEggs: w.pick("empty", 4) == 0}
	case 7, 8:
		e.Step, e.Subject, e.From, e.Into, e.Count = rules.Graft, batch, breeder, []string{"", builder}[w.pick("into", 2)], w.count()
	case 9, 10:
		e.Step = []rules.Step{rules.Accept, rules.Capped, rules.Emerge, rules.Laying, rules.Catch, rules.Recell}[w.pick("step", 6)]
		e.Subject, e.Count, e.Detail.All = batch, w.count(), w.pick("all", 5) == 0
	case 11:
		e.Step, e.Subject, e.Into = rules.Finish, batch, builder
	case 12:
		e.Step, e.Subject, e.Into, e.Count = []rules.Step{rules.Nucs, rules.Move}[w.pick("place", 2)], batch, yard, w.count()
	case 13:
		zero := 0
		e.Step, e.Subject, e.Count = rules.Rogue, rules.BuilderSubject(builder), &zero
	case 14:
		e.Step = []rules.Step{rules.Dearth, rules.Flow, rules.Feed}[w.pick("food", 3)]
		e.Subject = []rules.Subject{rules.YardSubject(yard), rules.BuilderSubject(builder)}[w.pick("where", 2)]
		if e.Step != rules.Feed {
			e.Subject = []rules.Subject{{}, rules.YardSubject(yard)}[w.pick("all yards", 2)]
		}
	case 16:
		e.Step, e.Subject, e.Count = rules.Ordered, rules.OrderSubject(1+w.pick("order", 2)), w.count()
		if w.pick("called off", 4) == 0 {
			e.Action = rules.Skip
			break
		}
		p := &rules.Booking{Unit: rules.Queens, By: w.now.Add(60 * 24 * time.Hour).UnixMilli(), Confidence: 0.9, BeesIn: true, Cells: 40}
		for i := range 1 + w.pick("rounds", 3) {
			at := happened.Add(time.Duration(w.pick("ahead", 30*24)+i*168) * time.Hour)
			p.Rounds = append(p.Rounds, rules.BookedRound{Confine: at.UnixMilli(), Breeders: []int{breeder}[:min(1, w.pick("named", 4))],
				Batches: []rules.BookedBatch{{Builder: builder, Grafts: 30, Nucs: []rules.NucsIn{{Yard: yard, N: 20}}}}})
		}
		e.Detail.Plan = p
	case 17:
		e.Step, e.Subject = rules.Drones, []rules.Subject{{}, rules.YardSubject(yard)}[w.pick("all yards", 2)]
	case 18:
		switch w.pick("harm", 3) {
		case 0:
			e.Step, e.Subject, e.Count = rules.Virgin, []rules.Subject{batch, rules.BuilderSubject(builder)}[w.pick("seen in", 2)], w.count()
		case 1:
			e.Step, e.Subject, e.Detail.Cause = rules.Retire, rules.BreederSubject(breeder), rules.CauseDied
		case 2:
			zero := 0
			e.Step, e.Subject, e.Count, e.Detail.NoneYet = rules.Emerge, batch, &zero, true
		}
	case 15:
		kv := [][2]string{{"evening", "18:00"}, {"evening", "20:00"}, {"morning", "07:15"}, {"days off", "Sunday"}, {"move", "9d18h"}, {"incubator", "33.5"}, {"wake", "on"}, {"quiet", "22:00-05:00"}, {"incubator", "36"}}[w.pick("setting", 9)]
		e.Action, e.Detail = rules.Set, rules.Detail{Key: kv[0], Value: kv[1]}
	}
	return e
}

// about draws an entry that refers to an earlier one or to a task.
func (w *walk) about() (rules.Entry, bool) {
	if w.pick("kind", 3) == 0 {
		var open []rules.Task
		require.NoError(w.t, w.db.View(ctx, w.now, func(tx *Tx) (err error) {
			open, err = tx.OpenTasks(w.crew.ID)
			return err
		}))
		if len(open) == 0 {
			return rules.Entry{}, false
		}
		k := open[w.pick("task", len(open))]
		e := rules.Entry{Action: []rules.Action{rules.Mine, rules.Later, rules.Skip}[w.pick("claim", 3)], Step: k.Step, Subject: k.Subject, Mark: k.Mark, Detail: rules.Detail{Occ: k.Occ}}
		if e.Action == rules.Later {
			e.Detail.Until = w.now.Add(time.Duration(1+w.pick("hours", 48)) * time.Hour).UnixMilli()
		}
		return e, true
	}
	if len(w.past) == 0 {
		return rules.Entry{}, false
	}
	e := w.past[w.pick("earlier", len(w.past))]
	id := e.ID
	if w.pick("how", 2) == 0 || e.Action == rules.Void || e.Action == rules.Amend {
		e.Action = rules.Void
	} else {
		e.Action, e.Count = rules.Amend, w.count()
		if e.From != 0 {
			e.From = 7 + w.pick("other breeder", 2)
		}
		if e.Into != "" && (e.Step == rules.Graft || e.Step == rules.Finish) {
			e.Into = fmt.Sprintf("B%d", 1+w.pick("other builder", 2))
		}
		e.Happened = e.Happened.Add(time.Duration(w.pick("shift", 13)-6) * time.Hour)
	}
	e.Ref = id
	return e, true
}

// Whatever is in the logbook, and however it came there: deriving everything anew
// comes to what was derived line by line.
func TestRebuildIsTheSame(t *testing.T) {
	source := filepath.Join(t.TempDir(), "empty.db")
	db, err := Open(ctx, source, Options{})
	require.NoError(t, err)
	require.NoError(t, db.Close())
	empty, err := os.ReadFile(source)
	require.NoError(t, err)
	dir := t.TempDir()
	n := 0
	rapid.Check(t, func(rt *rapid.T) {
		n++
		path := filepath.Join(dir, fmt.Sprintf("%d.db", n))
		require.NoError(rt, os.WriteFile(path, empty, 0o600))
		db, err := Open(ctx, path, Options{})
		require.NoError(rt, err)
		defer func() { require.NoError(rt, db.Close()) }()
		w := &walk{diary: newDiary(rt, db), rt: rt}
		for range rapid.IntRange(1, 25).Draw(rt, "lines") {
			w.now = w.now.Add(time.Duration(w.pick("pass", 30)) * time.Hour)
			e := w.entry()
			if w.pick("refer", 4) == 0 {
				var ok bool
				if e, ok = w.about(); !ok {
					continue
				}
			}
			e.ID = w.log(e)
			w.past = append(w.past, e)
			if w.pick("check", 8) == 0 {
				before := w.dump()
				w.rebuild()
				require.Equal(rt, before, w.dump(), "derived rows")
			}
		}
		before := w.dump()
		w.rebuild()
		require.Equal(rt, before, w.dump(), "derived rows")
		w.rebuild()
		require.Equal(rt, before, w.dump(), "a second time")
		require.NoError(rt, db.Check(ctx))
	})
}

// Rows that something spoiled come back, and messages that went out stay.
func TestRebuildMendsDerivedRows(t *testing.T) {
	d := newDiary(t, fresh(t))
	d.graft(7, 45, "B2", 1)
	d.now = d.message("batch 1/move/eve/2031-05-02").Fire
	for i, m := range d.claim() {
		require.True(t, d.sent(m, int64(i+1)))
	}
	d.do(func(tx *Tx) error { return tx.EnsureDigest(d.crew.ID) })
	before, sent := d.dump(), len(d.pings(rules.Move, "sent"))
	require.Positive(t, sent)
	d.do(func(tx *Tx) error {
		for _, q := range []string{`DELETE FROM tasks`, `UPDATE outbox SET state = 'cancelled' WHERE state = 'queued' AND step = 'move'`} {
			if _, err := tx.exec(q); err != nil {
				return err
			}
		}
		return nil
	})
	assert.NotEqual(t, before, d.dump())
	d.rebuild()
	assert.Equal(t, before, d.dump())
	assert.Len(t, d.pings(rules.Move, "sent"), sent)
}

// Who claimed a task is called by the name that the chat gives them now.
func TestClaimFollowsTheName(t *testing.T) {
	d := newDiary(t, fresh(t))
	d.graft(7, 45, "B2", 1)
	d.log(rules.Entry{Action: rules.Mine, Step: rules.Move, Subject: rules.BatchSubject(1)})
	d.log(rules.Entry{Action: rules.Mine, Step: rules.Rogue, Subject: rules.BuilderSubject("B2"), Detail: rules.Detail{Occ: "1"}})
	pings := d.pings(rules.Move, "queued")
	d.do(func(tx *Tx) error {
		_, err := tx.Member(d.crew, "wren", "Wren K.")
		return err
	})
	var claimed []string
	d.do(func(tx *Tx) error {
		open, err := tx.OpenTasks(d.crew.ID)
		for _, k := range open {
			if k.ClaimedBy != "" {
				claimed = append(claimed, k.Key+" "+k.ClaimedBy)
			}
		}
		return err
	})
	assert.ElementsMatch(t, []string{"batch 1/move Wren K.", "builder B2/rogue/1 Wren K."}, claimed)
	assert.Equal(t, pings, d.pings(rules.Move, "queued"))
	require.NoError(t, d.db.CheckModels(ctx, d.now))
	before := d.dump()
	d.rebuild()
	assert.Equal(t, before, d.dump())
}
