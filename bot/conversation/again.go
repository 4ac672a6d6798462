package conversation

import (
	"time"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// This file settles when a ping that is put off comes again, and offers that.

// smallHours are the hours of a day at which nobody means to be asked who names no half of
// it: "friday at 3" is in the afternoon.
const smallHours = 5 * 60

// whenAgain turns a time that lies ahead into what the handlers take. A day without an hour
// is its morning, as the digest's; a part of a day the hour that stands for it.
func (sc *Scene) whenAgain(w rdg.When) when {
	said := sc.Origin.Said.In(sc.Settings.Zone)
	today := rules.DateOf(said, sc.Settings.Zone)
	out := when{set: true}
	switch {
	case w.Month != 0:
		out.hasDay, out.date, out.month, out.day = true, true, w.Month, w.Date
		d, _ := out.dayAfter(today)
		out.year = d.Year
	case w.Weekday != 0:
		out.hasDay, out.back = true, -((w.Weekday%7 - int(today.Weekday()) + 7) % 7)
		if out.back == 0 {
			out.back = -7
		}
	case w.Day != nil && (*w.Day != 0 || w.Clock != nil):
		out.hasDay, out.back = true, -*w.Day
	}
	if w.Clock != nil {
		out.hasTime, out.clock, out.half = true, rules.Clock(*w.Clock), w.Fixed || w.Half != ""
		if w.Half == "pm" && out.clock < 12*60 {
			out.clock += 12 * 60
		}
		return out
	}
	switch {
	case w.Half == "pm":
		out.clock = partHour["afternoon"]
		if !out.hasDay && !rules.At(today, out.clock, sc.Settings.Zone).After(said) {
			out.clock = sc.Settings.Evening
		}
	case out.hasDay || w.Half == "am":
		out.clock = sc.Settings.Morning
	default:
		return when{} // "later today"
	}
	if !out.hasDay && !rules.At(today, out.clock, sc.Settings.Zone).After(said) {
		if w.Half == "pm" {
			return when{}
		}
		out.hasDay, out.back = true, -1 // "first thing", said in the evening
	}
	out.hasTime, out.half = true, true
	return out
}

// againAt is when a ping that is put off is said again: at what was said, else two hours
// later, or at half of what is left until the close.
func (sc *Scene) againAt(r *reading, k rules.Task) time.Time {
	said := sc.Origin.Said
	until := said.Add(2 * time.Hour)
	if left := k.Latest.Sub(said); left > 0 && left <= 2*time.Hour {
		until = said.Add((left / 2).Truncate(time.Minute)) // no time was said: one that is not too late
	}
	if r.span > 0 {
		until = said.Add(r.span)
	}
	if !r.when.set {
		return until
	}
	until, _ = r.when.settle(said, sc.Settings)
	if half := until.Add(12 * time.Hour); r.when.hasDay && !r.when.half && r.when.clock < smallHours && half.Before(k.Latest) {
		until = half
	}
	if half := until.Add(12 * time.Hour); !r.when.hasDay && !r.when.half && r.when.hasTime && r.when.clock < 12*60 && !until.After(said) && half.After(said) {
		until = half // "at 5" said at four in the afternoon
	}
	if !r.when.hasDay && !until.After(said) {
		until = rules.At(rules.DateOf(until, sc.Settings.Zone).Add(1), r.when.clock, sc.Settings.Zone)
	}
	return until
}

// answerInWords says what an answer does that is no work: when a ping comes again, which
// task is let go or taken, what is changed. ok is false for work.
func (sc *Scene) answerInWords(a rdg.Act, r *reading) (string, bool) {
	switch a.Kind {
	case rdg.Void:
		return sc.Voice.Say("b_undo"), true
	case rdg.Later:
		k, _ := sc.contextTask()
		at := rules.LaterAt(sc.againAt(r, k), k, sc.Settings)
		return sc.Voice.Say("b_again", "Until", at), true
	case rdg.Skip, rdg.Claim, rdg.Done:
		if a.Kind == rdg.Done && a.Count != nil {
			return "", false
		}
		said := sc.Voice.Say(map[rdg.Kind]string{rdg.Skip: "b_skip", rdg.Claim: "b_take", rdg.Done: "b_done"}[a.Kind])
		if k, ok := sc.contextTask(); ok {
			return sc.Voice.Say("b_task", "Step", said, "Subject", sc.Voice.Task(k)), true
		}
		if a.Step != "" {
			said = sc.Voice.Say("b_task", "Step", said, "Subject", sc.Voice.Say("step_"+string(a.Step)))
		}
		return said, true
	case rdg.Amend:
		if r.step == "" {
			if own, err := sc.lastLines(); err == nil && len(own) == 1 {
				r.step = own[0].Step // what is put right is the last line
			}
		}
	}
	return "", false
}

// offerAgain asks whether a task waits or is let go, or is somebody's: the question names the
// task, each button what it does.
func (sc *Scene) offerAgain(list [][]rdg.Act) (Answer, bool) {
	var ans Answer
	k, ok := sc.contextTask()
	if !ok {
		return ans, false
	}
	for _, acts := range list {
		if len(acts) != 1 || acts[0].Kind != rdg.Later && acts[0].Kind != rdg.Skip && acts[0].Kind != rdg.Claim {
			return ans, false
		}
	}
	ans.Step, ans.Subject = k.Step, k.Subject
	ans.ask(sc.Voice, "ask_again", "Task", wording.Upper(sc.Voice.Task(k)))
	for _, acts := range list {
		label := sc.Voice.Say("b_skip")
		switch acts[0].Kind {
		case rdg.Later:
			label = sc.actInWords(acts[0])
		case rdg.Claim:
			label = sc.Voice.Say("b_take")
		}
		ans.Buttons = append(ans.Buttons, wording.Button(label, actDo(sc.Origin.ID, "sure=1;task="+k.Key, acts)))
	}
	return ans, true
}
