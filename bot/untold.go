package bot

import (
	"slices"

	rdg "yardbell/bot/reading"
	"yardbell/rules"
)

// untold answers what was understood and is no line of the log: work that lies ahead, rogue
// cells without their number, what the log does not have yet. It reports false for all else.
func (t *talk) untold(res rdg.Result) (bool, error) {
	if len(res.Acts) == 0 {
		return false, nil
	}
	switch {
	case slices.Contains(res.Doubts, rdg.DoubtAhead):
		return t.ahead(res.Acts[0], true), nil
	case slices.Contains(res.Doubts, rdg.DoubtGoing):
		return t.ahead(res.Acts[0], false), nil
	case slices.Contains(res.Doubts, rdg.DoubtHowMany) && res.Acts[0].Step == rules.Rogue:
		t.askRogues(t.asReading(res.Acts[0]))
		return true, nil
	case slices.Contains(res.Doubts, rdg.DoubtUnbuilt):
		return t.cannotDo(res)
	case slices.Contains(res.Doubts, rdg.DoubtAlarm) && len(res.Others) == 0:
		t.fail("r_unread", "Understood", "", "Hint", t.v.Say("hint_help"))
		t.say("alarm_any")
		return true, nil
	}
	return false, nil
}

// topics are what is said of work that the log has no line for yet, by the step of its
// frame in the reader's data.
var topics = map[rules.Step]string{"lose": aLoss, "nuc": nucState, "place": inIncubator, incubatorTemp: inIncubator}

// incubatorTemp is the frame of an incubator's temperature.
const incubatorTemp rules.Step = "temp"

// cannotDo says of work that the log has no line for yet that nothing is logged.
func (t *talk) cannotDo(res rdg.Result) (bool, error) {
	for _, a := range res.Acts {
		if understood := understand().Built(a.Step); understood {
			continue
		}
		r := t.asReading(a)
		r.topic = topics[a.Step]
		if r.topic == "" {
			r.topic = otherWork
		}
		if a.Step == incubatorTemp && a.Count != nil && *a.Count < 50 {
			t.harmful(float64(*a.Count))
		}
		if err := t.cannot(r); err != nil || len(res.Others) == 0 {
			return true, err
		}
		t.offerActs(res) // what else the message tells of
		return true, nil
	}
	return false, nil
}

// ahead answers somebody who says to the bot that work lies ahead, or is under way. Under
// its ping they may be on their way; what lies ahead is not offered to be logged.
func (t *talk) ahead(a rdg.Act, ahead bool) bool {
	if !t.addressed && t.replied == nil {
		return false
	}
	if k, ok := t.contextTask(); ok && t.toPing() && k.Step == a.Step && k.State == rules.Open {
		t.askDone(k)
		return true
	}
	if ahead {
		t.fail("r_ahead", "Example", t.example(t.asReading(a)))
	}
	return ahead
}
