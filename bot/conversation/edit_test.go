package conversation

import (
	"reflect"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// Which line it is, who logged it when, and what kind of thing it is about: none of it is
// changed by an amendment.
var identity = []string{"ID", "Said", "By", "Action", "Step", "Subject", "Ref"}

// eachValue goes over every value that a line carries, by the fields of the type, so that
// one that comes later is looked at too. set gives the field another value.
func eachValue(t *testing.T, do func(name string, set func(*rules.Entry))) {
	n := 0
	for _, f := range reflect.VisibleFields(reflect.TypeFor[rules.Entry]()) {
		if !slices.Contains(identity, f.Name) && f.Name != "Detail" {
			do(f.Name, func(e *rules.Entry) { fill(t, f.Name, reflect.ValueOf(e).Elem().FieldByIndex(f.Index)) })
			n++
		}
	}
	for _, f := range reflect.VisibleFields(reflect.TypeFor[rules.Detail]()) {
		do(f.Name, func(e *rules.Entry) { fill(t, f.Name, reflect.ValueOf(&e.Detail).Elem().FieldByIndex(f.Index)) })
		n++
	}
	require.Greater(t, n, 20)
}

// fill gives a field a value that it has not had.
func fill(t *testing.T, name string, v reflect.Value) {
	switch x := v.Addr().Interface().(type) {
	case *time.Time:
		*x = x.Add(25 * time.Hour)
		return
	case **rules.Booking:
		*x = &rules.Booking{Unit: rules.Queens, By: time.Date(2031, 6, 10, 12, 0, 0, 0, time.UTC).UnixMilli()}
		return
	}
	if v.Kind() == reflect.Pointer {
		v.Set(reflect.New(v.Type().Elem()))
		v = v.Elem()
	}
	switch {
	case name == "Key" || name == "key":
		v.SetString("zone")
	case v.Kind() == reflect.Int || v.Kind() == reflect.Int64:
		v.SetInt(v.Int() + 3)
	case v.Kind() == reflect.Float64:
		v.SetFloat(v.Float() + 2.5)
	case v.Kind() == reflect.Bool:
		v.SetBool(!v.Bool())
	case v.Kind() == reflect.String:
		v.SetString(v.String() + "x")
	default:
		t.Fatalf("no value for a %s", v.Type())
	}
}

// A change of any value is said, in every language.
func TestEveryChangeIsSaid(t *testing.T) {
	at := time.Date(2031, 5, 5, 15, 0, 0, 0, time.UTC)
	eachValue(t, func(name string, set func(*rules.Entry)) {
		for _, lang := range wording.Languages {
			v := wording.In(lang, rules.DefaultSettings(), at)
			for _, step := range []rules.Step{rules.Graft, rules.CombOut, rules.Feed} {
				old := rules.Entry{ID: 7, Action: rules.Did, Step: step, Subject: rules.BatchSubject(1), Said: at, Happened: at}
				e := old
				set(&e)
				said := false
				for _, d := range v.Details(old, e) {
					said = said || d.Was != d.Now
					assert.NotContains(t, d.Was+d.Now, "{", "%s, %s: no words for it", name, lang)
				}
				assert.True(t, said, "%s of %s, %s: changed without a word", name, step, lang)
				for _, d := range v.Details(e, e) {
					assert.Equal(t, d.Was, d.Now, "%s, %s: nothing changed", name, lang)
				}
			}
		}
	})
}

// What a changed message says holds, what it says no more goes, what it never said stays:
// of every value.
func TestOverwriteReachesEveryValue(t *testing.T) {
	at := time.Date(2031, 5, 5, 15, 0, 0, 0, time.UTC)
	base := rules.Entry{ID: 7, Action: rules.Did, Step: rules.Graft, Subject: rules.BatchSubject(1), Said: at, By: "Wren"}
	eachValue(t, func(name string, set func(*rules.Entry)) {
		var said, more rules.Entry
		set(&said)
		set(&more)
		set(&more)
		full := base
		set(&full)

		e := full
		overwrite(&e, said, more)
		want := base
		set(&want)
		set(&want)
		assert.True(t, want.SameValues(e), "%s: said anew", name)

		e = full
		overwrite(&e, said, rules.Entry{})
		assert.Equal(t, base, e, "%s: said no more", name)

		e = full
		overwrite(&e, rules.Entry{}, rules.Entry{})
		assert.Equal(t, full, e, "%s: never said", name)
	})
}

// neverSaid are the values of a line that no message says by itself: they come from buttons,
// from what the line is about, or belong to a claim, a snooze, a skip, a setting, an order.
// The time is settled apart.
var neverSaid = []string{"Happened", "All", "Occ", "Until", "Reason", "NoneYet", "More", "Whom", "Member", "Days", "Part", "Batch", "Key", "Value", "Comb", "Accepted", "Plan"}

// What a message says of a line is all put into it: a value that is neither said nor
// listed as never said was forgotten in says.
func TestMessagesSayEveryValue(t *testing.T) {
	steps := append(slices.Clone(rules.Steps), rules.Dearth, rules.Virgin, rules.Retire, rules.Nuc, rules.Marked, rules.Banked, rules.Handed, rules.Introduced, rules.Temp)
	said := map[string]bool{}
	for _, step := range steps {
		r := &reading{step: step, breeder: 7, builder: "B1", yard: "North", mark: "red", count: new(int), of: new(int), bees: new(bool),
			ageLo: new(float64), ageHi: new(float64), noEggs: true, release: true, litres: 2, each: true, reason: rules.CauseDied, nuc: rules.NucFree,
			customer: 1, tags: "1-24", back: true, ship: true,
			degrees: new(float64), power: true, singly: true, both: new(bool), rests: new(bool), out: "B1"}
		e := r.says()
		for _, v := range []reflect.Value{reflect.ValueOf(e), reflect.ValueOf(e.Detail)} {
			for i := range v.NumField() {
				said[v.Type().Field(i).Name] = said[v.Type().Field(i).Name] || !v.Field(i).IsZero()
			}
		}
	}
	eachValue(t, func(name string, _ func(*rules.Entry)) {
		assert.NotEqual(t, slices.Contains(neverSaid, name), said[name], name)
	})
}
