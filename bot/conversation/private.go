package conversation

import "yardbell/rules"

// inPrivate answers in a chat with one person: questions, not the log, which the
// whole crew has to see.
func (sc *Scene) inPrivate(r *reading) (Answer, error) {
	var ans Answer
	switch r.verb {
	case askDue, askShow, askWhy, askHelp, askLog, askPicture, askReport, askCal, askOrders, askYields, askCapacity, askWhatIf, askFit, askPlan, askPhotos, askRound:
		return sc.act(r)
	case doSet:
		if r.key == ownKey || r.key == rules.CheckSetting {
			return sc.set(r)
		}
	case doMine:
		open := sc.open()
		var own []rules.Task
		for _, k := range open {
			if k.ClaimedBy == sc.By.Name {
				own = append(own, k)
			}
		}
		if len(own) == 0 {
			ans.say(sc.Voice, "g_mine_none")
			return ans, nil
		}
		ans.Lines = append(ans.Lines, sc.lists().List(sc.Voice.Say("g_mine"), own, rules.DateOf(sc.Look.Now, sc.Settings.Zone).Add(400)))
		return ans, nil
	}
	ans.Fail(sc.Voice, "g_private")
	ans.add(sc.alarmAny(r))
	return ans, nil
}
