package store

import (
	"bytes"
	"errors"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

// by logs a line of somebody's in their own words.
func (d *diary) by(key, name, words string, e rules.Entry) (member Member) {
	e.Said, e.Happened = d.now, d.now
	d.do(func(tx *Tx) (err error) {
		if member, err = tx.Member(d.crew, key, name); err != nil {
			return err
		}
		d.update++
		row, _, err := tx.MarkUpdate(Update{Source: "test", UpdateID: d.update, Crew: d.crew.ID, Member: member.ID, Kind: "message", Message: d.update, Text: words, Said: d.now})
		if err != nil {
			return err
		}
		if _, err := tx.Append(d.crew.ID, row, member, d.update, words, e); err != nil {
			return err
		}
		return tx.Replan(d.crew.ID)
	})
	return member
}

// Whoever is forgotten stands nowhere in the file, not in a byte of it; their counts
// stay, the chain holds, and a rebuild comes to the same.
func TestForget(t *testing.T) {
	d := newDiary(t, fresh(t))
	count := 45
	graft := rules.Entry{Action: rules.Did, Step: rules.Graft, Subject: rules.BatchSubject(1), Count: &count, From: 7, Into: "B2"}
	tomas := d.by("70001", "Tomas Quill", "graft 45 from 7 into B2", graft)
	d.by("70001", "Tomas Quill", "mine", rules.Entry{Action: rules.Mine, Step: rules.Accept, Subject: rules.BatchSubject(1)})
	d.by("70001", "Tomas Quill", "skip, Quill has a cold", rules.Entry{Action: rules.Skip, Step: rules.Rogue, Subject: rules.BuilderSubject("B2"), Detail: rules.Detail{Reason: "Quill has a cold"}})
	d.by("70002", "Ash", "fed 7, tomas helped", rules.Entry{Action: rules.Did, Step: rules.Feed, Subject: rules.BreederSubject(7)})
	d.by("70002", "Ash", "fed 7 tomasino style", rules.Entry{Action: rules.Did, Step: rules.Feed, Subject: rules.BreederSubject(7)})
	// Given a task, off for a day, named in a reminder, and a reminder of their own.
	d.by("70002", "Ash", "tomas takes the capping", rules.Entry{Action: rules.Mine, Step: rules.Capped, Subject: rules.BatchSubject(1), Detail: rules.Detail{Member: tomas.ID}, Whom: tomas.Name})
	d.by("70002", "Ash", "tomas is off", rules.Entry{Action: rules.Did, Step: rules.Away, Subject: rules.MemberSubject(tomas.ID), Detail: rules.Detail{Days: "2031-06-01"}, Whom: tomas.Name})
	at := d.now.Add(48 * time.Hour).UnixMilli()
	d.by("70002", "Ash", "remind us to call tomas", rules.Entry{Action: rules.Did, Step: rules.Remind, Subject: rules.ReminderSubject(1), Detail: rules.Detail{Until: at, Reason: "call tomas"}})
	d.by("70001", "Tomas Quill", "remind us of the cages", rules.Entry{Action: rules.Did, Step: rules.Remind, Subject: rules.ReminderSubject(2), Detail: rules.Detail{Until: at, Reason: "pick up my cages"}})
	d.do(func(tx *Tx) error {
		for _, m := range []Message{
			{Crew: 1, Key: "a", Kind: "reply", Text: "Tomas Quill is on it: Tomas Quill, Tomas Quill.", Buttons: []Button{{Label: "To Tomas Quill", Do: "no"}}},
			{Crew: 1, Key: "b", Kind: "reply", Text: "Yours: nothing", Chat: 70001},
		} {
			if err := tx.Queue(m); err != nil {
				return err
			}
		}
		if err := tx.KeepNote(1, "k", "g_note_parked", "the line of Tomas"); err != nil {
			return err
		}
		if err := tx.SetAside("test", 900, `{"from":{"id":70001,"first_name":"T"}}`); err != nil {
			return err
		}
		if err := tx.SetAside("test", 901, `{"from":{"id":170001}}`); err != nil {
			return err
		}
		_, err := tx.ShowCalendar(1, []CalendarEvent{{Key: "batch 1/move", Body: `{"Text":"Tomas Quill is on it"}`, End: d.now}})
		return err
	})
	require.Contains(t, d.dump(), "Tomas Quill")
	lines := d.chain().Lines
	d.do(func(tx *Tx) error { return tx.Forget(1, tomas, "somebody 1") })

	c := d.chain()
	assert.Empty(t, c.Broken)
	assert.Equal(t, lines, c.Lines)
	assert.Equal(t, 8, c.Blank, "four of their own, four that say the name")
	before := d.dump()
	assert.Contains(t, before, "somebody 1")
	assert.NotContains(t, strings.ToLower(before), "quill")
	assert.NotContains(t, strings.ToLower(before), "call tomas")
	assert.NotContains(t, before, "my cages")
	require.NoError(t, d.db.View(ctx, d.now, func(tx *Tx) error {
		k, found, err := tx.Task(1, rules.TaskKey(rules.BatchSubject(1), rules.Capped, ""))
		assert.True(t, found)
		assert.Equal(t, "somebody 1", k.ClaimedBy)
		_, found, err2 := tx.Task(1, rules.TaskKey(rules.ReminderSubject(2), rules.Remind, ""))
		assert.True(t, found, "it still comes, without the words")
		return errors.Join(err, err2)
	}))
	d.rebuild()
	assert.Equal(t, before, d.dump())
	require.NoError(t, d.db.View(ctx, d.now, func(tx *Tx) error {
		book, err := tx.Logbook(1)
		require.NoError(t, err)
		assert.Equal(t, 45, *book[1].Count)
		assert.Equal(t, "somebody 1", book[1].By)
		assert.Empty(t, book[1].Raw)
		assert.Empty(t, book[3].Detail.Reason)
		assert.Equal(t, "fed 7 tomasino style", book[5].Raw, "another name that begins alike")
		n, err := tx.CountAside()
		assert.Equal(t, 1, n)
		return err
	}))
	for _, m := range d.outbox() {
		if m.Key == "a" {
			assert.Equal(t, "somebody 1 is on it: somebody 1, somebody 1.", m.Text)
			assert.Equal(t, "To somebody 1", m.Buttons[0].Label)
		}
		if m.Key == "b" {
			assert.Equal(t, "dropped", m.State)
			assert.Empty(t, m.Text)
		}
	}
	require.NoError(t, d.db.Check(ctx))

	// Before anything is closed: the file and what stands beside it.
	for _, end := range []string{"", "-wal"} {
		b, err := os.ReadFile(d.db.path + end)
		require.NoError(t, err)
		b = bytes.ToLower(b)
		for _, word := range []string{"quill", "graft 45 from 7", "has a cold", "tomas helped", "\"id\":70001"} {
			assert.False(t, bytes.Contains(b, []byte(word)), "%s in the file%s", word, end)
		}
	}

	// The same account, writing again, is somebody new.
	again := d.by("70001", "Tomas Quill", "fed 7", rules.Entry{Action: rules.Did, Step: rules.Feed, Subject: rules.BreederSubject(7)})
	assert.NotEqual(t, tomas.ID, again.ID)
	assert.Empty(t, d.chain().Broken)
	require.NoError(t, d.db.View(ctx, d.now, func(tx *Tx) error {
		n, one, err := tx.Forgotten(1, tomas.ID)
		assert.Equal(t, 1, n)
		assert.True(t, one)
		return err
	}))
}

// A first name that two have is not taken for either.
func TestForgetOneOfTwoOfAName(t *testing.T) {
	d := newDiary(t, fresh(t))
	feed := rules.Entry{Action: rules.Did, Step: rules.Feed, Subject: rules.BreederSubject(7)}
	tomas := d.by("1", "Tomas Quill", "fed 7", feed)
	d.by("2", "Tomas Reed", "fed 7", feed)
	d.by("3", "Ash", "fed 7 for tomas", feed)
	d.by("3", "Ash", "fed 7 for Tomas Quill", feed)
	d.do(func(tx *Tx) error { return tx.Forget(1, tomas, "somebody 1") })
	require.NoError(t, d.db.View(ctx, d.now, func(tx *Tx) error {
		book, err := tx.Logbook(1)
		require.NoError(t, err)
		assert.Equal(t, []string{"", "", "fed 7", "fed 7 for tomas", ""}, []string{book[0].Raw, book[1].Raw, book[2].Raw, book[3].Raw, book[4].Raw})
		return err
	}))
	assert.Empty(t, d.chain().Broken)
}
