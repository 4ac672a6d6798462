package bot

import (
	"context"
	"database/sql"
	"fmt"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"yardbell/rules"
	"yardbell/store"
)

// side is a bot with its file, which stumbles over some lines as over a fault of ours.
type side struct {
	db *store.DB
	b  *Bot
}

// stumbling is such a file, empty.
func stumbling(t *testing.T) []byte {
	path := filepath.Join(t.TempDir(), "crew.db")
	db, err := store.Open(t.Context(), path, store.Options{})
	require.NoError(t, err)
	require.NoError(t, db.Close())
	trips(t, path, "breeder 13", `RAISE(ABORT, 'as a fault of ours would')`)
	empty, err := os.ReadFile(path)
	require.NoError(t, err)
	return empty
}

func newSide(tb require.TestingT, dir, name string, empty []byte) *side {
	path := filepath.Join(dir, name)
	require.NoError(tb, os.WriteFile(path, empty, 0o600))
	db, err := store.Open(context.Background(), path, store.Options{Table: rules.DefaultTable()})
	require.NoError(tb, err)
	s := &side{db: db, b: New(db, func() {}, slog.New(slog.NewTextHandler(io.Discard, nil)), map[string]string{"zone": "America/Chicago"})}
	s.b.Limit()
	return s
}

// all is what stands in the file, without what is drawn by lot in each line.
func (s *side) all(tb require.TestingT) string {
	db, err := sql.Open("sqlite", "file:"+s.db.Path()+"?mode=ro")
	require.NoError(tb, err)
	defer func() { _ = db.Close() }()
	var b strings.Builder
	for _, query := range []string{`SELECT * FROM updates ORDER BY id`, `SELECT * FROM outbox ORDER BY id`, `SELECT * FROM members ORDER BY id`, `SELECT * FROM offsets ORDER BY source`,
		`SELECT id, crew_id, update_row, member_id, said_at, happened_at, action, step, subject_kind, subject_key, count, of, from_breeder, into_place, mark, detail, ref, raw, message_id FROM entries ORDER BY id`} {
		rows, err := db.Query(query)
		require.NoError(tb, err)
		cols, err := rows.Columns()
		require.NoError(tb, err)
		fmt.Fprintln(&b, query)
		for rows.Next() {
			v, into := make([]any, len(cols)), make([]any, len(cols))
			for i := range v {
				into[i] = &v[i]
			}
			require.NoError(tb, rows.Scan(into...))
			fmt.Fprintln(&b, v...)
		}
		require.NoError(tb, rows.Err())
	}
	require.NoError(tb, s.db.View(context.Background(), start, func(tx *store.Tx) error {
		dump, err := tx.Dump()
		b.WriteString(dump)
		return err
	}))
	require.NoError(tb, s.db.CheckShelf(context.Background(), start))
	return b.String()
}

var start = time.Date(2031, 5, 5, 12, 0, 0, 0, time.UTC)

// Messages that are saved together leave the same file, and are answered in the same
// words, as each alone: of two groups, corrected, sent twice, too many, or such as trip a
// fault.
func TestTogetherAsAlone(t *testing.T) {
	lines := []string{"add breeder 7", "add breeder 9", "add builder B1", "add yard North 60 nucs", "add breeder 13", "confine 7", "eggs 7", "comb out 7", "graft 45 from 7 into B1",
		"batch 1 accepted 38", "accepted 38", "capped 36", "moved 34", "done", "undo", "due tomorrow", "due", "good morning all", "fed B1", "mine", "yes", "7", "who has the van?",
		"moved 34 to North and fed B1", "34", "what?", "injertamos 45 de la 7", "no", "set quiet 21-6", "helpp", "due Friday"}
	empty := stumbling(t)
	rapid.Check(t, func(t *rapid.T) {
		dir, err := os.MkdirTemp("", "together")
		require.NoError(t, err)
		defer func() { _ = os.RemoveAll(dir) }()
		alone, together := newSide(t, dir, "alone.db", empty), newSide(t, dir, "together.db", empty)
		defer func() { _, _ = alone.db.Close(), together.db.Close() }()
		now := start
		id := int64(0)
		var list []Incoming
		for range rapid.IntRange(1, 3).Draw(t, "polls") {
			now = now.Add(time.Duration(rapid.IntRange(0, 30*3600).Draw(t, "later")) * time.Second)
			n, of := rapid.IntRange(1, 25).Draw(t, "how many"), lines
			if rapid.IntRange(0, 5).Draw(t, "flood") == 0 {
				n, of = 2*askBurst, lines[len(lines)-3:]
			}
			list = list[:0]
			for range n {
				id++
				in := Incoming{Source: "test", UpdateID: id, Chat: int64(rapid.IntRange(1, 2).Draw(t, "chat")), UserKey: "w", UserName: "Wren", Said: now, Kind: "message", Message: id,
					Text: rapid.SampledFrom(of).Draw(t, "text")}
				if rapid.IntRange(0, 9).Draw(t, "who") == 0 {
					in.UserKey, in.UserName = "f", "Finch"
				}
				switch rapid.IntRange(0, 19).Draw(t, "odd") {
				case 0:
					in.Kind, in.Message = "edit", max(1, id-1)
				case 1:
					in.UpdateID = max(1, id-3)
				}
				list = append(list, in)
			}
			for _, in := range list {
				require.NoError(t, alone.b.Handle(context.Background(), now, in))
			}
			require.NoError(t, together.b.Handle(context.Background(), now, list...))
		}
		require.Equal(t, alone.all(t), together.all(t))
	})
}

// waiting are messages of Wren that are not handed in yet.
func (g *group) waiting(texts ...string) (list []Incoming) {
	for _, text := range texts {
		g.id++
		list = append(list, Incoming{Source: "test", UpdateID: g.id, Chat: 1, UserKey: "Wren", UserName: "Wren", Said: g.now, Kind: "message", Message: g.id, Text: text})
	}
	return list
}

// Twenty-five messages wait for the disk once.
func TestTogetherIsOneCommit(t *testing.T) {
	g := newGroup(t, map[string]string{"zone": "America/Chicago"})
	g.says("Wren", "add breeder 7")
	before := g.db.Work()
	list := g.waiting(slices.Repeat([]string{"fed 7"}, 25)...)
	require.NoError(t, g.b.Handle(t.Context(), g.now, list...))
	assert.EqualValues(t, 1, g.db.Work().Less(before).Commits)
	g.look(func(tx *store.Tx, crew int64) error {
		all, err := tx.Logbook(crew)
		assert.Len(t, all, 27)
		return err
	})
}

// Where one of them trips, nothing of the others is lost or logged twice.
func TestTogetherTrips(t *testing.T) {
	g := newGroup(t, map[string]string{"zone": "America/Chicago"})
	g.says("Wren", "add breeder 7")
	woken, asked := 0, 0
	g.b.wake = func() { woken++ }
	g.b.Hears = func() bool {
		if asked++; asked == 3 {
			panic("forced")
		}
		return true
	}
	list := g.waiting("fed 7", "fed 7", "fed 7", "fed 7")
	require.NoError(t, g.b.Handle(t.Context(), g.now, list...))
	assert.Equal(t, 7, asked, "three together, four alone")
	assert.Equal(t, 1, woken)
	g.look(func(tx *store.Tx, crew int64) error {
		all, err := tx.Logbook(crew)
		assert.Len(t, all, 6)
		return err
	})
}

// What cannot be saved is read again; those before it are saved meanwhile.
func TestTogetherSavesThoseBefore(t *testing.T) {
	g := newGroup(t, map[string]string{"zone": "America/Chicago"})
	g.says("Wren", "add breeder 7")
	heal := trips(t, g.db.Path(), "11", `json('no JSON')`)
	list := g.waiting("add breeder 9", "add breeder 10", "add breeder 11", "add breeder 12")
	woken := 0
	g.b.wake = func() { woken++ }
	var unsaved *UnsavedError
	require.ErrorAs(t, g.b.Handle(t.Context(), g.now, list...), &unsaved)
	assert.Equal(t, 2, unsaved.At)
	assert.Equal(t, 1, woken)
	g.look(func(tx *store.Tx, crew int64) error {
		next, err := tx.Offset("test")
		require.NoError(t, err)
		assert.Equal(t, list[2].UpdateID, next)
		all, err := tx.Breeders(crew)
		assert.Len(t, all, 3)
		return err
	})
	heal()
	require.NoError(t, g.b.Handle(t.Context(), g.now, list[2:]...))
	g.look(func(tx *store.Tx, crew int64) error {
		all, err := tx.Breeders(crew)
		assert.Len(t, all, 5)
		return err
	})
}
