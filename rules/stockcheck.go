package rules

import "time"

// CheckStock asks back what the queens on record cannot have done: more handed over than
// there are, more given back than were got, a mark of another year's colour, a tag that
// somebody else has. s is the stock as it stood when the thing happened.
func CheckStock(e Entry, s Stock, zone *time.Location) *Refusal {
	n := 1
	if e.Count != nil {
		n = *e.Count
	}
	if bad := checkTags(e, n, s, zone); bad != nil {
		return bad
	}
	k := stocking{Stock: s, zone: zone}
	have := 0
	for _, i := range k.from(&e) {
		have += k.Lots[i].Count
	}
	if n <= have {
		return nil
	}
	switch {
	case e.Step == Handed && e.Detail.Back, e.Step == Lose && e.Detail.Cause == CauseArrival:
		return refuse("more_than_got", "Count", n, "Had", have, "Customer", e.Detail.Customer).orConfirm()
	case e.Step == Lose && e.Into != "":
		return refuse("more_than_bank", "Count", n, "Had", have, "Bank", e.Into).orConfirm()
	case e.Detail.Out != "":
		return refuse("more_than_bank", "Count", n, "Had", have, "Bank", e.Detail.Out).orConfirm()
	case e.Step == Banked:
		return refuse("more_than_hand", "Count", n, "Had", have).orConfirm()
	}
	return refuse("more_than_stock", "Count", n, "Had", have, "Step", e.Step).orConfirm()
}

func checkTags(e Entry, n int, s Stock, zone *time.Location) *Refusal {
	year := DateOf(e.Happened, zone).Year
	if want := MarkColour(year); e.Step == Marked && e.Mark != "" && e.Mark != want {
		return refuse("mark_colour", "Mark", e.Mark, "Want", want, "Year", year).orConfirm()
	}
	if e.Detail.Tags == "" {
		return nil
	}
	tags, ok := ParseTags(e.Detail.Tags)
	if !ok || len(tags) != n {
		return refuse("tags_count", "Tags", e.Detail.Tags, "Count", n, "Number", len(tags))
	}
	for _, t := range tags {
		lots := s.Tagged(t, year)
		if e.Step == Marked && len(lots) > 0 {
			return refuse("tag_taken", "Tag", t, "Batch", lots[0].Batch, "Year", year).orConfirm()
		}
	}
	return nil
}

// StockAt is the stock as it stood at a time by the lines known now.
func (c *Crew) StockAt(at time.Time) Stock {
	return c.stock(func(e *Entry) bool { return !e.Happened.After(at) })
}

// StockWithout is the stock as it stood at a time without one line: what another value of it
// is held against.
func (c *Crew) StockWithout(line int64, at time.Time) Stock {
	return c.stock(func(e *Entry) bool { return e.ID != line && !e.Happened.After(at) })
}

// TooLongBanked are the banked queens that have been so for longer than queens keep there,
// at a time.
func (s Stock) TooLongBanked(at time.Time) (n int) {
	for i := range s.Lots {
		if l := &s.Lots[i]; l.Is == InBank && at.Sub(l.Since) > LongestBank {
			n += l.Count
		}
	}
	return n
}

// OverWeekend reports whether queens that are sent at a time are still on their way at the
// weekend: they travel about two days (common practice), so that what goes after Wednesday
// night may lie in a depot until Monday.
func OverWeekend(at time.Time, zone *time.Location) bool {
	switch at.In(zone).Weekday() {
	case time.Thursday, time.Friday, time.Saturday:
		return true
	}
	return false
}

// CheckMark asks back a mark by itself: another year's colour, a number that is taken.
func CheckMark(e Entry, s Stock, zone *time.Location) *Refusal {
	n := 1
	if e.Count != nil {
		n = *e.Count
	} else if t, ok := ParseTags(e.Detail.Tags); ok {
		n = len(t) // of a count that was not said
	}
	return checkTags(e, n, s, zone)
}
