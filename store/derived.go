package store

import (
	"cmp"
	"reflect"
	"slices"
	"strconv"
	"time"

	"yardbell/rules"
)

// This file reads and writes the derived rows apart from tasks. Each is written
// only by Replan.

func scanBreeder(s scanner) (b rules.Breeder, err error) {
	err = s.Scan(&b.Number, &b.Yard, instant{&b.Added}, &b.Comb)
	return b, err
}

// Breeders of a crew by number.
func (t *Tx) Breeders(crew int64) ([]rules.Breeder, error) {
	return shelved(t, crew, breedersSlot, func() ([]rules.Breeder, error) {
		return all(t, scanBreeder, `SELECT number, yard, added_at, comb_id FROM breeders WHERE crew_id = 0 + ? ORDER BY number`, crew)
	})
}

func (t *Tx) putBreeder(crew int64, b rules.Breeder, exists bool) error {
	list, err := t.Breeders(crew)
	if err != nil {
		return err
	}
	b.Added = fromMS(toMS(b.Added))
	i := slices.IndexFunc(list, func(had rules.Breeder) bool { return had.Number == b.Number })
	if !exists && i < 0 || exists && i >= 0 && list[i] == b {
		return nil
	}
	t.unshelve(crew, breedersSlot)
	if !exists {
		_, err := t.shelvedExec(`DELETE FROM breeders WHERE crew_id = 0 + ? AND number = ?`, crew, b.Number)
		return err
	}
	_, err = t.shelvedExec(`INSERT INTO breeders (crew_id, number, yard, added_at, comb_id) VALUES (?, ?, ?, ?, ?)
		ON CONFLICT DO UPDATE SET yard = excluded.yard, added_at = excluded.added_at, comb_id = excluded.comb_id`,
		crew, b.Number, b.Yard, toMS(b.Added), b.Comb)
	return err
}

func scanComb(s scanner) (c rules.Comb, err error) {
	err = s.Scan(&c.ID, &c.Breeder, &c.Mark, instant{&c.Confined}, &c.BeesIn, instant{&c.EggsSeen}, instant{&c.NoEggs}, instant{&c.Out}, &c.Released, &c.Failed)
	return c, err
}

// Combs of a breeder, oldest confinement first.
func (t *Tx) Combs(crew int64, breeder int) ([]rules.Comb, error) {
	return shelved(t, crew, combsSlot(breeder), func() ([]rules.Comb, error) { return t.combRows(crew, breeder) })
}

func (t *Tx) lookAtCombs(crew int64, breeder int) ([]rules.Comb, error) {
	return lookAt(t, crew, combsSlot(breeder), func() ([]rules.Comb, error) { return t.combRows(crew, breeder) })
}

func (t *Tx) combRows(crew int64, breeder int) ([]rules.Comb, error) {
	return all(t, scanComb, `SELECT id, breeder, mark, confined_at, bees_in, eggs_at, no_eggs_at, out_at, released, failed
		FROM combs WHERE crew_id = 0 + ? AND breeder = ? ORDER BY confined_at, id`, crew, breeder)
}

// putCombs writes those of a breeder's combs, a list that becomes its own, that differ
// from their rows. changed says whether any differs from before, and from is the earliest
// confinement of those that do: no graft before it can come from another comb than it did.
func (t *Tx) putCombs(crew int64, breeder int, combs []rules.Comb) (from time.Time, changed bool, err error) {
	old, err := t.lookAtCombs(crew, breeder)
	if err != nil {
		return from, false, err
	}
	differs := func(c *rules.Comb) {
		if !changed || c.Confined.Before(from) {
			from, changed = c.Confined, true
		}
	}
	kept := make([]bool, len(old))
	for i := range combs {
		c := &combs[i]
		for _, at := range []*time.Time{&c.Confined, &c.EggsSeen, &c.NoEggs, &c.Out} {
			*at = fromMS(toMS(*at)) // as it will be read
		}
		if at := seek(old, i, func(o *rules.Comb) bool { return o.ID == c.ID }); at >= 0 {
			kept[at] = true
			if sameComb(&old[at], c) {
				continue
			}
			differs(&old[at])
		}
		differs(c)
		if _, err := t.shelvedExec(`INSERT OR REPLACE INTO combs (crew_id, id, breeder, mark, confined_at, bees_in, eggs_at, no_eggs_at, out_at, released, failed)
			VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
			crew, c.ID, c.Breeder, c.Mark, toMS(c.Confined), c.BeesIn, toMS(c.EggsSeen), toMS(c.NoEggs), toMS(c.Out), c.Released, c.Failed); err != nil {
			return from, true, err
		}
	}
	for i := range old {
		if kept[i] {
			continue
		}
		differs(&old[i])
		if _, err := t.shelvedExec(`DELETE FROM combs WHERE crew_id = 0 + ? AND breeder = ? AND id = ?`, crew, breeder, old[i].ID); err != nil {
			return from, true, err
		}
	}
	if changed {
		slices.SortFunc(combs, func(a, b rules.Comb) int { return cmp.Or(a.Confined.Compare(b.Confined), cmp.Compare(a.ID, b.ID)) })
		reshelve(t, crew, combsSlot(breeder), func([]rules.Comb) []rules.Comb { return combs })
	}
	return from, changed, nil
}

// seek is where a row stands in a list, -1 for nowhere; it is sought first where it may
// well be.
func seek[T any](list []T, hint int, is func(*T) bool) int {
	if hint < len(list) && is(&list[hint]) {
		return hint
	}
	for i := range list {
		if is(&list[i]) {
			return i
		}
	}
	return -1
}

// sameValue compares two values that may not be known.
func sameValue[T comparable](a, b *T) bool { return a == b || a != nil && b != nil && *a == *b }

func sameComb(a, b *rules.Comb) bool {
	if !sameValue(a.BeesIn, b.BeesIn) {
		return false
	}
	x := *a
	x.BeesIn = b.BeesIn
	return x == *b
}

const batchColumns = `number, graft_entry, breeder, comb_id, mark, builder, grafted_at, age_lo, age_hi, age_basis, shift,
	grafted, accepted, capped, nucs, moved, emerged, laying, caught, yards, safe_at, emerges_at, ended, moved_at`

func scanBatch(s scanner) (b rules.Batch, err error) {
	c := &b.Counts
	err = s.Scan(&b.Number, &b.Graft, &b.Breeder, &b.Comb, &b.Mark, &b.Builder, instant{&b.Grafted}, &b.Age.Lo, &b.Age.Hi, &b.Age.Basis, &b.Shift,
		&c.Grafted, &c.Accepted, &c.Capped, &c.Nucs, &c.Moved, &c.Emerged, &c.Laying, &c.Caught, jsonCol{&b.Yards}, instant{&b.Safe}, instant{&b.Emerges}, &b.Ended, instant{&b.Moved})
	return b, err
}

// Batches of a crew by number.
func (t *Tx) Batches(crew int64) ([]rules.Batch, error) {
	return shelved(t, crew, batchesSlot, func() ([]rules.Batch, error) { return t.batchRows(crew) })
}

// EachBatch shows every batch of a crew by number. see must not write.
func (t *Tx) EachBatch(crew int64, see func(*rules.Batch)) error {
	list, err := lookAt(t, crew, batchesSlot, func() ([]rules.Batch, error) { return t.batchRows(crew) })
	for i := range list {
		see(&list[i])
	}
	return err
}

func (t *Tx) batchRows(crew int64) ([]rules.Batch, error) {
	return all(t, scanBatch, `SELECT `+batchColumns+` FROM batches WHERE crew_id = 0 + ? ORDER BY number`, crew)
}

// Batch reads one batch; found is false where it never was or was taken back.
func (t *Tx) Batch(crew int64, number int) (b rules.Batch, found bool, err error) {
	list, atHand := onShelf[rules.Batch](t, crew, batchesSlot)
	if !atHand {
		list, err = all(t, scanBatch, `SELECT `+batchColumns+` FROM batches WHERE crew_id = 0 + ? AND number = ?`, crew, number)
	}
	i, found := findBatch(list, number)
	if found {
		b = list[i]
	}
	return b, found, err
}

func findBatch(list []rules.Batch, number int) (int, bool) {
	return slices.BinarySearchFunc(list, number, func(b rules.Batch, n int) int { return cmp.Compare(b.Number, n) })
}

// storedBatch is a batch as its row will read.
func storedBatch(b rules.Batch) rules.Batch {
	if b.Yards == nil {
		b.Yards = []string{}
	}
	for _, at := range []*time.Time{&b.Grafted, &b.Safe, &b.Emerges, &b.Moved} {
		*at = fromMS(toMS(*at))
	}
	return b
}

// putBatch writes a batch where it differs from its row.
func (t *Tx) putBatch(crew int64, b rules.Batch, exists bool) error {
	had, found, err := t.Batch(crew, b.Number)
	if err != nil || !exists && !found || exists && found && reflect.DeepEqual(had, b) {
		return err
	}
	reshelve(t, crew, batchesSlot, func(list []rules.Batch) []rules.Batch {
		i, found := findBatch(list, b.Number)
		switch {
		case !exists && found:
			return slices.Delete(list, i, i+1)
		case exists && found:
			list[i] = b
		case exists:
			return slices.Insert(list, i, b)
		}
		return list
	})
	if !exists {
		_, err := t.shelvedExec(`DELETE FROM batches WHERE crew_id = 0 + ? AND number = ?`, crew, b.Number)
		return err
	}
	c := b.Counts
	_, err = t.shelvedExec(`INSERT OR REPLACE INTO batches (crew_id, `+batchColumns+`) VALUES (`+places(25)+`)`,
		crew, b.Number, b.Graft, b.Breeder, b.Comb, b.Mark, b.Builder, toMS(b.Grafted), b.Age.Lo, b.Age.Hi, b.Age.Basis, b.Shift,
		c.Grafted, c.Accepted, c.Capped, c.Nucs, c.Moved, c.Emerged, c.Laying, c.Caught, toJSON(b.Yards), toMS(b.Safe), toMS(b.Emerges), b.Ended, toMS(b.Moved))
	return err
}

// Builders of a crew by name.
func (t *Tx) Builders(crew int64) ([]rules.Builder, error) {
	return shelved(t, crew, buildersSlot, func() ([]rules.Builder, error) {
		return all(t, func(s scanner) (b rules.Builder, err error) {
			err = s.Scan(&b.Name, &b.Yard)
			return b, err
		}, `SELECT name, yard FROM builders WHERE crew_id = 0 + ? ORDER BY name`, crew)
	})
}

func (t *Tx) putBuilder(crew int64, b rules.Builder, exists bool) error {
	list, err := t.Builders(crew)
	if err != nil || slices.Contains(list, b) == exists && (exists || !slices.ContainsFunc(list, func(had rules.Builder) bool { return had.Name == b.Name })) {
		return err
	}
	t.unshelve(crew, buildersSlot)
	if !exists {
		_, err := t.shelvedExec(`DELETE FROM builders WHERE crew_id = 0 + ? AND name = ?`, crew, b.Name)
		return err
	}
	_, err = t.shelvedExec(`INSERT INTO builders (crew_id, name, yard) VALUES (?, ?, ?) ON CONFLICT DO UPDATE SET yard = excluded.yard`, crew, b.Name, b.Yard)
	return err
}

// Yards of a crew by name.
func (t *Tx) Yards(crew int64) ([]rules.Yard, error) {
	return shelved(t, crew, yardsSlot, func() ([]rules.Yard, error) {
		return all(t, func(s scanner) (y rules.Yard, err error) {
			err = s.Scan(&y.Name, &y.Nucs)
			return y, err
		}, `SELECT name, nucs FROM yards WHERE crew_id = 0 + ? ORDER BY name`, crew)
	})
}

func (t *Tx) putYard(crew int64, y rules.Yard, exists bool) error {
	list, err := t.Yards(crew)
	if err != nil || slices.Contains(list, y) == exists && (exists || !slices.ContainsFunc(list, func(had rules.Yard) bool { return had.Name == y.Name })) {
		return err
	}
	t.unshelve(crew, yardsSlot)
	if !exists {
		_, err := t.shelvedExec(`DELETE FROM yards WHERE crew_id = 0 + ? AND name = ?`, crew, y.Name)
		return err
	}
	_, err = t.shelvedExec(`INSERT INTO yards (crew_id, name, nucs) VALUES (?, ?, ?) ON CONFLICT DO UPDATE SET nucs = excluded.nucs`, crew, y.Name, y.Nucs)
	return err
}

// Names are the names of a crew's builders and yards.
func (t *Tx) Names(crew int64) (builders, yards []string, err error) {
	bs, err := t.Builders(crew)
	if err != nil {
		return nil, nil, err
	}
	ys, err := t.Yards(crew)
	for _, b := range bs {
		builders = append(builders, b.Name)
	}
	for _, y := range ys {
		yards = append(yards, y.Name)
	}
	return builders, yards, err
}

func batchSubject(b rules.Batch) rules.Subject {
	return rules.Subject{Kind: rules.BatchKind, Key: strconv.Itoa(b.Number)}
}
