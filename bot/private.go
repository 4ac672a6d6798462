package bot

import "yardbell/rules"

// inPrivate answers in a chat with one person: questions, not the log, which the
// whole crew has to see.
func (t *talk) inPrivate(r *reading) error {
	switch r.verb {
	case askDue, askShow, askWhy, askHelp, askLog, askPicture, askReport, askCal, askOrders, askYields, askCapacity, askWhatIf, askFit, askPlan, askPhotos:
		return t.act(r)
	case doSet:
		if r.key == ownKey || r.key == checkKey {
			return t.set(r)
		}
	case doMine:
		open, err := t.tx.OpenTasks(t.crew.ID)
		if err != nil {
			return err
		}
		var own []rules.Task
		for _, k := range open {
			if k.ClaimedBy == t.by.Name {
				own = append(own, k)
			}
		}
		if len(own) == 0 {
			t.say("g_mine_none")
			return nil
		}
		t.lines = append(t.lines, t.v.List(t.v.Say("g_mine"), own, rules.DateOf(t.tx.Now, t.s.Zone).Add(400)))
		return nil
	}
	t.fail("g_private")
	t.sayMeanwhile(rules.Entry{Step: r.step})
	return nil
}
