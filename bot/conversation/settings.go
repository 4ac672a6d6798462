package conversation

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// set changes a setting, or shows them all.
func (sc *Scene) set(r *reading) (Answer, error) {
	var ans Answer
	if r.key == "" {
		ans.say(sc.Voice, "s_settings")
		for _, k := range rules.SettingNames {
			ans.say(sc.Voice, "s_setting", "Key", sc.Voice.Key(k), "Value", sc.Voice.Setting(k, sc.Settings.Value(k)))
		}
		return ans, nil
	}
	if step, ok := wording.WordStep(r.key); ok {
		r.key = rules.StepSetting + string(step)
	}
	if r.key == ownKey {
		return sc.ownLanguage(r)
	}
	if !slices.Contains(rules.SettingNames, r.key) && !strings.HasPrefix(r.key, rules.StepSetting) && !strings.HasPrefix(r.key, rules.YieldSetting) {
		if !r.addressed && r.value == "" {
			ans.Ignore()
			return ans, nil
		}
		var names []string
		for _, k := range rules.SettingNames {
			names = append(names, sc.Voice.Key(k))
		}
		ans.ask(sc.Voice, "r_set_unknown", "Key", r.key, "List", wording.JoinList(names))
		return ans, nil
	}
	if r.key == "spread" { // "8/7.5" may have been read as a count of a count
		r.value = strings.ReplaceAll(r.value, " of ", "/")
	}
	if refused, err := ans.taken(sc.onlyLead()); refused || err != nil {
		return ans, err
	}
	r.value = wording.Stored(r.key, r.value)
	if r.key == "language" {
		if both, ok := rules.ParseLanguages(r.value, sc.Settings.Langs()[0]); ok {
			r.value = both // what "both" means depends on what it was before
		}
	}
	old := sc.Settings.Value(r.key)
	try := *sc.Settings
	try.Incubator = append([]rules.TempFrom(nil), sc.Settings.Incubator...)
	if c, err := strconv.ParseFloat(strings.TrimSuffix(strings.ToUpper(strings.ReplaceAll(r.value, ",", ".")), "C"), 64); err == nil && r.key == "incubator" && c > 10 && c < 60 {
		ans.add(sc.harmful(c)) // also of one that is no setting: it is read off a device
	}
	if err := try.Apply(r.key, r.value, sc.Origin.Said); err != nil {
		bad, ok := err.(*rules.Refusal)
		if ok && bad.Code == "set_bad" && r.typed != "" && r.lang == "es" {
			bad.Args["Value"] = r.typed // and not half of it in the reader's words
		}
		if !ok {
			return ans, err
		}
		ans.refuse(sc, bad)
		return ans, nil
	}
	if bad := try.Clash(); bad != nil {
		ans.refuse(sc, bad)
		return ans, nil
	}
	value := try.Value(r.key)
	if value == old {
		ans.say(sc.Voice, "e_set_same", "Key", wording.Upper(sc.Voice.Key(r.key)), "Value", sc.Voice.Setting(r.key, value))
		return ans, nil
	}
	before, err := sc.openTasks()
	if err != nil {
		return ans, err
	}
	e := rules.Entry{Action: rules.Set, Detail: rules.Detail{Key: r.key, Value: r.value}}
	sc, _, err = sc.log(&ans, e)
	if err != nil {
		return ans, err
	}
	if r.key == "language" {
		sc = sc.Speaking("") // the new one shows that it works
		ans.of = sc
	}
	ans.say(sc.Voice, "e_set", "Key", sc.Voice.Key(r.key), "Value", sc.Voice.Setting(r.key, value), "Old", sc.Voice.Setting(r.key, old))
	if r.key == rules.CheckSetting && try.Checks {
		ans.say(sc.Voice, "s_check_private")
	}
	if r.key == "move" && try.MoveAt > 0 {
		if err := ans.take(sc.warnMoveSetting(try.MoveAt)); err != nil {
			return ans, err
		}
	}
	return ans.then(sc.changed(before))
}

// warnMoveSetting states the chance of a virgin at the crew's own move time, for a
// plain batch and for each that is on its way.
func (sc *Scene) warnMoveSetting(at time.Duration) (Answer, error) {
	var ans Answer
	if at.Hours() < sc.Settings.Table.Row(rules.HandsOff, "").Latest {
		ans.say(sc.Voice, "w_move_fragile", "Span", rules.SpanString(rules.Hours(sc.Settings.Table.Row(rules.HandsOff, "").Latest)))
	}
	e := rules.Emergence{Grafted: sc.Origin.Said, Age: rules.AssumedAge, Cells: 45, SigmaBatch: sc.Settings.SigmaBatch, SigmaCell: sc.Settings.SigmaCell}
	if when := sc.Origin.Said.Add(at); when.After(e.SafeUntil()) {
		ans.say(sc.Voice, "w_move_chance", "Span", rules.SpanString(at), "Chance", chance(e.AnyOut(when)))
	}
	list, err := sc.Look.Batches(sc.Crew.ID)
	for _, b := range list {
		if b.Moved.IsZero() && !b.Ended && sc.Origin.Said.Before(b.SafeUntil(sc.Settings).Add(48*time.Hour)) {
			ans.add(sc.warnMove(b))
		}
	}
	return ans, err
}

// add puts a breeder, builder or yard on the list.
func (sc *Scene) add(r *reading) (Answer, error) {
	var ans Answer
	if len(r.rest) > 0 {
		ans.Fail(sc.Voice, "r_unread", "Understood", sc.Voice.Say("understood", "What", sc.Voice.Say("step_add")), "Hint", sc.Voice.Say("hint_form", "Form", sc.Voice.Say("form_yard_add", "Key", sc.Voice.Say("form_yard"))))
		return ans, nil
	}
	e := rules.Entry{Said: sc.Origin.Said, Happened: sc.Origin.Said, Action: rules.Did, Step: rules.Add, Count: r.count}
	if bad := sc.allowed(rules.CheckCount(e)); bad != nil {
		ans.refuse(sc, bad)
		return ans, nil
	}
	n := sc.names()
	switch {
	case r.breeder != 0:
		if ans.is(sc.badBreeder(r.breeder)) {
			return ans, nil
		}
		e.Subject, e.Into = rules.BreederSubject(r.breeder), r.yard
	case r.incubator != "":
		q, key, _, ok := sc.incubatorOf(r)
		if ans.add(q); !ok {
			return ans, nil
		}
		e.Subject, e.Detail.Singly = rules.IncubatorSubject(key), r.singly
	case r.builder != "":
		if !isNames(r.builder) {
			ans.Fail(sc.Voice, "r_name", "Name", r.builder)
			return ans, nil
		}
		e.Subject, e.Into, e.Detail.Both, e.Detail.Rests = rules.BuilderSubject(r.builder), r.yard, r.both, r.rests
	default:
		name := r.yard
		for _, y := range n.yards {
			if wording.Fold(y) == wording.Fold(name) {
				name = y
			}
		}
		if !isNames(name) || Understand().Speaks(name) {
			ans.Fail(sc.Voice, "r_name", "Name", name)
			return ans, nil
		}
		e.Subject = rules.YardSubject(name)
	}
	if e.Into != "" && !slices.Contains(n.yards, e.Into) {
		ans.ask(sc.Voice, "r_not_known", "What", e.Into, "Form", sc.Voice.Say("form_yard_add", "Key", e.Into))
		return ans, nil
	}
	known, same, err := sc.listed(e)
	if err != nil {
		return ans, err
	}
	if known && same {
		ans.say(sc.Voice, "e_noted", "What", sc.Voice.Line(e))
		return ans, nil
	}
	if !known {
		if full, err := ans.taken(sc.full(e.Subject)); full || err != nil {
			return ans, err
		}
	}
	sc, _, err = sc.log(&ans, e)
	if err != nil {
		return ans, err
	}
	at := ""
	if e.Into != "" {
		at = sc.Voice.Say("e_at", "Yard", e.Into)
	}
	id := "e_add_" + string(e.Subject.Kind)
	if e.Subject.Kind == rules.YardKind && e.Count == nil {
		id = "e_add_yard_plain"
	}
	ans.Step, ans.Subject = rules.Add, e.Subject
	if e.Subject.Kind == rules.BuilderKind && (e.Count != nil || r.both != nil || r.rests != nil) {
		ans.add(sc.echoBuilder(e))
		return ans, nil
	}
	if r.singly {
		ans.say(sc.Voice, "e_singly", "Incubator", sc.Voice.Head(e.Subject))
		return ans, nil
	}
	ans.say(sc.Voice, id, "Subject", sc.Voice.Subject(e.Subject), "Key", e.Subject.Key, "At", at, "Count", wording.Deref(e.Count))
	return ans, nil
}

// listed reports whether an addition is on the list already, and with the same
// values.
func (sc *Scene) listed(e rules.Entry) (known, same bool, err error) {
	switch e.Subject.Kind {
	case rules.BreederKind:
		list, err := sc.Look.Breeders(sc.Crew.ID)
		for _, b := range list {
			if b.Number == e.Subject.Number() {
				return true, b.Yard == e.Into || e.Into == "", err
			}
		}
		return false, false, err
	case rules.BuilderKind:
		list, err := sc.Look.Builders(sc.Crew.ID)
		for _, b := range list {
			if b.Name == e.Subject.Key {
				same := e.Count == nil || *e.Count == b.Room
				same = same && (e.Detail.Both == nil || *e.Detail.Both == b.Both) && (e.Detail.Rests == nil || *e.Detail.Rests == b.Rests)
				return true, same && (b.Yard == e.Into || e.Into == ""), err
			}
		}
		return false, false, err
	case rules.IncubatorKind:
		in := sc.incubatorNamed(e.Subject.Key)
		return sc.hasIncubator(in.Name), !e.Detail.Singly || in.Singly, nil
	}
	list, err := sc.Look.Yards(sc.Crew.ID)
	for _, y := range list {
		if strings.EqualFold(y.Name, e.Subject.Key) {
			return true, e.Count == nil || *e.Count == y.Nucs, err
		}
	}
	return false, false, err
}
