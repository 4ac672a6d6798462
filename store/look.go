package store

import (
	"errors"
	"maps"
	"slices"

	"yardbell/rules"
)

// errLook is what a look gives that is asked to write.
var errLook = errors.New("a look at the file writes nothing")

// Look is the transaction to be looked at only: what would write by it fails.
func (t *Tx) Look() *Tx {
	v := *t
	v.look, v.models = t, maps.Clone(t.models)
	return &v
}

// With is a look at the file as it would be with some more lines of one update in a crew's
// logbook, which it gives with the numbers that Append will give them.
func (t *Tx) With(crew, update int64, by Member, message int64, raw string, entries ...rules.Entry) (*Tx, []rules.Entry, error) {
	v := t.Look()
	m, err := v.Model(crew)
	if err != nil {
		return nil, nil, err
	}
	m = m.Clone()
	v.use(crew, ofTx{model: m})
	last, _, err := v.newestLine()
	if n := len(t.unwritten); n > 0 {
		last = t.unwritten[n-1].ID
	}
	v.unwritten, entries = slices.Clip(t.unwritten), slices.Clone(entries)
	for i := range entries {
		e := &entries[i]
		last++
		e.ID, e.By = last, by.Name
		stored := storedEntry(*e, toJSON(e.Detail))
		m.Apply(stored)
		v.unwritten = append(v.unwritten, Line{Entry: stored, Crew: crew, Update: update, Member: by.ID, Message: message, Raw: raw})
	}
	m.Settle()
	return v, entries, err
}

// withUnwritten adds the lines of a look that are not written yet to those that are.
func (t *Tx) withUnwritten(list []Line, err error, fits func(Line) bool) ([]Line, error) {
	for _, l := range t.unwritten {
		if fits(l) {
			list = append(list, l)
		}
	}
	return list, err
}
