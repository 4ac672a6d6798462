package conversation

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// inStock are the steps on queens that are caught.
var inStock = map[rules.Step]bool{rules.Marked: true, rules.Banked: true, rules.Handed: true, rules.Introduced: true}

// stockDeed logs what became of caught queens: a mark, the bank, a hand-over or a return, an
// introduction, a loss.
func (sc *Scene) stockDeed(r *reading, e rules.Entry) (Answer, error) {
	var ans Answer
	ans.Step = e.Step
	if stop, err := ans.taken(sc.unknown(r)); stop || err != nil {
		return ans, err
	}
	sc = ans.In(sc)
	if stop := ans.is(sc.whoGot(r)); stop {
		return ans, nil
	}
	sc = ans.In(sc)
	said := r.says()
	said.Happened, said.Said, said.By, said.Action, said.Step = e.Happened, e.Said, e.By, e.Action, e.Step
	e = said
	e.Subject = rules.StockSubject()
	if r.batch != 0 && !r.concluded {
		e.Subject = rules.BatchSubject(r.batch)
		if _, found := sc.model.Batch(r.batch); !found {
			known, err := sc.knownBatches()
			ans.ask(sc.Voice, "r_no_batch", "Number", r.batch, "Known", known)
			return ans, err
		}
	}
	stock := sc.model.StockAt(e.Happened)
	if e.Step == rules.Lose {
		e.Into = r.builder
		if r.arrival {
			e.Detail.Cause = rules.CauseArrival
		} else if banks := stock.Banks(); e.Into == "" && len(banks) == 1 {
			e.Into = banks[0]
		}
	}
	if e.Step == rules.Banked {
		e.Into = cmp.Or(e.Into, rules.AnyBank)
	}
	ans.Subject = e.Subject
	if r.all && e.Count == nil {
		if n := stock.Free(e.Happened); n > 0 {
			e.Count = &n
		}
	}
	if e.Count == nil && e.Step != rules.Lose {
		ans.ask(sc.Voice, "ask_stock_count", "Example", sc.Voice.Say("form_"+string(e.Step)))
		return ans, nil
	}
	if bad := sc.allowed(rules.CheckCount(e)); bad != nil {
		ans.refuse(sc, bad)
		return ans, nil
	}
	if e.Step == rules.Banked {
		if stop, err := ans.taken(sc.caughtFirst(r, e, stock)); stop || err != nil {
			return ans, err
		}
		sc = ans.In(sc)
		stock = sc.model.StockAt(e.Happened)
	}
	if stop, err := ans.taken(sc.handedTold(e)); stop || err != nil {
		return ans, err
	}
	if bad := sc.stockAllowed(rules.CheckStock(e, stock, sc.Settings.Zone)); bad != nil {
		if len(ans.Logged) > 0 {
			ans.drop(sc)
		}
		ans.refuse(sc, bad)
		return ans, nil
	}
	sc, _, err := sc.log(&ans, e)
	if err != nil {
		return ans, err
	}
	return ans.with(sc.echoStock(e)), nil
}

// stockAllowed drops a refusal that the crew overrode, and names the customer of one that it
// did not.
func (sc *Scene) stockAllowed(bad *rules.Refusal) *rules.Refusal {
	if bad = sc.allowed(bad); bad != nil {
		if n, ok := bad.Args["Customer"].(int); ok {
			bad.Args["Customer"] = sc.Voice.Customer(n)
		}
		if b, ok := bad.Args["Bank"].(string); ok {
			bad.Args["Bank"] = sc.Voice.Bank(b)
		}
		if s, ok := bad.Args["Want"].(string); ok {
			bad.Args["Want"] = sc.Voice.Mark(s)
			bad.Args["Colour"] = sc.Voice.Mark(bad.Args["Mark"].(string))
			delete(bad.Args, "Mark")
		}
	}
	return bad
}

// caughtAndMarked logs a catch and the marks that were put on in the same breath. The mark is
// looked at first, so that nothing of it is logged alone.
func (sc *Scene) caughtAndMarked(r *reading, e rules.Entry) (Answer, error) {
	var ans Answer
	mark := rules.Entry{Step: rules.Marked, Count: r.count, Mark: r.mark, Happened: e.Happened, Detail: rules.Detail{Tags: r.tags}}
	if bad := sc.stockAllowed(rules.CheckMark(mark, sc.model.StockAt(e.Happened), sc.Settings.Zone)); bad != nil {
		ans.Step = rules.Catch
		ans.refuse(sc, bad)
		return ans, nil
	}
	c := *r
	c.mark, c.tags = "", ""
	if err := ans.take(sc.deed(&c)); err != nil || len(ans.Logged) == 0 {
		return ans, err
	}
	sc = ans.In(sc)
	mark.Subject, mark.Action = ans.Subject, rules.Did
	if mark.Subject.Kind != rules.BatchKind {
		return ans, nil
	}
	if mark.Count == nil { // "all", which the catch has worked out
		mark.Count = ans.Logged[len(ans.Logged)-1].Count
	}
	sc, _, err := sc.log(&ans, mark)
	if err != nil {
		return ans, err
	}
	return ans.with(sc.echoStock(mark)), nil
}

// caughtFirst logs the catch of queens that are told as banked while no catch of them is on
// record: they were said to be caught in the same breath, or none is in hand and one batch
// alone has that many to catch.
func (sc *Scene) caughtFirst(r *reading, e rules.Entry, stock rules.Stock) (ans Answer, stop bool, err error) {
	inHand := 0
	for _, l := range stock.OnHand(e.Happened) {
		if l.Is == rules.InHand {
			inHand += l.Count
		}
	}
	if !r.caught && inHand > 0 {
		return ans, false, nil
	}
	if !r.caught {
		var fit []rules.Batch
		for _, k := range sc.open() {
			if b, found := sc.model.Batch(k.Batch); k.Step == rules.Catch && found && b.ToCatch() >= *e.Count {
				fit = append(fit, b)
			}
		}
		if len(fit) != 1 {
			return ans, false, nil
		}
		r.batch = fit[0].Number
	}
	c := *r
	c.step, c.builder, c.tags, c.buyer, c.caught, c.customer = rules.Catch, "", "", "", false, 0
	err = ans.take(sc.deed(&c))
	return ans, err != nil || len(ans.Logged) == 0, err
}

// handedTold asks whether queens that somebody else told as handed to the same customer a
// moment ago are the same ones: a second line would be queens that nobody gave away.
func (sc *Scene) handedTold(e rules.Entry) (ans Answer, stop bool, err error) {
	if e.Step != rules.Handed || sc.opt.sure {
		return ans, false, nil
	}
	for _, k := range slices.Backward(sc.model.Effective(rules.StockSubject())) {
		if k.Action != rules.Did || k.Step != e.Step || k.By == sc.By.Name || e.Happened.Sub(k.Happened).Abs() > toldWithin {
			continue
		}
		if k.Detail.Customer == e.Detail.Customer && k.Detail.Back == e.Detail.Back && equal(k.Count, e.Count) && k.Detail.Tags == e.Detail.Tags {
			ans.ask(sc.Voice, "ask_hand_told", "Old", sc.Voice.Line(k), "By", k.By, "When", k.Happened)
			ans.offer(sc.Voice, "b_second", sc.rerun("sure=1"))
			ans.offer(sc.Voice, "b_no", "no")
			return ans, true, nil
		}
	}
	return ans, false, nil
}

// echoStock says what a line about caught queens leads to: what is left, and what is to be
// minded, each in a line at most.
func (sc *Scene) echoStock(e rules.Entry) Answer {
	var ans Answer
	v := sc.Voice
	stock := sc.model.StockAt(e.Happened)
	if e.Step == rules.Banked {
		n, since := stock.Bank(e.Into)
		ans.say(v, "e_stock_banked", "What", v.Line(e), "Total", n, "Until", v.Date(rules.DateOf(since.Add(rules.LongestBank), sc.Settings.Zone)))
		if n > rules.MostBanked {
			ans.say(v, "w_bank_full", "Total", n, "Most", rules.MostBanked)
		}
		return ans
	}
	if e.Step == rules.Marked {
		ans.say(v, "e_stock", "What", v.Line(e))
		return ans
	}
	ans.say(v, "e_stock_left", "What", v.Line(e), "Left", sc.leftInWords(stock, e.Happened))
	if e.Detail.Customer != 0 && (e.Detail.Back || e.Detail.Cause == rules.CauseArrival) {
		ans.join(v, "e_customer_has", "Customer", v.Customer(e.Detail.Customer), "Has", stock.Customer(e.Detail.Customer).Has())
	}
	if e.Step == rules.Handed && !e.Detail.Back {
		ans.add(sc.mindHandOver(e))
	}
	return ans
}

// mindHandOver is what is to be minded of queens that were given away: a bank that held them
// too long, a weekend on the way, papers.
func (sc *Scene) mindHandOver(e rules.Entry) Answer {
	var ans Answer
	over := 0
	for _, l := range sc.model.Stock().Lots {
		if l.Is == rules.AtCustomer && l.Since.Equal(e.Happened) {
			for _, b := range sc.bankedBefore(l, e.Happened) {
				over = max(over, b)
			}
		}
	}
	if over > 0 {
		ans.say(sc.Voice, "w_bank_long", "Days", over)
	}
	if e.Detail.Ship {
		if rules.OverWeekend(e.Happened, sc.Settings.Zone) {
			ans.say(sc.Voice, "w_ship_weekend")
		}
		ans.say(sc.Voice, "e_ship_permit")
	}
	return ans
}

// bankedBefore is how many days queens of a lot had been banked when they went, where that is
// longer than they keep there.
func (sc *Scene) bankedBefore(l rules.StockLot, at time.Time) (days []int) {
	before := sc.model.StockAt(at.Add(-time.Millisecond))
	for _, b := range before.Lots {
		if b.Is == rules.InBank && b.Catch == l.Catch && at.Sub(b.Since) > rules.LongestBank {
			days = append(days, int(at.Sub(b.Since).Hours()/24))
		}
	}
	return days
}

// leftInWords says how many queens can still be handed over, and where they are.
func (sc *Scene) leftInWords(s rules.Stock, at time.Time) string {
	hand := 0
	for _, l := range s.OnHand(at) {
		if l.Is == rules.InHand {
			hand += l.Count
		}
	}
	var parts []string
	if hand > 0 {
		parts = append(parts, sc.Voice.Say("stock_in_hand", "Count", hand))
	}
	for _, b := range s.Banks() {
		n, _ := s.Bank(b)
		parts = append(parts, sc.Voice.Say("stock_in_bank", "Count", n, "Bank", sc.Voice.Bank(b)))
	}
	if parts == nil {
		return sc.Voice.Say("stock_no_more")
	}
	return wording.JoinList(parts)
}

// customerNames are the customers' names by number.
func (sc *Scene) customerNames() map[int]string {
	out := map[int]string{}
	for _, c := range sc.buyers {
		if !c.Forgotten {
			out[c.Number] = c.Name
		}
	}
	return out
}

// customerCalled is the number of the customer of a name, 0 for none.
func (sc *Scene) customerCalled(name string) int {
	for _, c := range sc.buyers {
		if name != "" && !c.Forgotten && wording.Fold(c.Name) == wording.Fold(name) {
			return c.Number
		}
	}
	return 0
}

// whoGot settles who got queens: a customer of the list, or one whom a press puts on it. Where
// somebody of the crew has the same name, it asks which of them is meant.
func (sc *Scene) whoGot(r *reading) (ans Answer, stop bool) {
	if r.buyer == "" {
		return ans, false
	}
	name := titled(r.buyer)
	r.customer = sc.customerCalled(name)
	if !isNames(name) {
		ans.Fail(sc.Voice, "r_name", "Name", r.buyer)
		return ans, true
	}
	if list, err := sc.Look.Members(sc.Crew.ID); err == nil && len(Called(list, name)) > 0 && !sc.opt.anyway["member_customer"] {
		ans.ask(sc.Voice, "ask_member_customer", "Name", name)
		ans.offer(sc.Voice, "b_customer", sc.rerun("add=1;anyway=member_customer"), "Name", name)
		ans.offer(sc.Voice, "b_no", "no")
		return ans, true
	}
	if r.customer != 0 {
		return ans, false
	}
	if !sc.opt.add {
		ans.ask(sc.Voice, "ask_customer", "Name", name)
		ans.offer(sc.Voice, "b_add", sc.rerun("add=1"), "What", sc.Voice.Say("named_customer", "Name", name))
		ans.offer(sc.Voice, "b_no", "no")
		return ans, true
	}
	next := *sc
	for _, c := range sc.buyers {
		r.customer = max(r.customer, c.Number)
	}
	r.customer++
	next.buyers = append(slices.Clip(sc.buyers), store.Customer{Number: r.customer, Name: name})
	number, crew := r.customer, sc.Crew.ID
	ans.write(func(tx *store.Tx) error { return tx.AddCustomer(crew, number, name) })
	ans.of = next.Speaking(sc.written)
	return ans, false
}

// titled writes a name that was typed small as names are written.
func titled(name string) string {
	words := strings.Fields(name)
	for i, w := range words {
		words[i] = wording.Upper(w)
	}
	return strings.Join(words, " ")
}

// stockInWords says what would be logged of caught queens, with the name of a customer who is
// on no list yet.
func (sc *Scene) stockInWords(r *reading) string {
	e, v := r.says(), sc.Voice
	e.Action, e.Step, e.Subject = rules.Did, r.step, rules.StockSubject()
	if r.batch != 0 {
		e.Subject = rules.BatchSubject(r.batch)
	}
	if r.buyer != "" && r.customer == 0 {
		const unlisted = -1
		v.Customers = map[int]string{unlisted: titled(r.buyer)}
		e.Detail.Customer = unlisted
	}
	return v.Line(e)
}
