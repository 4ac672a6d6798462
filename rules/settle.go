package rules

import (
	"cmp"
	"slices"
	"strconv"
	"time"
)

// Settle works out what the lines since the last Settle lead to: the subjects they are
// about, the batches of a breeder whose combs changed, the breeder and builders of a batch.
// It gives every subject whose tasks were worked out, in the order of that, and whether
// that is all of them under other settings.
func (c *Crew) Settle() (planned []Replanned, all bool) {
	if len(c.stale) == 0 && !c.all {
		return nil, false
	}
	all = c.all
	p := &settling{c: c, all: all, seen: map[Subject]bool{}, plain: map[int]Batch{}}
	for s := range c.stale {
		delete(c.effective, s)
	}
	if all {
		c.set()
		clear(c.effective)
		for _, kind := range []Kind{OrderKind, IncubatorKind, BreederKind, BatchKind, BuilderKind, YardKind, NucKind, ReminderKind} {
			for _, s := range c.Subjects(kind) {
				p.add(s)
			}
		}
	}
	p.ground()
	var stale []Subject
	for s := range c.stale {
		stale = append(stale, s)
	}
	slices.SortFunc(stale, func(a, b Subject) int { return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Key, b.Key)) })
	for _, s := range stale {
		p.add(s)
	}
	p.run()
	clear(c.stale)
	c.all = false
	return p.planned, all
}

// set reads the settings in the order in which they were logged. A value that this
// version refuses is left out, not fatal: the crew can set it again.
func (c *Crew) set() {
	c.settings, c.settingsStale = SettingsOf(c.start, c.lines[Subject{}]), false
	c.settings.Leaves = c.leaves()
}

// SettingsOf are the settings in force after the lines about the whole crew, which are
// all that settings hang on.
func SettingsOf(start *Settings, lines []Entry) *Settings {
	s := *start
	for _, e := range AsLogged(lines) {
		if e.Action == Set {
			_ = s.Apply(e.Detail.Key, e.Detail.Value, e.Happened)
		}
	}
	return &s
}

// book reads the orders that were accepted, by number.
func (c *Crew) book() {
	c.booked, c.ordersStale = nil, false
	for n := 1; n <= c.Highest(OrderKind); n++ {
		if b, exists := BookedOf(n, Effective(c.lines[Subject{OrderKind, strconv.Itoa(n)}]), c.Settings()); exists {
			c.booked = append(c.booked, b)
		}
	}
}

// Replanned is a subject whose tasks were worked out, and those it had before.
type Replanned struct {
	Subject Subject
	Before  []Task
}

// settling is one run of Settle.
type settling struct {
	c       *Crew
	all     bool
	seen    map[Subject]bool
	todo    []Subject
	planned []Replanned
	yards   []string // whose boards a batch that was looked at may change
	cells   bool     // a batch was looked at, which may need other nucs
	grid    *shiftGrid
	plain   map[int]Batch // batches by the books, of which nothing was seen that teaches
	since   time.Time     // zero, or when something was seen that was not seen before, or no more
}

func (p *settling) add(s Subject) {
	if none := s.Zero() || s.Key == "" || s == BreederSubject(0); !none && !p.seen[s] {
		p.seen[s] = true
		p.todo = append(p.todo, s)
	}
}

// ground reads the lines that places and orders share.
func (p *settling) ground() {
	c := p.c
	c.drones = Effective(c.ground)
	c.flow = FlowLines(c.drones)
	c.book()
}

// run works in rounds, because an order reaches breeders and yards, a batch reads its
// breeder's combs and what was seen of others, and a breeder's and a builder's tasks read
// the batches.
func (p *settling) run() {
	for _, round := range []struct {
		kind Kind
		do   func(Subject)
	}{
		{OrderKind, p.order},
		{IncubatorKind, p.incubator},
		{BuilderKind, p.finishes},
		{BreederKind, p.combs},
		{YardKind, p.nucLines},
		{BatchKind, p.look},
		{BatchKind, p.batch},
		{NoKind, p.boards},
		{BatchKind, p.batchTasks},
		{BreederKind, p.breeder},
		{BuilderKind, p.builder},
		{YardKind, p.yard},
		{ReminderKind, func(s Subject) { p.put(s, ReminderTasks(s, p.effective(s))) }},
	} {
		if round.kind == NoKind {
			round.do(Subject{})
			continue
		}
		// A round may add subjects of later rounds; breeders that a batch adds need no
		// look at their combs, since those did not change.
		for i := 0; i < len(p.todo); i++ {
			if p.todo[i].Kind == round.kind {
				round.do(p.todo[i])
			}
		}
	}
}

// effective reads a subject's lines once: a breeder is looked at in two rounds.
func (p *settling) effective(s Subject) []Entry {
	list, known := p.c.effective[s]
	if !known {
		list = Effective(p.c.lines[s])
		p.c.effective[s] = list
	}
	return list
}

// order reaches the breeders and yards that any line about an order names: those of lines
// that were taken back lose their tasks.
func (p *settling) order(s Subject) {
	for _, e := range p.c.lines[s] {
		if e.Detail.Plan == nil {
			continue
		}
		for _, k := range e.Detail.Plan.Rounds {
			for _, n := range k.Breeders {
				p.add(BreederSubject(n))
			}
			for _, b := range k.Batches {
				for _, y := range b.Nucs {
					p.add(YardSubject(y.Yard))
				}
			}
		}
	}
}

// combs reads a breeder's combs, and has those batches looked at whose graft may come from
// another comb now: no graft before the first of those that differ can.
func (p *settling) combs(s Subject) {
	n := s.Number()
	old, now := p.c.combs[n], Combs(n, p.effective(s))
	for i := range now {
		k := &now[i]
		k.Confined, k.EggsSeen, k.NoEggs, k.Out = inMillis(k.Confined), inMillis(k.EggsSeen), inMillis(k.NoEggs), inMillis(k.Out)
	}
	slices.SortFunc(now, func(a, b Comb) int { return cmp.Or(a.Confined.Compare(b.Confined), cmp.Compare(a.ID, b.ID)) })
	first, differ := firstOther(old, now)
	if !differ {
		return
	}
	p.c.put(n, now)
	for _, b := range p.c.Batches() {
		if b.Breeder == n && !b.Grafted.Before(first.Confined) {
			p.add(BatchSubject(b.Number))
		}
	}
}

func (c *Crew) put(breeder int, combs []Comb) {
	if len(combs) == 0 {
		delete(c.combs, breeder)
		return
	}
	c.combs[breeder] = combs
}

// firstOther is the earliest confined of the combs that are not the same in both lists.
func firstOther(old, now []Comb) (first Comb, differ bool) {
	look := func(list, other []Comb) {
		for i := range list {
			k := &list[i]
			if i < len(other) && sameComb(&other[i], k) { // most stand where they stood
				continue
			}
			if !slices.ContainsFunc(other, func(o Comb) bool { return sameComb(&o, k) }) && (!differ || k.Confined.Before(first.Confined)) {
				first, differ = *k, true
			}
		}
	}
	look(old, now)
	look(now, old)
	return first, differ
}

func sameComb(a, b *Comb) bool {
	if !same(a.BeesIn, b.BeesIn) {
		return false
	}
	x := *a
	x.BeesIn = b.BeesIn
	return x == *b
}

// same compares two values that may not be known.
func same[T comparable](a, b *T) bool { return a == b || a != nil && b != nil && *a == *b }

func (p *settling) batch(s Subject) {
	p.learn()
	c, n := p.c, s.Number()
	old, had := c.batches[n]
	entries := p.effective(s)
	b, exists := p.plain[n]
	if !exists || len(c.learning.looks) > 0 {
		b, exists = batchOf(n, c.withNucs(n, entries), c.combsOf(entries), c.incubators, c.settings, c.learning, c.seen[n])
	}
	b.Number = n
	if b.Yards == nil {
		b.Yards = []string{}
	}
	b.Grafted, b.Emerges, b.Moved = inMillis(b.Grafted), inMillis(b.Emerges), inMillis(b.Moved)
	if exists {
		c.batches[n] = b
	} else {
		delete(c.batches, n)
	}
	p.yards = append(append(p.yards, old.Yards...), b.Yards...)
	p.cells = p.cells || exists || had
	// Its breeder and its builder look at little of it, and most lines change none of that.
	if p.all || had != exists || old.Breeder != b.Breeder || old.GraftRef() != b.GraftRef() {
		p.add(BreederSubject(old.Breeder))
		p.add(BreederSubject(b.Breeder))
	}
	if p.all || had != exists || old.Builder != b.Builder || old.Bar() != b.Bar() {
		p.add(BuilderSubject(old.Builder))
		p.add(BuilderSubject(b.Builder))
	}
}

// batchTasks plans a batch, once the nucs of its yards are known.
func (p *settling) batchTasks(s Subject) {
	c, n := p.c, s.Number()
	var tasks []Task
	if b, exists := c.batches[n]; exists {
		entries := p.effective(s)
		tasks = BatchTasks(b, entries, c.settings)
		c.standing(tasks, b, entries)
		if b.Builder == "" {
			tasks = append(tasks, LooseRogue(b, entries, c.settings))
		}
		if p.both(b.Start) {
			noFinisher(tasks)
		}
	}
	p.put(s, tasks)
}

// combsOf are the combs of the breeder that a batch was grafted from.
func (c *Crew) combsOf(entries []Entry) []Comb {
	if from := graftedFrom(entries); from != 0 {
		return c.combs[from]
	}
	return nil
}

// graftedFrom is the breeder that a batch was grafted from, 0 where none is on record.
func graftedFrom(entries []Entry) int {
	for _, e := range entries {
		if e.Action == Did && e.Step == Graft {
			return e.From
		}
	}
	return 0
}

// both reports whether a builder finishes the cells that it starts.
func (p *settling) both(name string) bool {
	if name == "" {
		return false
	}
	b, _ := FoldBuilder(name, p.effective(BuilderSubject(name)))
	return b.Both
}

// finishes has the batches of a builder looked at once it starts or stops finishing its own
// cells.
func (p *settling) finishes(s Subject) {
	if p.c.builders[s.Key].Both == p.both(s.Key) {
		return
	}
	for _, b := range p.c.Batches() {
		if b.Start == s.Key {
			p.add(BatchSubject(b.Number))
		}
	}
}

// incubator has those batches looked at that are or were in it.
func (p *settling) incubator(s Subject) {
	c := p.c
	in, exists := FoldIncubator(s.Key, p.effective(s))
	if exists {
		c.incubators[s.Key] = in
	} else {
		delete(c.incubators, s.Key)
	}
	for _, b := range c.Batches() {
		if b.Account.Was(IncubatorPlace(s.Key)) {
			p.add(BatchSubject(b.Number))
		}
	}
}

func (p *settling) breeder(s Subject) {
	c, n := p.c, s.Number()
	entries := p.effective(s)
	var grafts []GraftRef
	for _, b := range c.Batches() {
		if b.Breeder == n {
			grafts = append(grafts, b.GraftRef())
		}
	}
	b, exists, combs, tasks := PlanBreeder(n, entries, grafts, c.flow, c.settings)
	tasks = append(tasks, PlannedTasks(PlannedOf(c.booked, n), combs, grafts, entries, c.settings)...)
	b.Added = inMillis(b.Added)
	if exists {
		c.breeders[n] = b
	} else {
		delete(c.breeders, n)
	}
	p.put(s, tasks)
}

func (p *settling) builder(s Subject) {
	c := p.c
	var bars []BarRef
	for _, b := range c.Batches() {
		if b.Builder == s.Key {
			bars = append(bars, b.Bar())
		}
	}
	b, exists, tasks := PlanBuilder(s.Key, p.effective(s), bars, c.flow, c.settings)
	if exists {
		c.builders[s.Key] = b
	} else {
		delete(c.builders, s.Key)
	}
	p.put(s, tasks)
}

func (p *settling) yard(s Subject) {
	c := p.c
	entries := p.effective(s)
	y, exists, tasks := PlanYard(s.Key, entries, c.flow, c.settings)
	tasks = append(tasks, YardDrones(s.Key, DroneGrafts(c.booked, s.Key), c.drones, entries, c.settings)...)
	if exists {
		c.yards[s.Key] = y
	} else {
		delete(c.yards, s.Key)
	}
	p.put(s, tasks)
}

// put gives a subject its tasks.
func (p *settling) put(s Subject, tasks []Task) {
	p.planned = append(p.planned, Replanned{s, p.c.tasks[s]})
	for i := range tasks {
		t := &tasks[i]
		t.Earliest, t.Best, t.Latest, t.Ideal = inMillis(t.Earliest), inMillis(t.Best), inMillis(t.Latest), inMillis(t.Ideal)
		t.Snoozed, t.Anchor = inMillis(t.Snoozed), inMillis(t.Anchor)
	}
	slices.SortFunc(tasks, byBest)
	if len(tasks) == 0 {
		delete(p.c.tasks, s)
		return
	}
	p.c.tasks[s] = tasks
}
