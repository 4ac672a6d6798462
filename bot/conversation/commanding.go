package conversation

import (
	"cmp"
	"regexp"
	"strconv"
	"strings"
	"time"

	rdg "yardbell/bot/reading"
	"yardbell/rules"
)

// This file turns commands as they were understood into what their handlers take.

// settingKeys are the settings whose name in the reader's data is another.
var settingKeys = map[string]string{"daysoff": "days off", "own": ownKey}

// queryVerbs are the questions that have a form of their own.
var queryVerbs = map[rdg.Topic]verb{
	rdg.AskDue: askDue, rdg.AskBatch: askShow, rdg.AskBreeder: askShow, rdg.AskBuilder: askShow, rdg.AskYard: askShow, rdg.AskIncubator: askShow, rdg.AskCells: askCells, rdg.AskLog: askLog, rdg.AskHelp: askHelp,
	rdg.AskWhy: askWhy, rdg.AskOrders: askOrders, rdg.AskYields: askYields, rdg.AskFree: askCapacity, rdg.AskWeek: askPicture, rdg.AskSeason: askPicture,
	rdg.AskRound: askRound, rdg.AskReport: askReport, rdg.AskCalendar: askCal, rdg.AskPhotos: askPhotos,
	rdg.AskNucs: askNucs, rdg.AskOpen: askNucs, rdg.AskAlone: askNucs,
}

// actVerbs are the commands that are no questions.
var actVerbs = map[rdg.Kind]verb{rdg.Set: doSet, rdg.Add: doAdd, rdg.Order: doOrder, rdg.Plan: askPlan, rdg.Cancel: doCancel, rdg.WhatIf: askWhatIf, rdg.Fit: askFit, rdg.Forget: doForget,
	rdg.Assign: doAssign, rdg.Away: doAway, rdg.Remind: doRemind}

// asCommand turns a command into what its handler takes. It reports false for an act that
// is none.
func asCommand(a rdg.Act, addressed bool, text string) (*reading, bool) {
	a = plainAct(a)
	v := cmp.Or(actVerbs[a.Kind], queryVerbs[a.Topic])
	if v == noVerb || a.Kind != rdg.Query && actVerbs[a.Kind] == noVerb || a.Kind == rdg.Forget && a.Customer == "" {
		return nil, false
	}
	r := &reading{verb: v, step: a.Step, batch: a.Batch, breeder: a.Breeder, builder: builderTyped(a.Builder), yard: a.Yard, count: a.Count, addressed: addressed, text: text,
		plan: planAsk{unit: rules.Unit(a.Unit), order: a.Order, by: rules.Dim(a.By), chance: a.Percent}}
	r.placesOf(a)
	switch v {
	case doForget:
		r.buyer = a.Customer
	case doSet:
		settingOf(r, a)
	case doAdd:
		r.step = rules.Add
	case doOrder, askPlan, askFit:
		if a.When != nil {
			r.plan.day = aheadOf(*a.When)
		}
	case askWhatIf:
		if a.Order != 0 {
			r.step = rules.Ordered
		}
		if a.When != nil {
			r.plan.day = aheadOf(*a.When)
		} else {
			r.plan.shift, r.plan.shifts = rules.Shift{Days: a.Days, Hours: time.Duration(a.Span) * time.Minute}, true
		}
	case askDue:
		r.days = a.Days
		if w := a.When; w != nil && (w.Day == nil || *w.Day != 0) {
			r.dueDay, r.days = aheadOf(*w), max(1, a.Days)
		}
	case doAssign:
		r.whose = a.Person
	case askShow:
		r.step = ""
	case askRound:
		if a.When != nil {
			r.day = a.When
		}
	case askYields:
		r.plan.person = a.Person
	case askHelp:
		r.topic = cmp.Or(string(a.Step), strings.ToLower(a.Value))
		r.step = ""
	case askPicture:
		if a.Topic == rdg.AskSeason {
			r.topic = "season"
		}
	case askNucs:
		r.topic = string(a.Topic)
	case askReport:
		r.days, r.topic = a.Year, cmp.Or(a.Value, "report")
	case askCal:
		r.topic = cmp.Or(a.Value, "calendar")
	}
	return r, true
}

// command does commands of one message. It reports false where they are none.
func (sc *Scene) command(res rdg.Result) (Answer, bool, error) {
	var ans Answer
	for _, a := range res.Acts {
		r, ok := asCommand(a, res.Addressed, sc.Origin.Text)
		if !ok {
			return ans, false, nil
		}
		if r.verb == doAssign || r.verb == doAway || r.verb == doRemind {
			sc.peopleOf(r, plainAct(a))
		}
		ans.Kind = "reply"
		if err := ans.take(sc.act(r)); err != nil || ans.Kind != "reply" {
			return ans, true, err // the rest is not done before this is settled
		}
		sc = ans.In(sc)
	}
	return ans, true, nil
}

// unreadCommand answers a line that opens like a command and was not understood: nobody
// shall believe that it was done.
func (sc *Scene) unreadCommand(acts []rdg.Act) (Answer, error) {
	var ans Answer
	hint := sc.Voice.Say("hint_help")
	form := func(id string, kv ...any) { hint = sc.Voice.Say("hint_form", "Form", sc.Voice.Say(id, kv...)) }
	var a rdg.Act
	if len(acts) > 0 {
		a = acts[0]
	}
	switch {
	case a.Kind == rdg.Set && a.Setting != "":
		r, _ := asCommand(a, true, sc.Origin.Text)
		return sc.act(r)
	case a.Kind == rdg.Set:
		form("form_set")
	case a.Kind == rdg.Add:
		form("form_add_breeder")
	case a.Kind == rdg.Remind:
		form("form_remind")
	case a.Kind == rdg.Query && a.Topic == rdg.AskDue:
		form("form_due")
	case a.Kind == rdg.Order, a.Kind == rdg.Plan, a.Kind == rdg.Cancel:
		hint = sc.Voice.Say("help_order")
	}
	ans.Fail(sc.Voice, "r_unread", "Understood", "", "Hint", hint)
	return ans, nil
}

// builderTyped names a builder by its number as builders are called.
func builderTyped(s string) string {
	if _, err := strconv.Atoi(s); err == nil {
		return "B" + s
	}
	return s
}

// settingOf fills in a setting and its value.
func settingOf(r *reading, a rdg.Act) {
	r.key = cmp.Or(settingKeys[a.Setting], a.Setting)
	r.step = ""
	if a.Setting == "step" {
		r.key = rules.StepSetting + string(a.Step)
	}
	r.typed = a.Value
	r.value = a.Value
	if a.Setting == "yield" {
		r.key, r.value = rules.YieldSetting+string(a.Step), strconv.Itoa(a.Percent)
	}
	switch {
	case len(a.Weekdays) > 0:
		var days []string
		for _, d := range a.Weekdays {
			days = append(days, strings.ToLower(time.Weekday(d%7).String()))
		}
		r.value = strings.Join(days, " and ")
	case r.key != "zone" && r.key != ownKey:
		r.value = strings.ToLower(r.value)
		if r.key == "incubator" || r.key == "spread" || a.Setting == "step" {
			r.value = decimalPoint.ReplaceAllString(r.value, "$1.$2")
		}
	}
}

// decimalPoint finds numbers that are written with a comma.
var decimalPoint = regexp.MustCompile(`(\d),(\d)`)

// aheadOf turns a time that lies ahead into what the handlers take.
func aheadOf(w rdg.When) when {
	out := when{set: true}
	switch {
	case w.Month != 0:
		out.hasDay, out.date, out.year, out.month, out.day = true, true, w.Year, w.Month, w.Date
	case w.Date != 0: // "the 20th", of this month or the next
		out.hasDay, out.date, out.day = true, true, w.Date
	case w.Weekday != 0:
		out.hasDay, out.weekday, out.back = true, w.Weekday%7+1, -1
	case w.Day != nil:
		out.hasDay, out.back = true, -*w.Day
	}
	if w.Clock != nil {
		out.hasTime, out.clock, out.half = true, rules.Clock(*w.Clock), w.Fixed || w.Half != ""
		switch {
		case w.Half == "pm" && out.clock < 12*60:
			out.clock += 12 * 60
		case w.Half == "am" && out.clock >= 12*60 && out.clock < 13*60:
			out.clock -= 12 * 60
		}
	}
	return out
}
