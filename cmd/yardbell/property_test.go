package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"yardbell/rules"
	"yardbell/store"
)

var (
	sequences = flag.Int("sequences", 0, "random conversations to play, 0 for 12, or for 40 where all tests run")
	length    = flag.Int("length", 120, "lines of each")
	seed      = flag.Uint64("seed", 1, "number of the first random conversation")
)

// gossip writes a random conversation line by line, seeing what the bot said so
// far: it presses buttons that are there and replies to messages that are.
type gossip struct {
	r     *rand.Rand
	out   *bytes.Buffer
	left  int
	lines []string
	read  int // of out
	last  message
	rest  []byte
}

func (g *gossip) Read(p []byte) (int, error) {
	if len(g.rest) == 0 {
		if g.left == 0 {
			return 0, io.EOF
		}
		g.left--
		g.listen()
		l := g.line()
		g.lines = append(g.lines, l)
		g.rest = []byte(l + "\n")
	}
	n := copy(p, g.rest)
	g.rest = g.rest[n:]
	return n, nil
}

// listen reads what the bot said since.
func (g *gossip) listen() {
	text := g.out.Bytes()[g.read:]
	g.read = g.out.Len()
	for _, l := range bytes.Split(bytes.TrimSpace(text), []byte("\n")) {
		var m message
		if json.Unmarshal(l, &m) == nil && m.N > 0 {
			g.last = m
		}
	}
}

func one[T any](r *rand.Rand, list ...T) T { return list[r.IntN(len(list))] }

// fill puts random words in place of {…}.
func (g *gossip) fill(s string) string {
	r := g.r
	for {
		i, j := strings.Index(s, "{"), strings.Index(s, "}")
		if i < 0 || j < i {
			return s
		}
		var v string
		switch s[i+1 : j] {
		case "breeder":
			v = fmt.Sprint(one(r, 7, 7, 7, 9, 9, 12, 0, 999, 100000))
		case "builder":
			v = one(r, "B1", "B2", "B2", "b1", "C9")
		case "yard":
			v = one(r, "North", "North", "South", "north", "Nowhere")
		case "n":
			v = fmt.Sprint(one(r, r.IntN(50), r.IntN(50), r.IntN(50), 45, 0, 1, 1000, 999999999))
		case "batch":
			v = fmt.Sprint(one(r, 1, 1, 2, 3, r.IntN(9), 77))
		case "pin":
			v = one(r, "", "", " red", " blue pin", " red pin, bees in", " without bees", " bees in")
		case "when":
			v = one(r, "", "", "", " at 7:30", " yesterday 4pm", " this morning", " 2 h ago", " tomorrow", " at 25:00", " on 31 February", " yesterday", " last week", " on Monday at 9")
		case "span":
			v = one(r, "2h", "30m", "1d", "0h", "90", "900h", "until 17:00", "")
		}
		s = s[:i] + v + s[j+1:]
	}
}

var said = []string{
	"add breeder {breeder}", "add builder {builder}", "add builder {builder} at {yard}", "add yard {yard} {n} nucs", "confine {breeder}{pin}{when}", "confined {breeder}{pin}",
	"eggs {breeder}{when}", "no eggs {breeder}", "comb out {breeder}{pin}{when}", "release {breeder}", "graft {n} from {breeder} into {builder}{when}", "grafted {n} from {breeder}{when}", "graft {n} from {breeder}, 30 h old",
	"graft", "accepted {n}{when}", "accepted {n} batch {batch}", "batch {batch} accepted {n}{when}", "finisher batch {batch}", "batch {batch} into {builder}", "capped {n}{when}", "batch {batch} capped {n}",
	"{builder} clear{when}", "{builder} 2 rogue cells cut", "nucs {n} ready at {yard}", "batch {batch} nucs {n} at {yard}", "moved {n} to {yard}{when}", "batch {batch} moved {n} to {yard}{when}", "moved all to {yard}",
	"emerged {n}{when}", "batch {batch} emerged {n}", "laying {n}", "batch {batch} laying {n}{when}", "caught {n}", "batch {batch} caught {n}", "recelled {n}", "fed {breeder}", "fed {builder}{when}", "fed {yard}",
	"dearth", "flow", "dearth at {yard}", "flow at {yard}{when}", "done", "done {n}{when}", "done {n} of {n}", "done{when}", "mine", "later {span}", "skip", "skip, too wet", "due", "due tomorrow", "due this week",
	"batch {batch}", "breeder {breeder}", "why", "undo", "undo", "not {n}, {n}", "not {breeder}, {breeder}", "not {builder}, {builder}", "{n}", "yes", "no", "help", "settings", "log", "week", "plan 100 queens by 20 June",
	"set evening {n}:00", "set evening 18:30", "set morning 06:00", "set quiet 22:00-05:00", "set work 08:00-17:00", "set days off Sunday", "set days off none", "set move 9d{n}h", "set move default", "set incubator 33.5", "set wake on", "set zone Mars",
	"order {n} queens by 20 June", "order {n} cells in 5 weeks", "order 9 cells in 3 weeks", "orders", "order {batch}", "cancel order {batch}", "yields", "yields breeder {breeder}", "capacity", "fit {breeder}", "what if confine {breeder} tomorrow 16:00",
	"one virgin is out{when}", "a virgin hatched in {builder}", "emerged 1", "emerged 0{when}", "breeder {breeder} died{when}", "{breeder} died", "moved {n} to the incubator", "incubator 36.5", "dropped {n} cells", "there are rogue cells in {builder}", "confined {breeder}{when}",
	"what if graft 6 h later", "what if order 1 a day later", "fed {builder} {n} l", "fed {yard} 2 l to each nuc", "drone comb in at {yard}", "not {n}, {n}",
	"good morning all", "did anyone feed the dog?", "I did not graft", "/help", "/due", "/done {n}", "", "   ", "?", "¿qué toca hoy?", "שלום", "\x00\x01", "\xff\xfe", "🐝🐝🐝", "DROP TABLE entries;", "{batch} {batch} {batch}", "graft -5 from {breeder}", "graft 4.5 from {breeder}", "conifne {breeder}", "acepted {n}",
}

func (g *gossip) line() string {
	r := g.r
	who := one(r, "Wren", "Wren", "Ash", "Jo Ann")
	switch k := r.IntN(100); {
	case k < 14:
		return "@ +" + one(r, "1h", "5h", "9h", "14h", "1d", "1d", "36h", "2d", "4d", "9d", "10m", "0h")
	case k < 17:
		return "! restart"
	case k < 20:
		return "! down " + one(r, "20m", "6h", "30h", "5d")
	case k < 32:
		// A button that is there, mostly.
		n, label := "", one(r, "Done", "Mine", "Later", "Skip", "No", "Log it", "")
		if len(g.last.Buttons) > 0 {
			label = one(r, g.last.Buttons...)
			n = one(r, "", fmt.Sprint(g.last.N))
		}
		if r.IntN(8) == 0 {
			n = fmt.Sprint(1 + r.IntN(60))
		}
		return who + " *" + n + ": " + label
	case k < 44:
		n := one(r, "", "", fmt.Sprint(max(1, g.last.N)), fmt.Sprint(1+r.IntN(60)))
		return who + " >" + n + ": " + g.fill(one(r, "done", "done {n}", "done {n}{when}", "mine", "later {span}", "skip", "why", "undo", "{n}", "yes", "no", "not {n}, {n}", one(r, said...)))
	case k < 49:
		return who + " ~: " + g.fill(one(r, said...))
	case k < 50:
		return who + ": " + strings.Repeat(g.fill(one(r, said...))+" ", 400)
	default:
		return who + ": " + strings.ReplaceAll(g.fill(one(r, said...)), "\n", " ")
	}
}

// Whatever people write and press, in any order: nothing breaks, nothing that was
// acknowledged is missing from the logbook and nothing is in it that was not
// acknowledged, every task has its reason and its window in order, nobody is told
// the same thing twice on one day, and the logbook leads to the same state again.
func TestRandomConversations(t *testing.T) {
	inSequence(t)
	t.Parallel()
	count := *sequences
	if count == 0 {
		count = 12
		if allTests {
			count = 40
		}
	}
	for n := range uint64(count) {
		n += *seed
		t.Run(fmt.Sprint(n), func(t *testing.T) {
			t.Parallel()
			randomConversation(t, n)
		})
	}
}

func randomConversation(t *testing.T, n uint64) {
	zone := []string{"America/Chicago", "Europe/Berlin", "Australia/Sydney", "America/Santiago"}[n%4]
	begin := []string{"2031-04-24 08:00", "2031-03-05 07:10", "2031-09-28 20:00", "2031-10-25 05:00"}[n/4%4]
	path := filepath.Join(t.TempDir(), "crew.db")
	var out, errOut bytes.Buffer
	g := &gossip{r: rand.New(rand.NewPCG(n, 31)), out: &out, left: *length}
	e := testEnv("", &out, &errOut)
	e.in = g
	defer func() {
		if t.Failed() {
			t.Logf("seed %d, %s from %s:\n%s", n, zone, begin, strings.Join(g.lines, "\n"))
		}
	}()
	code := run(context.Background(), []string{"console", "--db", path, "--zone", zone, "--now", begin, "--json"}, e)
	require.Zero(t, code, "standard error: %s", errOut.String())
	require.Empty(t, errOut.String(), "something went wrong inside")

	acknowledged := map[loggedKey]int{}
	for _, m := range decode(t, out.String(), zoneOf(t, zone)) {
		require.NotContains(t, strings.ToLower(m.Text), "went wrong", "line %d: %s", m.Line, g.lines[max(0, m.Line-1)])
		for _, l := range m.Logged {
			acknowledged[keyOf(l)]++
		}
	}
	exported := call("", "export", "--db", path)
	require.Zero(t, exported.code, exported.err)
	for _, l := range strings.Split(strings.TrimSpace(exported.out), "\n") {
		var e loggedLine
		require.NoError(t, json.Unmarshal([]byte(l), &e))
		if e.Step != nil || e.Subject != nil { // a setting has neither
			acknowledged[keyOf(e)]--
		}
	}
	for k, n := range acknowledged {
		require.Zero(t, n, "acknowledged more (+) or less (-) often than logged: %s", k)
	}
	checkState(t, path, zoneOf(t, zone))
	require.Equal(t, "rebuilt: everything as it was\n", call("", "rebuild", "--db", path).out)
	require.Zero(t, call("", "check", "--db", path).code)
}

// loggedKey is a logged line with the fields that every line has, as text: the others have
// names of their own in an export.
type loggedKey string

func keyOf(l loggedLine) loggedKey {
	l.Detail, l.Until = rules.Detail{}, nil
	b, _ := json.Marshal(l)
	return loggedKey(b)
}

func checkState(t *testing.T, path string, zone *time.Location) {
	t.Helper()
	ctx := context.Background()
	db, err := store.Open(ctx, path, store.Options{ReadOnly: true})
	require.NoError(t, err)
	defer func() { require.NoError(t, db.Close()) }()
	require.NoError(t, db.View(ctx, time.Time{}, func(tx *store.Tx) error {
		crews, err := tx.Crews()
		require.NoError(t, err)
		tasks, err := tx.Tasks(crews[0].ID)
		require.NoError(t, err)
		for _, k := range tasks {
			require.NotEmpty(t, k.Reason, k.Key)
			require.NotEmpty(t, k.Source, k.Key)
			require.False(t, k.Anchor.IsZero(), k.Key)
			require.False(t, k.Best.Before(k.Earliest) || k.Latest.Before(k.Best), k.Key)
		}
		queued, err := tx.Outbox(crews[0].ID)
		require.NoError(t, err)
		seen, digests := map[string]bool{}, map[string]bool{}
		for _, m := range queued {
			require.NotEqual(t, "claimed", m.State, m.Key)
			require.NotEqual(t, "failed", m.State, m.Key)
			if m.State != "sent" || m.Ping == "" || m.Edits != 0 {
				continue // an answer, or a change of what was said
			}
			day := rules.DateOf(m.Sent, zone).String()
			if m.Ping == rules.Digest {
				require.False(t, digests[day], "two digests on %s", day)
				digests[day] = true
				continue
			}
			if m.Ping == rules.Again {
				continue // asked for
			}
			if m.Sent.Sub(m.Fire) > rules.LateAfter {
				day = m.Day // one that comes late belongs to the day it was meant for
			}
			key := m.TaskKey + " " + string(m.Ping) + " " + day
			require.False(t, seen[key], "told twice: %s", key)
			seen[key] = true
		}
		return nil
	}))
}
