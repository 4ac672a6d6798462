package rules

import (
	"slices"
	"time"
)

// Standing is where a caught queen is.
type Standing string

// InHand are caged queens that wait, InBank those in a bank colony, AtCustomer those handed
// over, InColony those the crew gave to a colony of its own, DeadQueen those that died.
const (
	InHand     Standing = "hand"
	InBank     Standing = "bank"
	AtCustomer Standing = "customer"
	InColony   Standing = "colony"
	DeadQueen  Standing = "dead"
)

// AnyBank names the bank of which only "the bank" was said.
const AnyBank = "bank"

// CauseArrival is of a queen that was dead when she reached the customer.
const CauseArrival = "arrival"

const (
	// LongestBank is how long mated queens keep in a bank with few losses: one to two months
	// (Büchler et al. 2013 J. Apic. Res. 52(1) s2.3.3, after Morse 1994).
	LongestBank = 60 * 24 * time.Hour
	// MostBanked is how many queens one colony takes as a bank (Büchler et al. 2013 s2.3.3).
	MostBanked = 120
	// LongestInHand is how long queens are taken to be still in their cages when nothing more
	// is told of them: caged with attendants they keep about two weeks (memory). What is
	// older was mostly never told of, as in all logbooks from before hand-overs were logged.
	LongestInHand = 14 * 24 * time.Hour
)

// StockLot are queens of one catch that share their place. Their source stays with them
// wherever they go, so that a tag leads both ways.
type StockLot struct {
	Count   int
	Catch   int64     // the line that logged the catch; 0 where nobody told of one
	Batch   int       // 0 where it is not known
	Yard    string    // where she was caught
	Caught  time.Time // zero where it is not known
	Emerged time.Time // the model's middle; zero where it is not known
	Colour  string    // of the mark, "" for none
	Tags    Tags      // each of the queens has one of these; as many as Count where it is known which
	Year    int       // of the tags
	Is      Standing
	Place   string    // bank, yard or cause
	Who     int       // customer, 0 where it was not said
	Since   time.Time // in that place
	Line    int64     // that put them there
}

// sameQueens reports whether two lots can be one.
func (l *StockLot) sameQueens(o *StockLot) bool {
	return l.Catch == o.Catch && l.Batch == o.Batch && l.Colour == o.Colour && l.Year == o.Year && l.Is == o.Is && l.Place == o.Place && l.Who == o.Who && l.Line == o.Line && slices.Equal(l.Tags, o.Tags)
}

// CustomerTally is what one customer got: Got less what came Back and what was Dead on
// arrival is what they have.
type CustomerTally struct {
	Customer, Got, Back, Dead int
	Last                      time.Time // of the last hand-over
}

// Has is how many queens are with the customer.
func (c CustomerTally) Has() int { return c.Got - c.Back - c.Dead }

// Stock is what became of the queens that were caught. Always Caught + Untold = InHand +
// InBank + AtCustomer + InColony + DeadQueen: no line makes or loses a queen.
type Stock struct {
	Lots      []StockLot
	Caught    int // by the lines about catches
	Untold    int // went somewhere though nobody told that they were caught
	Customers []CustomerTally
}

// Count is how many are in some place.
func (s Stock) Count(is Standing) (n int) {
	for i := range s.Lots {
		if s.Lots[i].Is == is {
			n += s.Lots[i].Count
		}
	}
	return n
}

// There are the lots in some place that take holds for, oldest in it first.
func (s Stock) There(take func(*StockLot) bool) (out []StockLot) {
	for i := range s.Lots {
		if take(&s.Lots[i]) {
			out = append(out, s.Lots[i])
		}
	}
	return out
}

// OnHand are the queens that can be handed over: in a bank, or caged no longer than caged
// queens keep.
func (s Stock) OnHand(now time.Time) []StockLot {
	return s.There(func(l *StockLot) bool { return l.Is == InBank || l.Is == InHand && !l.forgotten(now) })
}

// Forgotten are the queens caught long ago of which nothing more was told.
func (s Stock) Forgotten(now time.Time) (n int) {
	for i := range s.Lots {
		if l := &s.Lots[i]; l.Is == InHand && l.forgotten(now) {
			n += l.Count
		}
	}
	return n
}

func (l *StockLot) forgotten(now time.Time) bool { return now.Sub(l.Since) > LongestInHand }

// Free is how many queens can be handed over.
func (s Stock) Free(now time.Time) (n int) {
	for _, l := range s.OnHand(now) {
		n += l.Count
	}
	return n
}

// Bank is how many queens are in a bank, and since when the first of them.
func (s Stock) Bank(name string) (n int, since time.Time) {
	for i := range s.Lots {
		if l := &s.Lots[i]; l.Is == InBank && l.Place == name {
			n += l.Count
			if since.IsZero() || l.Since.Before(since) {
				since = l.Since
			}
		}
	}
	return n, since
}

// Banks are the names of the banks that hold queens, the fullest first.
func (s Stock) Banks() (names []string) {
	for i := range s.Lots {
		if l := &s.Lots[i]; l.Is == InBank && !slices.Contains(names, l.Place) {
			names = append(names, l.Place)
		}
	}
	slices.SortStableFunc(names, func(a, b string) int {
		n, _ := s.Bank(a)
		m, _ := s.Bank(b)
		return m - n
	})
	return names
}

// Customer is what one of them got.
func (s Stock) Customer(number int) CustomerTally {
	for _, c := range s.Customers {
		if c.Customer == number {
			return c
		}
	}
	return CustomerTally{Customer: number}
}

// Tagged are the lots in which the queen with a tag may be: one where it is known which
// queens went where. year is that of the tag, 0 for the newest that has the number.
func (s Stock) Tagged(tag, year int) (out []StockLot) {
	for i := range s.Lots {
		l := &s.Lots[i]
		switch {
		case !l.Tags.Has(tag) || year != 0 && l.Year != year:
		case len(out) > 0 && l.Year < out[0].Year:
		case len(out) > 0 && l.Year > out[0].Year:
			out = []StockLot{*l}
		default:
			out = append(out, *l)
		}
	}
	return out
}

// Stock works out what became of the queens caught, by the lines as they count.
func (c *Crew) Stock() Stock { return c.stock(func(*Entry) bool { return true }) }

func (c *Crew) stock(fits func(*Entry) bool) Stock {
	var lines []Entry
	take := func(s Subject) {
		for _, e := range c.Effective(s) {
			if e.Action == Did && stockStep(&e) && fits(&e) {
				lines = append(lines, e)
			}
		}
	}
	for _, s := range c.Subjects(BatchKind) {
		if _, exists := c.batches[s.Number()]; exists {
			take(s)
		}
	}
	take(StockSubject())
	return StockOf(lines, c.batches, c.Settings().Zone)
}

// stockStep reports whether a line is about queens from the catch on. A loss is where it is
// of the stock; of a batch it is of what stands in its nucs.
func stockStep(e *Entry) bool {
	switch e.Step {
	case Catch, Marked, Banked, Handed, Introduced:
		return e.Count != nil
	case Lose:
		return e.Subject.Kind == StockKind
	}
	return false
}

// ToCatch is how many laying queens of a batch are still to be caught, 0 where none were
// counted as laying.
func (b Batch) ToCatch() int {
	n, at := b.Had(Catch)
	if n == nil || at != Laying || b.Ended {
		return 0
	}
	left := *n
	if b.Counts.Caught != nil {
		left -= *b.Counts.Caught
	}
	return max(0, left)
}
