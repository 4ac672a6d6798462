package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/store"
)

// An upgrade in the middle of a season: each conversation is played by the release of
// before up to a line, and by this one from there on, on the same file. YARDBELL_BEFORE is
// the program of that release; YARDBELL_CUTS=all cuts at every tenth line, else each script
// is cut once.

// cutEvery is how many lines lie between two cuts.
const cutEvery = 10

// kept is what a file holds once a conversation is over.
type kept struct {
	lines []string // of the logbook
	pings []string // that went out, with their minute
}

func (c conversation) keptIn(t testing.TB, path string) kept {
	t.Helper()
	ctx := context.Background()
	db, err := store.Open(ctx, path, store.Options{})
	require.NoError(t, err)
	defer func() { require.NoError(t, db.Close()) }()
	var k kept
	require.NoError(t, db.View(ctx, time.Time{}, func(tx *store.Tx) error {
		crews, err := tx.Crews()
		if err != nil {
			return err
		}
		book, err := tx.Logbook(crews[0].ID)
		if err != nil {
			return err
		}
		for _, l := range book {
			count := "-"
			if l.Count != nil {
				count = fmt.Sprint(*l.Count)
			}
			k.lines = append(k.lines, fmt.Sprintf("%s %s %s %s from %d into %s %s at %s by %s", l.Action, l.Step, l.Subject, count, l.From, l.Into, l.Mark, l.Happened.UTC().Format("01-02T15:04"), l.By))
		}
		out, err := tx.Outbox(crews[0].ID)
		for _, m := range out {
			if m.Kind == "ping" && m.State == "sent" {
				k.pings = append(k.pings, fmt.Sprintf("%s\t%s", m.Key, m.Sent.UTC().Format("01-02T15:04")))
			}
		}
		slices.Sort(k.pings)
		return err
	}))
	return k
}

// rest plays lines of a script on a file as the console does. What a button of before asks
// anew is pressed, since whoever pressed it wants it done. It says how often that was.
func (c conversation) rest(t testing.TB, path string, lines []string, from int, now time.Time) (anew int) {
	t.Helper()
	ctx := context.Background()
	var errOut bytes.Buffer
	e := testEnv("", &bytes.Buffer{}, &errOut)
	zone, _ := head(t, c.text)
	p := &player{e: e, path: path, files: t.TempDir(), first: map[string]string{"zone": zone, "language": c.lang}, out: &output{w: &bytes.Buffer{}}, json: true}
	require.NoError(t, p.open(ctx))
	defer func() { require.NoError(t, p.close()) }()
	require.NoError(t, p.begin(ctx, now))
	for i, s := range lines {
		l, err := parseLine(s)
		require.NoError(t, err, s)
		old := false
		if l.kind == pressLine {
			old = c.ofBefore(t, p, l)
		}
		require.NoError(t, p.do(ctx, from+i+1, l), s)
		if old {
			if label, asks := c.asksAnew(t, p); asks {
				anew++
				require.NoError(t, p.do(ctx, from+i+1, scriptLine{kind: pressLine, who: l.who, text: label}))
			}
		}
	}
	return anew
}

// ofBefore reports whether a press is of a button that has a message read again, as those
// of the release of before have.
func (c conversation) ofBefore(t testing.TB, p *player, l scriptLine) (old bool) {
	t.Helper()
	require.NoError(t, p.db.View(context.Background(), p.now, func(tx *store.Tx) error {
		crew, _, err := tx.Crew(consoleSource, consoleChat)
		if err != nil {
			return err
		}
		m, found, err := tx.LastWithButtons(crew.ID)
		if l.number != 0 {
			m, found, err = tx.SentIn(crew.ID, 0, l.number)
		}
		old = found && slices.ContainsFunc(m.Buttons, func(b store.Button) bool { return strings.HasPrefix(b.Do, "run|") })
		return err
	}))
	return old
}

// asksAnew is the button of a question that the last message asks about acts.
func (c conversation) asksAnew(t testing.TB, p *player) (label string, asks bool) {
	t.Helper()
	require.NoError(t, p.db.View(context.Background(), p.now, func(tx *store.Tx) error {
		crew, _, err := tx.Crew(consoleSource, consoleChat)
		if err != nil {
			return err
		}
		m, found, err := tx.LastWithButtons(crew.ID)
		if found && m.Kind == "ask" && strings.HasPrefix(m.Buttons[0].Do, "act|") {
			label, asks = m.Buttons[0].Label, true
		}
		return err
	}))
	return label, asks
}

// clockAt is the time on the clock once lines were played.
func clockAt(t testing.TB, lines []string, zone *time.Location, start time.Time) time.Time {
	t.Helper()
	now := start
	for _, s := range lines {
		l, err := parseLine(s)
		require.NoError(t, err, s)
		switch {
		case l.kind == clockLine && l.to != "":
			if at, err := parseNow(l.to, zone); err == nil && at.After(now) {
				now = at
			}
		case l.kind == clockLine, l.kind == downLine:
			now = now.Add(l.by)
		}
	}
	return now
}

func TestCutByAnUpgrade(t *testing.T) {
	before := os.Getenv("YARDBELL_BEFORE")
	if before == "" {
		t.Skip("YARDBELL_BEFORE names no program of the release of before")
	}
	inSequence(t)
	cuts, same, other, asked := 0, 0, 0, 0
	for n, c := range scripts(t) {
		if strings.Contains(c.text, "set zone ") || strings.Contains(c.text, "ajustar zona ") {
			continue // the clock of its lines is read in more than one zone
		}
		zoneName, nowText := head(t, c.text)
		zone, err := loadZone(zoneName)
		require.NoError(t, err)
		start, err := parseNow(nowText, zone)
		require.NoError(t, err)
		lines := strings.Split(strings.TrimRight(c.text, "\n"), "\n")
		whole := filepath.Join(t.TempDir(), "whole.db")
		c.rest(t, whole, lines, 0, start)
		want := c.keptIn(t, whole)
		var at []int
		for i := cutEvery; i < len(lines); i += cutEvery {
			at = append(at, i)
		}
		if os.Getenv("YARDBELL_CUTS") != "all" && len(at) > 1 {
			at = at[n%len(at) : n%len(at)+1]
		}
		for _, i := range at {
			cuts++
			dir := t.TempDir()
			path, first := filepath.Join(dir, "crew.db"), filepath.Join(dir, "first.txt")
			require.NoError(t, os.WriteFile(first, []byte(strings.Join(lines[:i], "\n")+"\n"), 0o600))
			out, err := exec.Command(before, "console", "--db", path, "--zone", zoneName, "--lang", c.lang, "--now", nowText, "--json", first).CombinedOutput()
			require.NoError(t, err, "%s, cut at line %d: %s", c.name, i, out)
			asked += c.rest(t, path, lines[i:], i, clockAt(t, lines[:i], zone, start))
			got := c.keptIn(t, path)
			seen := map[string]bool{}
			for _, p := range got.pings {
				key, _, _ := strings.Cut(p, "\t")
				assert.False(t, seen[key], "%s, cut at line %d: %s went out twice", c.name, i, key)
				seen[key] = true
			}
			if !slices.Equal(got.lines, want.lines) {
				other++ // the release of before read a line in another way
				continue
			}
			same++
			// An order that was accepted before keeps the rounds that were planned then.
			got.pings, want.pings = unplanned(got.pings), unplanned(want.pings)
			assert.Equal(t, want.pings, got.pings, "%s, cut at line %d: the pings", c.name, i)
		}
	}
	t.Logf("%d cuts: %d with the same logbook and so the same pings, %d where the release of before read a line in another way; %d buttons of before asked anew", cuts, same, other, asked)
	assert.Greater(t, same, cuts/4)
}

// unplanned are pings without those of an order's planned rounds: which hours are planned is
// the planner's of the release that took the order.
func unplanned(pings []string) []string {
	return slices.DeleteFunc(slices.Clone(pings), func(p string) bool { return plannedPing.MatchString(p) })
}

var plannedPing = regexp.MustCompile(`/confine/o\d|/graft/o\d|/combout/o\d|/drones/`)
