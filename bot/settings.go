package bot

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
)

// set changes a setting, or shows them all.
func (t *talk) set(r *reading) error {
	if r.key == "" {
		t.say("s_settings")
		for _, k := range rules.SettingNames {
			t.say("s_setting", "Key", t.v.Key(k), "Value", t.v.Setting(k, t.s.Value(k)))
		}
		return nil
	}
	if step, ok := wording.WordStep(r.key); ok {
		r.key = rules.StepSetting + string(step)
	}
	if r.key == ownKey {
		return t.ownLanguage(r)
	}
	if !slices.Contains(rules.SettingNames, r.key) && !strings.HasPrefix(r.key, rules.StepSetting) {
		if !r.addressed && r.value == "" {
			t.hush()
			return nil
		}
		var names []string
		for _, k := range rules.SettingNames {
			names = append(names, t.v.Key(k))
		}
		t.ask("r_set_unknown", "Key", r.key, "List", wording.JoinList(names))
		return nil
	}
	if r.key == "spread" { // "8/7.5" may have been read as a count of a count
		r.value = strings.ReplaceAll(r.value, " of ", "/")
	}
	if refused, err := t.onlyLead(); refused || err != nil {
		return err
	}
	r.value = wording.Stored(r.key, r.value)
	if r.key == "language" {
		if both, ok := rules.ParseLanguages(r.value, t.s.Langs()[0]); ok {
			r.value = both // what "both" means depends on what it was before
		}
	}
	old := t.s.Value(r.key)
	try := *t.s
	try.Incubator = append([]rules.TempFrom(nil), t.s.Incubator...)
	if c, err := strconv.ParseFloat(strings.TrimSuffix(strings.ToUpper(strings.ReplaceAll(r.value, ",", ".")), "C"), 64); err == nil && r.key == "incubator" && c > 10 && c < 60 {
		t.harmful(c) // also of one that is no setting: it is read off a device
	}
	if err := try.Apply(r.key, r.value, t.origin.Said); err != nil {
		if bad, ok := err.(*rules.Refusal); ok && bad.Code == "set_bad" && r.typed != "" && r.lang == "es" {
			bad.Args["Value"] = r.typed // and not half of it in the reader's words
		}
		t.refusal(err)
		return nil
	}
	if bad := try.Clash(); bad != nil {
		t.refuse(bad)
		return nil
	}
	value := try.Value(r.key)
	if value == old {
		t.say("e_set_same", "Key", wording.Upper(t.v.Key(r.key)), "Value", t.v.Setting(r.key, value))
		return nil
	}
	before, err := t.openTasks()
	if err != nil {
		return err
	}
	e := rules.Entry{Action: rules.Set, Detail: rules.Detail{Key: r.key, Value: r.value}}
	if _, err := t.append(e); err != nil {
		return err
	}
	if r.key == "language" {
		t.speak("") // the new one shows that it works
	}
	t.say("e_set", "Key", t.v.Key(r.key), "Value", t.v.Setting(r.key, value), "Old", t.v.Setting(r.key, old))
	if r.key == checkKey && try.Checks {
		t.say("s_check_private")
	}
	if r.key == "move" && try.MoveAt > 0 {
		if err := t.warnMoveSetting(try.MoveAt); err != nil {
			return err
		}
	}
	return t.changed(before)
}

func (t *talk) refusal(err error) {
	if r, ok := err.(*rules.Refusal); ok {
		t.refuse(r)
		return
	}
	t.fail("r_internal")
}

// warnMoveSetting states the chance of a virgin at the crew's own move time, for a
// plain batch and for each that is on its way.
func (t *talk) warnMoveSetting(at time.Duration) error {
	if at.Hours() < t.s.Table.Row(rules.HandsOff, "").Latest {
		t.say("w_move_fragile", "Span", rules.SpanString(rules.Hours(t.s.Table.Row(rules.HandsOff, "").Latest)))
	}
	e := rules.Emergence{Grafted: t.origin.Said, Age: rules.AssumedAge, Cells: 45, SigmaBatch: t.s.SigmaBatch, SigmaCell: t.s.SigmaCell}
	if when := t.origin.Said.Add(at); when.After(e.SafeUntil()) {
		t.say("w_move_chance", "Span", rules.SpanString(at), "Chance", chance(e.AnyOut(when)))
	}
	list, err := t.tx.Batches(t.crew.ID)
	for _, b := range list {
		if b.Moved.IsZero() && !b.Ended && t.origin.Said.Before(b.Safe.Add(48*time.Hour)) {
			t.warnMove(b)
		}
	}
	return err
}

// add puts a breeder, builder or yard on the list.
func (t *talk) add(r *reading) error {
	if len(r.rest) > 0 {
		t.fail("r_unread", "Understood", t.v.Say("understood", "What", t.v.Say("step_add")), "Hint", t.v.Say("hint_form", "Form", t.v.Say("form_yard_add", "Key", t.v.Say("form_yard"))))
		return nil
	}
	e := rules.Entry{Said: t.origin.Said, Happened: t.origin.Said, Action: rules.Did, Step: rules.Add, Count: r.count}
	if bad := t.allowed(rules.CheckCount(e)); bad != nil {
		t.refuse(bad)
		return nil
	}
	n, err := t.names()
	if err != nil {
		return err
	}
	switch {
	case r.breeder != 0:
		if t.badBreeder(r.breeder) {
			return nil
		}
		e.Subject, e.Into = rules.BreederSubject(r.breeder), r.yard
	case r.builder != "":
		if !isNames(r.builder) {
			t.fail("r_name", "Name", r.builder)
			return nil
		}
		e.Subject, e.Into = rules.BuilderSubject(r.builder), r.yard
	default:
		name := r.yard
		for _, y := range n.yards {
			if wording.Fold(y) == wording.Fold(name) {
				name = y
			}
		}
		if !isNames(name) || understand().Speaks(name) {
			t.fail("r_name", "Name", name)
			return nil
		}
		e.Subject = rules.YardSubject(name)
	}
	if e.Into != "" && !slices.Contains(n.yards, e.Into) {
		t.ask("r_not_known", "What", e.Into, "Form", t.v.Say("form_yard_add", "Key", e.Into))
		return nil
	}
	known, same, err := t.listed(e)
	if err != nil {
		return err
	}
	if known && same {
		t.say("e_noted", "What", t.v.Line(e))
		return nil
	}
	if !known {
		if full, err := t.full(e.Subject); full || err != nil {
			return err
		}
	}
	if _, err := t.append(e); err != nil {
		return err
	}
	at := ""
	if e.Into != "" {
		at = t.v.Say("e_at", "Yard", e.Into)
	}
	id := "e_add_" + string(e.Subject.Kind)
	if e.Subject.Kind == rules.YardKind && e.Count == nil {
		id = "e_add_yard_plain"
	}
	t.step, t.subject = rules.Add, e.Subject
	t.say(id, "Subject", t.v.Subject(e.Subject), "Key", e.Subject.Key, "At", at, "Count", wording.Deref(e.Count))
	return nil
}

// listed reports whether an addition is on the list already, and with the same
// values.
func (t *talk) listed(e rules.Entry) (known, same bool, err error) {
	switch e.Subject.Kind {
	case rules.BreederKind:
		list, err := t.tx.Breeders(t.crew.ID)
		for _, b := range list {
			if b.Number == e.Subject.Number() {
				return true, b.Yard == e.Into || e.Into == "", err
			}
		}
		return false, false, err
	case rules.BuilderKind:
		list, err := t.tx.Builders(t.crew.ID)
		for _, b := range list {
			if b.Name == e.Subject.Key {
				return true, b.Yard == e.Into || e.Into == "", err
			}
		}
		return false, false, err
	}
	list, err := t.tx.Yards(t.crew.ID)
	for _, y := range list {
		if strings.EqualFold(y.Name, e.Subject.Key) {
			return true, e.Count == nil || *e.Count == y.Nucs, err
		}
	}
	return false, false, err
}
