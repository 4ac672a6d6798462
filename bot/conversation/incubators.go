package conversation

import (
	"math"
	"slices"
	"time"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// longestExcursion is the longest time that a temperature or a power cut with an end is
// taken to have lasted: longer is two times that were read amiss.
const longestExcursion = 48 * time.Hour

func (sc *Scene) hasIncubator(key string) bool {
	return slices.ContainsFunc(sc.model.Incubators(), func(in rules.Incubator) bool { return in.Name == key })
}

func (sc *Scene) incubatorNamed(key string) rules.Incubator {
	for _, in := range sc.model.Incubators() {
		if in.Name == key {
			return in
		}
	}
	return rules.Incubator{Name: key}
}

// incubatorOf finds the incubator a message is about: named, of the message replied to, the
// only one. Where the crew has none the first mention makes one: add is its line. ok is false
// where it was asked.
func (sc *Scene) incubatorOf(r *reading) (ans Answer, key string, add []rules.Entry, ok bool) {
	if r.incubator != "" && r.incubator != rdg.AnyIncubator {
		return ans, r.incubator, nil, true
	}
	if s, named := sc.context(rules.IncubatorKind); named {
		return ans, s.Key, nil, true
	}
	switch list := sc.model.Incubators(); len(list) {
	case 0:
		return ans, "1", []rules.Entry{{Action: rules.Did, Step: rules.Add, Subject: rules.IncubatorSubject("1")}}, true
	case 1:
		return ans, list[0].Name, nil, true
	default:
		ans.ask(sc.Voice, "ask_which", "What", wording.Upper(sc.Voice.Say("step_"+string(r.step))))
		for _, in := range list[:min(len(list), mostButtons)] {
			s := rules.IncubatorSubject(in.Name)
			ans.Buttons = append(ans.Buttons, wording.Button(sc.Voice.Head(s), sc.rerun("subject="+s.String())))
		}
		return ans, "", nil, false
	}
}

// temperature logs a temperature of an incubator or a time without power, and says what it
// did to each batch there.
func (sc *Scene) temperature(r *reading, e rules.Entry) (Answer, error) {
	var ans Answer
	ans.Step = e.Step
	if r.power && len(sc.model.Incubators()) == 0 && r.incubator == "" {
		ans.Ignore() // nothing of the crew's hangs on it
		return ans, nil
	}
	if r.till.set {
		from, to, ok := sc.span(r.when, r.till)
		if !ok {
			ans.ask(sc.Voice, "ask_span", "Example", sc.Voice.Say("form_power"))
			return ans, nil
		}
		e.Happened, e.Detail.Until = from, to.UnixMilli()
	} else if r.power {
		ans.ask(sc.Voice, "ask_power", "Example", sc.Voice.Say("form_power"))
		return ans, nil
	}
	if c := r.degrees; c != nil && (*c < rules.ColdestTemp || *c > rules.HottestTemp) {
		ans.ask(sc.Voice, "r_temp", "Value", sc.Voice.Number(*c, 1))
		return ans, nil
	}
	e.Count, e.Into = nil, ""
	e.Detail.C, e.Detail.Power = r.degrees, r.power
	var keys []string
	var lines []rules.Entry
	if r.power && r.incubator == "" { // it was out in all of them
		for _, in := range sc.model.Incubators() {
			keys = append(keys, in.Name)
		}
	} else {
		q, key, add, ok := sc.incubatorOf(r)
		if ans.add(q); !ok {
			return ans, nil
		}
		keys, lines = []string{key}, add
	}
	added := len(lines) > 0
	if sc.Settings.Value("incubator") != "off" {
		lines = append(lines, rules.Entry{Action: rules.Set, Happened: e.Happened, Detail: rules.Detail{Key: "incubator", Value: "off"}})
	}
	for _, key := range keys {
		e.Subject = rules.IncubatorSubject(key)
		lines = append(lines, e)
	}
	ans.Subject = e.Subject
	was, wasSetting := sc.model, sc.Settings.Value("incubator")
	sc, done, err := sc.log(&ans, lines...)
	if err != nil {
		return ans, err
	}
	for _, d := range done {
		if d.Step == rules.Temp {
			ans.add(sc.echoTemp(d, was, false))
		}
	}
	if added {
		ans.say(sc.Voice, "e_incubator_new", "Incubator", sc.Voice.Subject(rules.IncubatorSubject("1")))
	}
	if wasSetting != "off" {
		ans.say(sc.Voice, "e_temp_setting", "Value", sc.Voice.Setting("incubator", wasSetting))
	}
	return ans, nil
}

// echoTemp repeats a temperature and says what it did to each batch that is or was there. was
// is the model before it. brief is of one that was said beside the cells that went in, which
// are told of already.
func (sc *Scene) echoTemp(e rules.Entry, was *rules.Crew, brief bool) Answer {
	var ans Answer
	kv := []any{"Incubator", sc.Voice.Head(e.Subject), "When", e.Happened, "Value", "", "Until", time.UnixMilli(e.Detail.Until)}
	if e.Detail.C != nil {
		kv[5] = sc.Voice.Number(*e.Detail.C, 1)
	}
	if e.Detail.C != nil {
		ans.add(sc.harmful(*e.Detail.C))
	}
	switch {
	case brief:
	case e.Detail.Power && e.Detail.C != nil:
		ans.say(sc.Voice, "e_power_temp", kv...)
	case e.Detail.Power:
		ans.say(sc.Voice, "e_power", kv...)
	case e.Detail.Until != 0:
		ans.say(sc.Voice, "e_temp_span", kv...)
	default:
		ans.say(sc.Voice, "e_temp", kv...)
	}
	place, some := rules.IncubatorPlace(e.Subject.Key), false
	for _, b := range sc.model.Batches() {
		old, had := was.Batch(b.Number)
		if b.Ended || !had || !b.Account.Was(place) || sc.Look.Now.Sub(b.Emerges) > rules.StaleAfter {
			continue
		}
		if some = true; brief && math.Abs(lotAt(b, place).Shift-lotAt(old, place).Shift) < 0.05 {
			continue
		}
		ans.add(sc.sayEffect(b, old, place))
	}
	if !some {
		ans.say(sc.Voice, "e_temp_nothing", "Incubator", sc.Voice.Head(e.Subject))
	}
	return ans
}

// sayEffect says in hours what changed for the cells of a batch that are, or were, in a place.
func (sc *Scene) sayEffect(b, old rules.Batch, place string) Answer {
	var ans Answer
	now, before := lotAt(b, place), lotAt(old, place)
	hours, most := now.Shift-before.Shift, now.Most-before.Most
	middle := b.LotEmergence(now, sc.Settings).Middle().Round(time.Hour).UTC()
	kv := []any{"Batch", sc.Voice.Head(rules.BatchSubject(b.Number)), "Hours", sc.Voice.Number(math.Abs(hours), 1), "Most", sc.Voice.Number(most, 1), "Emerges", middle, "Close", time.Time{}}
	move := sc.taskOf(rules.BatchSubject(b.Number), rules.Move, "")
	if move.State == rules.Open {
		kv[9] = move.Latest
	}
	id := "e_effect_none"
	switch {
	case most > 0.05:
		id = "e_effect_power"
	case hours <= -0.05:
		id = "e_effect_sooner"
	case hours >= 0.05:
		id = "e_effect_later"
	}
	ans.say(sc.Voice, id, kv...)
	if move.State == rules.Open {
		ans.join(sc.Voice, "e_effect_close", kv...)
	}
	return ans
}

// lotAt is the cells of a batch that are or were in a place: of several lots those that come
// first.
func lotAt(b rules.Batch, place string) (x rules.Lot) {
	some := false
	for _, list := range [][]rules.Lot{b.Account.Lots, b.Account.Moved} {
		for _, l := range list {
			if l.In(place) && (!some || l.Shift < x.Shift) {
				x, some = l, true
			}
		}
	}
	return x
}

// spanWhen takes one end of a time that was told from an hour to another.
func spanWhen(w *rdg.When) when {
	out := when{set: true}
	if w == nil {
		return out
	}
	switch {
	case w.Month != 0:
		out.hasDay, out.date, out.year, out.month, out.day = true, true, w.Year, w.Month, w.Date
	case w.Weekday != 0:
		out.hasDay, out.weekday = true, w.Weekday%7+1
	case w.Day != nil:
		out.hasDay, out.back = true, -*w.Day
	}
	out.part = w.Half
	if w.Clock != nil {
		out.hasTime, out.clock, out.half = true, rules.Clock(*w.Clock), w.Fixed
	}
	return out
}

// span settles a time from one hour to another: of those that lie behind the shortest, of two
// as short the one that ended last. ok is false where there is none, or where "last night" and
// "yesterday afternoon" would make two.
func (sc *Scene) span(from, till when) (a, b time.Time, ok bool) {
	if !from.hasTime || !till.hasTime {
		return a, b, false
	}
	zone := sc.Settings.Zone
	today := rules.DateOf(sc.Origin.Said, zone)
	late := from.hasDay && from.part == "pm" || till.hasDay && till.part == "pm"
	twice := false
	for _, to := range till.ends(from, today, zone) {
		for _, at := range from.ends(till, today, zone) {
			long := to.Sub(at)
			if long <= 0 || long > longestExcursion || to.After(sc.Origin.Said.Add(openLate)) {
				continue
			}
			switch shorter := long < b.Sub(a); {
			case !ok || shorter:
				a, b, ok, twice = at, to, true, false
			case long == b.Sub(a):
				if twice = true; to.After(b) {
					a, b = at, to
				}
			}
		}
	}
	return a.UTC(), b.UTC(), ok && !(late && twice)
}

// openLate is how far ahead of the clock a time may lie that is told as past: watches differ.
const openLate = 10 * time.Minute

// ends are the instants that an hour may mean, one end of a time of which other is the other
// end: of the day that either names, else of the last days.
func (w when) ends(other when, today rules.Date, zone *time.Location) (out []time.Time) {
	days := []rules.Date{today.Add(-2), today.Add(-1), today}
	named := w
	if !w.hasDay {
		named = other
	}
	if named.hasDay {
		d := named.dayFrom(today)
		if days = []rules.Date{d}; named.part == "pm" || !w.hasDay {
			days = append(days, d.Add(1)) // a night has two days
		}
	}
	for _, d := range days {
		for _, c := range []rules.Clock{w.clock, (w.clock + 12*60) % (24 * 60)} {
			if c != w.clock && (w.half || w.clock > 12*60) {
				continue
			}
			morning := c < 12*60
			if !named.hasDay && (w.part == "am" && !morning || w.part == "pm" && morning) || named.hasDay && named.part == "am" && !morning ||
				named.hasDay && named.part == "pm" && morning != (d != named.dayFrom(today)) {
				continue
			}
			out = append(out, rules.At(d, c, zone))
		}
	}
	return out
}
