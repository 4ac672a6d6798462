package rules

import (
	"math"
	"slices"
	"time"
)

// Bounds of what a thermometer in an incubator can show, °C. Common practice: below, it
// stands in a cold shed; above, no brood lives. Higher figures are °F.
const (
	ColdestTemp = 5.0
	HottestTemp = 50.0
)

// Incubator is a place for cells with a temperature of its own.
type Incubator struct {
	Name   string
	Singly bool       // its cells are caged one by one: a virgin out kills none
	Temps  []TempSpan // as they count, by when they began
}

// TempSpan is a temperature that held for a time, or a time without power of which nobody
// knows how cold it got.
type TempSpan struct {
	Line     int64     // the entry that said so
	From, To time.Time // UTC; To is zero where it holds until the next
	C        float64   // °C; NaN where it is not known
}

// FoldIncubator reads an incubator out of its effective entries.
func FoldIncubator(name string, entries []Entry) (in Incubator, exists bool) {
	in.Name = name
	for i := range entries {
		e := &entries[i]
		if e.Action != Did {
			continue
		}
		switch e.Step {
		case Add:
			exists = true
			in.Singly = in.Singly || e.Detail.Singly
		case Temp:
			exists = true
			t := TempSpan{Line: e.ID, From: e.Happened, C: math.NaN()}
			if e.Detail.C != nil {
				t.C = *e.Detail.C
			}
			if e.Detail.Until != 0 {
				t.To = millis(e.Detail.Until)
			}
			in.Temps = append(in.Temps, t)
		}
	}
	return in, exists
}

// At is the temperature at an instant: of an excursion that covers it the one told last,
// else the newest that holds. cut says that the power was out then and nobody knows how
// cold it got; c is what held before it.
func (in Incubator) At(t time.Time) (c float64, known, cut bool) {
	c = BroodTemp
	var line, dark int64
	for _, s := range in.Temps {
		switch {
		case s.From.After(t) || !s.To.IsZero() && !t.Before(s.To):
		case math.IsNaN(s.C):
			dark = s.Line
			cut = cut || line == 0
		case s.To.IsZero() && line == 0:
			c, known = s.C, true
		case !s.To.IsZero() && s.Line > line:
			c, known, line, cut = s.C, true, s.Line, false
		}
	}
	return c, known, cut && dark != 0
}

// Effect is what an incubator did to cells that stood in it for a time.
type Effect struct {
	Shift float64 // hours later, negative for sooner, by its temperatures
	Most  float64 // hours more that it may be, by power cuts without a temperature
}

// Effect of a time in the incubator on queens of which the sealed stage runs over a span:
// HoursPerDegree for each °C below BroodTemp, by the part of the sealed stage that was
// spent at it. Without a temperature it is taken to be BroodTemp. While the power is out
// cells stand still at worst, so that each hour may make them an hour later (derived); it
// is never counted, since nobody knows whether it did.
func (in Incubator) Effect(from, to time.Time, sealed, out time.Time) (x Effect) {
	from, to = later(from, sealed), earlier(to, out)
	if !from.Before(to) {
		return x
	}
	edges := []time.Time{from, to}
	for _, s := range in.Temps {
		for _, t := range []time.Time{s.From, s.To} {
			if t.After(from) && t.Before(to) {
				edges = append(edges, t)
			}
		}
	}
	slices.SortFunc(edges, time.Time.Compare)
	stage := out.Sub(sealed).Hours()
	for i, a := range edges[1:] {
		h := a.Sub(edges[i]).Hours()
		c, _, cut := in.At(edges[i])
		x.Shift += HoursPerDegree * (BroodTemp - c) * h / stage
		if cut {
			x.Most += h
		}
	}
	return x
}

// sealedStage is when the cells of a graft are sealed and when their queens come out, at
// BroodTemp.
func sealedStage(grafted time.Time, age AgeSpan) (sealed, out time.Time) {
	egg := grafted.Add(-Hours(HatchAfter + (age.Lo+age.Hi)/2))
	return egg.Add(Hours(SealedFrom)), egg.Add(Hours(EggToQueen))
}

// effect is what the incubators in which a lot stood did to it.
func (l Lot) effect(in map[string]Incubator, sealed, out time.Time) (x Effect) {
	stays := append(slices.Clip(l.Stays), CellStay{Place: l.Place, From: l.Since, To: out})
	for _, s := range stays {
		if subject := PlaceSubject(s.Place); subject.Kind == IncubatorKind {
			y := in[subject.Key].Effect(s.From, s.To, sealed, out)
			x.Shift += y.Shift
			x.Most += y.Most
		}
	}
	return x
}

// In reports whether a lot is or was in a place.
func (l Lot) In(place string) bool {
	return l.Place == place || slices.ContainsFunc(l.Stays, func(s CellStay) bool { return s.Place == place })
}

// Was reports whether cells of the batch are or were in a place.
func (a Account) Was(place string) bool {
	there := func(l Lot) bool { return l.In(place) }
	return slices.ContainsFunc(a.Lots, there) || slices.ContainsFunc(a.Moved, there)
}

// earliestLot is the effect of the lots of which the queens come first.
func earliestLot(lots []Lot) (x Effect, some bool) {
	for _, l := range lots {
		if !some || l.Shift < x.Shift {
			x, some = l.Effect, true
		}
	}
	return x, some
}

// Singly reports whether all cells that stand are caged one by one.
func (b Batch) Singly() bool {
	for _, l := range b.Account.Lots {
		if !l.Singly {
			return false
		}
	}
	return len(b.Account.Lots) > 0
}

// LotEmergence is the model for the cells of one lot.
func (b Batch) LotEmergence(l Lot, s *Settings) Emergence {
	e := b.Emergence(s)
	e.Shift += l.Shift - b.Warmed.Shift
	if l.Count != nil && *l.Count > 0 {
		e.Cells = *l.Count
	}
	return e
}

// What becomes of virgins that are caged singly.
const (
	// IntroduceWithin is how long after she is out a virgin is best introduced: 65 % of
	// those of 0-1 d were laying later, 55 % of those of 3-4 d. Pérez-Sato & Ratnieks 2006,
	// Apidologie 37(5):571-576, abstract.
	IntroduceWithin = 24 * time.Hour
	// FeedWithin is how long she is left without food at most. Common practice.
	FeedWithin = 12 * time.Hour
)
