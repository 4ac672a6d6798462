package rules

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// open is an open task with its window in local time.
func open(step Step, w Weight, earliest, best, latest string) Task {
	return Task{Subject: BatchSubject(1), Step: step, Weight: w, State: Open, Earliest: when(earliest), Best: when(best), Latest: when(latest)}
}

// fires lists the pings of a task as "kind local time".
func fires(t Task, s *Settings) (out []string) {
	for _, p := range Pings(t, s) {
		out = append(out, string(p.Kind)+" "+p.Fire.In(s.Zone).Format("01-02 15:04"))
	}
	return out
}

func TestPings(t *testing.T) {
	loud := crew()
	loud.Wake = true
	again := open(Accept, Routine, "2031-05-02 04:00", "2031-05-02 10:00", "2031-05-03 10:00")
	again.Snoozed = when("2031-05-02 23:00")
	guard := open(HandsOff, Critical, "2031-05-06 10:00", "2031-05-06 10:00", "2031-05-10 10:00")
	guard.Guard, guard.Snoozed = true, when("2031-05-07 12:00")
	for _, c := range []struct {
		say  string
		task Task
		s    *Settings
		want []string
	}{
		{"a move: the evening before its best day, closing, over, and the question after",
			open(Move, Critical, "2031-05-10 10:00", "2031-05-11 08:00", "2031-05-11 14:00"), crew(),
			[]string{"eve 05-10 19:00", "closing6 05-11 08:00", "closing2 05-11 12:00", "over 05-11 14:00", "noanswer 05-11 19:00"}},
		{"a graft says when its window opens",
			open(Graft, Critical, "2031-05-01 09:00", "2031-05-02 08:00", "2031-05-02 16:00"), crew(),
			[]string{"eve 05-01 19:00", "open 05-01 09:00", "closing6 05-02 10:00", "closing2 05-02 14:00", "over 05-02 16:00", "noanswer 05-02 19:00"}},
		{"a graft that opens at night says so when the quiet hours end",
			open(Graft, Critical, "2031-05-01 23:00", "2031-05-02 08:00", "2031-05-02 16:00"), crew(),
			[]string{"eve 05-01 19:00", "open 05-02 05:30", "closing6 05-02 10:00", "closing2 05-02 14:00", "over 05-02 16:00", "noanswer 05-02 19:00"}},
		{"six hours before lies in quiet hours, two hours remain after them: their end",
			open(Move, Critical, "2031-05-10 08:00", "2031-05-10 17:00", "2031-05-11 08:00"), crew(),
			[]string{"eve 05-09 19:00", "closing6 05-11 05:30", "closing2 05-11 06:00", "over 05-11 08:00", "noanswer 05-11 19:00"}},
		{"exactly two hours remain: their end, where both closing pings meet and one is enough",
			open(Move, Critical, "2031-05-10 08:00", "2031-05-10 17:00", "2031-05-11 07:30"), crew(),
			[]string{"eve 05-09 19:00", "closing6 05-11 05:30", "over 05-11 07:30", "noanswer 05-11 19:00"}},
		{"less remain: just before the night, and once, not twice in a minute",
			open(Move, Critical, "2031-05-10 08:00", "2031-05-10 17:00", "2031-05-11 06:30"), crew(),
			[]string{"eve 05-09 19:00", "closing6 05-10 20:59", "over 05-11 06:30", "noanswer 05-11 19:00"}},
		{"closes in the night: over comes when the night ends",
			open(Move, Critical, "2031-05-10 08:00", "2031-05-10 17:00", "2031-05-11 02:00"), crew(),
			[]string{"eve 05-09 19:00", "closing6 05-10 20:00", "closing2 05-10 20:59", "over 05-11 05:30", "noanswer 05-11 19:00"}},
		{"the crew lets critical pings wake it",
			open(Move, Critical, "2031-05-10 08:00", "2031-05-10 17:00", "2031-05-11 06:30"), loud,
			[]string{"eve 05-09 19:00", "closing6 05-11 00:30", "closing2 05-11 04:30", "over 05-11 06:30", "noanswer 05-11 19:00"}},
		{"only critical ones",
			open(Nucs, Important, "2031-05-10 08:00", "2031-05-10 17:00", "2031-05-11 06:30"), loud,
			[]string{"eve 05-09 19:00", "closing6 05-10 20:59", "over 05-11 06:30", "noanswer 05-11 19:00"}},
		{"a short window has no closing ping before it opens",
			open(Move, Critical, "2031-05-11 09:00", "2031-05-11 10:00", "2031-05-11 13:00"), crew(),
			[]string{"eve 05-10 19:00", "closing2 05-11 11:00", "over 05-11 13:00", "noanswer 05-11 19:00"}},
		{"a close soon before the evening is asked about on the next",
			open(Move, Critical, "2031-05-10 09:00", "2031-05-11 10:00", "2031-05-11 18:00"), crew(),
			[]string{"eve 05-10 19:00", "closing6 05-11 12:00", "closing2 05-11 16:00", "over 05-11 18:00", "noanswer 05-12 19:00"}},
		{"routine work is in the digest only", open(Accept, Routine, "2031-05-02 04:00", "2031-05-02 10:00", "2031-05-03 10:00"), crew(), nil},
		{"unless somebody asked to be told again, after the night", again, crew(), []string{"again 05-03 05:30"}},
		{"guards are left alone", guard, loud, nil},
	} {
		assert.Equal(t, c.want, fires(c.task, c.s), c.say)
	}
	for _, state := range []TaskState{Done, Skipped, Passed} {
		k := open(Move, Critical, "2031-05-10 10:00", "2031-05-11 08:00", "2031-05-11 14:00")
		k.State = state
		assert.Empty(t, Pings(k, crew()), state)
	}
}

// The eve ping keeps its wall-clock hour over a change of the clocks, in zones
// where a day's subtraction would shift it.
func TestEveKeepsTheLocalHour(t *testing.T) {
	for _, c := range []struct{ zone, best, want string }{
		{"America/Chicago", "2031-03-09T10:00:00-05:00", "2031-03-08T19:00:00-06:00"},
		{"America/Chicago", "2031-11-03T10:00:00-06:00", "2031-11-02T19:00:00-06:00"},
		{"Australia/Sydney", "2031-10-05T10:00:00+11:00", "2031-10-04T19:00:00+10:00"},
		{"Pacific/Apia", "2011-12-31T10:00:00+14:00", "2011-12-31T00:00:00+14:00"},
		{"Asia/Kathmandu", "2031-05-08T06:00:00+05:45", "2031-05-07T19:00:00+05:45"},
	} {
		s := DefaultSettings()
		s.Zone = zone(t, c.zone)
		s.QuietFrom, s.QuietTo = 0, 0
		best, err := time.Parse(time.RFC3339, c.best)
		require.NoError(t, err)
		k := Task{Step: Move, Weight: Critical, State: Open, Earliest: best.Add(-time.Hour), Best: best, Latest: best.Add(9 * time.Hour)}
		assert.Equal(t, c.want, Pings(k, s)[0].Fire.In(s.Zone).Format(time.RFC3339), c.zone)
	}
}

// anyPinged is a crew and an open task of it.
func anyPinged(t *rapid.T) (*Settings, Task) {
	s := DefaultSettings()
	s.Zone = anyZone(t)
	s.Evening, s.Morning = anyClock(t), anyClock(t)
	s.QuietFrom = anyClock(t)
	s.QuietTo = (s.QuietFrom + Clock(rapid.IntRange(0, 20*60).Draw(t, "quiet for"))) % 1440
	s.Wake = rapid.Bool().Draw(t, "wake")
	d := nearChange(t, anyDate(t), s.Zone)
	if s.Zone.String() == "Pacific/Apia" && d.Year < 2013 {
		d.Year = 2013 // two nights meet around the skipped day
	}
	minutes := func(most int, say string) time.Duration {
		return time.Duration(rapid.IntRange(0, most).Draw(t, say)) * time.Minute
	}
	k := Task{Subject: BatchSubject(1), State: Open, Weight: Weight(rapid.IntRange(0, 2).Draw(t, "weight"))}
	k.Step = rapid.SampledFrom(Steps).Draw(t, "step")
	k.Guard = rapid.IntRange(0, 9).Draw(t, "guard") == 0
	k.Earliest = At(d, anyClock(t), s.Zone)
	k.Best = k.Earliest.Add(minutes(2*24*60, "best"))
	k.Latest = k.Best.Add(minutes(2*24*60, "latest"))
	if rapid.Bool().Draw(t, "snoozed") {
		k.Snoozed = k.Earliest.Add(minutes(3*24*60, "until"))
	}
	return s, k
}

func TestPingsHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, k := anyPinged(t)
		loud := s.Wake && k.Weight == Critical
		seen := map[Ping]bool{}
		for _, p := range Pings(k, s) {
			if k.Guard || (k.Weight == Routine && p.Kind != Again) {
				t.Fatalf("a %s ping for weight %s, guard %v", p.Kind, k.Weight, k.Guard)
			}
			if _, _, quiet := s.Quiet(p.Fire); quiet && !loud {
				t.Fatalf("%s at %v lies in the quiet hours %s-%s", p.Kind, p.Fire.In(s.Zone), s.QuietFrom, s.QuietTo)
			}
			if p.Day != DateOf(p.Fire, s.Zone) {
				t.Fatalf("%s belongs to %s but goes out at %v", p.Kind, p.Day, p.Fire.In(s.Zone))
			}
			if key := (Ping{Kind: p.Kind, Day: p.Day}); seen[key] {
				t.Fatalf("two pings %s on %s", p.Kind, p.Day)
			} else {
				seen[key] = true
			}
			switch p.Kind {
			case OpenPing:
				if k.Step != Graft {
					t.Fatalf("an open ping for %s", k.Step)
				}
			case Closing6, Closing2:
				before := map[PingKind]time.Duration{Closing6: 6 * time.Hour, Closing2: 2 * time.Hour}[p.Kind]
				at := k.Latest.Add(-before)
				from, to, quiet := s.Quiet(at)
				want := at
				if quiet && !loud {
					want = from.Add(-time.Minute)
					if k.Latest.Sub(to) >= 2*time.Hour {
						want = to
					}
				}
				if !p.Fire.Equal(want) {
					t.Fatalf("%s at %v, wanted %v", p.Kind, p.Fire, want)
				}
			case OverPing:
				if p.Fire.Before(k.Latest) {
					t.Fatalf("over before the close")
				}
			}
		}
		// An important task is never let go by without a word before its close.
		if !k.Guard && k.Weight >= Important {
			var eve, over bool
			for _, p := range Pings(k, s) {
				eve, over = eve || p.Kind == Eve, over || p.Kind == OverPing
			}
			if !eve || !over {
				t.Fatalf("eve %v, over %v", eve, over)
			}
		}
	})
}

func TestQuiet(t *testing.T) {
	s := crew()
	night := func(at string) string {
		from, to, quiet := s.Quiet(when(at))
		if !quiet {
			return "no"
		}
		return from.In(chicago).Format("02 15:04") + " to " + to.In(chicago).Format("02 15:04")
	}
	assert.Equal(t, "no", night("2031-05-10 20:59"))
	assert.Equal(t, "10 21:00 to 11 05:30", night("2031-05-10 21:00"))
	assert.Equal(t, "10 21:00 to 11 05:30", night("2031-05-11 05:29"))
	assert.Equal(t, "no", night("2031-05-11 05:30"))
	s.QuietFrom, s.QuietTo = 12*60, 14*60
	assert.Equal(t, "10 12:00 to 10 14:00", night("2031-05-10 13:00"), "a midday rest")
	assert.Equal(t, "no", night("2031-05-10 02:00"))
	s.QuietFrom, s.QuietTo = 0, 0
	assert.Equal(t, "no", night("2031-05-10 00:00"), "none set")

	// In the repeated hour the night that ended at its first 01:30 does not begin
	// again at the second 01:00.
	s.QuietFrom, s.QuietTo = 21*60, 90
	second := when("2031-11-02 01:10").Add(time.Hour)
	require.Equal(t, "01:10", ClockOf(second, chicago).String())
	_, _, quiet := s.Quiet(second)
	assert.False(t, quiet)
	rapid.Check(t, func(t *rapid.T) {
		s, k := anyPinged(t)
		if from, to, quiet := s.Quiet(k.Latest); quiet && (k.Latest.Before(from) || !k.Latest.Before(to)) {
			t.Fatalf("%v is said to lie in %v … %v", k.Latest, from, to)
		}
	})
}

func TestDecide(t *testing.T) {
	s := crew()
	loud := crew()
	loud.Wake = true
	move := open(Move, Critical, "2031-05-10 10:00", "2031-05-11 08:00", "2031-05-11 14:00")
	state := func(st TaskState) Task { k := move; k.State = st; return k }
	claimed := move
	claimed.ClaimedBy = "Ada"
	snoozed := move
	snoozed.Snoozed = when("2031-05-11 12:00")
	reasons := map[string]bool{}
	for _, c := range []struct {
		say    string
		kind   PingKind
		fire   string
		task   Task
		found  bool
		digest bool
		s      *Settings
		now    string
		want   Verdict
	}{
		{"on time", Eve, "2031-05-10 19:00", move, true, false, s, "2031-05-10 19:00", Verdict{Do: SendIt, Reason: "due"}},
		{"within the grace", Eve, "2031-05-10 19:00", move, true, false, s, "2031-05-10 19:05", Verdict{Do: SendIt, Reason: "due"}},
		{"late", Eve, "2031-05-10 19:00", move, true, false, s, "2031-05-10 19:06", Verdict{Do: SendIt, Reason: "late"}},
		{"task gone", Eve, "2031-05-10 19:00", move, false, false, s, "2031-05-10 19:00", Verdict{Do: DropIt, Reason: "no longer planned"}},
		{"done", Closing2, "2031-05-11 12:00", state(Done), true, false, s, "2031-05-11 12:00", Verdict{Do: DropIt, Reason: "done"}},
		{"skipped", Closing2, "2031-05-11 12:00", state(Skipped), true, false, s, "2031-05-11 12:00", Verdict{Do: DropIt, Reason: "skipped"}},
		{"overtaken", Closing2, "2031-05-11 12:00", state(Passed), true, false, s, "2031-05-11 12:00", Verdict{Do: DropIt, Reason: "overtaken by a later step"}},
		{"claimed: the question is not asked", NoAnswer, "2031-05-11 19:00", claimed, true, false, s, "2031-05-11 19:00", Verdict{Do: DropIt, Reason: "claimed by Ada"}},
		{"claimed: the opening is not told", OpenPing, "2031-05-10 10:00", claimed, true, false, s, "2031-05-10 10:00", Verdict{Do: DropIt, Reason: "claimed by Ada"}},
		{"claimed: closing never quiets", Closing6, "2031-05-11 08:00", claimed, true, false, s, "2031-05-11 08:00", Verdict{Do: SendIt, Reason: "due"}},
		{"claimed: closing never quiets", Closing2, "2031-05-11 12:00", claimed, true, false, s, "2031-05-11 12:00", Verdict{Do: SendIt, Reason: "due"}},
		{"claimed: over goes out", OverPing, "2031-05-11 14:00", claimed, true, false, s, "2031-05-11 14:00", Verdict{Do: SendIt, Reason: "due"}},
		{"snoozed", Eve, "2031-05-10 19:00", snoozed, true, false, s, "2031-05-10 19:00", Verdict{Do: DropIt, Reason: "snoozed"}},
		{"snoozed: closing comes all the same", Closing6, "2031-05-11 08:00", snoozed, true, false, s, "2031-05-11 08:00", Verdict{Do: SendIt, Reason: "due"}},
		{"snooze is over", Eve, "2031-05-11 12:30", snoozed, true, false, s, "2031-05-11 12:30", Verdict{Do: SendIt, Reason: "due"}},
		{"yesterday's eve and today's digest", Eve, "2031-05-10 19:00", move, true, true, s, "2031-05-11 06:30", Verdict{Do: DropIt, Reason: "replaced by the digest of the day"}},
		{"yesterday's eve and no digest today", Eve, "2031-05-10 19:00", move, true, false, s, "2031-05-11 06:30", Verdict{Do: SendIt, Reason: "late"}},
		{"the digest does not replace a closing ping", Closing6, "2031-05-10 20:59", move, true, true, s, "2031-05-11 06:30", Verdict{Do: SendIt, Reason: "late"}},
		{"an eve of today is not replaced", Eve, "2031-05-10 19:00", move, true, true, s, "2031-05-10 20:00", Verdict{Do: SendIt, Reason: "late"}},
		{"back up at night", Eve, "2031-05-10 19:00", move, true, false, s, "2031-05-10 23:00", Verdict{Do: HoldIt, Reason: "quiet hours", Until: when("2031-05-11 05:30")}},
		{"back up at night, the crew may be woken", Eve, "2031-05-10 19:00", move, true, false, loud, "2031-05-10 23:00", Verdict{Do: SendIt, Reason: "late"}},
	} {
		got := Decide(c.kind, when(c.fire), c.task, c.found, c.digest, c.s, when(c.now))
		assert.Equal(t, c.want, got, c.say)
		reasons[got.Reason] = true
	}
	for _, r := range []string{"no longer planned", "done", "skipped", "overtaken by a later step", "claimed by Ada", "snoozed",
		"replaced by the digest of the day", "quiet hours", "due", "late"} {
		assert.True(t, reasons[r], "no row has the reason %q", r)
	}
	assert.Len(t, reasons, 10, "a reason without a name in this test")
}

func TestDecideHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, k := anyPinged(t)
		kind := rapid.SampledFrom([]PingKind{Eve, OpenPing, Closing6, Closing2, OverPing, NoAnswer, Again}).Draw(t, "kind")
		k.State = rapid.SampledFrom([]TaskState{Open, Done, Skipped, Passed}).Draw(t, "state")
		now := k.Latest.Add(time.Duration(rapid.IntRange(-600, 600).Draw(t, "minutes late")) * time.Minute)
		v := Decide(kind, k.Latest, k, rapid.Bool().Draw(t, "found"), rapid.Bool().Draw(t, "digest"), s, now)
		if v.Reason == "" {
			t.Fatalf("no reason: %+v", v)
		}
		if (v.Do == HoldIt) != !v.Until.IsZero() {
			t.Fatalf("%+v", v)
		}
		// A hold that ends now or before would be taken up again at once, for ever.
		if v.Do == HoldIt && !v.Until.After(now) {
			t.Fatalf("held until %v at %v", v.Until, now)
		}
		if v.Do != DropIt && k.State != Open {
			t.Fatalf("%s for a task that is %s", v.Do, k.State)
		}
	})
}

func TestPublicKind(t *testing.T) {
	for k, want := range map[PingKind]string{Eve: "eve", OpenPing: "open", Closing6: "closing", Closing2: "closing", OverPing: "over", NoAnswer: "", Again: "", Digest: ""} {
		assert.Equal(t, want, k.Public(), k)
	}
}
