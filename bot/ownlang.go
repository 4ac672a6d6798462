package bot

import (
	"strconv"

	"yardbell/rules"
)

// ownKey is the setting that everybody may change for themselves: the language in
// which they are answered.
const ownKey = "my language"

// ownLanguage sets the sender's own language. It is a line of the logbook as every
// setting is; the line names the member's row, since names may be the same.
func (t *talk) ownLanguage(r *reading) error {
	value, ok := rules.ParseLanguage(r.value)
	if r.value == "none" || r.value == "default" || r.value == "off" {
		value, ok = rules.NoLanguage, true
	}
	if !ok {
		t.ask("r_own_bad", "Value", r.value)
		return nil
	}
	key := rules.OwnLanguage + strconv.FormatInt(t.member.ID, 10)
	if t.s.Value(key) == value {
		t.say("e_own_same")
		return nil
	}
	if t.chat != 0 {
		t.origin.Message = 0 // a private chat numbers its own; the log's numbers are the group's
	}
	if _, err := t.append(rules.Entry{Action: rules.Set, Detail: rules.Detail{Key: key, Value: value}}); err != nil {
		return err
	}
	id := "e_own"
	if value == rules.NoLanguage {
		id = "e_own_off"
	}
	t.say(id, "Name", t.by.Name)
	return nil
}
