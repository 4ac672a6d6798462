package conversation

import (
	"yardbell/bot/wording"
	"yardbell/store"
)

// forgotten forgets a member, as a lead said by a press: it cannot be taken back, so that it
// was asked first (people.go).
func (sc *Scene) forgotten(id int64) (Answer, error) {
	var ans Answer
	if refused, err := ans.taken(sc.onlyLead()); refused || err != nil {
		return ans, err
	}
	count, already, err := sc.Look.Forgotten(sc.Crew.ID, id)
	if err != nil {
		return ans, err
	}
	var who *store.Member
	list, err := sc.Look.Everybody(sc.Crew.ID)
	if err != nil {
		return ans, err
	}
	for i := range list {
		if list[i].ID == id {
			who = &list[i]
		}
	}
	if already || who == nil {
		ans.Fail(sc.Voice, "g_stale")
		return ans, nil
	}
	name := wording.Bare(wording.New(sc.Settings, sc.Look.Now).Say("g_somebody", "Number", count+1))
	ans.write(func(tx *store.Tx) error { return tx.Forget(sc.Crew.ID, *who, name) })
	ans.say(sc.Voice, "g_forgotten", "Name", name)
	return ans, nil
}
