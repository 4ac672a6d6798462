package rules

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

func TestDue(t *testing.T) {
	named := func(name string, k Task) Task { k.Occ = name; return k }
	done := named("done", open(Move, Critical, "2031-05-10 10:00", "2031-05-10 17:00", "2031-05-11 10:00"))
	done.State = Done
	guard := named("guard", open(HandsOff, Routine, "2031-05-06 10:00", "2031-05-06 10:00", "2031-05-09 23:59"))
	guard.Guard = true
	tasks := []Task{
		named("tomorrow", open(Move, Critical, "2031-05-11 00:00", "2031-05-11 07:00", "2031-05-11 10:00")),
		named("late tonight", open(Nucs, Important, "2031-05-10 23:59", "2031-05-11 09:00", "2031-05-12 10:00")),
		named("today", open(Capped, Routine, "2031-05-09 10:00", "2031-05-10 10:00", "2031-05-11 10:00")),
		named("unanswered", open(Accept, Routine, "2031-05-07 10:00", "2031-05-08 10:00", "2031-05-09 10:00")),
		named("long past", open(Accept, Routine, "2031-04-20 10:00", "2031-04-21 10:00", "2031-04-22 10:00")),
		done, guard,
	}
	names := func(list []Task) (out []string) {
		for _, k := range list {
			out = append(out, k.Occ)
		}
		return out
	}
	day, now := Date{2031, time.May, 10}, when("2031-05-10 06:30")
	assert.Equal(t, []string{"unanswered", "today", "late tonight"}, names(DueOn(tasks, day, crew(), now)))
	assert.Equal(t, []string{"unanswered", "today", "tomorrow", "late tonight"}, names(DueDays(tasks, day, 2, crew(), now)))
	assert.Contains(t, names(DueOn(tasks, day.Add(-1), crew(), now)), "guard", "on the days it covers")
	assert.Equal(t, "tomorrow", tasks[0].Occ, "the list given is not sorted in place")
}

func TestNextAttempt(t *testing.T) {
	for n, want := range map[int]time.Duration{0: 5 * time.Second, 1: 5 * time.Second, 2: 10 * time.Second, 4: 40 * time.Second, 7: 5 * time.Minute, 1000: 5 * time.Minute} {
		assert.Equal(t, want, NextAttempt(n), "attempt %d", n)
	}
}
