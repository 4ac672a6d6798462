package rules

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// said is an entry written at one time about work at another.
func said(step Step, at time.Time, opts ...with) Entry {
	var b book
	b.add(step, BatchSubject(1), at, opts...)
	return b.entries[0]
}

// refusals are rows of every check: code "" is accepted; ask says that the crew
// may log it anyway.
func refusals(t *testing.T) []struct {
	say  string
	got  *Refusal
	code string
	ask  bool
} {
	b := season()
	batch, ok := BatchOf(1, Effective(b.entries[:6]), nil, crew()) // up to the move of 34
	require.True(t, ok)
	fresh, _ := BatchOf(1, Effective(b.entries[:1]), nil, crew())
	old := fresh
	old.Age = AgeSpan{24, 48, "stated"}
	partly := book{append([]Entry(nil), b.entries[:4]...)}
	partly.add(Move, BatchSubject(1), h(230), count(20))
	half, _ := BatchOf(1, Effective(partly.entries), nil, crew())
	red := Comb{ID: 1, Breeder: 7, Mark: "red", Confined: confined, BeesIn: yes(), Out: confined.Add(Hours(24))}
	in := red
	in.Out = time.Time{}
	failed := red
	failed.Failed = true
	at := func(n float64) time.Time { return confined.Add(Hours(n)) }
	late := func(d time.Duration) with { return func(e *Entry) { e.Said = e.Happened.Add(d) } }
	return []struct {
		say  string
		got  *Refusal
		code string
		ask  bool
	}{
		{"just now", CheckTime(said(Capped, h(120))), "", false},
		{"a clock a little ahead", CheckTime(said(Capped, h(120), late(-10*time.Minute))), "", false},
		{"tomorrow", CheckTime(said(Capped, h(120), late(-24*time.Hour))), "future", false},
		{"60 days ago", CheckTime(said(Capped, h(120), late(LongestAgo))), "", false},
		{"last year", CheckTime(said(Capped, h(120), late(LongestAgo+time.Hour))), "long_ago", true},

		{"no count", CheckCount(said(Capped, h(120))), "", false},
		{"a usual count", CheckCount(said(Capped, h(120), count(36), of(38))), "", false},
		{"200 cells", CheckCount(said(Capped, h(120), count(200))), "", false},
		{"201 cells", CheckCount(said(Capped, h(120), count(201))), "count_many", true},
		{"2001 cells", CheckCount(said(Capped, h(120), count(2001))), "count_absurd", false},
		{"less than none", CheckCount(said(Capped, h(120), count(-1))), "count_absurd", false},
		{"of far too many", CheckCount(said(Capped, h(120), count(3), of(3000))), "count_absurd", false},
		{"a yard of 3000 nucs", CheckCount(said(Add, h(0), count(3000))), "", false},
		{"a yard of 6000 nucs", CheckCount(said(Add, h(0), count(6000))), "count_absurd", false},
		{"none grafted", CheckCount(said(Graft, h(0), count(0))), "count_zero", false},
		{"none accepted", CheckCount(said(Accept, h(24), count(0))), "", false},
		{"39 of 38", CheckCount(said(Accept, h(24), count(39), of(38))), "more_than_of", false},

		{"free to confine", CheckConfine(said(Confine, at(30)), []Comb{red}), "", false},
		{"still on a comb", CheckConfine(said(Confine, at(30)), []Comb{in}), "confined_already", false},
		{"an older round told later", CheckConfine(said(Confine, at(-50)), []Comb{in}), "", false},
		{"eggs on her comb", CheckComb(said(Eggs, at(20)), 7, in, true), "", false},
		{"eggs, but no comb", CheckComb(said(Eggs, at(20)), 7, Comb{}, false), "not_confined", false},
		{"eggs before she was on it", CheckComb(said(Eggs, at(-2)), 7, in, true), "before_confined", false},

		{"a breeder without combs on record", CheckGraft(said(Graft, at(103)), nil), "", false},
		{"in its window", CheckGraft(said(Graft, at(103), from(7)), []Comb{red}), "", false},
		{"only eggs yet", CheckGraft(said(Graft, at(60), from(7)), []Comb{red}), "graft_eggs", false},
		{"before she was confined", CheckGraft(said(Graft, at(-5), from(7)), []Comb{red}), "graft_before_confined", true},
		{"larvae over 48 h", CheckGraft(said(Graft, at(150), from(7)), []Comb{red}), "larvae_old", true},
		{"a comb nobody named", CheckGraft(said(Graft, at(103), from(7), marked("blue")), []Comb{red}), "no_such_comb", false},
		{"the comb that failed is the only one", CheckGraft(said(Graft, at(103), from(7)), []Comb{failed}), "", false},
		{"stated 30 h", CheckGraft(said(Graft, at(60), larvae(30, 30)), []Comb{red}), "", false},
		{"stated 50 h", CheckGraft(said(Graft, at(60), larvae(50, 50)), []Comb{red}), "larvae_old", true},
		{"stated 130 h", CheckGraft(said(Graft, at(60), larvae(130, 130)), []Comb{red}), "age_absurd", false},
		{"stated upside down", CheckGraft(said(Graft, at(60), larvae(30, 20)), []Comb{red}), "age_absurd", false},
		{"half of a stated age", CheckGraft(said(Graft, at(103), func(e *Entry) { a := 30.0; e.Detail.AgeHi = &a }), []Comb{red}), "", false},

		{"before the graft", CheckBatch(said(Accept, h(-1), count(30)), fresh, 0), "before_graft", false},
		{"38 of 45 accepted", CheckBatch(said(Accept, h(24), count(38), of(45)), fresh, 0), "", false},
		{"more accepted than grafted", CheckBatch(said(Accept, h(24), count(46)), fresh, 0), "more_than", false},
		{"of another number", CheckBatch(said(Accept, h(24), count(38), of(44)), fresh, 0), "of_differs", true},
		{"accepted within the hour", CheckBatch(said(Accept, h(1), count(38)), fresh, 0), "too_early", true},
		{"capped on day 3", CheckBatch(said(Capped, h(72), count(30)), fresh, 0), "too_early", true},
		{"capped an hour before day 3.5", CheckBatch(said(Capped, h(83), count(30)), fresh, 0), "too_early", true},
		{"capped on day 3.5", CheckBatch(said(Capped, h(84), count(30)), fresh, 0), "", false},
		{"capped on day 3 from larvae a day older", CheckBatch(said(Capped, h(72), count(30)), old, 0), "", false},
		{"moved on day 3", CheckBatch(said(Move, h(72), count(30)), fresh, 0), "too_early", true},
		{"virgins out before day 10", CheckBatch(said(Emerge, h(239), count(30)), fresh, 0), "too_early", true},
		{"virgins out on day 10", CheckBatch(said(Emerge, h(240), count(30)), fresh, 0), "", false},
		{"laying 3 d after emergence", CheckBatch(said(Laying, h(295+72), count(30)), fresh, 0), "too_early", true},
		{"caught 3 d after emergence", CheckBatch(said(Catch, h(295+72), count(30)), fresh, 0), "too_early", true},
		{"laying 4 d after emergence", CheckBatch(said(Laying, h(295+97), count(30)), fresh, 0), "", false},
		{"16 more to move", CheckBatch(said(Move, h(236), count(16)), half, 0), "", false},
		{"17 more than there are", CheckBatch(said(Move, h(236), count(17)), half, 0), "more_than", false},
		{"more emerged than moved", CheckBatch(said(Emerge, h(325), count(35)), batch, 0), "more_than", false},
		{"more cells than nucs", CheckBatch(said(Move, h(230), count(16), into("North")), half, 10), "more_than_nucs", true},
		{"nucs made up before any count", CheckBatch(said(Nucs, h(200), count(40)), fresh, 40), "", false},
		{"amended within the counts around it", CheckAmend(Entry{Step: Accept, Count: new(38)}, new(36), batch), "", false},
		{"amended without a count", CheckAmend(Entry{Step: Accept, Count: new(38)}, nil, batch), "", false},
		{"amended to more than grafted", CheckAmend(Entry{Step: Accept, Count: new(38)}, new(46), batch), "more_than", false},
		{"amended to fewer than were capped", CheckAmend(Entry{Step: Accept, Count: new(38)}, new(35), batch), "less_than", false},
		{"a graft amended to fewer than accepted", CheckAmend(Entry{Step: Graft, Count: new(45)}, new(37), batch), "less_than", false},
		{"one of two moves amended to all there are", CheckAmend(Entry{Step: Move, Count: new(20)}, new(36), half), "", false},
		{"one of two moves amended to one more", CheckAmend(Entry{Step: Move, Count: new(20)}, new(37), half), "more_than", false},

		{"more laying at a yard than went there", CheckYard(said(Laying, h(295+200), count(16), into("Creek")), batch, new(14)), "more_at", false},
		{"as many laying at a yard as went there", CheckYard(said(Laying, h(295+200), count(14), into("Creek")), batch, new(14)), "", false},
		{"laying at a yard of which nothing is known", CheckYard(said(Laying, h(295+200), count(16), into("Creek")), batch, nil), "", false},

		{"re-celling counts what it likes", CheckBatch(said(Recell, h(900), count(100)), batch, 0), "", false},
	}
}

func TestChecks(t *testing.T) {
	for _, c := range refusals(t) {
		if c.code == "" {
			assert.Nil(t, c.got, c.say)
			continue
		}
		if assert.NotNil(t, c.got, c.say) {
			assert.Equal(t, c.code, c.got.Code, c.say)
			assert.Equal(t, c.ask, c.got.Ask, c.say)
			assert.NotEmpty(t, c.got.Args, "%s: the crew is told nothing", c.say)
			assert.Equal(t, c.code, c.got.Error())
		}
	}
}

// Every code in the source is produced by a row of this file or of
// settings_test.go: a refusal nobody has seen has no sentence either.
func TestEveryRefusalIsTested(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range refusals(t) {
		seen[c.code] = true
	}
	for _, c := range settingRefusals() {
		seen[c.Code] = true
	}
	for _, c := range stockRefusals(t) {
		seen[c.want] = true
	}
	for _, c := range accountRefusals(t) {
		seen[c.Code] = true
	}
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	code := regexp.MustCompile(`refuse\("([a-z_]+)"`)
	found := 0
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		for _, m := range code.FindAllStringSubmatch(string(text), -1) {
			found++
			assert.True(t, seen[m[1]], "%s: no test has the refusal %q", name, m[1])
		}
	}
	assert.Greater(t, found, 20, "the search found hardly any refusal in the source")
}

func TestAgeWarning(t *testing.T) {
	for hi, want := range map[float64]string{12: "", 24: "", 24.5: "old", 36: "old", 36.5: "poor", 48: "poor"} {
		assert.Equal(t, want, AgeWarning(AgeSpan{12, hi, "comb"}), "%g h", hi)
	}
}
