package rules

import (
	"reflect"
	"slices"
	"strconv"
	"strings"
	"time"
)

// NucsAt is so many nucs in a yard.
type NucsAt struct {
	Yard string
	N    int
}

// spellNucs and FreeNucs keep, in Task.From of a task to make up nucs, where free ones stand
// and how many of them are counted: "North 24, Creek 6".
func spellNucs(list []NucsAt) string {
	var out []string
	for _, x := range list {
		out = append(out, x.Yard+" "+strconv.Itoa(x.N))
	}
	return strings.Join(out, YardSep)
}

// FreeNucs are the standing nucs that a task to make up nucs does not ask for.
func FreeNucs(t Task) (out []NucsAt) {
	if t.Step != Nucs {
		return nil
	}
	for _, s := range strings.Split(t.From, YardSep) {
		i := strings.LastIndexByte(s, ' ')
		if i < 0 {
			continue
		}
		if n, err := strconv.Atoi(s[i+1:]); err == nil {
			out = append(out, NucsAt{s[:i], n})
		}
	}
	return out
}

// withNucs are a batch's lines and, as losses of its own, what is told of nucs that held its
// queens: without these it would wait for queens that the crew said are gone.
func (c *Crew) withNucs(n int, entries []Entry) []Entry {
	var more []Entry
	seen := map[Subject]bool{}
	for _, s := range c.nucLines[n] {
		if seen[s] {
			continue
		}
		seen[s] = true
		yard := s.Key
		if s.Kind == NucKind {
			yard, _ = NucOf(s)
		}
		for _, e := range c.Effective(s) {
			if e.Action == Did && e.Step == Nuc && e.Detail.Batch == n && (e.Detail.State == NucQueenless || e.Detail.State.Lost()) {
				more = append(more, Entry{ID: e.ID, Said: e.Said, Happened: e.Happened, By: e.By, Action: Did, Step: Lose, Subject: BatchSubject(n),
					Count: e.Count, Into: yard, Detail: Detail{Cause: string(e.Detail.State)}})
			}
		}
	}
	if more == nil {
		return entries
	}
	all := append(slices.Clone(entries), more...)
	slices.SortStableFunc(all, func(a, b Entry) int {
		if before(&a, &b) {
			return -1
		}
		return 1
	})
	return all
}

// nucLines has every batch looked at that a line about a yard's nucs names, or named before
// it was put right.
func (p *settling) nucLines(s Subject) {
	p.yards = append(p.yards, s.Key)
	for _, k := range append([]Subject{s}, p.c.numbered(s.Key)...) {
		if !p.all && !p.c.stale[k] {
			continue
		}
		for i := range p.c.lines[k] {
			if n := p.c.lines[k][i].Detail.Batch; n != 0 {
				p.add(BatchSubject(n))
			}
		}
	}
}

// numbered are the nucs of a yard that lines are about by their number.
func (c *Crew) numbered(yard string) (out []Subject) {
	for s := range c.lines {
		if y, _ := NucOf(s); s.Kind == NucKind && y == yard {
			out = append(out, s)
		}
	}
	slices.SortFunc(out, func(a, b Subject) int { return strings.Compare(a.Key, b.Key) })
	return out
}

// boards works out the nucs of every yard that what was looked at may have changed, and has
// those batches planned anew whose nucs or whose re-celling are not what they were.
func (p *settling) boards(Subject) {
	c := p.c
	if p.all {
		for _, s := range c.Subjects(YardKind) {
			p.yards = append(p.yards, s.Key)
		}
	}
	slices.Sort(p.yards)
	batches := c.Batches()
	for _, yard := range slices.Compact(p.yards) {
		if yard == "" {
			continue
		}
		own := YardLines{Own: p.effective(YardSubject(yard))}
		for _, s := range c.numbered(yard) {
			own.Numbered = append(own.Numbered, p.effective(s)...)
		}
		old, now := c.Board(yard), BoardOf(yard, own, batches, func(n int) []Entry { return p.effective(BatchSubject(n)) })
		if reflect.DeepEqual(old, now) {
			continue
		}
		if c.boards[yard] = now; reflect.DeepEqual(now, Board{Yard: yard}) {
			delete(c.boards, yard)
		}
		p.cells = true
		for _, r := range append(slices.Clip(old.Recelled), now.Recelled...) {
			if old.recelled(r.Line) != now.recelled(r.Line) {
				p.add(BatchSubject(r.Batch))
			}
		}
		for _, b := range append(slices.Clip(old.Lots), now.Lots...) {
			if b.State == NucFree && b.Batch != 0 {
				p.add(BatchSubject(b.Batch))
			}
		}
	}
	if !p.cells {
		return
	}
	was := c.cover
	c.cover = c.covers()
	for _, of := range []map[int][]NucsAt{was, c.cover} {
		for n := range of {
			if !slices.Equal(was[n], c.cover[n]) {
				p.add(BatchSubject(n))
			}
		}
	}
	for _, b := range c.Boards() {
		for _, l := range b.Lots {
			if l.State == NucCaught {
				p.add(BatchSubject(l.Batch)) // whose re-celling the cells of another may be
			}
		}
	}
}

// covers gives the free nucs to the batches whose cells are still to come, those grafted
// first first. A nuc counts that stands free since FreeFor before the cells come at the most,
// and was free by then.
func (c *Crew) covers() map[int][]NucsAt {
	var waiting []Batch
	if len(c.boards) == 0 {
		return nil
	}
	for _, b := range c.batches {
		if b.Moved.IsZero() && !b.Ended && b.cells() != nil {
			waiting = append(waiting, b)
		}
	}
	if len(waiting) == 0 {
		return nil
	}
	slices.SortFunc(waiting, func(a, b Batch) int {
		if x := a.Grafted.Compare(b.Grafted); x != 0 {
			return x
		}
		return a.Number - b.Number
	})
	row := c.settings.Table.Row(Move, "")
	type stock struct {
		yard  string
		since time.Time
		left  int
	}
	var free []stock
	for _, b := range c.Boards() {
		for _, l := range b.Lots {
			made := l.State == NucFree && l.Batch != 0
			if made {
				if x, known := c.batches[l.Batch]; known && !x.Ended && (x.Moved.IsZero() || x.Rest(Move) > 0) {
					continue // they wait for its cells
				}
			}
			if l.State == NucFree || l.State == NucCaught {
				free = append(free, stock{b.Yard, l.Since, l.N})
			}
		}
	}
	out := map[int][]NucsAt{}
	for _, b := range waiting {
		need := *b.cells()
		for _, y := range b.Yards {
			need -= c.boards[y].Of(NucFree, b.Number)
		}
		_, best, latest := row.Window(b.Grafted)
		for i := range free {
			f := &free[i]
			if need <= 0 || f.left == 0 || len(b.Yards) > 0 && !has(b.Yards, f.yard) || f.since.Before(best.Add(-FreeFor)) || f.since.After(latest) {
				continue
			}
			n := min(need, f.left)
			f.left, need = f.left-n, need-n
			if at := len(out[b.Number]) - 1; at >= 0 && out[b.Number][at].Yard == f.yard {
				out[b.Number][at].N += n
			} else {
				out[b.Number] = append(out[b.Number], NucsAt{f.yard, n})
			}
		}
	}
	return out
}

// comes reports whether the cells of a batch are meant for so many of the nucs of yards, and
// have to be in them before these are too late for a cell.
func (c *Crew) comes(yards []string, n int, recell *Task) bool {
	row := c.settings.Table.Row(Move, "")
	for number, list := range c.cover {
		_, best, latest := row.Window(c.batches[number].Grafted)
		got := 0
		for _, x := range list {
			if has(yards, x.Yard) {
				got += x.N
			}
		}
		if got >= n && !latest.After(recell.Latest) && best.After(recell.Anchor) {
			return true
		}
	}
	return false
}

// standing has the tasks of a batch ask only for what standing nucs do not cover: nucs are
// made up for the cells that none is free for, and the nucs of a catch have their cells once
// those of another batch went into them.
func (c *Crew) standing(tasks []Task, b Batch, entries []Entry) {
	catches := did(entries, Catch)
	for i := range tasks {
		t := &tasks[i]
		if t.Step == Nucs {
			t.From = "" // where free ones stand, and never where the cells are
		}
		switch {
		case t.State != Open:
		case t.Step == Nucs:
			list := c.cover[b.Number]
			if t.Count == nil || list == nil {
				break
			}
			left := *t.Count
			for _, x := range list {
				left -= x.N
			}
			t.From = spellNucs(list)
			if t.Count = &left; left <= 0 {
				t.Count, t.State = new(0), Passed
			}
		case t.Step == Recell && t.Count != nil:
			at := 0
			if t.Occ != "" {
				at, _ = strconv.Atoi(t.Occ)
				at--
			}
			if at < 0 || at >= len(catches) {
				break
			}
			again := 0
			for _, y := range b.Yards {
				again += c.boards[y].recelled(catches[at].ID)
			}
			left := *t.Count - again
			if left > 0 && c.comes(b.Yards, left, t) {
				t.State = Passed // while cells that come are meant for them, it is one visit with their move
			}
			if again == 0 {
				break
			}
			if t.Count = &left; left <= 2 || float64(left) <= restIsSmall*float64(left+again) {
				t.State = Done
			}
		}
	}
}
