package conversation

import (
	"slices"

	rdg "yardbell/bot/reading"
	"yardbell/rules"
)

// untold answers what was understood and is no line of the log: work that lies ahead, rogue
// cells without their number, what the log does not have yet. It reports false for all else.
func (sc *Scene) untold(res rdg.Result) (Answer, bool, error) {
	var ans Answer
	if len(res.Acts) == 0 {
		return ans, false, nil
	}
	switch {
	case slices.Contains(res.Doubts, rdg.DoubtAhead):
		more, ok := sc.ahead(res.Acts[0], true)
		return more, ok, nil
	case slices.Contains(res.Doubts, rdg.DoubtGoing):
		more, ok := sc.ahead(res.Acts[0], false)
		return more, ok, nil
	case slices.Contains(res.Doubts, rdg.DoubtHowMany) && res.Acts[0].Step == rules.Rogue:
		ans.add(sc.askRogues(sc.asReading(res.Acts[0])))
		return ans, true, nil
	case len(res.Acts) == 1 && res.Acts[0].Step == rules.Lose && res.Acts[0].Count == nil && !res.Acts[0].All:
		more, err := sc.perform(res.Acts) // which asks how many
		return more, true, err
	case slices.Contains(res.Doubts, rdg.DoubtUnbuilt):
		return sc.cannotDo(res)
	case slices.Contains(res.Doubts, rdg.DoubtAlarm) && len(res.Others) == 0:
		ans.Fail(sc.Voice, "r_unread", "Understood", "", "Hint", sc.Voice.Say("hint_help"))
		ans.say(sc.Voice, "alarm_any")
		return ans, true, nil
	}
	return ans, false, nil
}

// topics are what is said of work that the log has no line for yet, by the step of its
// frame in the reader's data.
var topics = map[rules.Step]string{"place": InIncubator, incubatorTemp: InIncubator, foulbrood: Foulbrood}

// foulbrood is the frame of its signs.
const foulbrood rules.Step = "foulbrood"

// incubatorTemp is the frame of an incubator's temperature.
const incubatorTemp rules.Step = "temp"

// cannotDo says of work that the log has no line for yet that nothing is logged.
func (sc *Scene) cannotDo(res rdg.Result) (Answer, bool, error) {
	var ans Answer
	for _, a := range res.Acts {
		if understood := Understand().Built(a.Step); understood {
			continue
		}
		r := sc.asReading(a)
		r.topic = topics[a.Step]
		if r.topic == "" {
			r.topic = OtherWork
		}
		if a.Step == foulbrood {
			ans.add(sc.foulbrood(r))
			return ans, true, nil
		}
		if a.Step == incubatorTemp && a.Count != nil && *a.Count < 50 {
			ans.add(sc.harmful(float64(*a.Count)))
		}
		if err := ans.take(sc.cannot(r)); err != nil || len(res.Others) == 0 {
			return ans, true, err
		}
		ans.add(sc.offerActs(res)) // what else the message tells of
		return ans, true, nil
	}
	return ans, false, nil
}

// ahead answers somebody who says to the bot that work lies ahead, or is under way. Under
// its ping they may be on their way; what lies ahead is not offered to be logged.
func (sc *Scene) ahead(a rdg.Act, ahead bool) (Answer, bool) {
	var ans Answer
	if !sc.Addressed && sc.Replied == nil {
		return ans, false
	}
	if k, ok := sc.contextTask(); ok && sc.toPing() && k.Step == a.Step && k.State == rules.Open {
		ans.add(sc.askDone(k))
		return ans, true
	}
	if ahead {
		ans.Fail(sc.Voice, "r_ahead", "Example", sc.example(sc.asReading(a)))
	}
	return ans, ahead
}
