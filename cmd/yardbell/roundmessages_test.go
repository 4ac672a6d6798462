package main

import (
	"bytes"
	"context"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
	"yardbell/store"
)

// This file counts what a crew with six builders hears: they are grafted on one day a week
// for four weeks, and the crew answers every ping in time, by the answer that the ping
// itself suggests.

// mostADay is how many messages such a crew hears by itself on a day, at most. What tells of
// a window that closes is not counted: it must come, and to a crew in time it does not.
const mostADay = 6

// sixBuilders is that crew.
type sixBuilders struct {
	*player
	t       *testing.T
	zone    *time.Location
	replied map[string]bool // what was answered: a task's key
}

// uncounted are the pings that are never merged away, and so never counted.
func uncountedPing(k rules.PingKind) bool {
	return k == rules.Closing6 || k == rules.Closing2 || k == rules.OverPing
}

func (c *sixBuilders) say(at time.Time, format string, a ...any) {
	c.t.Helper()
	ctx := context.Background()
	require.NoError(c.t, c.move(ctx, 0, scriptLine{kind: clockLine, by: at.Sub(c.now)}))
	l, err := parseLine(fmt.Sprintf(format, a...))
	require.NoError(c.t, err)
	require.NoError(c.t, c.do(ctx, 0, l))
}

// outbox is what the crew was sent by itself so far, by the number in the chat.
func (c *sixBuilders) outbox() (list []store.Message) {
	c.t.Helper()
	require.NoError(c.t, c.db.View(context.Background(), c.now, func(tx *store.Tx) error {
		crew, _, err := tx.Crew(consoleSource, consoleChat)
		if err != nil {
			return err
		}
		list, err = tx.Outbox(crew.ID)
		return err
	}))
	return slices.DeleteFunc(list, func(m store.Message) bool { return m.State != "sent" || m.Message == 0 || m.Ping == "" || m.Edits != 0 })
}

func (c *sixBuilders) open() (list []rules.Task) {
	c.t.Helper()
	require.NoError(c.t, c.db.View(context.Background(), c.now, func(tx *store.Tx) error {
		crew, _, err := tx.Crew(consoleSource, consoleChat)
		if err != nil {
			return err
		}
		list, err = tx.OpenTasks(crew.ID)
		return err
	}))
	return list
}

// work does what is at its best by now.
func (c *sixBuilders) work(week int) {
	c.t.Helper()
	var routine []rules.Task
	for _, k := range c.open() {
		if k.Guard || c.replied[k.Key] || c.now.Before(k.Best) || k.NeedsComb() || k.Step == rules.Graft {
			continue
		}
		if k.Weight == rules.Routine {
			routine = append(routine, k)
			continue
		}
		var last, head store.Message
		list := c.outbox()
		for _, m := range list {
			if m.TaskKey == k.Key && m.Message >= last.Message {
				last = m
			}
		}
		require.NotZero(c.t, last.Message, "%s is due at %s and no ping told of it", k.Key, k.Best.In(c.zone))
		for _, m := range list {
			if m.Message == last.Message && m.Text != "" {
				head = m
			}
		}
		for _, m := range list { // one answer for all that the message is about
			if m.Message == last.Message {
				c.replied[m.TaskKey] = true
			}
		}
		_, forms, found := strings.Cut(head.Text, "Answer: ")
		require.True(c.t, found, head.Text)
		answer, _, _ := strings.Cut(forms, ", mine")
		answer, _, _ = strings.Cut(answer, ", all but") // the other one that it suggests
		yard := []string{"North", "Creek"}[week%2]
		answer = strings.ReplaceAll(strings.ReplaceAll(answer, "Creek/North", yard), "North/Creek", yard)
		c.say(c.now, "Ash >%d: %s", head.Message, answer)
	}
	c.count(routine)
}

// count tells what is only listed: how many took, how many were sealed, how many hatched.
func (c *sixBuilders) count(tasks []rules.Task) {
	c.t.Helper()
	words := map[rules.Step]string{rules.Accept: "accepted", rules.Capped: "capped", rules.Emerge: "emerged"}
	done := map[string][]string{}
	for _, k := range tasks {
		c.replied[k.Key] = true
		if k.Step == rules.Eggs {
			c.say(c.now, "Rowan: eggs %d", k.Breeder)
			continue
		}
		word := words[k.Step]
		require.NotEmpty(c.t, word, k.Key)
		done[word] = append(done[word], fmt.Sprintf("%d batch %d", *k.Count-1, k.Batch))
	}
	for _, word := range slices.Sorted(maps.Keys(done)) {
		for _, what := range done[word] {
			c.say(c.now, "Rowan: %s %s", word, what)
		}
	}
}

func TestMessagesOfSixBuilders(t *testing.T) {
	inSequence(t)
	ctx := context.Background()
	zone, err := time.LoadLocation("America/Chicago")
	require.NoError(t, err)
	var text, errOut bytes.Buffer
	dir := t.TempDir()
	p := &player{e: testEnv("", &text, &errOut), path: filepath.Join(dir, "crew.db"), files: dir, first: map[string]string{"zone": zone.String()}, out: &output{w: &text}, echo: true}
	require.NoError(t, p.open(ctx))
	t.Cleanup(func() { assert.NoError(t, p.close()) })
	first := time.Date(2031, 4, 14, 7, 30, 0, 0, zone) // a Monday
	require.NoError(t, p.begin(ctx, first))
	c := &sixBuilders{player: p, t: t, zone: zone, replied: map[string]bool{}}
	for _, s := range []string{"yard North 300 nucs", "yard Creek 300 nucs", "breeders 7 and 9", "builders B1, B2 and B3", "builders B4, B5 and B6"} {
		c.say(first, "Ash: add %s", s)
	}
	for at := first; at.Before(first.AddDate(0, 0, 75)); at = at.Add(30 * time.Minute) {
		require.NoError(t, p.move(ctx, 0, scriptLine{kind: clockLine, by: at.Sub(p.now)}))
		week, into := int(at.Sub(first)/(7*24*time.Hour)), at.Sub(first)%(7*24*time.Hour)
		switch {
		case week < 4 && into == 2*time.Hour:
			c.say(at, "Wren: confine 7 red pin")
			c.say(at, "Wren: confine 9 blue pin")
		case week < 4 && into == 4*24*time.Hour+3*time.Hour: // Friday
			for b := range 6 {
				c.say(at.Add(time.Duration(b)*25*time.Minute), "Wren: graft 20 from %d into B%d", 7+2*(b/3), b+1)
			}
		}
		if at.Before(p.now) {
			continue
		}
		c.work(week)
	}
	c.judge()
}

// judge counts what the crew heard by itself.
func (c *sixBuilders) judge() {
	t := c.t
	type heard struct {
		at   time.Time
		rows []store.Message
	}
	by := map[int64]*heard{}
	for _, m := range c.outbox() {
		if by[m.Message] == nil {
			by[m.Message] = &heard{at: m.Sent}
		}
		by[m.Message].rows = append(by[m.Message].rows, m)
	}
	days, total, closing := map[string]int{}, 0, 0
	last := map[string]time.Time{}
	for _, n := range slices.Sorted(maps.Keys(by)) {
		h := by[n]
		day := h.at.In(c.zone).Format("2006-01-02 Mon")
		counts := false
		for _, m := range h.rows {
			counts = counts || !uncountedPing(m.Ping)
			assert.NotEqual(t, rules.NoAnswer, m.Ping, "%s was answered in time", m.TaskKey)
			if m.TaskKey == "" {
				continue
			}
			before, known := last[m.TaskKey]
			assert.False(t, known && h.at.Sub(before) < time.Hour && !uncountedPing(m.Ping), "%s was said at %s and again at %s", m.TaskKey, before, h.at)
			last[m.TaskKey] = h.at
		}
		if counts {
			days[day]++
			total++
		} else {
			closing++
		}
		kinds := make([]string, len(h.rows))
		for i, m := range h.rows {
			kinds[i] = strings.TrimSpace(fmt.Sprintf("%s %s (%s)", m.Ping, m.TaskKey, m.Reason))
		}
		t.Logf("%s %s [%d] %s", day, h.at.In(c.zone).Format("15:04"), n, strings.Join(kinds, "; "))
	}
	most := 0
	for _, day := range slices.Sorted(maps.Keys(days)) {
		most = max(most, days[day])
		t.Logf("%s: %d", day, days[day])
	}
	t.Logf("%d messages on %d days, at most %d on one; and %d of windows that close", total, len(days), most, closing)
	assert.LessOrEqual(t, most, mostADay, "messages on one day")
}
