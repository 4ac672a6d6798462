package bot

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
func (t *talk) whenAgain(w rdg.When) when {
	said := t.origin.Said.In(t.s.Zone)
	today := rules.DateOf(said, t.s.Zone)
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
		if !out.hasDay && !rules.At(today, out.clock, t.s.Zone).After(said) {
			out.clock = t.s.Evening
		}
	case out.hasDay || w.Half == "am":
		out.clock = t.s.Morning
	default:
		return when{} // "later today"
	}
	if !out.hasDay && !rules.At(today, out.clock, t.s.Zone).After(said) {
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
func (t *talk) againAt(r *reading, k rules.Task) time.Time {
	said := t.origin.Said
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
	until, _ = r.when.settle(said, t.s)
	if half := until.Add(12 * time.Hour); r.when.hasDay && !r.when.half && r.when.clock < smallHours && half.Before(k.Latest) {
		until = half
	}
	if half := until.Add(12 * time.Hour); !r.when.hasDay && !r.when.half && r.when.hasTime && r.when.clock < 12*60 && !until.After(said) && half.After(said) {
		until = half // "at 5" said at four in the afternoon
	}
	if !r.when.hasDay && !until.After(said) {
		until = rules.At(rules.DateOf(until, t.s.Zone).Add(1), r.when.clock, t.s.Zone)
	}
	return until
}

// answerInWords says what an answer does that is no work: when a ping comes again, which
// task is let go or taken, what is changed. ok is false for work.
func (t *talk) answerInWords(a rdg.Act, r *reading) (string, bool) {
	switch a.Kind {
	case rdg.Void:
		return t.v.Say("b_undo"), true
	case rdg.Later:
		k, _ := t.contextTask()
		at := rules.LaterAt(t.againAt(r, k), k, t.s)
		return t.v.Say("b_again", "Until", at), true
	case rdg.Skip, rdg.Claim, rdg.Done:
		if a.Kind == rdg.Done && a.Count != nil {
			return "", false
		}
		said := t.v.Say(map[rdg.Kind]string{rdg.Skip: "b_skip", rdg.Claim: "b_take", rdg.Done: "b_done"}[a.Kind])
		if k, ok := t.contextTask(); ok {
			return t.v.Say("b_task", "Step", said, "Subject", t.v.Task(k)), true
		}
		if a.Step != "" {
			said = t.v.Say("b_task", "Step", said, "Subject", t.v.Say("step_"+string(a.Step)))
		}
		return said, true
	case rdg.Amend:
		if r.step == "" {
			if own, err := t.lastLines(); err == nil && len(own) == 1 {
				r.step = own[0].Step // what is put right is the last line
			}
		}
	}
	return "", false
}

// offerAgain asks whether a task waits or is let go, or is somebody's: the question names the
// task, each button what it does.
func (t *talk) offerAgain(list [][]rdg.Act) bool {
	k, ok := t.contextTask()
	if !ok {
		return false
	}
	for _, acts := range list {
		if len(acts) != 1 || acts[0].Kind != rdg.Later && acts[0].Kind != rdg.Skip && acts[0].Kind != rdg.Claim {
			return false
		}
	}
	t.step, t.subject = k.Step, k.Subject
	t.ask("ask_again", "Task", wording.Upper(t.v.Task(k)))
	for _, acts := range list {
		label := t.v.Say("b_skip")
		switch acts[0].Kind {
		case rdg.Later:
			label = t.actInWords(acts[0])
		case rdg.Claim:
			label = t.v.Say("b_take")
		}
		t.buttons = append(t.buttons, wording.Button(label, actDo(t.origin.ID, "sure=1;task="+k.Key, acts)))
	}
	return true
}
