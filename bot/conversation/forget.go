package conversation

import (
	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/store"
)

// This file reads the wish that somebody be forgotten. It cannot be taken back, so it is
// asked first, and only a lead may say so.

// forget asks whether to forget the person named. A name that is nobody's is left to the
// rest of the reading.
func (sc *Scene) forget(a rdg.Act) (ans Answer, handled bool, err error) {
	if a.Kind != rdg.Forget {
		return ans, false, nil
	}
	name := a.Person
	list, err := sc.Look.Everybody(sc.Crew.ID)
	if err != nil {
		return ans, false, err
	}
	who := Called(list, name)
	if len(who) == 0 {
		return ans, false, nil
	}
	if refused, err := ans.taken(sc.onlyLead()); refused || err != nil {
		return ans, true, err
	}
	switch {
	case len(who) > 1:
		ans.ask(sc.Voice, "g_two_names", "Name", name)
	case who[0].ID == sc.By.ID:
		ans.ask(sc.Voice, "g_not_self")
	default:
		ans.ask(sc.Voice, "g_forget_sure", "Name", who[0].Name)
		ans.offer(sc.Voice, "b_forget", forgetDo(who[0].ID))
		ans.offer(sc.Voice, "b_no", "no")
	}
	return ans, true, nil
}

// forgotten forgets a member, as a lead said by a press.
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
