package rules

import (
	"testing"
	"time"
	_ "time/tzdata" // the zones under test must not depend on the machine

	"github.com/stretchr/testify/require"
)

func zone(t testing.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	require.NoError(t, err)
	return z
}

var chicago = func() *time.Location {
	z, err := time.LoadLocation("America/Chicago")
	if err != nil {
		panic(err)
	}
	return z
}()

// when reads a local time of the crew used in most tests.
func when(s string) time.Time {
	t, err := time.ParseInLocation("2006-01-02 15:04", s, chicago)
	if err != nil {
		panic(err)
	}
	return t.UTC()
}

// crew is a crew in Chicago that has set nothing else.
func crew() *Settings {
	s := DefaultSettings()
	s.Zone = chicago
	return s
}

// book is a logbook under test.
type book struct{ entries []Entry }

type with func(*Entry)

func count(n int) with         { return func(e *Entry) { e.Count = &n } }
func of(n int) with            { return func(e *Entry) { e.Of = &n } }
func from(n int) with          { return func(e *Entry) { e.From = n } }
func into(s string) with       { return func(e *Entry) { e.Into = s } }
func marked(s string) with     { return func(e *Entry) { e.Mark = s } }
func detail(d Detail) with     { return func(e *Entry) { e.Detail = d } }
func action(a Action) with     { return func(e *Entry) { e.Action = a } }
func about(id int64) with      { return func(e *Entry) { e.Ref = id } }
func by(name string) with      { return func(e *Entry) { e.By = name } }
func comb(id int64) with       { return func(e *Entry) { e.Detail.Comb = id } }
func larvae(a, b float64) with { return func(e *Entry) { e.Detail.AgeLo, e.Detail.AgeHi = &a, &b } }

// add appends an entry, "did" unless an option says otherwise, and gives its ID.
func (b *book) add(step Step, s Subject, at time.Time, opts ...with) int64 {
	e := Entry{ID: int64(len(b.entries) + 1), Said: at, Happened: at, By: "Wren", Action: Did, Step: step, Subject: s}
	for _, o := range opts {
		o(&e)
	}
	b.entries = append(b.entries, e)
	return e.ID
}

// batch plans batch 1 from the book.
func (b *book) batch(t testing.TB, s *Settings, combs ...Comb) (Batch, []Task) {
	t.Helper()
	entries := Effective(b.entries)
	out, ok := BatchOf(1, entries, combs, s)
	require.True(t, ok, "no graft in the book")
	return out, BatchTasks(out, entries, s)
}

// task finds the one task of a step; occ "" is the main one.
func task(t testing.TB, tasks []Task, step Step, occ string) Task {
	t.Helper()
	for _, k := range tasks {
		if k.Step == step && k.Occ == occ {
			return k
		}
	}
	require.Failf(t, "no such task", "%s/%s among %d tasks", step, occ, len(tasks))
	return Task{}
}

// hoursAfter compares an instant with a base in hours, which reads as the facts do.
func hoursAfter(base, t time.Time) float64 { return t.Sub(base).Hours() }
