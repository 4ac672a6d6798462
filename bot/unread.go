package bot

import "yardbell/rules"

// unread says what was understood of a message to the bot, and the nearest form.
func (t *talk) unread(r *reading) {
	t.unclear = true
	understood := ""
	if s := r.subject(); !s.Zero() {
		understood = t.v.say("understood", "What", t.v.subject(s))
	}
	t.fail("r_unread", "Understood", understood, "Hint", t.hint(r))
}

// hint offers the nearest form, or the help.
func (t *talk) hint(r *reading) string {
	if id := t.nearest(r); id != "" {
		return t.v.say("hint_form", "Form", t.v.say(id))
	}
	switch s := r.subject(); s.Kind {
	case rules.BatchKind:
		return t.v.say("hint_form", "Form", t.v.subject(s))
	case rules.BreederKind, rules.BuilderKind, rules.YardKind:
		return t.v.say("hint_form", "Form", t.v.named(s))
	}
	return t.v.say("hint_help")
}

// nearest is the form that comes nearest to what was typed: of the step that was
// read, of a word near to one that is known, of the ping replied to.
func (t *talk) nearest(r *reading) string {
	if id := "form_" + string(r.step); r.step != "" && t.v.has(id) {
		return id
	}
	if w, ok := nearestForm(r.rest); ok {
		return "form_" + string(w)
	}
	for _, w := range r.rest {
		if id, ok := commandForms[fold(w)]; ok {
			return id
		}
		if k, ok := nearWord(fold(w), commandForms); ok {
			return commandForms[k]
		}
	}
	if r.when.hasDay && r.when.back < 0 {
		return "form_due"
	}
	if k, ok := t.contextTask(); ok {
		if id := "form_" + string(k.Step); t.v.has(id) {
			return id
		}
	}
	return ""
}

// commandForms are the forms of what is no step, by the words that ask for them.
var commandForms = map[string]string{
	"undo": "form_undo", "revert": "form_undo", "delete": "form_undo", "remove": "form_undo", "cancel": "form_undo", "back": "form_undo",
	"wrong": "form_fix", "mistake": "form_fix", "correct": "form_fix", "change": "form_fix",
	"due": "form_due", "todo": "form_due", "tasks": "form_due", "list": "form_due", "schedule": "form_due", "tomorrow": "form_due", "open": "form_due",
	"later": "form_later", "snooze": "form_later", "remind": "form_later", "remember": "form_later", "postpone": "form_later",
	"evening": "form_set", "quiet": "form_set", "zone": "form_set", "setting": "form_set", "settings": "form_set", "set": "form_set",
	"builder": "form_add_builder", "breeder": "form_add_breeder", "add": "form_add_breeder", "new": "form_add_breeder",
}

// nearestForm finds a step word near to one of the words that were not read.
func nearestForm(rest []string) (rules.Step, bool) {
	for _, w := range rest {
		f := fold(w)
		if s, ok := stepWords[f]; ok && hasForm(s) {
			return s, true
		}
		if k, ok := nearWord(f, stepWords); ok && hasForm(stepWords[k]) {
			return stepWords[k], true
		}
		if s, ok := spanish.stepOf(f); ok && hasForm(s) {
			return s, true
		}
		for _, s := range rules.Steps {
			if name := string(s); len(f) >= 4 && len(name) >= 4 && f[:4] == name[:4] && hasForm(s) {
				return s, true
			}
		}
	}
	return "", false
}

// hasForm reports whether a step can be logged: the days to leave things alone
// cannot.
func hasForm(s rules.Step) bool { return s != rules.HandsOff && s != rules.Flights }
