package rules

import (
	"cmp"
	"slices"
	"time"
)

// stocking is one run over the lines about caught queens. Every line moves queens from one
// place to another, and what is not there to be moved comes in as untold: so nothing is made
// or lost, in whatever order lines come or go.
type stocking struct {
	Stock
	zone *time.Location
}

// StockOf is the stock by its lines, which need not be in order. batches tell the age of
// what was caught.
func StockOf(lines []Entry, batches map[int]Batch, zone *time.Location) Stock {
	slices.SortFunc(lines, byTime)
	k := stocking{zone: zone}
	for i := range lines {
		k.take(&lines[i], batches)
	}
	slices.SortStableFunc(k.Lots, func(a, b StockLot) int { return cmp.Or(a.Since.Compare(b.Since), cmp.Compare(a.Catch, b.Catch)) })
	slices.SortFunc(k.Customers, func(a, b CustomerTally) int { return cmp.Compare(a.Customer, b.Customer) })
	return k.Stock
}

func (k *stocking) take(e *Entry, batches map[int]Batch) {
	n := 1 // "lost one" may leave out the number
	if e.Count != nil {
		n = *e.Count
	}
	switch e.Step {
	case Catch:
		l := StockLot{Count: n, Catch: e.ID, Batch: e.Subject.Number(), Yard: e.Into, Caught: e.Happened, Is: InHand, Since: e.Happened, Line: e.ID}
		if b, known := batches[l.Batch]; known {
			l.Emerged = b.Emerges
			if l.Yard == "" {
				l.Yard = joinYards(b.Yards)
			}
		}
		if n > 0 {
			k.Lots, k.Caught = append(k.Lots, l), k.Caught+n
		}
	case Marked:
		k.mark(e, n)
	case Banked:
		k.move(e, n, StockLot{Is: InBank, Place: cmp.Or(e.Into, AnyBank)})
	case Introduced:
		k.move(e, n, StockLot{Is: InColony, Place: e.Into})
	case Handed:
		c := k.customer(e.Detail.Customer)
		if e.Detail.Back {
			c.Back += n
			k.move(e, n, StockLot{Is: InHand})
			return
		}
		c.Got += n
		if e.Happened.After(c.Last) {
			c.Last = e.Happened
		}
		k.move(e, n, StockLot{Is: AtCustomer, Who: e.Detail.Customer})
	case Lose:
		if e.Detail.Cause == CauseArrival {
			k.customer(e.Detail.Customer).Dead += n
		}
		k.move(e, n, StockLot{Is: DeadQueen, Place: e.Detail.Cause})
	}
}

func (k *stocking) customer(number int) *CustomerTally {
	for i := range k.Customers {
		if k.Customers[i].Customer == number {
			return &k.Customers[i]
		}
	}
	k.Customers = append(k.Customers, CustomerTally{Customer: number})
	return &k.Customers[len(k.Customers)-1]
}

// from are the lots a line takes queens from, the likeliest first: those just caught, then
// the longest banked, which go first so that none is banked too long, then what was caught
// long ago and never told of again.
func (k *stocking) from(e *Entry) (at []int) {
	back := e.Step == Handed && e.Detail.Back || e.Step == Lose && e.Detail.Cause == CauseArrival
	for i := range k.Lots {
		l := &k.Lots[i]
		switch {
		case back && (l.Is != AtCustomer || l.Who != e.Detail.Customer):
		case !back && l.Is != InHand && l.Is != InBank:
		case e.Step == Banked && l.Is != InHand && e.Detail.Out == "":
		case e.Detail.Out != "" && (l.Is != InBank || l.Place != e.Detail.Out):
		case e.Step == Lose && e.Into != "" && (l.Is != InBank || l.Place != e.Into):
		case e.Subject.Kind == BatchKind && l.Batch != e.Subject.Number():
		default:
			at = append(at, i)
		}
	}
	rank := func(l *StockLot) int {
		switch {
		case l.Is == InBank:
			return 1
		case l.Is == InHand && l.forgotten(e.Happened):
			return 2
		}
		return 0
	}
	slices.SortStableFunc(at, func(i, j int) int {
		a, b := &k.Lots[i], &k.Lots[j]
		x := rank(a)
		if d := cmp.Compare(x, rank(b)); d != 0 {
			return d
		}
		if x == 1 {
			return cmp.Or(a.Since.Compare(b.Since), cmp.Compare(a.Line, b.Line))
		}
		return cmp.Or(b.Since.Compare(a.Since), cmp.Compare(b.Line, a.Line))
	})
	return at
}

// move puts queens elsewhere; tags that a line names go first, since those are seen.
func (k *stocking) move(e *Entry, n int, to StockLot) {
	to.Since, to.Line = e.Happened, e.ID
	year := DateOf(e.Happened, k.zone).Year
	at := k.from(e)
	if tags, ok := ParseTags(e.Detail.Tags); ok {
		for _, t := range tags {
			for _, i := range at {
				if l := &k.Lots[i]; n > 0 && l.Count > 0 && l.Tags.Has(t) && l.Year == k.newest(t, year) {
					k.single(t, l.Year)
					k.put(k.split(i, 1, Tags{t}), to)
					n--
					break
				}
			}
		}
	}
	for _, i := range at {
		if n > 0 && k.Lots[i].Count > 0 {
			took := min(n, k.Lots[i].Count)
			n -= took
			k.put(k.split(i, took, nil), to)
		}
	}
	if n > 0 {
		k.Untold += n
		l := StockLot{Count: n}
		if e.Subject.Kind == BatchKind {
			l.Batch = e.Subject.Number()
		}
		k.put(l, to)
	}
	k.Lots = slices.DeleteFunc(k.Lots, func(l StockLot) bool { return l.Count == 0 })
}

// newest is the newest year, no later than the given one, whose queens carry a number.
func (k *stocking) newest(tag, year int) (y int) {
	for i := range k.Lots {
		if l := &k.Lots[i]; l.Tags.Has(tag) && l.Year <= year {
			y = max(y, l.Year)
		}
	}
	return y
}

// single says of a tag that it is now known whose it is: no other lot may have it. The lot it
// is taken from gives it up with the queen.
func (k *stocking) single(tag, year int) {
	for i := range k.Lots {
		if l := &k.Lots[i]; l.Year == year && l.Tags.Has(tag) {
			l.Tags = l.Tags.without(Tags{tag})
		}
	}
}

// split takes queens out of a lot: those with tags, else any, of which it is then not known
// which they are.
func (k *stocking) split(i, n int, tags Tags) StockLot {
	l := &k.Lots[i]
	took := *l
	took.Count = n
	if tags != nil {
		took.Tags = tags
	}
	l.Count -= n
	return took
}

// put adds queens to where they are now.
func (k *stocking) put(l, to StockLot) {
	l.Is, l.Place, l.Who, l.Since, l.Line = to.Is, to.Place, to.Who, to.Since, to.Line
	for i := range k.Lots {
		o := &k.Lots[i]
		same := *o
		if len(l.Tags) == l.Count && len(o.Tags) == o.Count && len(l.Tags) > 0 { // it is known which: they stay so
			same.Tags = l.Tags
		}
		if !same.sameQueens(&l) {
			continue
		}
		if !slices.Equal(o.Tags, l.Tags) {
			o.Tags = append(slices.Clone(o.Tags), l.Tags...)
			slices.Sort(o.Tags)
		}
		o.Count += l.Count
		return
	}
	k.Lots = append(k.Lots, l)
}

// mark gives queens their colour and tags. It moves none; those in hand are marked first,
// and of them those that have no mark.
func (k *stocking) mark(e *Entry, n int) {
	tags, _ := ParseTags(e.Detail.Tags)
	year := DateOf(e.Happened, k.zone).Year
	at := k.from(e)
	slices.SortStableFunc(at, func(i, j int) int {
		marked := func(l *StockLot) int {
			if l.Colour != "" {
				return 1
			}
			return 0
		}
		return cmp.Compare(marked(&k.Lots[i]), marked(&k.Lots[j]))
	})
	for _, i := range at {
		if n == 0 {
			break
		}
		took := min(n, k.Lots[i].Count)
		n -= took
		l := k.split(i, took, nil)
		l.Colour = cmp.Or(e.Mark, l.Colour)
		if len(tags) > 0 {
			own := min(took, len(tags))
			l.Tags, tags, l.Year = slices.Clone(tags[:own]), tags[own:], year
		}
		k.put(l, l)
	}
	k.Lots = slices.DeleteFunc(k.Lots, func(l StockLot) bool { return l.Count == 0 })
}
