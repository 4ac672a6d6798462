package store

import (
	"context"
	"fmt"
	"math"
	"reflect"
	"slices"
	"time"

	"yardbell/rules"
)

// CheckShelf compares every row that is at hand with the file and names the first list
// that differs. It is for tests: the shelf must never differ.
func (d *DB) CheckShelf(ctx context.Context, now time.Time) error {
	return d.Update(ctx, now, func(t *Tx) error {
		s := t.shelf
		file := *t
		file.shelf = nil // reads past the shelf
		for crew, c := range s.crews {
			for at, kept := range c.at {
				rows := kept.rows
				want, err := file.listOf(crew, at)
				if err != nil {
					return err
				}
				if !reflect.DeepEqual(withoutNaN(rows), withoutNaN(want)) {
					return fmt.Errorf("crew %d, %v: at hand are\n%+v\nthe file has\n%+v", crew, at, rows, want)
				}
			}
		}
		for source, chats := range s.chats {
			for chat, c := range chats {
				if got, _, err := file.Crew(source, chat); err != nil || got != c {
					return fmt.Errorf("chat %d: at hand is %+v, the file has %+v (%v)", chat, c, got, err)
				}
			}
		}
		if s.head == nil {
			return nil
		}
		id, hash, err := file.newestLine()
		if err == nil && (id != s.head.id || string(hash) != string(s.head.hash)) {
			return fmt.Errorf("at hand is line %d as the newest, the file has %d", s.head.id, id)
		}
		return err
	})
}

// withoutNaN puts a number in the place of NaN, which is unequal to itself.
func withoutNaN(rows any) any {
	list, ok := rows.([]rules.Settings)
	if !ok {
		return rows
	}
	s := list[0]
	s.Incubator = slices.Clone(s.Incubator)
	for i := range s.Incubator {
		if math.IsNaN(s.Incubator[i].C) {
			s.Incubator[i].C = -1
		}
	}
	return s
}

// listOf reads a list as the shelf would have it.
func (t *Tx) listOf(crew int64, at slot) (any, error) {
	switch at.what {
	case "lines":
		return t.SubjectEntries(crew, at.subject)
	case "tasks":
		return t.SubjectTasks(crew, at.subject)
	case "combs":
		return t.Combs(crew, at.subject.Number())
	case "highest":
		n, err := t.highest(crew, at.subject.Kind)
		return []int{n}, err
	case "member":
		return all(t, scanMember, `SELECT `+memberColumns+` FROM members WHERE crew_id = 0 + ? AND user_key = ?`, crew, at.subject.Key)
	}
	switch at {
	case settingsSlot:
		s, err := t.Settings(crew)
		return []rules.Settings{*s}, err
	case groundSlot:
		return t.groundEntries(crew)
	case ordersSlot:
		return t.orderEntries(crew)
	case onCrewSlot:
		return t.Members(crew)
	case knownSlot:
		return t.Everybody(crew)
	case batchesSlot:
		return t.Batches(crew)
	case breedersSlot:
		return t.Breeders(crew)
	case buildersSlot:
		return t.Builders(crew)
	case yardsSlot:
		return t.Yards(crew)
	case openSlot:
		return t.openRows(crew)
	case digestSlot:
		d, found, err := t.lastDigest(crew)
		if !found {
			return []sentDigest(nil), err
		}
		return []sentDigest{d}, err
	case photosSlot:
		any, err := t.anyPhoto(crew)
		return []bool{any}, err
	}
	return nil, fmt.Errorf("nothing is known of list %v", at)
}
