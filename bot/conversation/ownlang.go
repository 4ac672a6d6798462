package conversation

import (
	"strconv"

	"yardbell/rules"
)

// ownKey is the setting that everybody may change for themselves: the language in
// which they are answered.
const ownKey = "my language"

// ownLanguage sets the sender's own language. It is a line of the logbook as every
// setting is; the line names the member's row, since names may be the same.
func (sc *Scene) ownLanguage(r *reading) (Answer, error) {
	var ans Answer
	value, ok := rules.ParseLanguage(r.value)
	if r.value == "none" || r.value == "default" || r.value == "off" {
		value, ok = rules.NoLanguage, true
	}
	if !ok {
		ans.ask(sc.Voice, "r_own_bad", "Value", r.value)
		return ans, nil
	}
	key := rules.OwnLanguage + strconv.FormatInt(sc.Member.ID, 10)
	if sc.Settings.Value(key) == value {
		ans.say(sc.Voice, "e_own_same")
		return ans, nil
	}
	if sc.Chat != 0 {
		there := *sc
		there.Origin.Message = 0 // a private chat numbers its own; the log's numbers are the group's
		sc = &there
	}
	sc, _, err := sc.log(&ans, rules.Entry{Action: rules.Set, Detail: rules.Detail{Key: key, Value: value}})
	if err != nil {
		return ans, err
	}
	id := "e_own"
	if value == rules.NoLanguage {
		id = "e_own_off"
	}
	ans.say(sc.Voice, id, "Name", sc.By.Name)
	return ans, nil
}
