package rules

import (
	"cmp"
	"slices"
	"strings"
	"time"
)

// RoundKind is the kind of a round: all that is grafted on one day. It has no lines of its
// own, and its key is the local date: round 2031-04-25.
const RoundKind Kind = "round"

// RoundSubject is the round of a day.
func RoundSubject(day Date) Subject { return Subject{RoundKind, day.String()} }

// GraftRound is what was grafted on one day: its bars are batches. Days part at the end of the
// quiet hours, since a graft after midnight belongs to the evening before.
type GraftRound struct {
	Day  Date    // its name, given at its first graft and kept whatever is set later
	Bars []Batch // in the order in which they were grafted
}

// Subject of the round.
func (r GraftRound) Subject() Subject { return RoundSubject(r.Day) }

// Apart is how much later than the first a bar of a round may close to go with it. One
// that closes later than that is told of by itself: nobody goes six hours too soon.
const Apart = 6 * time.Hour

// Rounds of a crew, the oldest first. They are worked out when asked for, from the batches
// and from the settings in force when each was logged: a round that was named again by a
// zone set later would be another thing to whoever read its name.
func (c *Crew) Rounds() (out []GraftRound) {
	bars := c.Batches()
	slices.SortFunc(bars, func(a, b Batch) int { return cmp.Compare(a.Graft, b.Graft) })
	lines, read := c.lines[Subject{}], -1
	s := c.start
	at := map[Date]int{}
	type span struct{ from, to time.Time }
	var spans []span
	for _, b := range bars {
		n, _ := slices.BinarySearchFunc(lines, b.Graft, func(e Entry, id int64) int { return cmp.Compare(e.ID, id) })
		if n != read {
			s, read = SettingsOf(c.start, lines[:n]), n
		}
		day := s.workday(b.Grafted)
		i, known := at[day]
		for k := len(spans) - 1; k >= 0 && !known; k-- {
			if !b.Grafted.Before(spans[k].from) && b.Grafted.Before(spans[k].to) {
				i, known = k, true
			}
		}
		if !known {
			i = len(out)
			at[day] = i
			out = append(out, GraftRound{Day: day})
			spans = append(spans, span{s.workdayStart(day), s.workdayStart(day.Add(1))})
		}
		out[i].Bars = append(out[i].Bars, b)
	}
	for i := range out {
		slices.SortStableFunc(out[i].Bars, func(a, b Batch) int { return cmp.Or(a.Grafted.Compare(b.Grafted), cmp.Compare(a.Number, b.Number)) })
	}
	slices.SortFunc(out, func(a, b GraftRound) int { return strings.Compare(a.Day.String(), b.Day.String()) })
	return out
}

// RoundOf is the round that a batch is a bar of.
func (c *Crew) RoundOf(batch int) (GraftRound, bool) {
	if _, found := c.batches[batch]; !found {
		return GraftRound{}, false
	}
	return RoundWith(c.Rounds(), batch)
}

// RoundWith is that of the rounds that a batch is a bar of.
func RoundWith(rounds []GraftRound, batch int) (GraftRound, bool) {
	for _, r := range rounds {
		if slices.ContainsFunc(r.Bars, func(b Batch) bool { return b.Number == batch }) {
			return r, true
		}
	}
	return GraftRound{}, false
}

// Round is that of a day.
func (c *Crew) Round(day Date) (GraftRound, bool) {
	rounds := c.Rounds()
	i := slices.IndexFunc(rounds, func(r GraftRound) bool { return r.Day == day })
	if i < 0 {
		return GraftRound{}, false
	}
	return rounds[i], true
}

// Has reports whether a batch is a bar of the round.
func (r GraftRound) Has(batch int) bool {
	return slices.ContainsFunc(r.Bars, func(b Batch) bool { return b.Number == batch })
}

// Drive are the yards in the order in which they are driven to: that in which they were
// added.
func (c *Crew) Drive() (names []string) {
	first := map[string]int64{}
	for _, y := range c.Yards() {
		if added := did(c.Effective(YardSubject(y.Name)), Add); len(added) > 0 {
			first[y.Name] = slices.MinFunc(added, func(a, b *Entry) int { return cmp.Compare(a.ID, b.ID) }).ID
		}
		names = append(names, y.Name)
	}
	slices.SortStableFunc(names, func(a, b string) int { return cmp.Compare(first[a], first[b]) })
	return names
}

// WorkdayOf is the day of the round to which a graft at t would belong.
func (c *Crew) WorkdayOf(t time.Time) Date { return c.Settings().workday(t) }

// workday is the day to which what was done at t belongs: before the quiet hours of the
// night end, to that of the evening before.
func (s *Settings) workday(t time.Time) Date {
	day := DateOf(t, s.Zone)
	if t.Before(s.workdayStart(day)) {
		return day.Add(-1)
	}
	return day
}

func (s *Settings) workdayStart(day Date) time.Time {
	if s.QuietFrom <= s.QuietTo { // quiet hours within a day, or none
		return DayStart(day, s.Zone)
	}
	return At(day, s.QuietTo, s.Zone)
}

// bar reports whether two tasks are the same work on two bars: of one step, and where a
// batch has several of it the same of them. A search of the builder is named by its batch.
func (t Task) bar(u Task) bool {
	return t.Step == u.Step && t.Batch != 0 && u.Batch != 0 && t.Guard == u.Guard && (t.Occ == u.Occ || t.Step == Rogue)
}

// Together parts tasks by what is told of at once: those of one step on bars of one round
// whose windows close no more than Apart after the first of them. All else stands alone.
// Each part is in the order in which its windows close, the parts as their first came in.
func Together(tasks []Task, rounds []GraftRound) (parts [][]Task) {
	of := map[int]Date{}
	for _, r := range rounds {
		for _, b := range r.Bars {
			of[b.Number] = r.Day
		}
	}
	order := make([]int, len(tasks))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return tasks[a].Latest.Compare(tasks[b].Latest) })
	first := []int{} // where the first of each part came in
	for _, i := range order {
		t, into := tasks[i], -1
		for p := range parts {
			head := parts[p][0]
			day, known := of[t.Batch]
			if known && head.bar(t) && of[head.Batch] == day && t.Latest.Sub(head.Latest) <= Apart {
				into = p
			}
		}
		if into < 0 {
			parts, first = append(parts, []Task{t}), append(first, i)
			continue
		}
		parts[into] = append(parts[into], t)
		first[into] = min(first[into], i)
	}
	by := make([]int, len(parts))
	for i := range by {
		by[i] = i
	}
	slices.SortStableFunc(by, func(a, b int) int { return cmp.Compare(first[a], first[b]) })
	out := make([][]Task, len(parts))
	for i, p := range by {
		out[i] = parts[p]
	}
	return out
}
