package conversation

import (
	"fmt"
	"slices"
	"strings"
	"time"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// stockAsked tells which queens are here, which are due to be caught, and who has how many.
func (sc *Scene) stockAsked(a rdg.Act) Answer {
	var ans Answer
	v, now, s := sc.Voice, sc.Look.Now, sc.model.Stock()
	if a.Value == "bank" {
		if ans.add(sc.banksNow(s)); len(ans.Lines) == 0 {
			ans.say(v, "s_bank_none")
		}
		return ans
	}
	hand, since := 0, time.Time{}
	for _, l := range s.OnHand(now) {
		if l.Is == rules.InHand {
			if hand += l.Count; since.IsZero() || l.Since.Before(since) {
				since = l.Since
			}
		}
	}
	if hand > 0 {
		ans.say(v, "s_stock_hand", "Count", hand, "Since", since)
	}
	ans.add(sc.banksNow(s))
	if len(ans.Lines) == 0 {
		ans.say(v, "s_stock_none")
	} else if ages := agesOf(s.OnHand(now), now); ages != "" {
		ans.say(v, "s_stock_ages", "Ages", ages)
	}
	if n := s.Forgotten(now); n > 0 {
		ans.say(v, "s_stock_old", "Count", n)
	}
	for _, k := range sc.open() {
		b, found := sc.model.Batch(k.Batch)
		if n := b.ToCatch(); k.Step == rules.Catch && found && n > 0 {
			ans.say(v, "s_stock_due", "Count", n, "Batch", v.Subject(rules.BatchSubject(b.Number)))
		}
	}
	var who []string
	for _, c := range s.Customers {
		if c.Customer != 0 && c.Has() > 0 {
			who = append(who, v.Say("s_stock_one", "Customer", v.Customer(c.Customer), "Has", c.Has()))
		}
	}
	if who != nil {
		ans.say(v, "s_stock_customers", "List", wording.JoinList(who))
	}
	if gone := s.Count(rules.AtCustomer) + s.Count(rules.InColony) + s.Count(rules.DeadQueen); gone > 0 {
		ans.say(v, "s_stock_gone", "Caught", s.Caught, "Sold", s.Count(rules.AtCustomer), "Introduced", s.Count(rules.InColony), "Dead", s.Count(rules.DeadQueen))
	}
	return ans
}

// banksNow tells how many queens each bank holds, and how long they keep there.
func (sc *Scene) banksNow(s rules.Stock) Answer {
	var ans Answer
	for _, b := range s.Banks() {
		n, since := s.Bank(b)
		ans.say(sc.Voice, "s_stock_bank", "Count", n, "Bank", sc.Voice.Bank(b), "Since", since, "Until", sc.Voice.Date(rules.DateOf(since.Add(rules.LongestBank), sc.Settings.Zone)))
	}
	return ans
}

// agesOf is how many days queens have been out of their cells, by the model of emergence: the
// youngest and the oldest of them, "" where it is of none known.
func agesOf(lots []rules.StockLot, now time.Time) string {
	lo, hi := -1, -1
	for _, l := range lots {
		if l.Emerged.IsZero() || l.Emerged.After(now) {
			continue
		}
		d := int(now.Sub(l.Emerged).Hours() / 24)
		if lo < 0 || d < lo {
			lo = d
		}
		hi = max(hi, d)
	}
	switch {
	case lo < 0:
		return ""
	case lo == hi:
		return fmt.Sprint(lo)
	}
	return fmt.Sprintf("%d-%d", lo, hi)
}

// customerAsked tells what one customer got, the newest hand-overs last.
func (sc *Scene) customerAsked(a rdg.Act) Answer {
	var ans Answer
	number := sc.customerCalled(a.Customer)
	c := sc.model.Stock().Customer(number)
	name := sc.Voice.Customer(number)
	if c.Got == 0 {
		ans.say(sc.Voice, "s_customer_none", "Customer", name)
		return ans
	}
	ans.say(sc.Voice, "s_customer", "Customer", name, "Got", c.Got, "Back", c.Back, "Dead", c.Dead, "Has", c.Has())
	var lines []rules.Entry
	for _, s := range append(sc.model.Subjects(rules.BatchKind), rules.StockSubject()) {
		for _, e := range sc.model.Effective(s) {
			if e.Action == rules.Did && e.Detail.Customer == number && (e.Step == rules.Handed || e.Step == rules.Lose) {
				lines = append(lines, e)
			}
		}
	}
	slices.SortStableFunc(lines, func(x, y rules.Entry) int { return x.Happened.Compare(y.Happened) })
	for _, e := range lines[max(0, len(lines)-mostButtons):] {
		ans.say(sc.Voice, "s_customer_line", "When", e.Happened, "What", sc.Voice.Line(e), "By", e.By)
	}
	return ans
}

// queenAsked tells where the queen with a tag is from and where she went, as far as it was
// told which of them went where.
func (sc *Scene) queenAsked(a rdg.Act) (Answer, error) {
	var ans Answer
	v := sc.Voice
	lots := sc.model.Stock().Tagged(a.Breeder, a.Year)
	if len(lots) == 0 {
		if slices.ContainsFunc(sc.model.Breeders(), func(b rules.Breeder) bool { return b.Number == a.Breeder }) && a.Year == 0 {
			return sc.showNamed(rdg.Act{Breeder: a.Breeder})
		}
		ans.say(v, "s_queen_none", "Tag", a.Breeder)
		return ans, nil
	}
	l := lots[0]
	colour := ""
	if l.Colour != "" {
		colour = v.Say("s_queen_colour", "Mark", l.Colour)
	}
	if l.Catch == 0 {
		ans.say(v, "s_queen_untold", "Tag", a.Breeder, "Year", fmt.Sprint(l.Year), "Colour", colour)
	} else {
		from, at := "", ""
		if b, found := sc.model.Batch(l.Batch); found && b.Breeder != 0 {
			from = v.Say("s_queen_from", "Breeder", rules.BreederSubject(b.Breeder), "Grafted", v.Date(rules.DateOf(b.Grafted, sc.Settings.Zone)))
		}
		if l.Yard != "" {
			at = v.Say("e_at", "Yard", strings.ReplaceAll(l.Yard, rules.YardSep, "/"))
		}
		ans.say(v, "s_queen", "Tag", a.Breeder, "Year", fmt.Sprint(l.Year), "Batch", v.Subject(rules.BatchSubject(l.Batch)), "From", from,
			"Caught", v.Date(rules.DateOf(l.Caught, sc.Settings.Zone)), "At", at, "Colour", colour)
	}
	if len(lots) == 1 {
		ans.say(v, "s_queen_is", "Where", v.WhereIs(l), "Since", v.Date(rules.DateOf(l.Since, sc.Settings.Zone)))
		return ans, nil
	}
	var wheres, parts []string
	counts := map[string]int{}
	for _, k := range lots {
		w := v.WhereIs(k)
		if counts[w] == 0 {
			wheres = append(wheres, w)
		}
		counts[w] += k.Count
	}
	for _, w := range wheres {
		parts = append(parts, v.Say("queen_among", "Count", counts[w], "Where", w))
	}
	ans.say(v, "s_queen_maybe", "List", wording.JoinList(parts))
	return ans, nil
}

// forgetCustomer asks whether a customer's name is to go, which only a lead may say.
func (sc *Scene) forgetCustomer(name string) (Answer, error) {
	var ans Answer
	if refused, err := ans.taken(sc.onlyLead()); refused || err != nil {
		return ans, err
	}
	ans.ask(sc.Voice, "g_forget_customer", "Name", sc.Voice.Customer(sc.customerCalled(name)))
	ans.offer(sc.Voice, "b_forget", fmt.Sprintf("forgetcustomer|%d", sc.customerCalled(name)))
	ans.offer(sc.Voice, "b_no", "no")
	return ans, nil
}

// customerForgotten forgets a customer, as a lead said by a press.
func (sc *Scene) customerForgotten(number int) (Answer, error) {
	var ans Answer
	if refused, err := ans.taken(sc.onlyLead()); refused || err != nil {
		return ans, err
	}
	i := slices.IndexFunc(sc.buyers, func(c store.Customer) bool { return c.Number == number && !c.Forgotten })
	if i < 0 {
		ans.Fail(sc.Voice, "g_stale")
		return ans, nil
	}
	c, crew := sc.buyers[i], sc.Crew.ID
	called := wording.Bare(wording.New(sc.Settings, sc.Look.Now).Say("customer_numbered", "Number", number))
	ans.write(func(tx *store.Tx) error { return tx.ForgetCustomer(crew, c, called) })
	ans.say(sc.Voice, "g_customer_forgotten", "Name", called)
	return ans, nil
}
