package rules

import (
	"sort"
	"strings"
	"time"
)

// DroneGraft is a planned graft whose virgins will fly from a yard, and since when
// it is planned.
type DroneGraft struct{ At, Since time.Time }

// DroneGrafts are the planned grafts of all orders that stand, for one yard.
func DroneGrafts(book []Booked, yard string) (out []DroneGraft) {
	for _, b := range book {
		for _, r := range b.Rounds {
			flies := false
			for _, k := range r.Batches {
				for _, n := range k.Nucs {
					flies = flies || n.Yard == yard
				}
			}
			if flies && !b.Cancelled {
				out = append(out, DroneGraft{r.Graft, r.Since})
			}
		}
	}
	return out
}

// DroneAtOnce is how long the reminder of a comb stands that should have gone in already.
const DroneAtOnce = 72 * time.Hour

// YardDrones are the drone comb tasks of a yard for its planned grafts. Grafts that
// lie more than two combs apart are planned for apart. A comb that would have had to
// go in before the graft was planned is asked for at once: late drones are better than none. A line about drone comb, of the
// yard or of all of them, answers the task whose fortnight it falls in; entries are
// the yard's own, for claims and skips.
func YardDrones(yard string, grafts []DroneGraft, lines, entries []Entry, s *Settings) (out []Task) {
	list := append([]DroneGraft(nil), grafts...)
	sort.SliceStable(list, func(i, j int) bool { return list[i].At.Before(list[j].At) })
	for len(list) > 0 {
		n := 1
		for n < len(list) && list[n].At.Sub(list[n-1].At) <= 2*DroneEvery*24*time.Hour {
			n++
		}
		var at []time.Time
		since := list[0].Since
		for _, g := range list[:n] {
			at, since = append(at, g.At), earlier(since, g.Since)
		}
		list = list[n:]
		for _, t := range DroneTasks(yard, at, s) {
			if t.Latest.Before(since) {
				// Planned too late for the day it should have gone in: at once.
				at := since.Truncate(time.Minute)
				t.Earliest, t.Ideal, t.Best, t.Latest = at, at, at, at.Add(DroneAtOnce)
			} else if t.Best.Before(since) {
				t.Best = since.Truncate(time.Minute) // the best day was over when it was planned
			}
			// Named by the day it is counted from, which another plan does not shift.
			t.Occ = strings.ReplaceAll(DateOf(t.Anchor, s.Zone).String(), "-", "")
			t.Key = TaskKey(t.Subject, t.Step, t.Occ)
			from := t.Earliest.Add(-24 * time.Hour)
			for _, e := range did(lines, Drones) {
				if (e.Subject.Zero() || e.Subject == t.Subject) && !e.Happened.Before(from) && e.Happened.Before(from.Add(DroneEvery*24*time.Hour)) {
					t.State = Done
				}
			}
			out = append(out, t)
		}
	}
	answers(out, entries, s)
	return out
}
