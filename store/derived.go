package store

import "yardbell/rules"

// This file gives parts of a crew's model, to be looked at only.

// Breeders of a crew by number.
func (t *Tx) Breeders(crew int64) ([]rules.Breeder, error) {
	return fromModel(t, crew, (*rules.Crew).Breeders)
}

// Combs of a breeder, oldest confinement first.
func (t *Tx) Combs(crew int64, breeder int) ([]rules.Comb, error) {
	return fromModel(t, crew, func(m *rules.Crew) []rules.Comb { return m.Combs(breeder) })
}

// Batches of a crew by number.
func (t *Tx) Batches(crew int64) ([]rules.Batch, error) {
	return fromModel(t, crew, (*rules.Crew).Batches)
}

// Batch is one batch; found is false where it never was or was taken back.
func (t *Tx) Batch(crew int64, number int) (b rules.Batch, found bool, err error) {
	m, err := t.Model(crew)
	if err != nil {
		return b, false, err
	}
	b, found = m.Batch(number)
	return b, found, nil
}

// BatchEntries are the effective entries of all batches of a crew, by batch.
func (t *Tx) BatchEntries(crew int64) (map[int][]rules.Entry, error) {
	return fromModel(t, crew, func(m *rules.Crew) map[int][]rules.Entry {
		out := map[int][]rules.Entry{}
		for _, s := range m.Subjects(rules.BatchKind) {
			out[s.Number()] = m.Effective(s)
		}
		return out
	})
}

// Builders of a crew by name.
func (t *Tx) Builders(crew int64) ([]rules.Builder, error) {
	return fromModel(t, crew, (*rules.Crew).Builders)
}

// Yards of a crew by name.
func (t *Tx) Yards(crew int64) ([]rules.Yard, error) {
	return fromModel(t, crew, (*rules.Crew).Yards)
}

// Names are the names of a crew's builders and yards.
func (t *Tx) Names(crew int64) (builders, yards []string, err error) {
	m, err := t.atHand(crew)
	if m == nil && err == nil {
		m, err = t.namesInFile(crew)
	}
	if err != nil {
		return nil, nil, err
	}
	builders, yards = namesOf(m)
	return builders, yards, nil
}

func namesOf(m *rules.Crew) (builders, yards []string) {
	for _, b := range m.Builders() {
		builders = append(builders, b.Name)
	}
	for _, y := range m.Yards() {
		yards = append(yards, y.Name)
	}
	return builders, yards
}

// Book is every order of a crew that was accepted, by number.
func (t *Tx) Book(crew int64) ([]rules.Booked, error) {
	return fromModel(t, crew, (*rules.Crew).Booked)
}

// LastBatchNumber is the highest batch number ever given out; numbers are not
// used again, so that a reply to an old message never means another batch.
func (t *Tx) LastBatchNumber(crew int64) (int, error) {
	return fromModel(t, crew, func(m *rules.Crew) int { return m.Highest(rules.BatchKind) })
}

// LastOrderNumber is the highest order number ever given out; numbers are not
// used again.
func (t *Tx) LastOrderNumber(crew int64) (int, error) {
	return fromModel(t, crew, func(m *rules.Crew) int { return m.Highest(rules.OrderKind) })
}

func fromModel[T any](t *Tx, crew int64, of func(*rules.Crew) T) (T, error) {
	m, err := t.Model(crew)
	if err != nil {
		var none T
		return none, err
	}
	return of(m), nil
}
