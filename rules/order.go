package rules

import (
	"slices"
	"time"
)

// Order is a number of cells or queens wanted by an instant.
type Order struct {
	Number int
	Want   int
	Unit   Unit
	By     time.Time
}

// OrderBy is the instant that "by that day" means: the end of the crew's working
// hours on it, or on the last working day before it.
func OrderBy(d Date, s *Settings) time.Time {
	for i := range 7 {
		if _, to, ok := s.workDay(d.Add(-i)); ok {
			return to
		}
	}
	return At(d, s.WorkTo, s.Zone)
}

// Limits is what a crew can do apart from its places.
type Limits struct {
	Breeders []int  // that may be confined; none: any, and not kept account of
	Stays    []Stay // confinements in the logbook and of plans accepted
	Rotation Rotation
	BeesIn   bool          // bees are shaken in beside her
	PerRound int           // most grafts in a round, 0: as the builders take
	Hold     time.Duration // how long before the wanted time queens are best ready
	Combs    []CombLeft    // in progress and not promised
	OnTheWay []OnTheWay    // batches and what of them is not promised
}

// OnTheWay is a batch that an order may count on before any new round.
type OnTheWay struct {
	Part
	Move, Catch Span // when its cells can be moved and its queens caught
}

func (w OnTheWay) times() RoundTimes { return RoundTimes{Move: w.Move, Catch: w.Catch} }

// DefaultLimits: queens are caught and kept up to four weeks; common practice.
var DefaultLimits = Limits{Rotation: DefaultRotation, BeesIn: true, Hold: 4 * week}

// NucsIn is so many nucs of a yard.
type NucsIn struct {
	Yard string `json:"yard"`
	N    int    `json:"n"`
}

// PlannedBatch is one builder's share of a round.
type PlannedBatch struct {
	Builder string
	Grafts  int
	Nucs    []NucsIn // kept free for it, none for an order of cells
	Cells   float64  // capped cells to expect
	Give    float64  // cells or queens to expect in the end
}

// Round is a planned round: who is confined, all its times, and its batches.
type Round struct {
	RoundTimes
	Breeders []int // one comb each; empty where any will do
	Combs    int
	Batches  []PlannedBatch
}

// Grafts of the round in all.
func (r Round) Grafts() int {
	n := 0
	for _, b := range r.Batches {
		n += b.Grafts
	}
	return n
}

// Plan is a proposal for an order. Where OK is false it does not fit: Rounds is then the
// most that could be done for it, Fits how many come with the same confidence, FitsBy the
// first day of the twelve weeks after by which the whole order would fit (zero: none), and
// Breaks what is short: with all of it there the order would fit.
type Plan struct {
	Order      Order
	Confidence float64
	OK         bool
	Partial    bool      // not everything was searched: what is said not to fit may
	Tight      bool      // cells or queens are ready only at the earliest end of their window
	Unfit      bool      // a step falls outside working hours
	Early      bool      // ready longer before the order's time than they are best kept
	Keeps      time.Time // until when what is ready first keeps, where Early
	From       []Promise // batches on the way, counted first
	Needs      []Need    // at each of Confidences
	Grafts     int
	Chance     float64
	Mean       float64 // the number to expect
	Rounds     []Round // in order of time
	Uses       []Use   // to add to the calendar when accepted
	Stays      []Stay  // to add to the breeders' when accepted
	Breaks     []Break
	Fits       int
	FitsBy     time.Time
	Deadline   Deadline
}

// Parts are the plan's batches as parts of the order, before any is grafted.
func (p Plan) Parts() []Part {
	var out []Part
	for _, r := range p.Rounds {
		for _, b := range r.Batches {
			room := -1
			if p.Order.Unit == Queens {
				room = 0
				for _, n := range b.Nucs {
					room += n.N
				}
			}
			out = append(out, Part{Count: b.Grafts, Done: Graft, Room: room, Span: Span{Earliest: r.Move.Best, Latest: r.Catch.Best}})
		}
	}
	return out
}

// Deadline is the last time at which something can still be begun for an order.
type Deadline struct {
	Graft   time.Time // from larvae that are there, 12-24 h old
	Confine time.Time // where there are none: the last hour that fits the crew's work, zero where none did
}

// Planner makes plans for one crew as its numbers, places and breeders stand. It
// remembers what is dear to work out: keep it while they stand, and do not use it
// from several goroutines at once.
type Planner struct {
	Calendar Calendar
	Limits   Limits
	s        *Settings
	chain    *chain
	fitter   *fitter
	drawn    int  // batches drawn for the plan in hand
	brief    bool // only as many rounds as there can be are tried, no choice among them
}

// NewPlanner makes a planner. Limits left zero take DefaultLimits' values.
func NewPlanner(y Yields, c Calendar, l Limits, s *Settings) *Planner {
	if l.Rotation == (Rotation{}) {
		l.Rotation = DefaultLimits.Rotation
	}
	if l.Hold <= 0 {
		l.Hold = DefaultLimits.Hold
	}
	return &Planner{Calendar: c, Limits: l, s: s, chain: newChain(y), fitter: newFitter(s)}
}

// Accept books a plan: its builders, nucs, breeders, combs and batches are taken for the
// plans made after it.
func (p *Planner) Accept(plan Plan) {
	p.Calendar = p.Calendar.Add(plan.Uses...)
	p.Limits.Stays = append(slices.Clip(p.Limits.Stays), plan.Stays...)
	for _, r := range plan.Rounds {
		if r.Comb != nil {
			p.Limits.Combs = slices.DeleteFunc(slices.Clone(p.Limits.Combs), func(c CombLeft) bool { return c.ID == r.Comb.ID })
		}
	}
	p.Limits.OnTheWay = slices.Clone(p.Limits.OnTheWay)
	for i, w := range p.Limits.OnTheWay {
		for _, k := range plan.From {
			if k.Batch == w.Batch {
				p.Limits.OnTheWay[i].After = k.After + k.N
			}
		}
	}
}

// Plan proposes rounds that fill an order with a chance of at least confidence, on top of
// what is on the way: the fewest rounds, of these the fewest builders, then the fewest
// grafts, then the latest start, none begun before now. A plan that is OK never takes more
// of a builder, yard or breeder than there is. What fits by a day fits by every later one,
// and a smaller number or a lower confidence fits wherever a larger does.
func (p *Planner) Plan(o Order, confidence float64, now time.Time) Plan {
	return p.Rescue(o, nil, confidence, now)
}

// Deadline of an order: the last graft and the last confinement for which any of
// it is ready in time, taking the windows at their earliest.
func (p *Planner) Deadline(o Order) Deadline {
	var d Deadline
	em := Emergence{Age: AssumedAge}
	after := Hours(p.s.Table.Row(Move, "").Earliest)
	if o.Unit == Queens {
		after = Hours(em.mean() - (em.Age.Lo+em.Age.Hi)/2 + p.s.Table.Row(Catch, "").Earliest)
	}
	d.Graft = o.By.Add(-after)
	for day := DateOf(d.Graft, p.s.Zone); DayStart(day, p.s.Zone).After(d.Graft.Add(-10 * 24 * time.Hour)); day = day.Add(-1) {
		for _, c := range p.fitter.rounds(day, p.Limits.BeesIn, p.cells()) {
			if !c.times.Soonest(o.Unit).After(o.By) && !c.off() && c.times.Confined.After(d.Confine) {
				d.Confine = c.times.Confined
			}
		}
		if !d.Confine.IsZero() {
			break
		}
	}
	return d
}
