package store

import (
	"strconv"

	"yardbell/rules"
)

// Book is every order of a crew that was accepted, by number. Orders have no rows of
// their own: what they lead to are tasks, and the rest is read from their lines.
func (t *Tx) Book(crew int64) ([]rules.Booked, error) {
	s, err := t.Settings(crew)
	if err != nil {
		return nil, err
	}
	entries, err := t.orderEntries(crew)
	if err != nil {
		return nil, err
	}
	return bookOf(entries, s), nil
}

func (t *Tx) orderEntries(crew int64) ([]rules.Entry, error) {
	return shelved(t, crew, ordersSlot, func() ([]rules.Entry, error) {
		return t.entries(`e.crew_id = 0 + ? AND e.subject_kind = 'order'`, crew)
	})
}

func bookOf(entries []rules.Entry, s *rules.Settings) (book []rules.Booked) {
	lines := map[int][]rules.Entry{}
	last := 0
	for _, e := range entries {
		n := e.Subject.Number()
		lines[n] = append(lines[n], e)
		last = max(last, n)
	}
	for n := 1; n <= last; n++ {
		if b, exists := rules.BookedOf(n, rules.Effective(lines[n]), s); exists {
			book = append(book, b)
		}
	}
	return book
}

// LastOrderNumber is the highest order number ever given out; numbers are not used
// again.
func (t *Tx) LastOrderNumber(crew int64) (n int, err error) { return t.highest(crew, rules.OrderKind) }

// BatchEntries are the effective entries of all batches of a crew, by batch.
func (t *Tx) BatchEntries(crew int64) (map[int][]rules.Entry, error) {
	entries, err := t.entries(`e.crew_id = 0 + ? AND e.subject_kind = 'batch'`, crew)
	if err != nil {
		return nil, err
	}
	out := map[int][]rules.Entry{}
	for _, e := range entries {
		n := e.Subject.Number()
		out[n] = append(out[n], e)
	}
	for n := range out {
		out[n] = rules.Effective(out[n])
	}
	return out, nil
}

// order reaches the breeders and yards that any line about an order names: those of
// lines that were taken back lose their tasks.
func (r *replan) order(s rules.Subject) error {
	for _, e := range r.orders {
		if e.Subject != s || e.Detail.Plan == nil {
			continue
		}
		for _, k := range e.Detail.Plan.Rounds {
			for _, n := range k.Breeders {
				r.add(rules.Subject{Kind: rules.BreederKind, Key: strconv.Itoa(n)})
			}
			for _, b := range k.Batches {
				for _, y := range b.Nucs {
					r.add(rules.YardSubject(y.Yard))
				}
			}
		}
	}
	return nil
}
