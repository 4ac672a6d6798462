package rules

import (
	"math"
	"sort"
	"time"
)

// Stay is a breeder shut in on a comb, in the logbook or planned.
type Stay struct {
	Breeder  int
	From, To time.Time
}

// StaysOf reads the confinements in the logbook; one still going on ends when
// its comb is planned to come out.
func StaysOf(combs []Comb) []Stay {
	var out []Stay
	for _, c := range combs {
		to := c.Out
		if to.IsZero() {
			to = c.PlannedOut()
		}
		out = append(out, Stay{c.Breeder, c.Confined, to})
	}
	return out
}

// Rotation is how much confinement a breeder may be asked for.
type Rotation struct {
	MaxStay time.Duration // on one comb
	Rest    time.Duration // between two combs
	PerWeek int           // confinements begun within any seven days
}

// DefaultRotation: a day and a half is the latest that a comb comes out in
// steps.csv (Büchler et al. 2013 s2.1.5 says 12-24 h; Harris & Sheridan,
// Mississippi AFES, release her the next day). How long she rests in between and
// how often she is confined are limits of our own, with no source; Büchler et al.
// also describe a comb every day, which a crew may set.
var DefaultRotation = Rotation{36 * time.Hour, 24 * time.Hour, 2}

// What a rotation has against a confinement.
const (
	TooLong  = "too_long"
	NoRest   = "no_rest"
	TooOften = "too_often"
)

const week = 7 * 24 * time.Hour

// Check says whether a breeder may be confined over [from, to]: "" or what is
// against it, and the earliest start from which a stay as long is allowed (zero
// where none ever is, because it is too long).
func (r Rotation) Check(stays []Stay, breeder int, from, to time.Time) (against string, next time.Time) {
	stay := to.Sub(from)
	if stay > r.MaxStay {
		return TooLong, time.Time{}
	}
	if against = r.against(stays, breeder, from, to); against == "" {
		return "", from
	}
	var starts []time.Time
	for _, s := range stays {
		if s.Breeder == breeder {
			starts = append(starts, s.To.Add(r.Rest), s.From.Add(week))
		}
	}
	sort.Slice(starts, func(i, j int) bool { return starts[i].Before(starts[j]) })
	for _, t := range starts {
		if t.After(from) && r.against(stays, breeder, t, t.Add(stay)) == "" {
			return against, t
		}
	}
	return against, time.Time{}
}

func (r Rotation) against(stays []Stay, breeder int, from, to time.Time) string {
	begun := []time.Time{from}
	for _, s := range stays {
		if s.Breeder != breeder {
			continue
		}
		if from.Before(s.To.Add(r.Rest)) && s.From.Before(to.Add(r.Rest)) {
			return NoRest
		}
		begun = append(begun, s.From)
	}
	sort.Slice(begun, func(i, j int) bool { return begun[i].Before(begun[j]) })
	for i := range begun {
		// PerWeek others and this one within seven days, in any place among them.
		if j := i + r.PerWeek; j < len(begun) && begun[j].Sub(begun[i]) < week && !from.Before(begun[i]) && !begun[j].Before(from) {
			return TooOften
		}
	}
	return ""
}

// Choose picks the breeder to confine over [from, to] among those allowed: the
// one confined least in the four weeks on either side, of equals the one whose
// last stay is longest ago, then the lowest number. ok is false where none may be.
func (r Rotation) Choose(breeders []int, stays []Stay, from, to time.Time) (breeder int, ok bool) {
	list := r.rank(breeders, stays, from, to)
	if len(list) == 0 {
		return 0, false
	}
	return list[0], true
}

// rank are the breeders that may be confined, in the order in which Choose takes them.
func (r Rotation) rank(breeders []int, stays []Stay, from, to time.Time) (out []int) {
	type candidate struct {
		n, stays int
		last     time.Time
	}
	var found []candidate
	for _, n := range breeders {
		if against, _ := r.Check(stays, n, from, to); against != "" {
			continue
		}
		c := candidate{n: n}
		for _, s := range stays {
			if s.Breeder != n {
				continue
			}
			if dist(s.From, from) < 4*week {
				c.stays++
			}
			if s.From.Before(from) && s.From.After(c.last) {
				c.last = s.From
			}
		}
		found = append(found, c)
	}
	sort.Slice(found, func(i, j int) bool {
		a, b := found[i], found[j]
		switch {
		case a.stays != b.stays:
			return a.stays < b.stays
		case !a.last.Equal(b.last):
			return a.last.Before(b.last)
		}
		return a.n < b.n
	})
	for _, c := range found {
		out = append(out, c.n)
	}
	return out
}

// EggsPerDay is how many eggs a breeder lays on her comb: the low end of an
// average of 700-1000 a day, Johnstone 2008, Rearing queen bees, NSW DPI Primefact
// 828. UsableShare is how many larvae of the right age a grafter can reach and lift
// whole; common practice, no source.
const (
	EggsPerDay  = 700.0
	UsableShare = 1.0 / 3
)

// Larvae is how many larvae up to 24 h old a grafter can take from a comb at t.
func (c Comb) Larvae(t time.Time) int {
	from, to := c.Laying()
	if c.Failed || t.Before(from) {
		return 0
	}
	if to.After(t) {
		to = t
	}
	sh := SharesAt(from, to, t)
	return int(EggsPerDay / 24 * to.Sub(from).Hours() * (sh.To12 + sh.To24) * UsableShare)
}

// CombsFor is how many combs, confined and grafted as in r, give larvae for so
// many grafts.
func CombsFor(grafts int, r RoundTimes, bees bool) int {
	per := Comb{Confined: r.Confined, BeesIn: &bees}.Larvae(r.Graft)
	if grafts <= 0 {
		return 0
	}
	return int(math.Ceil(float64(grafts) / float64(max(per, 1))))
}

// CombNeed is a graft that wants larvae; Breeder 0 takes any.
type CombNeed struct {
	At      time.Time
	Grafts  int
	Breeder int
}

// CombMatch is what a graft gets: so many of its larvae from that comb, 0 where
// none has any. Short is how many it still lacks.
type CombMatch struct {
	Need  CombNeed
	Comb  int64
	Take  int
	Short int
}

// MatchCombs gives combs to grafts in the order of the grafts. A graft takes the
// comb that has most larvae for it, and another where one is not enough; larvae
// taken are gone for the next.
func MatchCombs(combs []Comb, needs []CombNeed) []CombMatch {
	order := append([]CombNeed(nil), needs...)
	sort.SliceStable(order, func(i, j int) bool { return order[i].At.Before(order[j].At) })
	taken := map[int64]int{}
	var out []CombMatch
	for _, n := range order {
		left := n.Grafts
		for left > 0 {
			best, most := -1, 0
			for i, c := range combs {
				if n.Breeder != 0 && c.Breeder != n.Breeder || n.At.Before(c.Confined) {
					continue
				}
				if have := c.Larvae(n.At) - taken[c.ID]; have > most {
					best, most = i, have
				}
			}
			m := CombMatch{Need: n, Short: left}
			if best >= 0 {
				m.Comb, m.Take = combs[best].ID, min(left, most)
				taken[m.Comb] += m.Take
				left -= m.Take
				m.Short = left
			}
			out = append(out, m)
			if best < 0 {
				break
			}
		}
	}
	return out
}
