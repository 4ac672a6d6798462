package rules

import (
	"maps"
	"math"
	"slices"
	"sync"
	"time"
)

// Look is what somebody saw of a batch at one time: how many of so many cells were out.
type Look struct {
	Line    int64
	At      time.Time
	Place   string // the yard, "" for all of a batch that is in one or in none
	Out, Of int
	Some    bool // Out is the least: a virgin among cells that nobody counted
	Moved   bool // cells that went to their nucs, none of them out
}

// rogueVirgin is the chance that a virgin seen among cells is none of theirs but one of a
// cell that the bees built and the crew missed. Our choice: without it a single stray virgin
// would teach that all cells come out a day sooner.
const rogueVirgin = 0.005

// LooksOf are the looks at a batch in the order of their time: the first virgin among its
// cells, cells moved, which says that none was out, and counts of emerged queens. Of virgins
// among cells one may be a stray; those reported after it may be the same, or told again.
func LooksOf(b Batch, entries []Entry) (out []Look) {
	placed := map[string]int{} // cells that were moved so far
	some := false
	add := func(l Look, e *Entry) {
		if l.Some && some {
			return
		}
		some = some || l.Some
		l.Line, l.At, l.Of = e.ID, e.Happened, max(l.Of, l.Out)
		out = append(out, l)
	}
	for i := range entries {
		e := &entries[i]
		if e.Action != Did {
			continue
		}
		place := e.Into
		if len(b.Yards) <= 1 {
			place = ""
		}
		switch e.Step {
		case Virgin:
			if b.Ripe(e.Happened) && b.Counts.Cells() != nil {
				add(Look{Out: 1, Of: *b.Counts.Cells(), Some: true}, e)
			}
		case Move:
			if e.Count != nil {
				placed[place] += *e.Count
				add(Look{Place: place, Of: *e.Count, Moved: true}, e)
			}
		case Lose: // dead or empty cells are no late ones
			if e.Count != nil && placed[place] > 0 {
				placed[place] = max(0, placed[place]-*e.Count)
			}
		case Emerge:
			n, known := 0, false
			switch {
			case e.Of != nil:
				n, known = *e.Of, true
			case placed[place] > 0:
				n, known = placed[place], true
			case place == "" && len(placed) > 0:
				for _, k := range placed {
					n += k
				}
				known = true
			}
			switch cells := b.Counts.Cells(); {
			case e.Count == nil, *e.Count == 0 && !e.Detail.NoneYet:
			case known:
				add(Look{Place: place, Out: *e.Count, Of: n}, e)
			case cells != nil && *e.Count > 0: // before the move: one was seen, nobody looked at all
				add(Look{Out: 1, Of: *cells, Some: true}, e)
			}
		}
	}
	return out
}

// teaches reports whether a look tells much of when cells come out: the books are in doubt
// about a cell at that hour, or what was seen is what they rule out.
func (l Look) teaches(e Emergence) bool {
	e.SigmaCell = math.Hypot(e.SigmaBatch, e.SigmaCell)
	switch p := e.cellOut(l.At.Sub(e.Grafted).Hours()); {
	case p < 0.01:
		return l.Out > 0
	case p > 0.99:
		return l.Out == 0
	}
	return true
}

// hatchNode is a share of cells from which queens come at all, and its chance.
type hatchNode struct{ share, log, w float64 }

// hatchNodes stand for the emergence rate of a batch: the published rate with its width and
// over-dispersion (yield.go). Cells that are dead are taken for late ones without them.
var hatchNodes = sync.OnceValue(func() []hatchNode {
	r := Published[StageEmerged]
	mean, sd := r.mean(), (r.Hi-r.Lo)/4
	k := mean*(1-mean)/(sd*sd+mean*(1-mean)*rhoAlpha/(rhoAlpha+rhoBeta)) - 1
	nodes, sum := make([]hatchNode, 8), 0.0
	for i := range nodes {
		x := (float64(i) + 0.5) / float64(len(nodes))
		nodes[i] = hatchNode{x, math.Log(x), math.Pow(x, mean*k-1) * math.Pow(1-x, (1-mean)*k-1)}
		sum += nodes[i].w
	}
	for i := range nodes {
		nodes[i].w /= sum
	}
	return nodes
})

// cells are some of a batch of which it was seen by when they were out, or that they were not.
type cells struct {
	n     int
	place int // number of the look that saw them
	since int // number of the look before at the same place, -1 for none
	kind  cellKind
}

type cellKind int

const (
	cameOut cellKind = iota // between two looks
	waiting                 // not out at the last look
	among                   // one or more of them out
)

// cellsOf sorts the cells of a batch by what was seen of them. Of each place the counts go up
// from look to look: a cell that is out stays out.
func cellsOf(looks []Look) (out []cells) {
	type place struct{ of, seen, last int }
	places := map[string]*place{}
	left := 0 // cells that were moved: a virgin among cells was one of the others
	for i, l := range looks {
		if l.Some {
			continue
		}
		if l.Moved {
			left += l.Of
		}
		p := places[l.Place]
		if p == nil {
			p = &place{last: -1}
			places[l.Place] = p
		}
		if more := l.Out - p.seen; more > 0 {
			out = append(out, cells{more, i, p.last, cameOut})
		}
		if l.Moved {
			p.of += l.Of
		} else {
			p.of = l.Of
		}
		p.seen, p.last = max(p.seen, l.Out), i
	}
	for _, at := range slices.Sorted(maps.Keys(places)) {
		if p := places[at]; p.of > p.seen {
			out = append(out, cells{p.of - p.seen, p.last, -1, waiting})
		}
	}
	for i, l := range looks {
		if l.Some {
			out = append(out, cells{max(1, l.Of-left), i, -1, among})
		}
	}
	return out
}

// likelihood of what was seen of a batch's cells, but for a factor, where all of them are late
// hours later than e has it.
func likelihood(e Emergence, looks []Look, seen []cells, late float64) float64 {
	var chance [8]float64 // of a cell at each look
	outs := chance[:0]
	for _, l := range looks {
		outs = append(outs, e.cellOut(l.At.Sub(e.Grafted).Hours()-late))
	}
	const least = 1e-9
	base, hatched := 0.0, 0
	for _, c := range seen {
		if c.kind == cameOut {
			p := outs[c.place]
			if c.since >= 0 {
				p -= outs[c.since]
			}
			base += float64(c.n) * math.Log(max(p, least))
			hatched += c.n
		}
	}
	var sum float64
	for _, h := range hatchNodes() {
		v := base + float64(hatched)*h.log
		for _, c := range seen {
			if c.kind == cameOut {
				continue
			}
			none := float64(c.n) * math.Log1p(-min(h.share*outs[c.place], 1-least))
			if c.kind == among {
				none = math.Log(rogueVirgin - (1-rogueVirgin)*math.Expm1(none))
			}
			v += none
		}
		sum += h.w * math.Exp(v)
	}
	return max(sum, 1e-300)
}
