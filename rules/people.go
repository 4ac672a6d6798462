package rules

import (
	"cmp"
	"slices"
	"strings"
	"time"
)

// Leave is a stretch of days on which a member is not there, as one line has it.
type Leave struct {
	Name string // of the member
	Line int64
	Days []Date
}

// MostDaysOff is how many days one line may take somebody off. Our choice: more is a slip.
const MostDaysOff = 60

// DaysText spells days off as the logbook keeps them: 2031-05-02 2031-05-03.
func DaysText(days []Date) string {
	var out []string
	for _, d := range days {
		out = append(out, d.String())
	}
	return strings.Join(out, " ")
}

// ParseDays is the inverse; what is no day is left out.
func ParseDays(s string) (days []Date) {
	for _, f := range strings.Fields(s) {
		if d, err := ParseDate(f); err == nil {
			days = append(days, d)
		}
	}
	return days
}

// LeavesOf are the days off that lines about members say, in the order of the lines.
func LeavesOf(lines []Entry) (out []Leave) {
	for _, e := range did(AsLogged(lines), Away) {
		out = append(out, Leave{e.Whom, e.ID, ParseDays(e.Detail.Days)})
	}
	return out
}

// leaves are the days off of all members.
func (c *Crew) leaves() []Leave {
	var lines []Entry
	for _, s := range c.Subjects(MemberKind) {
		lines = append(lines, c.lines[s]...)
	}
	slices.SortFunc(lines, func(a, b Entry) int { return cmp.Compare(a.ID, b.ID) })
	return LeavesOf(lines)
}

// AwayOn reports whether a member is not there on a day, by lines after one: who takes a
// task for a day that he said before he is off means it.
func (s *Settings) AwayOn(name string, after int64, d Date) bool {
	return slices.ContainsFunc(s.Leaves, func(l Leave) bool { return l.Name == name && l.Line > after && slices.Contains(l.Days, d) })
}

// lets gives back a task whose holder is off on its day: pings and lists do not call on him.
func (t *Task) lets(line int64, s *Settings) {
	if t.ClaimedBy != "" && s.AwayOn(t.ClaimedBy, line, DateOf(t.Best, s.Zone)) {
		t.ClaimedBy = ""
	}
}

// ReminderTasks are the crew's own reminder: a message at the time that was asked for, with
// the words in Mark. It is answered by nobody and passes by itself.
func ReminderTasks(subject Subject, entries []Entry) []Task {
	for _, e := range did(entries, Remind) {
		at := time.UnixMilli(e.Detail.Until).UTC()
		return []Task{{
			Key: TaskKey(subject, Remind, ""), Subject: subject, Step: Remind, State: Open, Guard: true, Weight: Important, Reason: "asked", Anchor: e.Said,
			Earliest: at, Best: at, Ideal: at, Latest: at, Mark: e.Detail.Reason, ClaimedBy: e.By,
		}}
	}
	return nil
}
