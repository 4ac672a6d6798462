package rules

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func whom(name string) with { return func(e *Entry) { e.Whom = name } }

// A task that is given to somebody is theirs as if they had taken it; what was said last
// holds.
func TestAssign(t *testing.T) {
	s := BatchSubject(1)
	var b book
	b.add(Graft, s, grafted, count(45))
	b.add(Move, s, h(200), action(Mine), by("Wren"))
	id := b.add(Move, s, h(201), action(Mine), by("Wren"), whom("Ash"))
	has := func() string { return task(t, Fold(crew(), b.entries).Tasks(s), Move, "").ClaimedBy }
	assert.Equal(t, "Ash", has())
	b.add(Move, s, h(202), action(Void), about(id))
	assert.Equal(t, "Wren", has())
}

// Nobody is called on for a day off, unless he takes the task after it was said that he is
// off. Undone, the task is his again.
func TestAway(t *testing.T) {
	s := BatchSubject(1)
	var b book
	b.add(Graft, s, grafted, count(45))
	b.add(Move, s, h(200), action(Mine), by("Ash"))
	b.add(Accept, s, h(10), action(Mine), by("Ash"))
	move := task(t, Fold(crew(), b.entries).Tasks(s), Move, "")
	day := DateOf(move.Best, chicago)
	off := b.add(Away, MemberSubject(4), h(203), whom("Ash"), detail(Detail{Days: DaysText([]Date{day, day.Add(1)})}))
	has := func(step Step) string { return task(t, Fold(crew(), b.entries).Tasks(s), step, "").ClaimedBy }
	assert.Empty(t, has(Move))
	assert.Equal(t, "Ash", has(Accept), "another day")
	again := b.add(Move, s, h(204), action(Mine), by("Ash"))
	assert.Equal(t, "Ash", has(Move))
	b.add(Move, s, h(205), action(Void), about(again))
	assert.Empty(t, has(Move))
	step := NewCrew(crew())
	for _, e := range b.entries {
		step.Apply(e)
		step.Settle()
	}
	require.Equal(t, Fold(crew(), b.entries).Describe(), step.Describe())
	b.add(Away, MemberSubject(4), h(206), action(Void), about(off))
	assert.Equal(t, "Ash", has(Move))
}

func TestDaysText(t *testing.T) {
	days := []Date{{2031, 5, 2}, {2031, 5, 4}}
	assert.Equal(t, "2031-05-02 2031-05-04", DaysText(days))
	assert.Equal(t, days, ParseDays(DaysText(days)))
	assert.Empty(t, ParseDays("friday"))
}

// A reminder comes once, at its time, with the crew's words, and stands on the list of its
// day until then.
func TestReminder(t *testing.T) {
	set := crew()
	at := when("2031-05-02 04:00") // in quiet hours, as was asked for
	var b book
	id := b.add(Remind, ReminderSubject(1), grafted, detail(Detail{Until: at.UnixMilli(), Reason: "pick up cages"}))
	tasks := Fold(set, b.entries).Tasks(ReminderSubject(1))
	require.Len(t, tasks, 1)
	assert.Equal(t, "pick up cages", tasks[0].Mark)
	assert.Equal(t, []Ping{{Reminded, at, DateOf(at, chicago)}}, Pings(tasks[0], set))
	assert.Equal(t, SendIt, Decide(Reminded, at, tasks[0], true, true, set, at).Do)
	day := DateOf(at, chicago)
	assert.Len(t, DueOn(tasks, day, set, at.Add(-time.Hour)), 1)
	assert.True(t, WorthTelling(tasks, day, set))
	assert.Empty(t, DueOn(tasks, day, set, at.Add(time.Minute)), "it has come")
	assert.Empty(t, DueOn(tasks, day.Add(1), set, at.Add(24*time.Hour)))
	b.add(Remind, ReminderSubject(1), grafted, action(Void), about(id))
	assert.Empty(t, Fold(set, b.entries).Tasks(ReminderSubject(1)))
}
