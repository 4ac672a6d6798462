package rules

import (
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"sort"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// seasonsPlayed is how many random seasons the accounts are held over. All 10,000, and all
// batches that teach, are one command: YARDBELL_TESTS=longest.
func seasonsPlayed() int {
	switch os.Getenv("YARDBELL_TESTS") {
	case "longest":
		return 10000
	case "all":
		return 2000
	}
	return 300
}

// told is one crew's season as a script of chance: what it logs, takes back, puts right and
// tells late, each line let in by the checks alone.
type toldSeason struct {
	t     *testing.T
	r     *rand.Rand
	now   time.Time
	lines []Entry // as logged
	crew  *Crew
	tried map[Step]int
	in    map[Step]int
}

var (
	randomYards  = []string{"North", "Creek", "Lake"}
	randomPlaces = []string{"B1", "B2", IncubatorPlace("1")}
)

func (s *toldSeason) pick(list []string) string { return list[s.r.IntN(len(list))] }

// of are the lines about a batch, as logged.
func (s *toldSeason) of(n int) (out []Entry) {
	for _, e := range s.lines {
		if e.Subject == BatchSubject(n) {
			out = append(out, e)
		}
	}
	return out
}

func (s *toldSeason) log(e Entry) {
	e.ID, e.Said, e.By = int64(len(s.lines)+1), s.now, "Wren"
	s.lines = append(s.lines, e)
	s.crew.Apply(e)
	s.crew.Settle()
	s.in[e.Step]++
}

// lets reports whether the checks let a line of a batch in. What they only ask about the
// crew logs anyway.
func (s *toldSeason) lets(e Entry, b Batch) bool {
	s.tried[e.Step]++
	firm := func(r *Refusal) bool { return r != nil && !r.Ask }
	e.Said = s.now
	if firm(CheckTime(e)) || firm(CheckCount(e)) {
		return false
	}
	if e.Step == Lose {
		if firm(CheckLose(e, b, 0)) {
			return false
		}
	} else if firm(CheckBatch(e, b, 0)) {
		return false
	}
	if e.Detail.Part || e.Step == Catch && e.Into != "" {
		there, _ := b.HadAt(e.Into, e.Step)
		if there != nil && e.Step == Catch {
			n := *there - b.Account.At(e.Into).Out
			there = &n
		}
		if firm(CheckYard(e, b, there)) {
			return false
		}
	}
	return s.balances(e)
}

// balances reports whether the accounts of a batch would add up with one more line.
func (s *toldSeason) balances(e Entry) bool {
	e.ID, e.Said = int64(len(s.lines)+1), s.now
	lines := s.of(e.Subject.Number())
	was, _ := AccountOf(Effective(lines))
	now, _ := AccountOf(Effective(append(slices.Clip(lines), e)))
	return CheckAccount(was, now, e.Subject.Number()) == nil
}

// step lets chance tell one thing.
func (s *toldSeason) step() {
	s.now = s.now.Add(time.Duration(1+s.r.IntN(40)) * time.Hour)
	batches := s.crew.Batches()
	if len(batches) == 0 || len(batches) < 3 && s.r.IntN(12) == 0 {
		n := 20 + s.r.IntN(40)
		s.log(Entry{Action: Did, Step: Graft, Subject: BatchSubject(s.crew.Highest(BatchKind) + 1), Happened: s.now, Count: &n, From: 7, Into: s.pick(randomPlaces[:2])})
		return
	}
	b := batches[s.r.IntN(len(batches))]
	at := s.now
	placed := s.placed(b.Number) // in which order cells left which place is not for chance to mix up
	if s.r.IntN(4) == 0 && !placed {
		at = at.Add(-time.Duration(s.r.IntN(60)) * time.Hour) // told late
	}
	e := Entry{Action: Did, Subject: BatchSubject(b.Number), Happened: at}
	count := func(most *int) *int {
		n := s.r.IntN(8)
		if most != nil && *most > 0 {
			n = s.r.IntN(*most + 3)
		}
		return &n
	}
	switch s.r.IntN(12) {
	case 0, 1:
		e.Step = []Step{Accept, Capped}[s.r.IntN(2)]
		e.Count = count(b.cells())
	case 2:
		e.Happened = s.now
		e.Step, e.Into = Placed, s.pick(randomPlaces)
		if len(b.Account.Lots) > 0 {
			l := b.Account.Lots[s.r.IntN(len(b.Account.Lots))]
			e.Detail.Out, e.Count = l.Place, count(l.Count)
		}
		if h, ok := b.Account.Holding(e.Detail.Out); !ok || h.Count == nil || *e.Count > *h.Count || *e.Count == 0 {
			return
		}
	case 3, 4, 5:
		e.Step, e.Into = Move, s.pick(randomYards)
		if placed && len(b.Account.Lots) > 0 {
			e.Detail.Out = b.Account.Lots[s.r.IntN(len(b.Account.Lots))].Place
			if h, ok := b.Account.Holding(e.Detail.Out); !ok || h.Count == nil {
				return
			} else if e.Count = count(h.Count); *e.Count > *h.Count {
				return
			}
		} else {
			e.Count = count(b.Account.Standing())
		}
	case 6, 7:
		e.Step, e.Into = []Step{Emerge, Laying}[s.r.IntN(2)], s.pick(randomYards)
		there, _ := b.HadAt(e.Into, e.Step)
		if there == nil {
			return
		}
		e.Count, e.Detail.Part = count(there), true
	case 8:
		e.Step, e.Into = Catch, s.pick(randomYards)
		there, _ := b.HadAt(e.Into, e.Step)
		if there == nil {
			return
		}
		e.Count = count(there)
	case 9:
		s.lose(e, b)
		return
	case 10:
		s.takeBack()
		return
	default:
		s.putRight()
		return
	}
	if s.lets(e, b) {
		s.log(e)
	}
}

// placed reports whether cells of a batch were put into another place.
func (s *toldSeason) placed(n int) bool {
	return slices.ContainsFunc(Effective(s.of(n)), func(e Entry) bool { return e.Step == Placed })
}

// lose has something lost of one of the places that hold any.
func (s *toldSeason) lose(e Entry, b Batch) {
	list := b.Account.Holdings()
	if len(list) == 0 {
		return
	}
	h := list[s.r.IntN(len(list))]
	n := 1 + s.r.IntN(6)
	for _, h := range list {
		if h.Count == nil {
			return // nobody knows how many all are
		}
	}
	e.Step, e.Into, e.Count, e.Detail.Cause = Lose, h.Where, &n, s.pick(Causes)
	if s.r.IntN(8) == 0 {
		e.Count, e.Detail.All = nil, true
		if s.r.IntN(3) == 0 {
			e.Into = ""
		}
	}
	if s.lets(e, b) {
		s.log(e)
	}
}

// takeBack undoes a line that counts, where nothing that was told since hangs on it.
func (s *toldSeason) takeBack() {
	if len(s.lines) == 0 {
		return
	}
	e := s.lines[s.r.IntN(len(s.lines))]
	if e.Action != Did || e.Step == Graft || slices.ContainsFunc(Effective(s.of(e.Subject.Number())), func(x Entry) bool { return HangsOn(e, x) }) {
		return
	}
	e.Action, e.Ref, e.ID = Void, e.ID, 0
	if s.balances(e) {
		s.log(e)
	}
}

// putRight changes the count, or the hour, of a line that counts.
func (s *toldSeason) putRight() {
	if len(s.lines) == 0 {
		return
	}
	lines := Effective(s.of(1 + s.r.IntN(max(1, s.crew.Highest(BatchKind)))))
	if len(lines) == 0 {
		return
	}
	old := lines[s.r.IntN(len(lines))]
	b, found := s.crew.Batch(old.Subject.Number())
	if !found || old.Action != Did || old.Count == nil || old.Step == Placed {
		return
	}
	e := old
	if s.r.IntN(3) == 0 && !s.placed(b.Number) {
		e.Happened = e.Happened.Add(-time.Duration(s.r.IntN(30)) * time.Hour)
	} else {
		n := max(1, *old.Count-3+s.r.IntN(7))
		e.Count = &n
	}
	if r := CheckAmend(old, e.Count, b); r != nil || e.Happened.Before(b.Grafted) && e.Step != Graft {
		return
	}
	if old.Step == Move && len(b.Account.Lots) > 1 {
		return // out of which lot the others come is not told
	}
	if old.Step == Lose && CheckLose(e, b, *old.Count) != nil {
		return
	}
	e.Action, e.Ref = Amend, old.ID
	if s.balances(e) {
		s.log(e)
	}
}

// recounted are the numbers of one batch as a bookkeeper with paper would have them.
type recounted struct {
	grafted, standing, moved, lost, caught int
	place                                  map[string]int // cells by place
	emptied                                string         // the place that held the last of them
	unknown                                bool           // a count of all cells, while they stood in several places
	lostUnknown                            bool           // and then all of one place was lost: how many is for nobody to say
	yards                                  map[string]*recountedYard
	missed                                 map[string]int // "accept", "North emerge" …: short at that count
}

type recountedYard struct {
	at     map[Step]time.Time
	line   map[Step]int64
	count  map[Step]int
	losses []Loss
	caught int
}

// recountBatch goes over a batch's lines as logged, with nothing of the accounts: who was taken
// back, what was put right, then event by event in the order in which things happened.
func recountBatch(lines []Entry) recounted {
	gone, newest := map[int64]bool{}, map[int64]Entry{}
	for i := len(lines) - 1; i >= 0; i-- {
		if l := lines[i]; l.Action == Void && !gone[l.ID] {
			gone[l.Ref] = true
		}
	}
	for _, l := range lines {
		if l.Action == Amend && !gone[l.ID] {
			newest[l.Ref] = l
		}
	}
	var events []Entry
	for _, l := range lines {
		if l.Action != Did || gone[l.ID] {
			continue
		}
		if now, put := newest[l.ID]; put {
			l.Count, l.Happened, l.Into, l.Detail = now.Count, now.Happened, now.Into, now.Detail
		}
		events = append(events, l)
	}
	sort.SliceStable(events, func(i, k int) bool {
		a, b := events[i], events[k]
		return a.Happened.Before(b.Happened) || a.Happened.Equal(b.Happened) && a.ID < b.ID
	})
	c := recounted{place: map[string]int{}, yards: map[string]*recountedYard{}, missed: map[string]int{}}
	cells := &recountedYard{at: map[Step]time.Time{}, line: map[Step]int64{}, count: map[Step]int{}}
	for _, e := range events {
		c.event(e, cells)
	}
	c.short("", cells, []Step{Graft, Accept, Capped})
	if last, ok := lastOf(cells, []Step{Graft, Accept, Capped}); ok {
		c.standing = cells.count[last] - lostFrom(cells, last, []Step{Graft, Accept, Capped}) - c.moved
	}
	for name, y := range c.yards {
		c.short(name+" ", y, []Step{Move, Emerge, Laying})
	}
	return c
}

func (c *recounted) event(e Entry, cells *recountedYard) {
	n := 0
	if e.Count != nil {
		n = *e.Count
	}
	switch e.Step {
	case Graft:
		c.grafted = n
		c.place = map[string]int{e.Into: n}
		cells.at[Graft], cells.line[Graft], cells.count[Graft] = e.Happened, e.ID, n
	case Accept, Capped:
		_, capped := cells.count[Capped]
		cells.at[e.Step], cells.line[e.Step], cells.count[e.Step] = e.Happened, e.ID, n
		if e.Step == Accept && capped {
			break // the count that stands is newer in the work
		}
		if len(c.place) == 1 {
			for p := range c.place {
				c.place[p] = n - c.moved
			}
		} else if len(c.place) > 1 {
			c.unknown = true
		} else if n > c.moved {
			c.place[c.emptied] = n - c.moved
		}
	case Placed:
		if e.Into != e.Detail.Out {
			c.place[e.Detail.Out] -= n
			c.place[e.Into] += n
		}
	case Move:
		c.moved += n
		c.take(e.Detail.Out, n)
		y := c.yard(e.Into)
		if _, had := y.at[Move]; !had {
			y.at[Move], y.line[Move] = e.Happened, e.ID
		}
		y.count[Move] += n
	case Emerge, Laying:
		y := c.yard(e.Into)
		y.at[e.Step], y.line[e.Step], y.count[e.Step] = e.Happened, e.ID, n
	case Catch:
		c.caught += n
		c.yard(e.Into).caught += n
	case Lose:
		c.lose(e, cells)
	}
	for p, n := range c.place {
		if n == 0 {
			delete(c.place, p)
			c.emptied = p
		}
	}
}

func (c *recounted) yard(name string) *recountedYard {
	y := c.yards[name]
	if y == nil {
		y = &recountedYard{at: map[Step]time.Time{}, line: map[Step]int64{}, count: map[Step]int{}}
		c.yards[name] = y
	}
	return y
}

// lose takes off what a line says is gone: so many, or all of a place, or all there is.
func (c *recounted) lose(e Entry, cells *recountedYard) {
	places, yards := []string{e.Into}, []string{e.Into}
	if e.Into == "" {
		if len(c.place) > 1 {
			c.unknown = true // which of them was emptied last nobody can say
		}
		places, yards = nil, nil
		for p := range c.place {
			places = append(places, p)
		}
		for y := range c.yards {
			yards = append(yards, y)
		}
	}
	for _, p := range places {
		n, stands := c.place[p]
		if !stands {
			continue
		}
		c.lostUnknown = c.lostUnknown || e.Detail.All && c.unknown
		if !e.Detail.All {
			n = *e.Count
		}
		c.place[p] -= n
		c.lost += n
		cells.losses = append(cells.losses, Loss{At: e.Happened, Line: e.ID, Count: n})
	}
	for _, name := range yards {
		y := c.yards[name]
		if y == nil {
			continue
		}
		n := y.present()
		if !e.Detail.All {
			n = *e.Count
		}
		c.lost += n
		y.losses = append(y.losses, Loss{At: e.Happened, Line: e.ID, Count: n})
	}
}

var recountOrder = []Step{Move, Emerge, Laying}

func (y *recountedYard) present() int {
	last, _ := lastOf(y, recountOrder)
	return y.count[last] - lostFrom(y, last, recountOrder) - y.caught
}

func (y *recountedYard) lost() (n int) {
	for _, x := range y.losses {
		n += x.Count
	}
	return n
}

// take takes cells out of the place that is named, else of the only one.
func (c *recounted) take(place string, n int) {
	if place == "" {
		for p := range c.place {
			c.place[p] -= n
		}
		return
	}
	c.place[place] -= n
}

func lastOf(y *recountedYard, order []Step) (last Step, ok bool) {
	for _, s := range order {
		if _, has := y.count[s]; has {
			last, ok = s, true
		}
	}
	return last, ok
}

// lostFrom is what was lost of a stage's count before the next: of the furthest stage that
// had been counted by then.
func lostFrom(y *recountedYard, stage Step, order []Step) (n int) {
	for _, x := range y.losses {
		furthest := Step("")
		for _, s := range order {
			if at, has := y.at[s]; has && (at.Before(x.At) || at.Equal(x.At) && y.line[s] < x.Line) {
				furthest = s
			}
		}
		if furthest == stage {
			n += x.Count
		}
	}
	return n
}

func (c *recounted) short(name string, y *recountedYard, order []Step) {
	before := Step("")
	for _, s := range order {
		n, has := y.count[s]
		if !has {
			continue
		}
		if before != "" {
			c.missed[name+string(s)] = y.count[before] - lostFrom(y, before, order) - n
		}
		before = s
	}
}

// holds compares the accounts of each batch with the recount, and the recount with itself.
func (s *toldSeason) holds(where string) {
	for _, b := range s.crew.Batches() {
		a, c := b.Account, recountBatch(s.of(b.Number))
		if c.lostUnknown {
			continue
		}
		is := func(want, got int, what string) {
			if want != got {
				s.t.Errorf("%s: batch %d: %s is %d, by the recount %d", where, b.Number, what, got, want)
			}
		}
		notNegative := func(n int, what string) {
			if n < 0 {
				s.t.Errorf("%s: batch %d: %s is %d", where, b.Number, what, n)
			}
		}
		short := 0
		for _, step := range []Step{Accept, Capped} {
			want, has := c.missed[string(step)]
			got, ok := a.Cells.Missing(step)
			if has != ok {
				s.t.Errorf("%s: batch %d: %s is counted: %v, by the recount %v", where, b.Number, step, ok, has)
			}
			is(want, got, "missing at "+string(step))
			notNegative(want, "missing at "+string(step))
			short += want
		}
		yardLost := 0
		for name, y := range c.yards {
			t := a.At(name)
			sum := t.Out + *t.Present() + t.Lost()
			for _, step := range recountOrder {
				want := c.missed[name+" "+string(step)]
				got, _ := t.Missing(step)
				is(want, got, name+" missing at "+string(step))
				notNegative(want, name+" missing at "+string(step))
				sum += got
			}
			is(y.count[Move], sum, name+": not emerged, not laying, lost, caught and present together")
			is(y.present(), *t.Present(), name+" present")
			is(y.lost(), t.Lost(), name+" lost")
			is(y.caught, t.Out, name+" caught")
			notNegative(y.present(), name+" present")
			yardLost += y.lost()
		}
		is(c.standing, *a.Standing(), "standing")
		notNegative(c.standing, "standing")
		is(c.moved, a.Cells.Out, "moved")
		is(c.lost, a.Cells.Lost()+yardLost, "lost")
		is(c.grafted, short+a.Cells.Lost()+*a.Standing()+a.Cells.Out, "not accepted, not capped, lost, standing and moved together")
		lost, moved, stands := 0, 0, 0
		for _, x := range a.Lost {
			lost += x.Count
		}
		for _, y := range a.Yards {
			moved += *y.Count(Move)
		}
		is(c.lost, lost, "the list of losses")
		is(c.moved, moved, "moved to all yards")
		if c.unknown {
			continue
		}
		for p, n := range c.place {
			h, _ := a.Holding(p)
			if h.Count == nil {
				s.t.Errorf("%s: batch %d: nobody knows how many are in %s, by the recount %d", where, b.Number, p, n)
				return
			}
			is(n, *h.Count, "in "+p)
			notNegative(n, "in "+p)
			stands += n
		}
		is(c.standing, stands, "the cells of all places")
	}
}

// TestAccountsBalanceOverRandomSeasons plays seasons of chance and holds after each line,
// each undo and each correction that what was grafted, moved and emerged is all accounted
// for, against a recount that shares no code with the accounts.
func TestAccountsBalanceOverRandomSeasons(t *testing.T) {
	in := map[Step]int{}
	for seed := range seasonsPlayed() {
		s := &toldSeason{t: t, r: rand.New(rand.NewPCG(uint64(seed), 16)), now: time.Date(2031, 4, 1, 8, 0, 0, 0, time.UTC), crew: NewCrew(DefaultSettings()), tried: map[Step]int{}, in: in}
		for line := range 45 {
			had := len(s.lines)
			s.step()
			if len(s.lines) == had {
				continue
			}
			s.holds(fmt.Sprintf("season %d, line %d", seed, line))
			if t.Failed() {
				for n := range s.crew.Highest(BatchKind) {
					s.dump(n + 1)
				}
				return
			}
		}
		fresh := Fold(DefaultSettings(), s.lines)
		require.Equal(t, fresh.Batches(), s.crew.Batches(), "season %d: a fresh fold", seed)
		require.Equal(t, fresh.AllTasks(), s.crew.AllTasks(), "season %d: a fresh fold", seed)
	}
	for _, step := range []Step{Accept, Capped, Placed, Move, Emerge, Laying, Catch, Lose} {
		require.Greater(t, in[step], seasonsPlayed()/10, "chance hardly told of %s", step)
	}
}

func (s *toldSeason) dump(n int) {
	for _, e := range s.of(n) {
		c, by := "-", ""
		if e.Count != nil {
			c = fmt.Sprint(*e.Count)
		}
		if e.Ref != 0 {
			by = fmt.Sprintf(" of %d", e.Ref)
		}
		s.t.Logf("%d %s %s %s%s %s out=%s all=%v part=%v", e.ID, e.Happened.Format("01-02 15"), e.Action, e.Step, by, c, e.Into+"/"+e.Detail.Out, e.Detail.All, e.Detail.Part)
	}
}
