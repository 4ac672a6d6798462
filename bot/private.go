package bot

import "yardbell/rules"

// inPrivate answers in a chat with one person: questions, not the log, which the
// whole crew has to see.
func (sc *Scene) inPrivate(r *reading) (Answer, error) {
	var ans Answer
	switch r.verb {
	case askDue, askShow, askWhy, askHelp, askLog, askPicture, askReport, askCal, askOrders, askYields, askCapacity, askWhatIf, askFit, askPlan, askPhotos:
		return sc.act(r)
	case doSet:
		if r.key == ownKey || r.key == checkKey {
			return sc.set(r)
		}
	case doMine:
		open, err := sc.tx.OpenTasks(sc.crew.ID)
		if err != nil {
			return ans, err
		}
		var own []rules.Task
		for _, k := range open {
			if k.ClaimedBy == sc.by.Name {
				own = append(own, k)
			}
		}
		if len(own) == 0 {
			ans.say(sc.v, "g_mine_none")
			return ans, nil
		}
		ans.lines = append(ans.lines, sc.v.List(sc.v.Say("g_mine"), own, rules.DateOf(sc.tx.Now, sc.s.Zone).Add(400)))
		return ans, nil
	}
	ans.fail(sc.v, "g_private")
	ans.add(sc.alarmAny(r))
	return ans, nil
}
