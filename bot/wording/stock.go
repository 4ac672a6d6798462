package wording

import (
	"strings"

	"yardbell/rules"
)

// OfStock reports whether a line is about queens that are caught, after the catch.
func OfStock(e rules.Entry) bool {
	switch e.Step {
	case rules.Marked, rules.Banked, rules.Handed, rules.Introduced:
		return true
	}
	return e.Step == rules.Lose && e.Subject.Kind == rules.StockKind
}

// Customer names a customer, by number where the name may not be said or is forgotten.
func (v Voice) Customer(number int) string {
	if name := v.Customers[number]; name != "" {
		return name
	}
	return v.Say("customer_numbered", "Number", number)
}

// Tags words the numbers on queens: "1-24, 30".
func (v Voice) Tags(tags string) string { return strings.ReplaceAll(tags, ",", ", ") }

// Bank names a bank inside a sentence.
func (v Voice) Bank(name string) string {
	if name == rules.AnyBank {
		return v.Say("bank_any")
	}
	return v.Say("bank_named", "Bank", name)
}

// stockLine says what a line about caught queens logged.
func (v Voice) stockLine(e rules.Entry) string {
	part := func(ok bool, id string, kv ...any) string {
		if !ok {
			return ""
		}
		return v.Say(id, kv...)
	}
	d := e.Detail
	tags := part(d.Tags != "", "l_tags", "Tags", v.Tags(d.Tags))
	of := part(e.Subject.Kind == rules.BatchKind, "l_of_batch", "Batch", e.Subject)
	switch {
	case e.Step == rules.Marked:
		return v.Say("l_marked", "Count", e.Count, "Colour", part(e.Mark != "", "l_colour", "Mark", e.Mark), "Tags", tags, "Of", of)
	case e.Step == rules.Banked:
		return v.Say("l_banked", "Count", e.Count, "Bank", v.Bank(bankOf(e.Into)), "Tags", tags, "Of", of)
	case e.Step == rules.Introduced:
		return v.Say("l_introduced", "Count", e.Count, "At", part(e.Into != "", "e_at", "Yard", e.Into), "Tags", tags, "Of", of)
	case e.Step == rules.Handed && d.Back:
		return v.Say("l_returned", "Count", e.Count, "From", part(d.Customer != 0, "l_from_customer", "Customer", v.Customer(d.Customer)), "Tags", tags)
	case e.Step == rules.Handed:
		return v.Say("l_handed", "Count", e.Count, "To", part(d.Customer != 0, "l_to_customer", "Customer", v.Customer(d.Customer)), "Tags", tags,
			"Of", of, "Ship", part(d.Ship, "l_shipped"))
	case d.Cause == rules.CauseArrival:
		return v.Say("l_arrival", "Count", e.Count, "At", part(d.Customer != 0, "l_at_customer", "Customer", v.Customer(d.Customer)), "Tags", tags)
	}
	return v.Say("l_dead_queens", "Count", e.Count, "In", part(e.Into != "", "l_in_bank", "Bank", v.Bank(bankOf(e.Into))), "Tags", tags)
}

func bankOf(name string) string {
	if name == "" {
		return rules.AnyBank
	}
	return name
}

// WhereIs words where the queens of a lot are.
func (v Voice) WhereIs(l rules.StockLot) string {
	switch {
	case l.Is == rules.InBank:
		return v.Say("queen_bank", "Bank", v.Bank(l.Place))
	case l.Is == rules.AtCustomer && l.Who == 0:
		return v.Say("queen_sold")
	case l.Is == rules.AtCustomer:
		return v.Say("queen_customer", "Customer", v.Customer(l.Who))
	case l.Is == rules.InColony && l.Place != "":
		return v.Say("queen_colony", "At", v.Say("e_at", "Yard", l.Place))
	case l.Is == rules.InColony:
		return v.Say("queen_colony", "At", "")
	case l.Is == rules.DeadQueen:
		return v.Say("queen_dead")
	}
	return v.Say("queen_hand")
}
