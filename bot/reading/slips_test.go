package reading

import (
	"encoding/json"
	"fmt"
	"math/rand"
	"os"
	"regexp"
	"runtime"
	"runtime/debug"
	"sort"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

var inFigures = regexp.MustCompile(`\d+`)

// slipCount is what became of slips.
type slipCount struct {
	total, read, right, tap, asked, silent, listed int
	wrong                                          []string
}

func (c *slipCount) add(o slipCount) {
	c.total, c.read, c.right, c.tap, c.asked, c.silent, c.listed = c.total+o.total, c.read+o.read, c.right+o.right, c.tap+o.tap, c.asked+o.asked, c.silent+o.silent, c.listed+o.listed
	c.wrong = append(c.wrong, o.wrong...)
}

// slipReader reads slips of lines.
type slipReader struct {
	r      *Reader
	kin    *slipKin
	listed map[string]bool
	used   map[string]bool // of those that are listed
	mu     sync.Mutex
}

// changes are the acts that put something into the log or the settings.
func changes(acts []Act) (out []Act) {
	for _, a := range acts {
		switch a.Kind {
		case Query, Seen, Plan, WhatIf, Fit, Yes, No, Thanks, Order: // of an order a plan is shown: the press logs it
		case Set:
			if v, ok := settled(a); ok {
				a.Value, a.Weekdays = v, nil
				out = append(out, a)
			}
		default:
			out = append(out, a)
		}
	}
	return out
}

// settled is the value that a setting comes to; ok is false where it is refused as it was
// typed, or where none is set.
func settled(a Act) (value string, ok bool) {
	key := a.Setting
	switch {
	case key == "":
		return "", false
	case key == "own":
		value, ok = rules.ParseLanguage(a.Value)
		return value, ok || a.Value == "off"
	case key == "step":
		key = rules.StepSetting + string(a.Step)
	case key == "daysoff":
		key = "days off"
	}
	value = a.Value
	if key != "zone" {
		value = strings.ToLower(value)
	}
	var days []string
	for _, d := range a.Weekdays {
		days = append(days, strings.ToLower(time.Weekday(d%7).String()))
	}
	if len(days) > 0 {
		value = strings.Join(days, " and ")
	}
	set := *rules.DefaultSettings()
	if set.Apply(key, value, time.Time{}) != nil {
		return "", false
	}
	return set.Value(key), true
}

func spelled(acts []Act) string {
	b, err := json.Marshal(acts)
	if err != nil {
		return err.Error()
	}
	return string(b)
}

// partOf reports whether each of some acts is one of others. Of a graft the builder may be
// missing: the answer asks for it.
func partOf(acts, others []Act) bool {
	for _, a := range acts {
		found := false
		for _, o := range others {
			if a.Step == rules.Graft && a.Builder == "" {
				o.Builder = ""
			}
			found = found || alike([]Act{a}) == alike([]Act{o})
		}
		if !found {
			return false
		}
	}
	return true
}

// alike spells what labels ask for of acts: not their times, ages and amounts.
func alike(acts []Act) string {
	out := append([]Act{}, acts...)
	for i := range out {
		if a := &out[i]; !commandAct(*a) {
			a.When, a.AgeLo, a.AgeHi, a.Litres, a.Bees, a.Span, a.Reason, a.Release, a.Each = nil, nil, nil, 0, nil, 0, "", false, false
		}
	}
	return spelled(out)
}

// anotherName reports whether acts differ in nothing but a name that is typed freely: of
// what is put on the list, of who wants an order. With a slip in it, it is another name.
func anotherName(own, acts []Act) bool {
	if len(own) != len(acts) {
		return false
	}
	without := func(list []Act) string {
		out := append([]Act{}, list...)
		for i := range out {
			a := &out[i]
			typed := func(s *string) {
				if *s != "" {
					*s = "~"
				}
			}
			switch a.Kind {
			case Add:
				typed(&a.Builder)
				typed(&a.Yard)
			case Order:
				typed(&a.Person)
			}
		}
		return spelled(out)
	}
	return without(own) == without(acts)
}

// amiss reports whether a slip of a line logs what the line does not say. own is what the
// line itself is read as.
func (s *slipReader) amiss(l labelled, own, res Result) bool {
	var acts []Act
	for _, a := range changes(res.Acts) {
		if !askedBack(a, l.known) || own.Outcome == Log && alike([]Act{a}) == alike(own.Acts) {
			acts = append(acts, a)
		}
	}
	if res.Outcome != Log || len(acts) == 0 {
		return false
	}
	if own.Outcome == Log {
		mine := changes(own.Acts)
		if alike(mine) == alike(acts) || anotherName(mine, acts) {
			return false
		}
		if (len(res.Acts) > len(acts) || len(acts) == len(mine)) && partOf(acts, mine) {
			return false // the rest is asked back about
		}
		for _, a := range append(append([]Act{}, mine...), acts...) {
			if commandAct(a) || a.Kind == Add {
				return true // a command is done as it was said or not at all
			}
		}
	}
	return commandAct(acts[0]) || loggedAmiss(l, res)
}

// read reads slips of a line: all of them, or as many as are drawn from a seed.
func (s *slipReader) read(l labelled, each int, seed int64) (c slipCount) {
	own := s.r.Read(l.text, l.known)
	seen := map[string]bool{}
	var list []string
	slipsOf(l.text, func(t string) {
		if !seen[t] {
			seen[t] = true
			list = append(list, t)
		}
	})
	rng := rand.New(rand.NewSource(slipSeed + seed))
	rng.Shuffle(len(list), func(i, k int) { list[i], list[k] = list[k], list[i] })
	if each > 0 {
		list = list[:min(each, len(list))]
	}
	kin := map[string]*kinship{}
	of := s.kin.of(l)
	for _, t := range list {
		c.total++
		k := &kinship{}
		if each == 0 {
			if key := of(t); key != "" {
				if kin[key] == nil {
					kin[key] = k
				}
				k = kin[key]
			}
		}
		if k.n >= kinRead && k.alike && !k.amiss {
			c.put(k.verdict)
			continue
		}
		c.read++
		res := s.r.Read(t, l.known)
		amiss := s.amiss(l, own, res)
		v := verdict(l, res)
		k.see(v, amiss)
		id := fold(l.text) + "\t" + fold(t)
		switch {
		case amiss && (s.listed[id] || s.listed[s.pair(l.text, t)]):
			c.listed++
			s.mu.Lock()
			s.used[id], s.used[s.pair(l.text, t)] = true, true
			s.mu.Unlock()
		case amiss:
			c.wrong = append(c.wrong, fmt.Sprintf("%s\t%s\t%s\twant %s\tgot %s\t%s", l.at, l.text, t, spellWant(l.want), spellActs(res.Acts), spellWhy(res.Why)))
		default:
			c.put(v)
		}
	}
	return c
}

func (c *slipCount) put(verdict string) {
	switch verdict {
	case "right":
		c.right++
	case "tap":
		c.tap++
	case "silent":
		c.silent++
	default:
		c.asked++
	}
}

// mostWrongSlips is how many slips of the sample log what was not said.
const mostWrongSlips = 0

// TestSlips reads labelled lines with one slip of the thumb each. None may log what was
// not said. YARDBELL_MUTANTS=all reads every slip of every line, =kin a few of those that
// nothing in the data tells apart, a number as many; else a fixed sample is read.
// YARDBELL_PART=1/4 reads every fourth line. YARDBELL_WRONG names a file for what is wrong.
func TestSlips(t *testing.T) {
	r, err := Load(Data())
	require.NoError(t, err)
	mode := os.Getenv("YARDBELL_MUTANTS")
	s := &slipReader{r: r, listed: listedSlips(t), used: map[string]bool{}}
	s.kin = newSlipKin(r, mode == "all")
	lines := slippedLines(t)
	part, parts := 1, 1
	if p := os.Getenv("YARDBELL_PART"); p != "" {
		_, err := fmt.Sscanf(p, "%d/%d", &part, &parts)
		require.NoError(t, err)
	}
	sample := fewerSlips
	if allTests {
		sample = sampledSlips
	}
	if n, err := strconv.Atoi(mode); err == nil {
		sample = n
	}
	each := (sample + len(lines) - 1) / len(lines)
	switch {
	case mode == "all" || mode == "kin":
		each = 0
		defer debug.SetGCPercent(debug.SetGCPercent(800))
	case testing.Short():
		each = 1
	}
	var total slipCount
	var mu sync.Mutex
	var wg sync.WaitGroup
	next := make(chan int)
	for range runtime.GOMAXPROCS(0) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := range next {
				c := s.read(lines[i], each, int64(i))
				mu.Lock()
				total.add(c)
				mu.Unlock()
			}
		}()
	}
	n := 0
	for i := range lines {
		if i%parts == part-1 {
			n++
			next <- i
		}
	}
	close(next)
	wg.Wait()
	pct := func(n int) string { return fmt.Sprintf("%.1f %%", 100*float64(n)/float64(max(1, total.total))) }
	t.Logf("%d slips of %d lines, %d read: right %s, one tap %s, asked %s, silent %s, listed %d, wrong %d",
		total.total, n, total.read, pct(total.right), pct(total.tap), pct(total.asked), pct(total.silent), total.listed, len(total.wrong))
	sort.Strings(total.wrong)
	if f := os.Getenv("YARDBELL_WRONG"); f != "" {
		require.NoError(t, os.WriteFile(f, []byte(strings.Join(total.wrong, "\n")+"\n"), 0o644))
	}
	for i, w := range total.wrong {
		if i == 60 {
			break
		}
		t.Log(w)
	}
	if parts == 1 && each == 0 {
		for id := range s.listed {
			if !s.used[id] {
				t.Logf("listed and not met: %s", id)
			}
		}
	}
	if mode == "" {
		require.LessOrEqual(t, len(total.wrong), mostWrongSlips, "slips that log what was not said")
		return
	}
	require.Empty(t, len(total.wrong), "slips that log what was not said")
}

// pair is the word that differs in a slip, before and after, as the lexicons spell it.
func (s *slipReader) pair(text, slip string) string {
	p := wordPair(text, slip)
	was, is, _ := strings.Cut(p, "\t")
	if full := s.r.lex.same[is]; len(full) > 0 && len(full[0].words) == 1 {
		return was + "\t" + full[0].words[0]
	}
	return p
}

// wordPair is the word that differs in a slip, before and after, figures in it as #.
func wordPair(text, slip string) string {
	a, b := strings.Fields(inFigures.ReplaceAllString(fold(text), "#")), strings.Fields(inFigures.ReplaceAllString(fold(slip), "#"))
	if len(a) != len(b) {
		return ""
	}
	for i := range a {
		if a[i] != b[i] {
			return strings.Trim(a[i], ",.;:!?¿¡") + "\t" + strings.Trim(b[i], ",.;:!?¿¡")
		}
	}
	return ""
}
