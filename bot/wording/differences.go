package wording

import (
	"cmp"
	"fmt"
	"strconv"
	"time"

	"yardbell/rules"
)

// Difference is a value of a line before and after a change, "" for none.
type Difference struct{ Was, Now string }

// Details words every value of a line that a change can touch, as it was and as it is.
// What is left out here would be changed without a word.
func (v Voice) Details(old, e rules.Entry) []Difference {
	both := func(word func(rules.Entry) string) Difference { return Difference{word(old), word(e)} }
	is := func(ok bool, id string) string {
		if !ok {
			return ""
		}
		return v.Say(id)
	}
	count := func(k rules.Entry) string {
		switch {
		case k.Step == rules.Eggs:
			return is(true, map[bool]string{true: "c_noeggs", false: "c_eggs"}[k.Detail.NoEggs])
		case k.Of != nil:
			var n any = "?"
			if k.Count != nil {
				n = *k.Count
			}
			return Trimmed(v.Say("l_many_of", "N", n, "Of", *k.Of))
		case k.Count == nil && old.Count == nil && e.Count == nil && !rules.NeedsCount[k.Step]:
			return ""
		}
		return fmt.Sprint(v.value(v.Count(k.Step, k.Count)))
	}
	return []Difference{
		both(count),
		both(func(k rules.Entry) string {
			if k.From == 0 {
				return ""
			}
			return v.Subject(rules.BreederSubject(k.From))
		}),
		both(func(k rules.Entry) string { return v.Place(k.Into) }),
		both(func(k rules.Entry) string {
			if k.Detail.C == nil {
				return ""
			}
			return v.Say("c_degrees", "Value", v.Number(*k.Detail.C, 1))
		}),
		both(func(k rules.Entry) string { return is(k.Detail.Power, "c_power") }),
		both(func(k rules.Entry) string { return is(k.Detail.Singly, "c_singly") }),
		both(func(k rules.Entry) string {
			if k.Detail.Both == nil {
				return ""
			}
			return is(true, map[bool]string{true: "c_both", false: "c_both_not"}[*k.Detail.Both])
		}),
		both(func(k rules.Entry) string {
			if k.Detail.Rests == nil {
				return ""
			}
			return is(true, map[bool]string{true: "c_rests", false: "c_rests_not"}[*k.Detail.Rests])
		}),
		both(func(k rules.Entry) string { return v.Mark(k.Mark) }),
		both(func(k rules.Entry) string {
			if k.Detail.BeesIn == nil {
				return ""
			}
			return is(true, map[bool]string{true: "c_bees", false: "c_nobees"}[*k.Detail.BeesIn])
		}),
		both(func(k rules.Entry) string {
			lo, hi := k.Detail.AgeLo, k.Detail.AgeHi
			if hi == nil && lo == nil {
				return ""
			}
			span := v.Number(*cmp.Or(lo, hi), 1)
			if most := v.Number(*cmp.Or(hi, lo), 1); most != span {
				span += "-" + most
			}
			return v.Say("c_ages", "Ages", span)
		}),
		both(func(k rules.Entry) string { return is(k.Detail.NoEggs && k.Step != rules.Eggs, "c_noeggs") }),
		both(func(k rules.Entry) string {
			if k.Step != rules.CombOut && !k.Detail.Release {
				return ""
			}
			return is(true, map[bool]string{true: "c_release", false: "c_combout"}[k.Detail.Release])
		}),
		both(func(k rules.Entry) string { return is(k.Detail.All, "none_left") }),
		both(func(k rules.Entry) string { return is(k.Detail.NoneYet, "c_none_yet") }),
		both(func(k rules.Entry) string { return is(k.Detail.More, "c_more") }),
		both(func(k rules.Entry) string { return cmp.Or(v.Days(rules.ParseDays(k.Detail.Days)), k.Detail.Days) }),
		both(func(k rules.Entry) string {
			if k.Detail.Member == 0 {
				return k.Whom
			}
			return cmp.Or(k.Whom, strconv.FormatInt(k.Detail.Member, 10))
		}),
		both(func(k rules.Entry) string { return is(k.Detail.Part, "c_part") }),
		both(func(k rules.Entry) string {
			if k.Detail.State == "" {
				return ""
			}
			return v.Nuc(k.Detail.State, k.Count)
		}),
		both(func(k rules.Entry) string {
			if k.Detail.Batch == 0 {
				return ""
			}
			return v.Say("c_batch", "Batch", rules.BatchSubject(k.Detail.Batch))
		}),
		both(func(k rules.Entry) string {
			if k.Detail.Out == "" {
				return ""
			}
			return v.Say("c_out", "Builder", v.Place(k.Detail.Out))
		}),
		both(func(k rules.Entry) string {
			if k.Detail.Customer == 0 {
				return ""
			}
			return v.Customer(k.Detail.Customer)
		}),
		both(func(k rules.Entry) string {
			if k.Detail.Tags == "" {
				return ""
			}
			return v.Say("c_tags", "Tags", v.Tags(k.Detail.Tags))
		}),
		both(func(k rules.Entry) string { return is(k.Detail.Back, "c_back") }),
		both(func(k rules.Entry) string { return is(k.Detail.Ship, "c_ship") }),
		both(func(k rules.Entry) string {
			if k.Detail.Cause == "" && k.Step != rules.Retire {
				return ""
			}
			return v.Cause(k)
		}),
		both(func(k rules.Entry) string {
			id := "c_litres"
			switch {
			case k.Detail.Litres == 0:
				return is(k.Detail.Each, "c_each")
			case k.Detail.Each:
				id = "c_litres_each"
			case k.Subject.Kind == rules.YardKind:
				id = "c_litres_whole"
			}
			return v.Say(id, "Litres", v.Number(k.Detail.Litres, 2))
		}),
		both(func(k rules.Entry) string {
			if k.Detail.Until == 0 {
				return ""
			}
			return v.At(time.UnixMilli(k.Detail.Until))
		}),
		both(func(k rules.Entry) string { return k.Detail.Reason }),
		both(func(k rules.Entry) string {
			if k.Detail.Key == "" {
				return k.Detail.Value
			}
			return v.Key(k.Detail.Key) + " " + v.Setting(k.Detail.Key, k.Detail.Value)
		}),
		both(func(k rules.Entry) string {
			if k.Detail.Plan == nil {
				return ""
			}
			return v.orderEntry(k)
		}),
		// Which comb, which occurrence, with or without a warning: of no matter to whoever reads.
		both(func(k rules.Entry) string {
			if k.Detail.Comb == 0 && k.Detail.Occ == "" {
				return ""
			}
			return v.Say("c_of", "Comb", k.Detail.Comb, "Occ", k.Detail.Occ)
		}),
		both(func(k rules.Entry) string { return is(k.Detail.Accepted, "c_accepted") }),
		both(func(k rules.Entry) string {
			if old.Happened.Equal(e.Happened) {
				return ""
			}
			return v.At(k.Happened)
		}),
	}
}
