package rules

import (
	"reflect"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func counts(entries []Entry) (out []int) {
	for _, e := range entries {
		n := -1
		if e.Count != nil {
			n = *e.Count
		}
		out = append(out, n)
	}
	return out
}

func TestVoidsAndAmends(t *testing.T) {
	s := BatchSubject(1)
	var b book
	graft := b.add(Graft, s, grafted, count(45), from(7))
	accept := b.add(Accept, s, h(24), count(38))
	assert.Equal(t, []int{45, 38}, counts(Effective(b.entries)))

	amend := b.add(Graft, s, h(1), action(Amend), about(graft), count(54), from(7), into("B2"))
	got := Effective(b.entries)
	assert.Equal(t, []int{54, 38}, counts(got))
	assert.Equal(t, graft, got[0].ID, "an amended entry keeps its ID")
	assert.Equal(t, h(1), got[0].Happened)
	assert.Equal(t, "B2", got[0].Into)

	second := b.add(Graft, s, grafted, action(Amend), about(graft), count(50), from(7))
	assert.Equal(t, []int{50, 38}, counts(Effective(b.entries)), "the newest counts")
	void := b.add("", Subject{}, h(25), action(Void), about(second))
	assert.Equal(t, []int{54, 38}, counts(Effective(b.entries)), "back to the amend before")
	b.add("", Subject{}, h(25), action(Void), about(amend))
	assert.Equal(t, []int{45, 38}, counts(Effective(b.entries)))
	again := b.add("", Subject{}, h(25), action(Void), about(void))
	assert.Equal(t, []int{50, 38}, counts(Effective(b.entries)), "the void taken back")
	b.add("", Subject{}, h(25), action(Void), about(again))
	assert.Equal(t, []int{45, 38}, counts(Effective(b.entries)))

	b.add("", Subject{}, h(26), action(Void), about(accept))
	assert.Equal(t, []int{45}, counts(Effective(b.entries)))
	b.add("", Subject{}, h(26), action(Void), about(graft))
	assert.Empty(t, Effective(b.entries))
	_, exists := BatchOf(1, Effective(b.entries), nil, crew())
	assert.False(t, exists, "a batch whose graft was taken back is no batch")
}

// Settings count in the order in which they were logged, which the times may not follow.
func TestAsLogged(t *testing.T) {
	var b book
	first := b.add("", Subject{}, h(30), action(Set), count(1))
	b.add("", Subject{}, h(20), action(Set), count(2))
	last := b.add("", Subject{}, h(10), action(Set), count(3))
	assert.Equal(t, []int{1, 2, 3}, counts(AsLogged(b.entries)))
	assert.Equal(t, []int{3, 2, 1}, counts(Effective(b.entries)))
	b.add("", Subject{}, h(40), action(Void), about(last))
	b.add("", Subject{}, h(5), action(Amend), about(first), count(4))
	assert.Equal(t, []int{4, 2}, counts(AsLogged(b.entries)))
	assert.Empty(t, AsLogged(nil))
}

// identity are the fields of an entry that an amendment does not touch.
var identity = []string{"ID", "Said", "By", "Action", "Step", "Subject", "Ref"}

// Whatever an entry carries can be amended: each field of the type, and of its detail, is
// changed in turn, so that one that comes later is looked at too.
func TestEveryFieldIsAmended(t *testing.T) {
	try := func(name string, change func(*Entry)) {
		base := Entry{ID: 1, Action: Did, Step: Feed, Subject: YardSubject("North"), Happened: grafted, Said: grafted, By: "Wren"}
		a := base
		a.ID, a.Action, a.Ref = 2, Amend, 1
		assert.True(t, base.SameValues(a), name)
		change(&a)
		assert.False(t, base.SameValues(a), name)
		got := Effective([]Entry{base, a})
		if assert.Len(t, got, 1, name) {
			want := base
			change(&want)
			assert.Equal(t, want, got[0], name)
		}
		back := base
		back.ID, back.Action, back.Ref = 3, Amend, 1
		assert.Equal(t, []Entry{base}, Effective([]Entry{base, a, back}), name+" put back")
	}
	n := 0
	for _, f := range reflect.VisibleFields(reflect.TypeFor[Entry]()) {
		if !slices.Contains(identity, f.Name) && f.Name != "Detail" {
			try(f.Name, func(e *Entry) { other(t, reflect.ValueOf(e).Elem().FieldByIndex(f.Index)) })
			n++
		}
	}
	for _, f := range reflect.VisibleFields(reflect.TypeFor[Detail]()) {
		try(f.Name, func(e *Entry) { other(t, reflect.ValueOf(&e.Detail).Elem().FieldByIndex(f.Index)) })
		n++
	}
	assert.Greater(t, n, 20)
}

// other sets a field to what it is not.
func other(t *testing.T, v reflect.Value) {
	switch x := v.Addr().Interface().(type) {
	case *time.Time:
		*x = x.Add(time.Hour)
		return
	case **Booking:
		*x = &Booking{Cells: 7}
		return
	}
	if v.Kind() == reflect.Pointer {
		v.Set(reflect.New(v.Type().Elem()))
		v = v.Elem()
	}
	switch v.Kind() {
	case reflect.Int, reflect.Int64:
		v.SetInt(v.Int() + 3)
	case reflect.Float64:
		v.SetFloat(v.Float() + 2.5)
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.String:
		v.SetString(v.String() + "x")
	default:
		t.Fatalf("no other value for a %s", v.Type())
	}
}

func TestEffectiveOrder(t *testing.T) {
	s := BatchSubject(1)
	var b book
	b.add(Capped, s, h(120), count(36))
	b.add(Graft, s, grafted, count(45))
	b.add(Accept, s, h(24), count(38))
	b.add(Accept, s, h(24), count(39))
	assert.Equal(t, []int{45, 38, 39, 36}, counts(Effective(b.entries)), "by when it happened, then as logged")
}

// anyBook draws a logbook with voids and amends of earlier entries.
func anyBook(t *rapid.T) *book {
	var b book
	s := BatchSubject(1)
	b.add(Graft, s, grafted, count(45))
	for range rapid.IntRange(0, 14).Draw(t, "entries") {
		at := h(float64(rapid.IntRange(0, 1100).Draw(t, "h")))
		ref := int64(rapid.IntRange(1, len(b.entries)).Draw(t, "ref"))
		n := rapid.IntRange(0, 45).Draw(t, "count")
		switch rapid.IntRange(0, 6).Draw(t, "what") {
		case 0:
			b.add("", Subject{}, at, action(Void), about(ref))
		case 1:
			e := b.entries[ref-1]
			if e.Action == Did {
				b.add(e.Step, e.Subject, at, action(Amend), about(ref), count(n))
			}
		case 2:
			b.add(rapid.SampledFrom(Steps).Draw(t, "step"), s, at, action(rapid.SampledFrom([]Action{Mine, Later, Skip}).Draw(t, "action")),
				detail(Detail{Until: at.Add(2 * time.Hour).UnixMilli()}))
		default:
			b.add(rapid.SampledFrom(Steps).Draw(t, "step"), s, at, count(n), detail(Detail{All: rapid.IntRange(0, 5).Draw(t, "all") == 0}))
		}
	}
	return &b
}

func TestEffectiveHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := anyBook(t)
		before := Effective(b.entries)
		for i, e := range before {
			if e.Action == Void || e.Action == Amend {
				t.Fatalf("a %s counts as an entry", e.Action)
			}
			if i > 0 && e.Happened.Before(before[i-1].Happened) {
				t.Fatalf("out of order")
			}
		}
		// An amend taken back is as if it had never been written.
		for _, e := range b.entries {
			if e.Action != Did {
				continue
			}
			amended := book{append([]Entry(nil), b.entries...)}
			id := amended.add(e.Step, e.Subject, e.Happened.Add(time.Hour), action(Amend), about(e.ID), count(7))
			amended.add("", Subject{}, h(0), action(Void), about(id))
			assert.Equal(t, before, Effective(amended.entries))
		}
		// A void taken back restores what it voided.
		id := int64(rapid.IntRange(1, len(b.entries)).Draw(t, "void"))
		voided := book{append([]Entry(nil), b.entries...)}
		v := voided.add("", Subject{}, h(0), action(Void), about(id))
		voided.add("", Subject{}, h(0), action(Void), about(v))
		assert.Equal(t, before, Effective(voided.entries))
	})
}
