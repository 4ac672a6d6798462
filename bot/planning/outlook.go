package planning

import (
	"slices"
	"time"

	"yardbell/rules"
	"yardbell/store"
)

// Outlook is what the planning of a crew rests on as its logbook stands.
type Outlook struct {
	tx      *store.Tx
	s       *rules.Settings
	Trials  []rules.Trial
	Season  rules.Yields // without groups
	Counted int          // batches of which anything was counted
	Book    []rules.Booked
	batches []rules.Batch
	Combs   map[int][]rules.Comb
	Planned rules.Calendar
	Limits  rules.Limits
	skipped map[string]bool // planned confinements that were let go
	planner *rules.Planner
	living  map[int]bool // the breeders that may be planned with
}

func Of(tx *store.Tx, crew int64, s *rules.Settings) (*Outlook, error) {
	o := &Outlook{tx: tx, s: s, Combs: map[int][]rules.Comb{}, Limits: rules.DefaultLimits, skipped: map[string]bool{}, living: map[int]bool{}}
	var err error
	if o.batches, err = tx.Batches(crew); err != nil {
		return nil, err
	}
	if o.Book, err = tx.Book(crew); err != nil {
		return nil, err
	}
	entries, err := tx.BatchEntries(crew)
	if err != nil {
		return nil, err
	}
	for _, b := range o.batches {
		more := rules.TrialsOf(b, entries[b.Number], s.Zone)
		o.Trials = append(o.Trials, more...)
		if len(more) > 0 {
			o.Counted++
		}
	}
	o.Season = rules.FitSeason(o.Trials, s.Said)
	breeders, err := tx.Breeders(crew)
	if err != nil {
		return nil, err
	}
	for _, b := range breeders {
		o.Limits.Breeders = append(o.Limits.Breeders, b.Number)
		o.living[b.Number] = true
		if err := o.breeder(crew, b.Number); err != nil {
			return nil, err
		}
		o.Limits.Stays = append(o.Limits.Stays, rules.StaysOf(o.Combs[b.Number])...)
	}
	for _, b := range o.Book {
		for _, r := range b.Rounds {
			for _, n := range r.Breeders {
				if o.living[n] {
					continue
				}
				// One who is gone: what she gave to an order before is still its.
				if err := o.breeder(crew, n); err != nil {
					return nil, err
				}
			}
		}
	}
	if err := o.fill(crew, entries); err != nil {
		return nil, err
	}
	o.underWay()
	return o, nil
}

// underWay is what may be counted on before anything new is begun: batches that no order
// has, and combs that are in and not planned with.
func (o *Outlook) underWay() {
	theirs, combs, taken := map[int]bool{}, map[int64]bool{}, map[int64]int{}
	var promised []rules.Promise
	for _, b := range o.Book {
		if !Running(b, o.tx.Now) {
			continue
		}
		promised = append(promised, b.Batches...)
		for _, r := range o.Rounds(b) {
			for _, x := range r.Batches {
				theirs[x.Number] = true
			}
			for _, c := range r.Combs {
				combs[c.ID] = combs[c.ID] || len(r.Left) > 0
			}
			if r.Comb != nil && len(r.Left) > 0 {
				combs[r.Comb.ID] = true
			}
		}
	}
	o.Limits.OnTheWay = rules.WayOf(o.batches, theirs, promised, o.s, o.tx.Now)
	for _, b := range o.batches {
		if b.Comb != 0 && b.Counts.Grafted != nil {
			taken[b.Comb] += *b.Counts.Grafted
		}
	}
	for _, n := range o.Limits.Breeders {
		for _, c := range o.Combs[n] {
			if !c.Failed && !combs[c.ID] && taken[c.ID] == 0 {
				o.Limits.Combs = append(o.Limits.Combs, rules.CombLeft{Comb: c})
			}
		}
	}
}

// breeder reads a breeder's combs, and which of her planned confinements were let go.
func (o *Outlook) breeder(crew int64, n int) (err error) {
	if _, read := o.Combs[n]; read {
		return nil
	}
	if o.Combs[n], err = o.tx.Combs(crew, n); err != nil {
		return err
	}
	tasks, err := o.tx.SubjectTasks(crew, rules.BreederSubject(n))
	for _, k := range tasks {
		if k.Step == rules.Confine && k.State == rules.Skipped {
			o.skipped[k.Key] = true
		}
	}
	return err
}

// fill books the crew's places: batches on their way, then the planned rounds of
// which nothing is grafted yet.
func (o *Outlook) fill(crew int64, entries map[int][]rules.Entry) error {
	_, yards, err := o.tx.Names(crew)
	if err != nil {
		return err
	}
	builders, err := o.tx.Builders(crew)
	if err != nil {
		return err
	}
	for _, b := range builders {
		place := rules.Place{Subject: rules.BuilderSubject(b.Name), Size: 1, Cells: b.Room}
		if b.Rests {
			place.Size = 0
		}
		o.Planned.Places = append(o.Planned.Places, place)
	}
	list, err := o.tx.Yards(crew)
	if err != nil {
		return err
	}
	for _, y := range list {
		if y.Nucs > 0 {
			o.Planned.Places = append(o.Planned.Places, rules.Place{Subject: rules.YardSubject(y.Name), Size: y.Nucs})
		}
	}
	to := map[int]string{} // where the cells of a batch that are not moved yet will go
	if len(yards) == 1 {
		for _, b := range o.batches {
			to[b.Number] = yards[0]
		}
	}
	for _, b := range o.Book {
		for _, r := range o.Rounds(b) {
			for _, x := range r.Batches {
				to[x.Number] = ""
				for _, k := range r.Round.Batches {
					if len(k.Nucs) > 0 && (to[x.Number] == "" || k.Builder == x.Builder) {
						to[x.Number] = k.Nucs[0].Yard
					}
				}
			}
			left := r.Round
			left.Batches = r.Left
			o.Planned = o.Planned.Add(rules.RoundUses(b.Number, left, o.s)...)
			if len(r.Combs) == 0 && len(r.Left) > 0 {
				for _, n := range r.Breeders {
					o.Limits.Stays = append(o.Limits.Stays, rules.Stay{Breeder: n, From: r.Confined, To: r.Out})
				}
			}
		}
	}
	for _, b := range o.batches {
		o.Planned = o.Planned.Add(rules.BatchUses(b, entries[b.Number], to[b.Number], o.s)...)
	}
	return nil
}

// Rounds are the rounds of an order as they stand.
func (o *Outlook) Rounds(b rules.Booked) []rules.RoundState {
	return rules.OrderState(b, o.Book, o.Combs, o.batches, func(n int, occ string) bool {
		return !o.living[n] || o.skipped[rules.TaskKey(rules.BreederSubject(n), rules.Confine, occ)]
	}, o.tx.Now)
}

// Parts are what an order draws on as it stands.
func (o *Outlook) Parts(b rules.Booked) []rules.Part {
	return append(rules.PartsOf(o.Rounds(b), b.Unit, o.s), rules.PromisedParts(b, o.batches, o.s)...)
}

// Chance is that of an order being filled by what it has, and the numbers that it gives.
func (o *Outlook) Chance(b rules.Booked) rules.Outcome {
	return o.Planner().Chance(b.Order, o.Parts(b))
}

// Planner is made once: it remembers what is dear to work out.
func (o *Outlook) Planner() *rules.Planner {
	if o.planner == nil {
		o.planner = rules.NewPlanner(o.Season, o.Planned, o.Limits, o.s)
	}
	return o.planner
}

// Order finds an order by its number.
func (o *Outlook) Order(n int) (rules.Booked, bool) {
	for _, b := range o.Book {
		if b.Number == n {
			return b, true
		}
	}
	return rules.Booked{}, false
}

// Running reports whether an order is still to be filled.
func Running(b rules.Booked, now time.Time) bool { return !b.Cancelled && now.Before(b.By) }

// Uses reports whether a batch is one of an order's.
func (o *Outlook) Uses(b rules.Booked, batch int) bool {
	for _, r := range o.Rounds(b) {
		for _, x := range r.Batches {
			if x.Number == batch {
				return true
			}
		}
	}
	return slices.ContainsFunc(b.Batches, func(k rules.Promise) bool { return k.Batch == batch })
}

// OpenOrders is how many orders are still to be filled.
func (o *Outlook) OpenOrders() (n int) {
	for _, b := range o.Book {
		if !b.Cancelled && b.By.After(o.tx.Now) {
			n++
		}
	}
	return n
}

// Stands reports that what a plan begins with can still be done: its rounds lie ahead, its
// combs and its batches are no other order's.
func (o *Outlook) Stands(k rules.Booking) bool {
	for _, r := range k.Rounds {
		begins, ahead := r.Confine, true
		if r.Comb != 0 {
			begins = r.Graft
			ahead = slices.ContainsFunc(o.Limits.Combs, func(c rules.CombLeft) bool { return c.ID == r.Comb })
		}
		if !ahead || time.UnixMilli(begins).Before(o.tx.Now) {
			return false
		}
	}
	for _, p := range k.Batches {
		if !slices.ContainsFunc(o.Limits.OnTheWay, func(w rules.OnTheWay) bool {
			return w.Batch == p.Batch && w.After <= p.After && p.After+p.N <= w.After+w.Most
		}) {
			return false
		}
	}
	return true
}
