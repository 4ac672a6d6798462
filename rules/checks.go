package rules

import "time"

// Bounds of what a crew can mean. Common practice: a strong builder finishes up
// to about a hundred cells (Penn State, Cell builder basics, 2020/2023).
const (
	MostCells    = 2000                // more is a slip of the thumb
	ManyCells    = 200                 // more is asked back
	LongestAgo   = 60 * 24 * time.Hour // older work is asked back
	LargestYard  = 5000                // nucs
	FirstLaying  = 4 * 24 * time.Hour  // youngest laying queen: Szabo et al. 1987, 4-22 d
	FirstVirgin  = 240 * time.Hour     // after the graft: 14 d from the egg, Winston 1987 (memory)
	clockSkew    = 10 * time.Minute
	heaviestWarn = 36.0
)

// CheckTime asks back work that has not happened yet or lies far back.
func CheckTime(e Entry) *Refusal {
	if e.Happened.After(e.Said.Add(clockSkew)) {
		return refuse("future", "When", e.Happened)
	}
	if e.Said.Sub(e.Happened) > LongestAgo {
		return refuse("long_ago", "When", e.Happened).orConfirm()
	}
	return nil
}

// CheckCount asks back counts that nobody can mean.
func CheckCount(e Entry) *Refusal {
	if e.Count == nil {
		return nil
	}
	n, limit := *e.Count, MostCells
	if e.Step == Add {
		limit = LargestYard
	}
	switch {
	case n < 0 || n > limit:
		return refuse("count_absurd", "Count", n, "Limit", limit)
	case n == 0 && (e.Step == Graft || e.Step == Nucs || e.Step == Move || e.Step == Catch || e.Step == Recell || e.Step == Nuc && e.Detail.State != NucFree):
		return refuse("count_zero", "Step", e.Step)
	case e.Of != nil && n > *e.Of:
		return refuse("more_than_of", "Count", n, "Of", *e.Of)
	case e.Of != nil && *e.Of > limit:
		return refuse("count_absurd", "Count", *e.Of, "Limit", limit)
	case n > ManyCells && e.Step != Add:
		return refuse("count_many", "Count", n).orConfirm()
	}
	return nil
}

// CheckNucs asks back more nucs than stand in a yard, where the crew said how many it has.
func CheckNucs(e Entry, b Board) *Refusal {
	if n := b.Standing(); e.Count != nil && b.Known && *e.Count > n {
		return refuse("more_than_nucs", "Yard", b.Yard, "Nucs", n, "Count", *e.Count).orConfirm()
	}
	return nil
}

// OpenComb is the newest comb the breeder is still confined on.
func OpenComb(combs []Comb) (Comb, bool) {
	for i := len(combs) - 1; i >= 0; i-- {
		if combs[i].Out.IsZero() {
			return combs[i], true
		}
	}
	return Comb{}, false
}

// CheckConfine asks back a second confinement while she is on a comb.
func CheckConfine(e Entry, combs []Comb) *Refusal {
	if c, ok := OpenComb(combs); ok && !e.Happened.Before(c.Confined) {
		return refuse("confined_already", "Breeder", c.Breeder, "Since", c.Confined, "Mark", c.Mark)
	}
	return nil
}

// CheckComb asks back eggs or a comb taken out where she is not confined, or
// before she was.
func CheckComb(e Entry, breeder int, c Comb, found bool) *Refusal {
	if !found {
		return refuse("not_confined", "Breeder", breeder, "Mark", e.Mark)
	}
	if e.Happened.Before(c.Confined) {
		return refuse("before_confined", "Breeder", breeder, "When", e.Happened, "Since", c.Confined)
	}
	return nil
}

// CheckGraft asks back a graft from a comb that holds no larvae yet or only old
// ones. A breeder without any comb on record is taken at her word.
func CheckGraft(e Entry, combs []Comb) *Refusal {
	if e.Detail.AgeLo != nil && e.Detail.AgeHi != nil {
		switch {
		case *e.Detail.AgeHi > 120 || *e.Detail.AgeLo < 0 || *e.Detail.AgeLo > *e.Detail.AgeHi:
			return refuse("age_absurd", "Age", *e.Detail.AgeHi)
		case *e.Detail.AgeHi > 48:
			return refuse("larvae_old", "Age", *e.Detail.AgeHi).orConfirm()
		}
		return nil
	}
	if c, ok := ChooseComb(combs, e.Mark, e.Happened); ok {
		if !c.Out.IsZero() && c.Out.Before(e.Happened) {
			from, to := c.Laying()
			if span, ok := GraftAges(from, to, e.Happened); ok && span.Hi > 48 {
				return refuse("larvae_old", "Age", span.Hi).orConfirm()
			}
		}
		return nil
	}
	if e.Mark != "" {
		known := false
		for _, c := range combs {
			known = known || c.Mark == e.Mark
		}
		if len(combs) > 0 && !known {
			return refuse("no_such_comb", "Breeder", e.From, "Mark", e.Mark)
		}
	}
	// The newest comb decides: eggs only, or not even laid.
	var newest *Comb
	for i := range combs {
		c := &combs[i]
		if c.Failed || (e.Mark != "" && c.Mark != e.Mark) {
			continue
		}
		if newest == nil || c.Confined.After(newest.Confined) {
			newest = c
		}
	}
	if newest == nil {
		return nil
	}
	from, to := newest.Laying()
	if e.Happened.Before(newest.Confined) {
		// Only where no older round could have given the larvae is that impossible.
		return refuse("graft_before_confined", "Breeder", e.From, "When", e.Happened, "Since", newest.Confined).orConfirm()
	}
	if _, hi := Ages(from, to, e.Happened); hi < 0 {
		open, _, _ := GraftWindow(*newest, DefaultTable().Row(Graft, ""))
		return refuse("graft_eggs", "Breeder", e.From, "Hatch", from.Add(Hours(HatchAfter)), "Opens", open)
	}
	return nil
}

// AgeWarning grades the oldest larvae of a graft: "", "old" over 24 h, "poor"
// over 36 h. Woyke 1971 abstract: every day older makes poorer queens.
func AgeWarning(a AgeSpan) string {
	switch {
	case a.Hi > heaviestWarn:
		return "poor"
	case a.Hi > 24:
		return "old"
	}
	return ""
}

// CheckBatch asks back what a batch cannot have done: more than there were, or
// before its time. nucs is how many the yard has, 0 where unknown.
func CheckBatch(e Entry, b Batch, nucs int) *Refusal {
	if e.Happened.Before(b.Grafted) {
		return refuse("before_graft", "Batch", b.Number, "When", e.Happened, "Grafted", b.Grafted)
	}
	if e.Step == Recell || e.Step == Finish || e.Step == Rogue {
		return nil
	}
	had, at := b.Had(e.Step)
	if e.Detail.Part {
		had, at = b.HadAt(e.Into, e.Step)
	}
	if e.Step == Nucs {
		had = nil
	}
	if e.Count != nil && had != nil && !e.Detail.Part { // of one yard CheckYard says it, with its name
		sum := *e.Count
		if got := b.Counts.Of(e.Step); got != nil && (e.Step == Move || e.Step == Catch) {
			sum += *got
		}
		if sum > *had {
			return refuse("more_than", "Batch", b.Number, "Count", *e.Count, "Sum", sum, "Had", *had, "At", at, "Step", e.Step)
		}
	}
	if e.Of != nil && had != nil && *e.Of != *had && e.Step != Catch {
		return refuse("of_differs", "Batch", b.Number, "Of", *e.Of, "Had", *had, "At", at).orConfirm()
	}
	if e.Count != nil && nucs > 0 && *e.Count > nucs && (e.Step == Move || e.Step == Nucs) {
		return refuse("more_than_nucs", "Yard", e.Into, "Nucs", nucs, "Count", *e.Count).orConfirm()
	}
	h := e.Happened.Sub(b.Grafted)
	tooEarly := func(from time.Time) *Refusal {
		return refuse("too_early", "Batch", b.Number, "Step", e.Step, "Grafted", b.Grafted, "Hours", h.Hours(), "From", from).orConfirm()
	}
	early := b.Grafted.Add(-Hours(max(0, b.Age.Hi-24)))
	switch e.Step {
	case Capped:
		if from := early.Add(Hours(84)); e.Happened.Before(from) {
			return tooEarly(from)
		}
	case Accept:
		if from := b.Grafted.Add(Hours(4)); e.Happened.Before(from) {
			return tooEarly(from)
		}
	case Move:
		if from := early.Add(Hours(96)); e.Happened.Before(from) {
			return tooEarly(from)
		}
	case Emerge:
		if from := early.Add(FirstVirgin); e.Happened.Before(from) && !e.Detail.NoneYet {
			return tooEarly(from)
		}
	case Laying, Catch:
		if from := b.Emerges.Add(FirstLaying); e.Happened.Before(from) {
			return tooEarly(from)
		}
	}
	return nil
}

// CheckPlace asks back cells put somewhere before they were grafted, or more than stand where
// they came from.
func CheckPlace(e Entry, b Batch) *Refusal {
	if e.Happened.Before(b.Grafted) {
		return refuse("before_graft", "Batch", b.Number, "When", e.Happened, "Grafted", b.Grafted)
	}
	if e.Count == nil {
		return nil
	}
	if *e.Count == 0 {
		return refuse("count_zero", "Step", e.Step)
	}
	had := 0
	for _, l := range b.Account.Lots {
		if e.Detail.Out != "" && l.Place != e.Detail.Out {
			continue
		}
		if l.Count == nil {
			return nil
		}
		had += *l.Count
	}
	if *e.Count > had {
		_, at := b.Had(Move)
		return refuse("more_than", "Batch", b.Number, "Count", *e.Count, "Sum", *e.Count, "Had", had, "At", at, "Step", e.Step)
	}
	return nil
}

// CheckYard asks back more queens at one of a batch's yards than were left there, nil where
// that is not known.
func CheckYard(e Entry, b Batch, there *int) *Refusal {
	if e.Count == nil || there == nil || *e.Count <= *there {
		return nil
	}
	return refuse("more_at", "Batch", b.Number, "Count", *e.Count, "Had", *there, "Yard", e.Into, "Step", e.Step)
}

// CheckAmend asks back a corrected count that does not fit the counts before and
// after it. was is the line as it stands. Of one yard alone CheckAccount says it.
func CheckAmend(was Entry, count *int, b Batch) *Refusal {
	step := was.Step
	if count == nil || was.Detail.Part || step == Lose {
		return nil
	}
	total := *count
	if got := b.Counts.Of(step); got != nil && (step == Move || step == Catch || step == Nucs) {
		total += *got
		if was.Count != nil {
			total -= *was.Count
		}
	}
	if had, at := b.Counts.Stage(step); had != nil && total > *had && step != Nucs {
		return refuse("more_than", "Batch", b.Number, "Count", *count, "Sum", total, "Had", *had, "At", at, "Step", step)
	}
	later := false
	for _, s := range []Step{Graft, Accept, Capped, Move, Emerge, Laying, Catch} {
		if n := b.Counts.Of(s); later && n != nil && *n > total {
			return refuse("less_than", "Batch", b.Number, "Count", total, "Later", *n, "At", s, "Step", step)
		}
		later = later || s == step
	}
	return nil
}
