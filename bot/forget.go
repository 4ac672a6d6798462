package bot

import (
	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/store"
)

// This file reads the wish that somebody be forgotten. It cannot be taken back, so it is
// asked first, and only a lead may say so.

// forget asks whether to forget the person named. A name that is nobody's is left to the
// rest of the reading.
func (t *talk) forget(a rdg.Act) (handled bool, err error) {
	if a.Kind != rdg.Forget {
		return false, nil
	}
	name := a.Person
	list, err := t.tx.Everybody(t.crew.ID)
	if err != nil {
		return false, err
	}
	who := called(list, name)
	if len(who) == 0 {
		return false, nil
	}
	if refused, err := t.onlyLead(); refused || err != nil {
		return true, err
	}
	switch {
	case len(who) > 1:
		t.ask("g_two_names", "Name", name)
	case who[0].ID == t.by.ID:
		t.ask("g_not_self")
	default:
		t.ask("g_forget_sure", "Name", who[0].Name)
		t.offer("b_forget", forgetDo(who[0].ID))
		t.offer("b_no", "no")
	}
	return true, nil
}

// forgotten forgets a member, as a lead said by a press.
func (t *talk) forgotten(id int64) error {
	if refused, err := t.onlyLead(); refused || err != nil {
		return err
	}
	count, already, err := t.tx.Forgotten(t.crew.ID, id)
	if err != nil {
		return err
	}
	var who *store.Member
	list, err := t.tx.Everybody(t.crew.ID)
	if err != nil {
		return err
	}
	for i := range list {
		if list[i].ID == id {
			who = &list[i]
		}
	}
	if already || who == nil {
		t.fail("g_stale")
		return nil
	}
	name := wording.New(t.s, t.tx.Now).Say("g_somebody", "Number", count+1)
	if err := t.tx.Forget(t.crew.ID, *who, name); err != nil {
		return err
	}
	t.say("g_forgotten", "Name", name)
	return nil
}
