package rules

import (
	"cmp"
	"maps"
	"slices"
	"strings"
	"time"
)

// Crew is the one model of a crew: the fold of the lines of its logbook. Apply takes the
// next line in, Settle works out what the lines since the last Settle lead to. What comes
// out depends on the lines alone, never on when Settle was called or on a clock: without
// that a crew folded again after a restart would have other tasks than the ones it was
// pinged about.
//
// What a Crew gives out is to be looked at only. One that others may be reading is not
// written: who wants to go on works on a Clone.
type Crew struct {
	start *Settings // before the crew set anything
	last  int64     // number of the newest line
	count int       // lines

	lines  map[Subject][]Entry // as logged, those about the whole crew under the zero subject
	ground []Entry             // about flow and drone comb, of any place, as logged

	settings *Settings
	flow     []FlowLine
	drones   []Entry // of ground, as they count
	booked   []Booked

	effective  map[Subject][]Entry
	breeders   map[int]Breeder
	combs      map[int][]Comb
	batches    map[int]Batch
	builders   map[string]Builder
	yards      map[string]Yard
	incubators map[string]Incubator
	boards     map[string]Board
	cover      map[int][]NucsAt  // by batch: the standing nucs that its cells can be given to
	nucLines   map[int][]Subject // by batch: yards and nucs whose lines tell of its queens, maybe more than once
	tasks      map[Subject][]Task

	seen     map[int]*seen // what was seen of batches, of those whose looks teach
	learning *learning     // what that tells of the crew's cells

	stale  map[Subject]bool // have lines that Settle has not seen
	all    bool             // a line about the whole crew is among them
	shared bool             // lists may be those of another Crew too

	settingsStale, ordersStale bool // lines came since settings and booked were read
}

// NewCrew is a crew without a line; start are the settings it has before it sets any.
func NewCrew(start *Settings) *Crew {
	return &Crew{
		start: start, settings: start,
		lines: map[Subject][]Entry{}, effective: map[Subject][]Entry{},
		breeders: map[int]Breeder{}, combs: map[int][]Comb{}, batches: map[int]Batch{},
		builders: map[string]Builder{}, yards: map[string]Yard{}, incubators: map[string]Incubator{}, tasks: map[Subject][]Task{},
		boards: map[string]Board{}, nucLines: map[int][]Subject{},
		seen: map[int]*seen{}, learning: &learning{}, stale: map[Subject]bool{},
	}
}

// Fold is the crew of a logbook, settled.
func Fold(start *Settings, lines []Entry) *Crew {
	c := NewCrew(start)
	for _, e := range lines {
		c.Apply(e)
	}
	c.Settle()
	return c
}

// Clone is a crew that can be written without changing c. They share what neither changes:
// lists are replaced, never written into.
func (c *Crew) Clone() *Crew {
	d := *c
	d.shared = true
	d.lines, d.effective, d.tasks = maps.Clone(c.lines), maps.Clone(c.effective), maps.Clone(c.tasks)
	d.breeders, d.combs, d.batches = maps.Clone(c.breeders), maps.Clone(c.combs), maps.Clone(c.batches)
	d.seen = maps.Clone(c.seen)
	d.builders, d.yards, d.incubators, d.stale = maps.Clone(c.builders), maps.Clone(c.yards), maps.Clone(c.incubators), maps.Clone(c.stale)
	d.boards, d.nucLines = maps.Clone(c.boards), maps.Clone(c.nucLines)
	return &d
}

// Last is the number of the newest line, 0 for none.
func (c *Crew) Last() int64 { return c.last }

// Len is how many lines were applied.
func (c *Crew) Len() int { return c.count }

// Apply takes in the next line of the logbook. Lines come in the order of their numbers;
// when the work was done does not matter.
func (c *Crew) Apply(e Entry) {
	c.last, c.count = e.ID, c.count+1
	c.lines[e.Subject] = c.grown(c.lines[e.Subject], e)
	if onGround(&e) {
		c.ground = c.grown(c.ground, e)
	}
	if n := e.Detail.Batch; n != 0 {
		c.nucLines[n] = append(slices.Clip(c.nucLines[n]), e.Subject)
	}
	switch e.Subject.Kind {
	case OrderKind:
		c.ordersStale = true
	case NoKind:
		c.settingsStale = true
	}
	for _, s := range leadsTo(&e) {
		c.stale[s] = true
		c.all = c.all || s.Zero()
	}
}

// grown is a list with one more line. Behind the end of a shared list another Crew may be
// writing its own next line.
func (c *Crew) grown(list []Entry, e Entry) []Entry {
	if c.shared {
		list = slices.Clip(list)
	}
	return append(list, e)
}

// onGround reports whether a line is about the honey flow, or about drone comb at a place.
func onGround(e *Entry) bool {
	switch e.Step {
	case Dearth, Flow:
		return true
	case Drones:
		return e.Subject.Kind == NoKind || e.Subject.Kind == YardKind || e.Subject.Kind == BuilderKind
	}
	return false
}

// leadsTo are the subjects whose plan a line may change; the zero subject stands for all,
// since settings reach every task and the honey flow every place.
func leadsTo(e *Entry) []Subject {
	out := []Subject{e.Subject}
	if e.From != 0 {
		out = append(out, BreederSubject(e.From))
	}
	if e.Subject.Kind == NucKind {
		yard, _ := NucOf(e.Subject)
		out = append(out, YardSubject(yard))
	}
	if e.Into != "" && (e.Step == Graft || e.Step == Finish) {
		out = append(out, BuilderSubject(e.Into))
	}
	if e.Step == Dearth || e.Step == Flow || e.Step == Away {
		out = append(out, Subject{})
	}
	return out
}

// Touch has the next Settle look at a subject that has no new line.
func (c *Crew) Touch(s Subject) { c.stale[s] = true }

// TouchAll has the next Settle look at every subject.
func (c *Crew) TouchAll() { c.all = true }

// Settings in force, of those set the one logged last.
func (c *Crew) Settings() *Settings {
	if c.settingsStale {
		c.set()
	}
	return c.settings
}

// Entries about a subject as logged, voids and amendments among them.
func (c *Crew) Entries(s Subject) []Entry { return slices.Clip(c.lines[s]) }

// Effective are the entries about a subject as they count: see Effective.
func (c *Crew) Effective(s Subject) []Entry {
	if list, known := c.effective[s]; known && !c.stale[s] {
		return list
	}
	return Effective(c.lines[s])
}

// Subjects of a kind that any line is about, by key.
func (c *Crew) Subjects(kind Kind) (out []Subject) {
	for s := range c.lines {
		if s.Kind == kind {
			out = append(out, s)
		}
	}
	slices.SortFunc(out, func(a, b Subject) int { return strings.Compare(a.Key, b.Key) })
	return out
}

// Highest is the highest number that any line gives to a subject of a kind, 0 for none.
// Numbers are not used again, so that a reply to an old message never means another batch.
func (c *Crew) Highest(kind Kind) (n int) {
	for s := range c.lines {
		if s.Kind == kind {
			n = max(n, s.Number())
		}
	}
	return n
}

// Breeders by number, those retired left out.
func (c *Crew) Breeders() []Breeder { return byKey(c.breeders) }

// Combs of a breeder, oldest confinement first.
func (c *Crew) Combs(breeder int) []Comb { return slices.Clip(c.combs[breeder]) }

// Batches by number.
func (c *Crew) Batches() []Batch { return byKey(c.batches) }

// Batch is one batch; found is false where it never was or was taken back.
func (c *Crew) Batch(number int) (b Batch, found bool) {
	b, found = c.batches[number]
	return b, found
}

// Builders by name.
func (c *Crew) Builders() []Builder { return byKey(c.builders) }

// Incubators by name.
func (c *Crew) Incubators() []Incubator { return byKey(c.incubators) }

// Yards by name.
func (c *Crew) Yards() []Yard { return byKey(c.yards) }

// Board is the nucs of a yard as they stand, an empty one where none is told of.
func (c *Crew) Board(yard string) Board {
	b := c.boards[yard]
	b.Yard = yard
	return b
}

// Boards are those of all yards that nucs are told of, by name.
func (c *Crew) Boards() []Board { return byKey(c.boards) }

// Booked are the orders that were accepted, by number.
func (c *Crew) Booked() []Booked {
	if c.ordersStale || c.settingsStale {
		c.book()
	}
	return slices.Clip(c.booked)
}

// Tasks of a subject by their best time, those already answered among them.
func (c *Crew) Tasks(s Subject) []Task { return slices.Clip(c.tasks[s]) }

// Task is one task by its key.
func (c *Crew) Task(key string) (t Task, found bool) {
	for i := strings.IndexByte(key, '/'); i >= 0; {
		if list, known := c.tasks[ParseSubject(key[:i])]; known {
			if at := slices.IndexFunc(list, func(t Task) bool { return t.Key == key }); at >= 0 {
				return list[at], true
			}
		}
		next := strings.IndexByte(key[i+1:], '/') // a name may have a slash of its own
		if next < 0 {
			break
		}
		i += 1 + next
	}
	return t, false
}

// Open are the open tasks of a crew by their best time.
func (c *Crew) Open() []Task { return c.every(func(t *Task) bool { return t.State == Open }) }

// AllTasks are all of them by their best time.
func (c *Crew) AllTasks() []Task { return c.every(func(*Task) bool { return true }) }

func (c *Crew) every(take func(*Task) bool) (out []Task) {
	for _, list := range c.tasks {
		for i := range list {
			if take(&list[i]) {
				out = append(out, list[i])
			}
		}
	}
	slices.SortFunc(out, byBest)
	return out
}

func byBest(a, b Task) int {
	return cmp.Or(a.Best.Compare(b.Best), strings.Compare(a.Key, b.Key))
}

func byKey[K cmp.Ordered, V any](m map[K]V) []V {
	if len(m) == 0 {
		return nil
	}
	out := make([]V, 0, len(m))
	for _, k := range slices.Sorted(maps.Keys(m)) {
		out = append(out, m[k])
	}
	return out
}

// inMillis is an instant as a database keeps it: UTC, to the millisecond. The model keeps it
// so too, or a task would differ from its own row.
func inMillis(t time.Time) time.Time {
	if t.IsZero() {
		return time.Time{}
	}
	return millis(t.UnixMilli())
}
