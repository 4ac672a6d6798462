package conversation

import (
	"slices"
	"strings"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// showRound tells how what was grafted on one day stands: its bars with their counts and
// places, the deadline, what is next.
func (sc *Scene) showRound(r *reading) (Answer, error) {
	var ans Answer
	rounds := sc.model.Rounds()
	if len(rounds) == 0 {
		ans.ask(sc.Voice, "r_no_batches")
		return ans, nil
	}
	one := rounds[len(rounds)-1]
	if r.day != nil {
		at, _, _ := r.day.Settle(sc.Origin.Said.In(sc.Settings.Zone))
		day := rules.DateOf(at, sc.Settings.Zone)
		if r.day.Year != 0 {
			day = rules.Date{Year: r.day.Year, Month: time.Month(r.day.Month), Day: r.day.Date}
		}
		i := slices.IndexFunc(rounds, func(g rules.GraftRound) bool { return g.Day == day })
		if i < 0 {
			var names []string
			for _, g := range rounds[max(0, len(rounds)-6):] {
				names = append(names, sc.Voice.Date(g.Day))
			}
			ans.ask(sc.Voice, "r_no_round", "Date", sc.Voice.Date(day), "List", wording.JoinList(names))
			return ans, nil
		}
		one = rounds[i]
	}
	ans.Subject = one.Subject()
	ans.say(sc.Voice, "s_round", "Round", sc.Voice.Head(one.Subject()), "Count", len(one.Bars))
	for _, b := range one.Bars {
		ans.Lines = append(ans.Lines, sc.barState(b))
	}
	if at := sc.moveClose(one); !at.IsZero() {
		ans.say(sc.Voice, "e_bars_close", "Close", at)
	}
	var next []rules.Task
	for _, k := range sc.open() {
		if one.Has(k.Batch) && !(k.Guard && !k.Latest.After(sc.Look.Now)) {
			next = append(next, k)
		}
	}
	if len(next) > 0 {
		ans.say(sc.Voice, "s_next")
		ans.Lines = append(ans.Lines, sc.lists().Items(next, mostNext)...)
	}
	return ans, nil
}

// mostNext is how many lines of what is next an answer has.
const mostNext = 6

// barState is one bar of a round: its counts, whose graft it was and where it is.
func (sc *Scene) barState(b rules.Batch) string {
	var counts []string
	for _, step := range []rules.Step{rules.Graft, rules.Accept, rules.Capped, rules.Move, rules.Emerge, rules.Laying, rules.Catch} {
		if n := b.Counts.Of(step); n != nil {
			counts = append(counts, sc.Voice.Say("s_count", "Count", *n, "Past", sc.Voice.Past(step, n)))
		}
	}
	name := sc.Voice.Subject(rules.BatchSubject(b.Number))
	where := strings.Join(b.Yards, "/")
	if b.Builder != "" {
		name = sc.Voice.Say("bar", "Builder", b.Builder, "Batch", name)
	}
	if where != "" {
		where = sc.Voice.Say("what_at", "At", where)
	}
	from := ""
	if b.Breeder != 0 {
		from = sc.Voice.Say("e_graft_from", "Breeder", rules.BreederSubject(b.Breeder))
	}
	id := "s_round_bar"
	if b.Ended {
		id = "s_round_bar_ended"
	}
	return sc.Voice.Say(id, "Bar", name, "List", wording.JoinList(counts), "From", from, "At", where, "By", b.Grafter)
}

// secondReport asks about a second graft from the same breeder into the builder that has one
// of the same day: the same told twice, or a second bar. Merged or logged unasked, either would be a bar that
// nobody counts.
func (sc *Scene) secondReport(e rules.Entry) (Answer, bool) {
	var ans Answer
	if e.Into == "" || sc.opt.sure {
		return ans, false
	}
	for _, b := range sc.model.Batches() {
		r, _ := sc.model.RoundOf(b.Number)
		if b.Start != e.Into || b.Ended || b.Breeder != e.From && b.Breeder != 0 || r.Day != sc.model.WorkdayOf(e.Happened) {
			continue
		}
		ans.ask(sc.Voice, "ask_second_bar", "Builder", e.Into, "Batch", sc.Voice.Subject(rules.BatchSubject(b.Number)), "Old", b.Counts.Grafted, "When", b.Grafted, "By", b.Grafter)
		if e.Count != nil && b.Counts.Grafted != nil && *e.Count != *b.Counts.Grafted {
			ans.Buttons = append(ans.Buttons, wording.Button(sc.Voice.Say("b_change", "Count", *e.Count), amendDo(b.Graft, *e.Count)))
		}
		ans.offer(sc.Voice, "b_second_bar", sc.rerun("sure=1"))
		ans.offer(sc.Voice, "b_no", "no")
		return ans, true
	}
	return ans, false
}

// movedRound says that a bar is of another round since its day was put right.
func (sc *Scene) movedRound(before *Scene, batch int) Answer {
	var ans Answer
	was, had := before.model.RoundOf(batch)
	now, has := sc.model.RoundOf(batch)
	if had && has && was.Day != now.Day {
		ans.say(sc.Voice, "e_bar_moved", "Batch", sc.Voice.Head(rules.BatchSubject(batch)), "Round", sc.Voice.Subject(now.Subject()), "Old", sc.Voice.Subject(was.Subject()))
	}
	return ans
}
