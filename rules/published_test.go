package rules

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// figure is one line of testdata/timetables/published.csv, which explains the columns.
type figure struct {
	line                                    int
	table, source, basis, event, check, why string
	graftAt, lo, hi, slack                  float64
	holds                                   bool
}

func (f figure) String() string {
	return fmt.Sprintf("line %d: %s, %s [%s]: %s (%s)", f.line, f.table, f.source, f.basis, f.event, f.check)
}

func readFigures(t *testing.T) (out []figure) {
	file, err := os.Open("../testdata/timetables/published.csv")
	require.NoError(t, err)
	defer file.Close()
	r := csv.NewReader(file)
	r.Comment = '#'
	head, err := r.Read()
	require.NoError(t, err)
	require.Equal(t, []string{"table", "source", "basis", "event", "graft_at", "lo", "hi", "check", "slack", "holds", "why"}, head)
	num := func(s string) float64 { v, err := strconv.ParseFloat(s, 64); require.NoError(t, err, s); return v }
	for {
		c, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		line, _ := r.FieldPos(0)
		f := figure{line: line, table: c[0], source: c[1], basis: c[2], event: c[3], graftAt: num(c[4]),
			lo: num(c[5]), hi: num(c[6]), check: c[7], slack: num(c[8]), holds: c[9] == "yes", why: c[10]}
		require.Contains(t, []string{"yes", "no"}, c[9], f)
		require.Contains(t, []string{"seen", "seen (2nd-hand)", "memory", "practice"}, f.basis, f)
		require.Equal(t, f.basis == "practice", f.source == "common practice", f)
		require.NotEmpty(t, f.source, f)
		require.NotEmpty(t, f.event, f)
		require.LessOrEqual(t, f.lo, f.hi, f)
		require.Equal(t, !f.holds, f.why != "", "an exception says why, nothing else does: %s", f)
		out = append(out, f)
	}
	return out
}

// late distorts the rules by so many hours, to show that a check can fail.
func (f figure) verify(late float64) error {
	lo, hi := f.lo-f.graftAt-f.slack, f.hi-f.graftAt+f.slack
	verb, arg, _ := strings.Cut(f.check, " ")
	within := func(what string, v float64) error {
		if v < lo || v > hi {
			return fmt.Errorf("%s is at %g h, published %g to %g h", what, v, lo, hi)
		}
		return nil
	}
	switch verb {
	case "inside", "overlap", "best", "opens", "closes":
		step, variant, _ := strings.Cut(arg, "/")
		row := DefaultTable().Row(Step(step), variant)
		earliest, best, latest := row.Earliest+late, row.Best+late, row.Latest+late
		ok := map[string]bool{
			"inside":  earliest <= lo && hi <= latest,
			"overlap": earliest <= hi && lo <= latest,
			"best":    lo <= best && best <= hi,
			"opens":   earliest >= lo,
			"closes":  latest <= hi,
		}[verb]
		if !ok {
			return fmt.Errorf("%s is %g, %g, %g h, published %g to %g h", arg, earliest, best, latest, lo, hi)
		}
		return nil
	case "queen":
		e := Emergence{Grafted: when("2031-05-01 10:00"), Age: ages(arg), Cells: 45, SigmaBatch: SigmaBatch, SigmaCell: SigmaCell}
		return within("the middle of emergence", hoursAfter(e.Grafted, e.Middle())+late)
	case "first":
		e := Emergence{Grafted: when("2031-05-01 10:00"), Age: ages(arg), Cells: 45, Shift: late, SigmaBatch: SigmaBatch, SigmaCell: SigmaCell}
		if p := e.AnyOut(e.Grafted.Add(Hours(hi))); p < SafeChance {
			return fmt.Errorf("at %g h the chance of a virgin is only %g", hi, p)
		}
		if p := e.AnyOut(e.Grafted.Add(Hours(lo))); p > 0.5 {
			return fmt.Errorf("at %g h the chance of a virgin is already %g", lo, p)
		}
		return nil
	case "egg":
		return within("emergence", eggToMiddle(0)+late)
	case "cooler":
		c, err := strconv.ParseFloat(arg, 64)
		if err != nil {
			return err
		}
		return within("emergence", eggToMiddle(c)+late)
	case "hatch":
		return within("hatching", HatchAfter+late)
	case "sealed":
		return within("sealing", SealedFrom+late)
	case "drones":
		// From a drone egg laid at that end of the drone row to the days in which
		// the virgins of the round fly.
		row := DefaultTable().Row(Drones, "")
		lead := map[string]float64{"best": -row.Best, "latest": -row.Latest}[arg]
		middle := EggToQueen - HatchAfter - 18 // larvae of 12-24 h
		return within("first flights after the drone egg", lead-24*DroneDrawing+middle+DefaultTable().Row(Flights, "").Earliest+late)
	}
	return fmt.Errorf("there is no check %q", f.check)
}

func ages(s string) AgeSpan {
	a, b, _ := strings.Cut(s, "-")
	lo, _ := strconv.ParseFloat(a, 64)
	hi, _ := strconv.ParseFloat(b, 64)
	return AgeSpan{lo, hi, "stated"}
}

// eggToMiddle runs the model from an egg laid 96 h before the graft; c is an
// incubator temperature held all the time, 0 for none.
func eggToMiddle(c float64) float64 {
	graft := when("2031-05-01 10:00")
	egg := graft.Add(-Hours(96))
	age := AgeSpan{96 - HatchAfter, 96 - HatchAfter, "stated"}
	var temps []TempFrom
	if c > 0 {
		temps = []TempFrom{{egg, c}}
	}
	e := Emergence{Grafted: graft, Age: age, Cells: 1, Shift: IncubatorShift(graft, age, temps, nil), SigmaBatch: SigmaBatch, SigmaCell: SigmaCell}
	return hoursAfter(egg, e.Middle())
}

// Figures come from handbooks, journals, extension services and public bodies, or are
// said to be common practice: a page of somebody who sells, of a club, or made for looking
// things up is no source, since nobody answers for it and it is gone next year.
func TestSourcesCanBeCited(t *testing.T) {
	page := regexp.MustCompile(`(?i)\b[a-z0-9-]+\.(com|org|net|nl|uk|co)\b|\b(blog|web ?page|time sheet|calculator|reminders?|slideplayer|entity \d+|club|apiaries)\b|[a-z] honey \(|beekeepers,`)
	// A year, a statement that there is no source, or a work without a year that is known
	// by name.
	cited := regexp.MustCompile(`\b(1[89]|20)\d\d\b|common practice|memory|derived|best placed before|from egg to flight|COLOSS behavioural studies|Harris & Sheridan|IASRI|Connor, Colony development|Uganda National Young Farmers Association|Rhodes & Somerville`)
	aside := regexp.MustCompile(`\([^)]*\)`)
	hold := func(where, source string) {
		assert.NotRegexp(t, page, source, where)
		for part := range strings.SplitSeq(aside.ReplaceAllString(source, ""), "; ") {
			assert.Regexp(t, cited, part, where)
		}
	}
	for _, r := range DefaultTable().Rows {
		hold(string(r.Step)+" "+r.Variant, r.Source)
	}
	for _, f := range readFigures(t) {
		hold(f.String(), f.source)
		assert.NotRegexp(t, page, f.why, f)
	}
	for g, r := range Published {
		hold(fmt.Sprint("yields of stage ", g), r.Source)
	}
	for e, a := range Appetites {
		hold(string(e), a.Source)
	}
}

func TestPublished(t *testing.T) {
	for _, f := range readFigures(t) {
		err := f.verify(0)
		if f.holds {
			assert.NoError(t, err, "%s", f)
			continue
		}
		assert.Error(t, err, "%s: the exception is not needed any more; it said: %s", f, f.why)
		if err != nil {
			assert.NotContains(t, err.Error(), "there is no check", "%s", f)
		}
	}
}

// Every timetable of the collection is in the file, and each has something that
// agrees: an exception alone would check nothing.
func TestPublishedIsComplete(t *testing.T) {
	agree := map[string]int{}
	for _, f := range readFigures(t) {
		if f.holds {
			agree[f.table]++
		}
	}
	for _, table := range []string{"T2", "T3", "T5", "T6", "T7", "T12", "S"} {
		assert.Positive(t, agree[table], table)
	}
}

// A check that no rule could fail would prove nothing: each must fail when the
// rules are so many days early or late.
func TestPublishedCanFail(t *testing.T) {
	for _, f := range readFigures(t) {
		if !f.holds {
			continue
		}
		fails := false
		for _, days := range []float64{-90, -30, -10, -4, 4, 10, 30, 90} {
			fails = fails || f.verify(days*24) != nil
		}
		assert.True(t, fails, "%s cannot fail", f)
	}
	// And the statements that carry the critical step are sharp to two days.
	for _, f := range readFigures(t) {
		if f.holds && (strings.HasSuffix(f.check, " move") || f.check == "egg") && !strings.HasPrefix(f.check, "closes") {
			assert.True(t, f.verify(-48) != nil || f.verify(48) != nil, "%s is too blunt", f)
		}
	}
}

// The move days of the whole timetables once more through the planner: a graft
// at 10:00 with 45 young larvae, cells moved at 10:00 on the published day.
func TestPublishedMoveDaysThroughThePlanner(t *testing.T) {
	graft := when("2031-05-01 10:00")
	var b book
	b.add(Graft, BatchSubject(1), graft, count(45))
	_, tasks := b.batch(t, crew())
	move := task(t, tasks, Move, "")
	for _, c := range []struct {
		source string
		day    int
		phase  Phase
	}{
		{"T12 Cowley 2008, common practice: day 10, an hour before", 10, InTime},
		{"T6 Uganda National Young Farmers Association: the day before day 10", 9, InTime},
		{"common practice before bad weather: day 8, in the fragile time (exception)", 8, Waiting},
		{"T5 Büchler et al. 2013: day 11, an emergence day in T6 (exception C7)", 11, Over},
	} {
		at := At(DateOf(graft, chicago).Add(c.day), 9*60, chicago)
		if c.phase == InTime && c.day == 9 {
			at = at.Add(time.Hour) // the window opens at the hour of the graft
		}
		assert.Equal(t, c.phase, move.Phase(at), c.source)
	}
	off := task(t, tasks, HandsOff, "")
	assert.Equal(t, InTime, off.Phase(graft.Add(8*24*time.Hour)), "that day lies in the time to keep hands off")
	assert.LessOrEqual(t, math.Abs(hoursAfter(graft, move.Best)-240), 12.0, "best on the published day 10")
}
