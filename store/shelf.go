package store

import (
	"container/list"
	"database/sql"
	"slices"
	"strings"

	"yardbell/rules"
)

// This file keeps at hand what the writing connection has read and written of a crew,
// so that a message costs what it changes and not what the crew ever logged.
//
// It holds rows as the file has them and decides nothing. What is written through one
// of the functions that know the shelf is put right on it; any other write to a table
// that is on it empties it. A transaction that is not committed takes all that it
// looked at off the shelf, and so does a change of the file by anybody else, which
// SQLite counts. Reading transactions have none: they see an older state.

// mostShelved is how many rows are kept, over all crews: those that were looked at
// longest ago go. A row takes about half a kilobyte.
const mostShelved = 60_000

// slot names a list of rows of one crew.
type slot struct {
	what    string
	subject rules.Subject
}

// The lists that are kept.
var (
	settingsSlot = slot{what: "settings"}
	groundSlot   = slot{what: "ground"} // lines about flow and drone comb
	ordersSlot   = slot{what: "orders"}
	onCrewSlot   = slot{what: "on crew"}
	knownSlot    = slot{what: "known"} // who is or was on it
	batchesSlot  = slot{what: "batches"}
	breedersSlot = slot{what: "breeders"}
	buildersSlot = slot{what: "builders"}
	yardsSlot    = slot{what: "yards"}
	openSlot     = slot{what: "open"}
	photosSlot   = slot{what: "photos"} // whether there is any
	digestSlot   = slot{what: "digest"} // that was sent last
)

func linesSlot(s rules.Subject) slot { return slot{"lines", s} }
func tasksSlot(s rules.Subject) slot { return slot{"tasks", s} }
func combsSlot(breeder int) slot     { return slot{"combs", rules.BreederSubject(breeder)} }
func memberSlot(key string) slot     { return slot{"member", rules.Subject{Key: key}} }
func highestSlot(k rules.Kind) slot  { return slot{"highest", rules.Subject{Kind: k}} }

// shelf belongs to the writing connection. Only one transaction writes at a time, so
// that it needs no lock.
type shelf struct {
	crews   map[int64]*crewShelf
	byUse   *list.List // of *crewShelf, the one used last in front
	rows    int
	limit   int
	chats   map[string]map[int64]Crew // by transport and chat
	head    *head
	version int64     // SQLite's count of changes by others
	conn    *sql.Conn // whose count that is: every connection has its own
	tables  map[string]string
}

// crewShelf is what is kept of one crew.
type crewShelf struct {
	crew int64
	at   map[slot]kept
	rows int
	use  *list.Element
}

// kept is a list at hand and how many rows it counts for.
type kept struct {
	rows any
	size int
}

// head is the newest line of the logbook.
type head struct {
	id   int64
	hash []byte
}

func newShelf() *shelf {
	s := &shelf{limit: mostShelved, tables: map[string]string{}}
	s.clear()
	return s
}

func (s *shelf) clear() {
	s.crews, s.byUse, s.rows, s.head = map[int64]*crewShelf{}, list.New(), 0, nil
	s.chats = map[string]map[int64]Crew{}
}

func (s *shelf) crew(id int64) *crewShelf {
	c := s.crews[id]
	if c == nil {
		c = &crewShelf{crew: id, at: map[slot]kept{}}
		c.use = s.byUse.PushFront(c)
		s.crews[id] = c
		s.grow(c, 1)
	}
	s.byUse.MoveToFront(c.use)
	return c
}

// grow counts rows; what was used longest ago makes room, but never the crew at work.
func (s *shelf) grow(c *crewShelf, by int) {
	c.rows += by
	s.rows += by
	for s.rows > s.limit && s.byUse.Len() > 1 {
		s.drop(s.byUse.Back().Value.(*crewShelf).crew)
	}
}

// put puts a list in the place of the one that was at hand, none where it has no size.
func (s *shelf) put(c *crewShelf, at slot, list kept) {
	before := c.at[at].size
	if list.size == 0 {
		delete(c.at, at)
	} else {
		c.at[at] = list
	}
	s.grow(c, list.size-before)
}

func (s *shelf) drop(crew int64) {
	if c := s.crews[crew]; c != nil {
		s.rows -= c.rows
		s.byUse.Remove(c.use)
		delete(s.crews, crew)
	}
}

// abandon takes off what a transaction looked at that comes to nothing.
func (s *shelf) abandon(crews map[int64]bool) {
	for crew := range crews {
		s.drop(crew)
	}
	s.chats, s.head = map[string]map[int64]Crew{}, nil
}

// wrote empties what a write past the shelf may have made untrue.
func (s *shelf) wrote(query string) {
	table, known := s.tables[query]
	if !known {
		table = tableOf(query)
		s.tables[query] = table
	}
	switch table {
	case "crews":
		s.chats = map[string]map[int64]Crew{}
	case "entries", "members", "batches", "combs", "breeders", "builders", "yards", "tasks":
		s.clear()
	}
}

// tableOf is the table that a statement writes, "" for none.
func tableOf(query string) string {
	words := strings.Fields(query)
	for i, w := range words {
		switch w {
		case "INTO", "UPDATE", "FROM":
			if i+1 < len(words) && (i > 0 || w == "UPDATE") {
				return words[i+1]
			}
		case "SELECT", "WITH":
			if i == 0 {
				return ""
			}
		}
	}
	return ""
}

// shelved gives a list of rows of a crew, read where it is not at hand. The list is the
// caller's own; what its rows point to is not to be changed.
func shelved[T any](t *Tx, crew int64, at slot, read func() ([]T, error)) ([]T, error) {
	list, err := lookAt(t, crew, at, read)
	if t.shelf == nil || err != nil {
		return list, err
	}
	return slices.Clone(list), nil
}

// lookAt gives such a list to be looked at only, and only until the next write.
func lookAt[T any](t *Tx, crew int64, at slot, read func() ([]T, error)) ([]T, error) {
	if t.shelf == nil {
		return read()
	}
	t.looked(crew)
	c := t.shelf.crew(crew)
	if list, ok := c.at[at]; ok {
		return list.rows.([]T), nil
	}
	rows, err := read()
	if err != nil {
		return nil, err
	}
	t.shelf.put(c, at, kept{rows, len(rows) + 1})
	return rows, nil
}

// looked notes that a crew's rows come off the shelf if the transaction comes to nothing.
func (t *Tx) looked(crew int64) {
	if t.used == nil {
		t.used = map[int64]bool{}
	}
	t.used[crew] = true
}

// onShelf gives a list where it is at hand, to be looked at only.
func onShelf[T any](t *Tx, crew int64, at slot) (list []T, atHand bool) {
	if t.shelf == nil || t.shelf.crews[crew] == nil {
		return nil, false
	}
	had, atHand := t.shelf.crews[crew].at[at]
	if atHand {
		list = had.rows.([]T)
	}
	return list, atHand
}

// reshelve puts a list right that is at hand; one that is not stays in the file.
func reshelve[T any](t *Tx, crew int64, at slot, change func([]T) []T) {
	if t.shelf == nil || t.shelf.crews[crew] == nil {
		return
	}
	t.looked(crew)
	c := t.shelf.crews[crew]
	if had, ok := c.at[at]; ok {
		now := change(had.rows.([]T))
		if len(now) == 0 {
			now = nil // as it would be read
		}
		t.shelf.put(c, at, kept{now, len(now) + 1})
	}
}

// unshelve takes a list off.
func (t *Tx) unshelve(crew int64, at ...slot) {
	if t.shelf == nil || t.shelf.crews[crew] == nil {
		return
	}
	for _, s := range at {
		t.shelf.put(t.shelf.crews[crew], s, kept{})
	}
}

// sameFile empties the shelf where somebody else wrote the file since.
func (t *Tx) sameFile() error {
	var version int64
	if _, err := t.one(`PRAGMA data_version`, nil, &version); err != nil {
		return err
	}
	if conn := t.db.w.conn; version != t.shelf.version || conn != t.shelf.conn {
		t.shelf.clear()
		t.shelf.version, t.shelf.conn = version, conn
	}
	return nil
}
