package rules

import (
	"sort"
	"time"
)

// Eater is what a feeder stands on.
type Eater string

// A breeder shut on her comb, a cell builder, a mating nuc on full frames, a
// mini mating nuc.
const (
	BreederEater Eater = "breeder"
	BuilderEater Eater = "builder"
	NucEater     Eater = "nuc"
	MiniNucEater Eater = "mini nuc"
)

// Appetite is how much syrup an eater takes in a dearth, litres a day.
type Appetite struct {
	Lo, Hi float64
	Source string
}

// Appetites of all eaters. None was measured.
var Appetites = map[Eater]Appetite{
	BreederEater: {0.05, 0.15, "common practice: a slow feeder of a few hundred ml"},
	BuilderEater: {0.25, 1, "memory: half a litre to a litre per builder each day or second day"},
	NucEater:     {0.05, 0.2, "common practice"},
	MiniNucEater: {0.02, 0.06, "common practice (agrees with a check each 2-3 days in a dearth, memory)"},
}

// BuilderDays is the longest that a builder's feed may stand: refreshed every 3
// days, and no more than is taken in 3 days; common practice (small hive beetle).
const BuilderDays = 3

// RunsDry is between when and when a feeder of so many litres, filled at fed, is
// empty. ok is false for an unknown eater or no syrup.
func RunsDry(e Eater, litres float64, fed time.Time) (soonest, latest time.Time, ok bool) {
	a, known := Appetites[e]
	if !known || !(litres > 0) {
		return fed, fed, false
	}
	day := 24 * time.Hour
	return fed.Add(time.Duration(litres / a.Hi * float64(day))), fed.Add(time.Duration(litres / a.Lo * float64(day))), true
}

// Lasts is how many days a feeder surely lasts, by the highest appetite.
func (a Appetite) Lasts(litres float64) float64 { return litres / a.Hi }

// TooMuch says whether a fill would stand longer than it should: for a builder,
// more than it takes in BuilderDays even at its hungriest. For the others there
// is no figure.
func TooMuch(e Eater, litres float64) bool {
	return e == BuilderEater && litres > Appetites[e].Hi*BuilderDays
}

// FeedTask is the next feeding after a feeder of so many litres was filled: from
// when it may be empty to when it surely is, and for a builder no later than
// BuilderDays. ok is false where nothing is to be fed, because the yard is not in
// a dearth at the time of filling, or RunsDry cannot say. The subject's yard is named
// apart, since a flow is a yard's.
func FeedTask(subject Subject, e Eater, litres float64, fed time.Time, yard string, flow []FlowLine, s *Settings) (t Task, ok bool) {
	if _, dearth := DearthAt(flow, yard); !dearth {
		return Task{}, false
	}
	t, ok = Task{Subject: subject, State: Open, Reason: "fed", Anchor: fed}.refill(e, litres, s)
	t.From = yard
	return t, ok
}

// variant is the row of steps.csv for an eater.
func (e Eater) variant() string {
	if e == NucEater || e == MiniNucEater {
		return "nucs"
	}
	return string(e)
}

// refill is the task of filling a feeder again that was filled at the anchor.
func (t Task) refill(e Eater, litres float64, s *Settings) (Task, bool) {
	soonest, latest, ok := RunsDry(e, litres, t.Anchor)
	if !ok {
		return Task{}, false
	}
	t = t.with(s.Table.Row(Feed, e.variant()))
	t.Earliest, t.Latest = soonest, latest
	if end := t.Anchor.Add(BuilderDays * 24 * time.Hour); e == BuilderEater && end.Before(latest) {
		t.Latest = end
		t.Earliest = earlier(t.Earliest, end)
	}
	t.Ideal = t.Earliest.Add(t.Latest.Sub(t.Earliest) / 3) // nearer the hungry end: an empty feeder costs more than a full one
	t.fit(s)
	t.Source = Appetites[e].Source
	return t, true
}

// PerEater is how many litres of a feed line each of so many eaters got, 0 where it
// was not said.
func (d Detail) PerEater(eaters int) float64 {
	if d.Each || eaters <= 1 {
		return d.Litres
	}
	return d.Litres / float64(eaters)
}

// FeedRound is one visit to a yard that feeds all that is due on it.
type FeedRound struct {
	Yard  string
	At    time.Time
	Tasks []Task
}

// FeedRounds gathers open feed tasks into as few visits per yard as their
// windows allow: nobody is left past the close of a window for the sake of
// fewer trips. yard names the yard of a task's subject; yards not in a dearth are
// left out.
func FeedRounds(tasks []Task, yard func(Task) string, flow []FlowLine, s *Settings) []FeedRound {
	byYard := map[string][]Task{}
	for _, t := range tasks {
		y := yard(t)
		if _, dearth := DearthAt(flow, y); dearth && t.Step == Feed && t.State == Open {
			byYard[y] = append(byYard[y], t)
		}
	}
	var out []FeedRound
	for y, list := range byYard {
		// Visits at the deadlines, each taking all that is open by then, are the
		// fewest that can be.
		sort.SliceStable(list, func(i, j int) bool { return list[i].Latest.Before(list[j].Latest) })
		for len(list) > 0 {
			r := FeedRound{Yard: y}
			from, to := list[0].Earliest, list[0].Latest
			var rest []Task
			for _, t := range list {
				if t.Earliest.After(to) {
					rest = append(rest, t)
					continue
				}
				from = later(from, t.Earliest)
				r.Tasks = append(r.Tasks, t)
			}
			r.At, _ = s.FitWork(from, clampTime(list[0].Best, from, to), to)
			out = append(out, r)
			list = rest
		}
	}
	sort.Slice(out, func(i, j int) bool {
		if !out[i].At.Equal(out[j].At) {
			return out[i].At.Before(out[j].At)
		}
		return out[i].Yard < out[j].Yard
	})
	return out
}
