package rules

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func hoursOn(h int) time.Time { return when("2031-05-01 00:00").Add(time.Duration(h) * time.Hour) }

func TestFreedAndTakenAtOnceIsOneNuc(t *testing.T) {
	north := YardSubject("North")
	c := Calendar{Places: []Place{{Subject: north, Size: 10}}}
	c = c.Add(Use{north, 10, hoursOn(0), hoursOn(24), BatchSubject(1)}, Use{north, 10, hoursOn(24), hoursOn(48), BatchSubject(2)})
	assert.Nil(t, c.FirstBreak(chicago))
	assert.Equal(t, []Level{{hoursOn(0), 10}, {hoursOn(48), 0}}, c.Levels(north))
	c = c.Add(Use{north, 1, hoursOn(30), hoursOn(60), BatchSubject(3)})
	b := c.FirstBreak(chicago)
	require.NotNil(t, b)
	assert.Equal(t, Break{north, Date{2031, 5, 2}, hoursOn(30), 10, 11}, *b)
	n, at := c.Free(north, hoursOn(48), hoursOn(96))
	assert.Equal(t, 9, n)
	assert.Equal(t, hoursOn(48), at)
	n, at = c.Peak(north, hoursOn(0), hoursOn(96))
	assert.Equal(t, 11, n)
	assert.Equal(t, hoursOn(30), at)
}

func TestYardThatGrows(t *testing.T) {
	north := YardSubject("North")
	c := Calendar{Places: []Place{{Subject: north, Size: 10}, {Subject: north, Size: 4, From: hoursOn(40)}}}
	c = c.Add(Use{north, 8, hoursOn(0), hoursOn(48), BatchSubject(1)})
	b := c.FirstBreak(chicago)
	require.NotNil(t, b, "nucs taken away under a batch")
	assert.Equal(t, hoursOn(40), b.At)
	assert.Equal(t, 4, b.Have)
	creek := YardSubject("Creek")
	b = Calendar{}.Add(Use{creek, 1, hoursOn(0), hoursOn(1), BatchSubject(1)}).FirstBreak(chicago)
	require.NotNil(t, b, "a yard that nobody added")
	assert.Equal(t, creek, b.Place)
}

// The sweep against counting every hour.
func TestOccupancyAgainstEveryHour(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		north := YardSubject("North")
		c := Calendar{Places: []Place{{Subject: north, Size: rapid.IntRange(0, 20).Draw(t, "size")}}}
		if rapid.Bool().Draw(t, "grows") {
			c.Places = append(c.Places, Place{Subject: north, Size: rapid.IntRange(0, 20).Draw(t, "then"), From: hoursOn(rapid.IntRange(0, 60).Draw(t, "from"))})
		}
		for range rapid.IntRange(0, 8).Draw(t, "uses") {
			from := rapid.IntRange(0, 60).Draw(t, "a")
			c = c.Add(Use{north, rapid.IntRange(0, 9).Draw(t, "n"), hoursOn(from), hoursOn(from + rapid.IntRange(0, 30).Draw(t, "h")), BatchSubject(1)})
		}
		used := func(h int) (n int) {
			for _, u := range c.Uses {
				if !hoursOn(h).Before(u.From) && hoursOn(h).Before(u.To) {
					n += u.N
				}
			}
			return n
		}
		size := func(h int) int {
			if len(c.Places) > 1 && !c.Places[1].From.After(hoursOn(h)) {
				return c.Places[1].Size
			}
			return c.Places[0].Size
		}
		var want *Break
		for h := 0; h < 100 && want == nil; h++ {
			if used(h) > size(h) {
				want = &Break{north, DateOf(hoursOn(h), chicago), hoursOn(h), size(h), used(h)}
			}
		}
		assert.Equal(t, want, c.FirstBreak(chicago))
		a := rapid.IntRange(0, 80).Draw(t, "from")
		b := a + rapid.IntRange(1, 30).Draw(t, "span")
		free, peak := size(a)-used(a), used(a)
		for h := a; h < b; h++ {
			free, peak = min(free, size(h)-used(h)), max(peak, used(h))
		}
		n, _ := c.Free(north, hoursOn(a), hoursOn(b))
		assert.Equal(t, max(free, 0), n)
		n, _ = c.Peak(north, hoursOn(a), hoursOn(b))
		assert.Equal(t, peak, n)
	})
}

func TestUsesOfABatchInTheBook(t *testing.T) {
	s := crew()
	entries := Effective(season().entries)
	uses := func(n int) []Use {
		b, _ := BatchOf(1, entries[:n], nil, s)
		return BatchUses(b, entries[:n], "North", s)
	}
	got := uses(1)
	require.Len(t, got, 2)
	assert.Equal(t, BuilderSubject("B2"), got[0].Place)
	assert.Equal(t, -24.0, hoursAfter(grafted, got[0].From), "made the starter a day before")
	assert.Equal(t, 45, got[1].N, "no better count than the grafts")
	got = uses(6)
	assert.Equal(t, 236.0, hoursAfter(grafted, got[0].To), "free since the move")
	assert.Equal(t, Use{YardSubject("North"), 34, grafted.Add(Hours(236)), got[1].To, BatchSubject(1)}, got[1])
	assert.Equal(t, 295.0+672, hoursAfter(grafted, got[1].To))
	got = uses(9)
	require.Len(t, got, 3)
	assert.Equal(t, 24, got[1].N, "caught")
	assert.Equal(t, 970.0, hoursAfter(grafted, got[1].To))
	assert.Equal(t, 10, got[2].N, "not caught yet")
}

func TestRotationOfBreeders(t *testing.T) {
	r := DefaultRotation
	stays := []Stay{{7, hoursOn(0), hoursOn(24)}, {7, hoursOn(72), hoursOn(96)}, {12, hoursOn(0), hoursOn(24)}}
	check := func(breeder, from, to int) (string, time.Time) {
		return r.Check(stays, breeder, hoursOn(from), hoursOn(to))
	}
	against, _ := check(7, 200, 240)
	assert.Equal(t, TooLong, against)
	against, next := check(12, 30, 54)
	assert.Equal(t, NoRest, against)
	assert.Equal(t, hoursOn(48), next)
	against, next = check(7, 130, 154)
	assert.Equal(t, TooOften, against, "a third comb within seven days")
	assert.Equal(t, hoursOn(168), next)
	against, _ = check(7, 168, 192)
	assert.Empty(t, against)
	n, ok := r.Choose([]int{7, 12, 15}, stays, hoursOn(240), hoursOn(264))
	assert.True(t, ok)
	assert.Equal(t, 15, n, "never confined")
	n, _ = r.Choose([]int{7, 12}, stays, hoursOn(240), hoursOn(264))
	assert.Equal(t, 12, n, "confined once")
	_, ok = r.Choose([]int{7, 12}, stays, hoursOn(10), hoursOn(30))
	assert.False(t, ok)
	open := StaysOf([]Comb{{Breeder: 7, Confined: hoursOn(0)}})
	assert.Equal(t, []Stay{{7, hoursOn(0), hoursOn(24)}}, open)
}

func TestRotationNeverBreaksItsOwnRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := Rotation{36 * time.Hour, time.Duration(rapid.IntRange(0, 48).Draw(t, "rest")) * time.Hour, rapid.IntRange(1, 4).Draw(t, "a week")}
		var stays []Stay
		for range rapid.IntRange(1, 12).Draw(t, "stays") {
			from := rapid.IntRange(0, 500).Draw(t, "from")
			s := Stay{7, hoursOn(from), hoursOn(from + rapid.IntRange(6, 36).Draw(t, "stay"))}
			if against, next := r.Check(stays, 7, s.From, s.To); against == "" {
				stays = append(stays, s)
			} else if !next.IsZero() {
				again, _ := r.Check(stays, 7, next, next.Add(s.To.Sub(s.From)))
				assert.Empty(t, again, "what is offered is allowed")
			}
		}
		for _, a := range stays {
			begun := 0
			for _, b := range stays {
				if !b.From.Before(a.From) && b.From.Before(a.From.Add(week)) {
					begun++
				}
				if a != b {
					assert.False(t, a.From.Before(b.To.Add(r.Rest)) && b.From.Before(a.To.Add(r.Rest)))
				}
			}
			assert.LessOrEqual(t, begun, r.PerWeek)
		}
	})
}

// 700 eggs a day over 22 h laid; at ages of 7 to 29 h those of 12-24 h and under 12 h
// are 17 of 22, a third of them usable: 700/24 · 17 / 3 = 165.
func TestCombsMatchedToGrafts(t *testing.T) {
	yes := true
	c := Comb{ID: 5, Breeder: 7, Confined: hoursOn(0), BeesIn: &yes, Out: hoursOn(24)}
	at := hoursOn(13).Add(Hours(HatchAfter + 18)) // ages 7 to 29 h
	assert.Equal(t, 165, c.Larvae(at))
	assert.Zero(t, c.Larvae(hoursOn(40)), "only eggs")
	per := c.Larvae(at)
	other := c
	other.ID, other.Breeder = 6, 12
	needs := []CombNeed{{at, per - 20, 7}, {at.Add(time.Hour), 45, 0}, {at.Add(time.Hour), 45, 15}}
	got := MatchCombs([]Comb{c, other}, needs)
	require.Len(t, got, 3)
	assert.Equal(t, [3]int{5, per - 20, 0}, [3]int{int(got[0].Comb), got[0].Take, got[0].Short})
	assert.Equal(t, [3]int{6, 45, 0}, [3]int{int(got[1].Comb), got[1].Take, got[1].Short}, "the fuller comb")
	assert.Equal(t, [3]int{0, 0, 45}, [3]int{int(got[2].Comb), got[2].Take, got[2].Short}, "breeder 15 has none")
	r := RoundFrom(when("2031-05-01 09:00"), true, 45, crew())
	one := Comb{Confined: r.Confined, BeesIn: &yes}.Larvae(r.Graft)
	assert.Equal(t, 1, CombsFor(one, r, true))
	assert.Equal(t, 2, CombsFor(one+1, r, true))
}
