package store

import (
	"cmp"
	"slices"

	"yardbell/rules"
)

// Replan derives anew what the subjects lead to: their own rows, the batches of
// a breeder whose combs changed, the breeder and builders of a batch. What comes
// out depends on the logbook alone, never on the order in which it was written or
// on the clock, so that Rebuild comes to the same.
func (t *Tx) Replan(crew int64, touched ...rules.Subject) error {
	r, err := t.replan(crew)
	if err != nil {
		return err
	}
	for _, s := range touched {
		if s.Zero() {
			// A crew-wide line: settings reach every task, the honey flow every place.
			return r.everything()
		}
		r.add(s)
	}
	return r.run()
}

// Touched are the subjects that an entry leads to.
func Touched(e rules.Entry) []rules.Subject {
	out := []rules.Subject{e.Subject}
	if e.From != 0 {
		out = append(out, rules.BreederSubject(e.From))
	}
	if e.Into != "" && (e.Step == rules.Graft || e.Step == rules.Finish) {
		out = append(out, rules.BuilderSubject(e.Into))
	}
	if e.Step == rules.Dearth || e.Step == rules.Flow {
		out = append(out, rules.Subject{})
	}
	return out
}

type replan struct {
	t      *Tx
	crew   int64
	s      *rules.Settings
	flow   []rules.FlowLine
	drones []rules.Entry // lines about drone comb, of any yard
	orders []rules.Entry // lines about orders, those taken back among them
	booked []rules.Booked
	all    bool
	book   map[rules.Subject][]rules.Entry
	seen   map[rules.Subject]bool
	todo   []rules.Subject
}

func (t *Tx) replan(crew int64) (*replan, error) {
	r := &replan{t: t, crew: crew, seen: map[rules.Subject]bool{}, book: map[rules.Subject][]rules.Entry{}}
	return r, r.load()
}

func (r *replan) load() (err error) {
	if r.s, err = r.t.Settings(r.crew); err != nil {
		return err
	}
	entries, err := r.t.groundEntries(r.crew)
	if err != nil {
		return err
	}
	r.drones = rules.Effective(entries)
	r.flow = rules.FlowLines(r.drones)
	if r.orders, err = r.t.orderEntries(r.crew); err == nil && len(r.orders) > 0 {
		r.booked = bookOf(r.orders, r.s)
	}
	return err
}

func (r *replan) add(s rules.Subject) {
	if none := s.Zero() || s.Key == "" || s == rules.BreederSubject(0); !none && !r.seen[s] {
		r.seen[s] = true
		r.todo = append(r.todo, s)
	}
}

// everything plans every subject the logbook mentions.
func (r *replan) everything() error {
	r.all = true
	for _, kind := range []rules.Kind{rules.OrderKind, rules.BreederKind, rules.BatchKind, rules.BuilderKind, rules.YardKind} {
		list, err := r.t.subjects(r.crew, kind)
		if err != nil {
			return err
		}
		for _, s := range list {
			r.add(s)
		}
	}
	if err := r.run(); err != nil {
		return err
	}
	return r.t.EnsureDigest(r.crew)
}

// run works in rounds, because an order reaches breeders and yards, a batch reads its
// breeder's combs, and a breeder's and a builder's tasks read the batches.
func (r *replan) run() error {
	for _, round := range []struct {
		kind rules.Kind
		do   func(rules.Subject) error
	}{
		{rules.OrderKind, r.order},
		{rules.BreederKind, r.combs},
		{rules.BatchKind, r.batch},
		{rules.BreederKind, r.breeder},
		{rules.BuilderKind, r.builder},
		{rules.YardKind, r.yard},
	} {
		// A round may add subjects of later rounds; breeders that a batch adds get
		// their combs before they are needed, since those did not change.
		for i := 0; i < len(r.todo); i++ {
			if r.todo[i].Kind == round.kind {
				if err := round.do(r.todo[i]); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// effective reads a subject's logbook once: a breeder is looked at in two rounds,
// and nothing is appended meanwhile.
func (r *replan) effective(s rules.Subject) ([]rules.Entry, error) {
	if list, had := r.book[s]; had {
		return list, nil
	}
	entries, err := r.t.LookAtEntries(r.crew, s)
	if err != nil {
		return nil, err
	}
	r.book[s] = rules.Effective(entries)
	return r.book[s], nil
}

func (r *replan) combs(s rules.Subject) error {
	entries, err := r.effective(s)
	if err != nil {
		return err
	}
	from, changed, err := r.t.putCombs(r.crew, s.Number(), rules.Combs(s.Number(), entries))
	if err != nil || !changed {
		return err
	}
	return r.t.EachBatch(r.crew, func(b *rules.Batch) {
		if b.Breeder == s.Number() && !b.Grafted.Before(from) {
			r.add(batchSubject(*b))
		}
	})
}

func (r *replan) batch(s rules.Subject) error {
	old, had, err := r.t.Batch(r.crew, s.Number())
	if err != nil {
		return err
	}
	entries, err := r.effective(s)
	if err != nil {
		return err
	}
	var combs []rules.Comb
	if from := breederOf(entries); from != 0 {
		if combs, err = r.t.lookAtCombs(r.crew, from); err != nil {
			return err
		}
	}
	was := old
	if r.all {
		was = rules.Batch{} // under other settings
	}
	b, exists := rules.BatchOf(s.Number(), entries, combs, r.s, was)
	b.Number = s.Number()
	b = storedBatch(b)
	if err := r.t.putBatch(r.crew, b, exists); err != nil {
		return err
	}
	var tasks []rules.Task
	if exists {
		tasks = rules.BatchTasks(b, entries, r.s)
		if b.Builder == "" {
			tasks = append(tasks, rules.LooseRogue(b, entries, r.s))
		}
	}
	// Its breeder and its builder look at little of it, and most lines change none of that.
	if r.all || had != exists || old.Breeder != b.Breeder || old.GraftRef() != b.GraftRef() {
		r.add(rules.BreederSubject(old.Breeder))
		r.add(rules.BreederSubject(b.Breeder))
	}
	if r.all || had != exists || old.Builder != b.Builder || old.Bar() != b.Bar() {
		r.add(rules.BuilderSubject(old.Builder))
		r.add(rules.BuilderSubject(b.Builder))
	}
	return r.t.putTasks(r.crew, r.s, s, tasks, r.all)
}

func breederOf(entries []rules.Entry) int {
	for _, e := range entries {
		if e.Action == rules.Did && e.Step == rules.Graft {
			return e.From
		}
	}
	return 0
}

func (r *replan) breeder(s rules.Subject) error {
	entries, err := r.effective(s)
	if err != nil {
		return err
	}
	var grafts []rules.GraftRef
	if err := r.t.EachBatch(r.crew, func(b *rules.Batch) {
		if b.Breeder == s.Number() {
			grafts = append(grafts, b.GraftRef())
		}
	}); err != nil {
		return err
	}
	b, exists, combs, tasks := rules.PlanBreeder(s.Number(), entries, grafts, r.flow, r.s)
	tasks = append(tasks, rules.PlannedTasks(rules.PlannedOf(r.booked, s.Number()), combs, grafts, entries, r.s)...)
	if err := r.t.putBreeder(r.crew, b, exists); err != nil {
		return err
	}
	return r.t.putTasks(r.crew, r.s, s, tasks, r.all)
}

func (r *replan) builder(s rules.Subject) error {
	entries, err := r.effective(s)
	if err != nil {
		return err
	}
	var bars []rules.BarRef
	if err := r.t.EachBatch(r.crew, func(b *rules.Batch) {
		if b.Builder == s.Key {
			bars = append(bars, b.Bar())
		}
	}); err != nil {
		return err
	}
	b, exists, tasks := rules.PlanBuilder(s.Key, entries, bars, r.flow, r.s)
	if err := r.t.putBuilder(r.crew, b, exists); err != nil {
		return err
	}
	return r.t.putTasks(r.crew, r.s, s, tasks, r.all)
}

func (r *replan) yard(s rules.Subject) error {
	entries, err := r.effective(s)
	if err != nil {
		return err
	}
	y, exists, tasks := rules.PlanYard(s.Key, entries, r.flow, r.s)
	tasks = append(tasks, rules.YardDrones(s.Key, rules.DroneGrafts(r.booked, s.Key), r.drones, entries, r.s)...)
	if err := r.t.putYard(r.crew, y, exists); err != nil {
		return err
	}
	return r.t.putTasks(r.crew, r.s, s, tasks, r.all)
}

func sortMessages(list []Message) {
	slices.SortFunc(list, func(a, b Message) int {
		return cmp.Or(cmp.Compare(a.Priority, b.Priority), a.Fire.Compare(b.Fire), cmp.Compare(a.ID, b.ID))
	})
}
