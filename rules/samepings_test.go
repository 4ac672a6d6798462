package rules

import (
	"reflect"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// changed is a task that differs from another in one field.
func changed(t *rapid.T, k Task, field reflect.StructField) Task {
	f := reflect.ValueOf(&k).Elem().FieldByIndex(field.Index)
	switch x := f.Interface().(type) {
	case time.Time:
		f.Set(reflect.ValueOf(x.Add(time.Duration(rapid.IntRange(1, 3000).Draw(t, "minutes")) * time.Minute)))
	case Step:
		f.Set(reflect.ValueOf(rapid.SampledFrom(Steps).Draw(t, "other step")))
	case TaskState:
		f.Set(reflect.ValueOf(rapid.SampledFrom([]TaskState{Open, Done, Skipped, Passed}).Draw(t, "other state")))
	case Weight:
		f.Set(reflect.ValueOf((x + 1) % 3))
	case bool:
		f.SetBool(!x)
	case int:
		f.SetInt(int64(x + 1))
	case string:
		f.SetString(rapid.SampledFrom([]string{"planned", "grafted", ""}).Draw(t, "other words"))
	case *int:
		n := 36
		f.Set(reflect.ValueOf(&n))
	case Subject:
		f.Set(reflect.ValueOf(BreederSubject(9)))
	default:
		t.Fatalf("a task has a field of a kind that is not known here: %s", field.Name)
	}
	return k
}

// Where a glance finds the pings of two tasks to be the same they are, whatever else the
// tasks differ in; so a new field that pings depend on cannot be forgotten there.
func TestSamePingsAreTheSame(t *testing.T) {
	fields := reflect.VisibleFields(reflect.TypeFor[Task]())
	told := map[string]bool{} // fields in which a difference was seen
	rapid.Check(t, func(t *rapid.T) {
		s, k := anyPinged(t)
		k.Reason = rapid.SampledFrom([]string{"planned", "grafted"}).Draw(t, "reason")
		for _, field := range fields {
			if field.Name == "Key" {
				continue // it is the same task
			}
			other := changed(t, k, field)
			if !SamePings(&k, &other) {
				told[field.Name] = true
				continue
			}
			if !assert.ObjectsAreEqual(Pings(k, s), Pings(other, s)) {
				t.Fatalf("pings depend on %s", field.Name)
			}
		}
		if same := k; !SamePings(&k, &same) {
			t.Fatalf("a task differs from itself")
		}
	})
	for _, no := range []string{"Count", "Into", "ClaimedBy", "Mark", "Stake"} {
		assert.False(t, told[no], "a change of %s asks for no other pings", no)
	}
}
