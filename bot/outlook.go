package bot

import (
	"time"

	"yardbell/rules"
	"yardbell/store"
)

// outlook is what the planning of a crew rests on as its logbook stands.
type outlook struct {
	tx      *store.Tx
	s       *rules.Settings
	trials  []rules.Trial
	season  rules.Yields // without groups
	counted int          // batches of which anything was counted
	book    []rules.Booked
	batches []rules.Batch
	combs   map[int][]rules.Comb
	planned rules.Calendar
	limits  rules.Limits
	skipped map[string]bool // planned confinements that were let go
	living  map[int]bool    // the breeders that may be planned with
}

func outlookOf(tx *store.Tx, crew int64, s *rules.Settings) (*outlook, error) {
	o := &outlook{tx: tx, s: s, combs: map[int][]rules.Comb{}, limits: rules.DefaultLimits, skipped: map[string]bool{}, living: map[int]bool{}}
	var err error
	if o.batches, err = tx.Batches(crew); err != nil {
		return nil, err
	}
	if o.book, err = tx.Book(crew); err != nil {
		return nil, err
	}
	entries, err := tx.BatchEntries(crew)
	if err != nil {
		return nil, err
	}
	for _, b := range o.batches {
		more := rules.TrialsOf(b, entries[b.Number], s.Zone)
		o.trials = append(o.trials, more...)
		if len(more) > 0 {
			o.counted++
		}
	}
	o.season = rules.FitSeason(o.trials)
	breeders, err := tx.Breeders(crew)
	if err != nil {
		return nil, err
	}
	for _, b := range breeders {
		o.limits.Breeders = append(o.limits.Breeders, b.Number)
		o.living[b.Number] = true
		if err := o.breeder(crew, b.Number); err != nil {
			return nil, err
		}
		o.limits.Stays = append(o.limits.Stays, rules.StaysOf(o.combs[b.Number])...)
	}
	for _, b := range o.book {
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
func (o *outlook) breeder(crew int64, n int) (err error) {
	if _, read := o.combs[n]; read {
		return nil
	}
	if o.combs[n], err = o.tx.Combs(crew, n); err != nil {
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
func (o *outlook) fill(crew int64, entries map[int][]rules.Entry) error {
	builders, yards, err := o.tx.Names(crew)
	if err != nil {
		return err
	}
	for _, b := range builders {
		o.planned.Places = append(o.planned.Places, rules.Place{Subject: rules.BuilderSubject(b), Size: 1})
	}
	list, err := o.tx.Yards(crew)
	if err != nil {
		return err
	}
	for _, y := range list {
		if y.Nucs > 0 {
			o.planned.Places = append(o.planned.Places, rules.Place{Subject: rules.YardSubject(y.Name), Size: y.Nucs})
		}
	}
	to := map[int]string{} // where the cells of a batch that are not moved yet will go
	if len(yards) == 1 {
		for _, b := range o.batches {
			to[b.Number] = yards[0]
		}
	}
	for _, b := range o.book {
		for _, r := range o.rounds(b) {
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
			o.planned = o.planned.Add(rules.RoundUses(b.Number, left, o.s)...)
			if len(r.Combs) == 0 && len(r.Left) > 0 {
				for _, n := range r.Breeders {
					o.limits.Stays = append(o.limits.Stays, rules.Stay{Breeder: n, From: r.Confined, To: r.Out})
				}
			}
		}
	}
	for _, b := range o.batches {
		o.planned = o.planned.Add(rules.BatchUses(b, entries[b.Number], to[b.Number], o.s)...)
	}
	return nil
}

// rounds are the rounds of an order as they stand.
func (o *outlook) rounds(b rules.Booked) []rules.RoundState {
	return rules.OrderState(b, o.book, o.combs, o.batches, func(n int, occ string) bool {
		return !o.living[n] || o.skipped[rules.TaskKey(rules.BreederSubject(n), rules.Confine, occ)]
	}, o.tx.Now)
}

// chance is that of an order being filled by what it has, and the numbers that it
// gives nine times in ten.
func (o *outlook) chance(b rules.Booked) (p float64, lo, hi int) {
	return rules.ChanceFilled(o.season, b.Want, b.Unit, rules.PartsOf(o.rounds(b), b.Unit))
}

func (o *outlook) planner() *rules.Planner {
	return rules.NewPlanner(o.season, o.planned, o.limits, o.s)
}

// order finds an order by its number.
func (o *outlook) order(n int) (rules.Booked, bool) {
	for _, b := range o.book {
		if b.Number == n {
			return b, true
		}
	}
	return rules.Booked{}, false
}

// running reports whether an order is still to be filled.
func running(b rules.Booked, now time.Time) bool { return !b.Cancelled && now.Before(b.By) }

// has reports whether a batch is one of an order's.
func (o *outlook) has(b rules.Booked, batch int) bool {
	for _, r := range o.rounds(b) {
		for _, x := range r.Batches {
			if x.Number == batch {
				return true
			}
		}
	}
	return false
}

// openOrders is how many orders are still to be filled.
func (o *outlook) openOrders() (n int) {
	for _, b := range o.book {
		if !b.Cancelled && b.By.After(o.tx.Now) {
			n++
		}
	}
	return n
}
