package rules

import "time"

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
	EveryDay int           // days between two rounds
	PerRound int           // most grafts in a round, 0: as the builders take
	Hold     time.Duration // how long before the wanted time queens may be ready
}

// DefaultLimits: a round a week is what most crews do, and queens are caught and
// kept up to four weeks; common practice both.
var DefaultLimits = Limits{Rotation: DefaultRotation, BeesIn: true, EveryDay: 7, Hold: 4 * week}

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

// Plan is a proposal for an order. Where OK is false it does not fit: Rounds is
// then all that could be done, Fits how many that gives with the same confidence,
// FitsBy the first of the twelve weeks after by which the whole order would fit
// (zero: none), and Break the first day on which something is short.
type Plan struct {
	Order      Order
	Confidence float64
	OK         bool
	Tight      bool   // queens are ready only at the earliest end of the catch window
	Needs      []Need // at each of Confidences
	Grafts     int
	Chance     float64
	Rounds     []Round // in order of time
	Uses       []Use   // to add to the calendar when accepted
	Stays      []Stay  // to add to the breeders' when accepted
	Break      *Break
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
			out = append(out, Part{Count: b.Grafts, Done: Graft, Room: room})
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
	yields   Yields
	s        *Settings
	chain    *chain
	fitter   *fitter
}

// NewPlanner makes a planner. Limits left zero take DefaultLimits' values.
func NewPlanner(y Yields, c Calendar, l Limits, s *Settings) *Planner {
	if l.EveryDay <= 0 {
		l.EveryDay = DefaultLimits.EveryDay
	}
	if l.Rotation == (Rotation{}) {
		l.Rotation = DefaultLimits.Rotation
	}
	if l.Hold <= 0 {
		l.Hold = DefaultLimits.Hold
	}
	return &Planner{c, l, y, s, newChain(y), newFitter(s)}
}

// Accept books a plan: its builders, nucs and breeders are taken for the plans
// made after it.
func (p *Planner) Accept(plan Plan) {
	p.Calendar = p.Calendar.Add(plan.Uses...)
	p.Limits.Stays = append(p.Limits.Stays[:len(p.Limits.Stays):len(p.Limits.Stays)], plan.Stays...)
}

// Plan proposes rounds that fill an order with a chance of at least confidence
// (0.5 to 0.99). Rounds are set backwards from the wanted time: the last one just
// in time, each earlier one EveryDay before, none begun before now. A plan that
// is OK never takes more of a builder, yard or breeder than there is.
func (p *Planner) Plan(o Order, confidence float64, now time.Time) Plan {
	return p.Rescue(o, nil, confidence, now)
}

// Rescue is Plan for an order on its way: parts are its batches as they stand,
// and the rounds proposed are those needed on top of them. No rounds and OK mean
// that nothing more is needed.
func (p *Planner) Rescue(o Order, parts []Part, confidence float64, now time.Time) Plan {
	confidence = clamp(confidence, 0.01, 0.99)
	plan := p.try(o, parts, confidence, now, false)
	if !plan.OK && o.Unit == Queens {
		if tight := p.try(o, parts, confidence, now, true); tight.OK || tight.Fits > plan.Fits {
			plan = tight
			plan.Tight = true
		}
	}
	plan.Deadline = p.Deadline(o)
	if plan.OK {
		return plan
	}
	for w := 1; w <= 12; w++ {
		later := o
		later.By = Shift{Days: 7 * w}.Apply(o.By, p.s.Zone)
		if p.try(later, parts, confidence, now, false).OK {
			plan.FitsBy = later.By
			break
		}
	}
	return plan
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
	if r, ok := p.fitter.before(o.By, o.Unit, true, p.Limits.BeesIn, p.cells()); ok {
		d.Confine = r.Confined
	}
	return d
}
