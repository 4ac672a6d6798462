package planning

import (
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
	living  map[int]bool    // the breeders that may be planned with
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
	o.Season = rules.FitSeason(o.Trials)
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
	return o, o.fill(crew, entries)
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
	builders, yards, err := o.tx.Names(crew)
	if err != nil {
		return err
	}
	for _, b := range builders {
		o.Planned.Places = append(o.Planned.Places, rules.Place{Subject: rules.BuilderSubject(b), Size: 1})
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

// Chance is that of an order being filled by what it has, and the numbers that it
// gives nine times in ten.
func (o *Outlook) Chance(b rules.Booked) (p float64, lo, hi int) {
	return rules.ChanceFilled(o.Season, b.Want, b.Unit, rules.PartsOf(o.Rounds(b), b.Unit))
}

func (o *Outlook) Planner() *rules.Planner {
	return rules.NewPlanner(o.Season, o.Planned, o.Limits, o.s)
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
	return false
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
