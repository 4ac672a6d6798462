package conversation

import (
	"math"
	"time"

	"yardbell/bot/attach"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// why tells how a window came about: of the message replied to, of the step named,
// or of the sender's last subject.
func (sc *Scene) why(r *reading) (Answer, error) {
	var ans Answer
	k, ok, err := sc.whyTask(r)
	if err != nil {
		return ans, err
	}
	if !ok {
		ans.ask(sc.Voice, "y_none")
		return ans, nil
	}
	ans.Step, ans.Subject = k.Step, k.Subject
	ans.say(sc.Voice, "y_task", "Task", wording.Upper(sc.Voice.Task(k)), "Open", k.Earliest, "Best", k.Best, "Close", k.Latest)
	ans.say(sc.Voice, "y_from", "Anchor", sc.Voice.Say("anchor_"+k.Reason), "When", k.Anchor)
	switch {
	case k.Unfit:
		ans.say(sc.Voice, "y_unfit")
	case !k.Guard && !k.Ideal.Equal(k.Best):
		ans.say(sc.Voice, "y_work", "Ideal", k.Ideal)
	}
	ans.say(sc.Voice, "stake_"+k.Stake)
	if b, found, err := sc.Look.Batch(sc.Crew.ID, k.Batch); err != nil {
		return ans, err
	} else if found && (k.Step == rules.Move || k.Step == rules.Nucs || k.Step == rules.Emerge) {
		e := b.Emergence(sc.Settings)
		ans.Attach = attach.Attachment{Kind: "emergence", Batch: b.Number}
		ans.say(sc.Voice, "y_safe", "Count", e.Cells, "Ages", sc.Voice.Ages(b.Age), "Safe", b.SafeUntil(sc.Settings), "Emerges", b.Emerges)
		if by := b.Shift - b.Warmed.Shift; math.Abs(by) > 0.05 {
			ans.say(sc.Voice, "y_incubator", "Hours", -by)
		}
		switch by := b.Warmed.Shift; {
		case by > 0.05:
			ans.say(sc.Voice, "y_place_later", "Hours", sc.Voice.Number(by, 1))
		case by < -0.05:
			ans.say(sc.Voice, "y_place_sooner", "Hours", sc.Voice.Number(-by, 1))
		}
		if b.Warmed.Most > 0.05 {
			ans.say(sc.Voice, "y_place_power", "Most", sc.Voice.Number(b.Warmed.Most, 1))
		}
		ans.add(sc.emergence(k, b))
	} else if found && k.Reason == "emerged" {
		ans.add(sc.emergence(k, b))
	}
	if k.Step == rules.Graft && k.Breeder != 0 {
		if err := ans.take(sc.larvae(k)); err != nil {
			return ans, err
		}
	}
	ans.say(sc.Voice, "y_source", "Source", sc.Voice.Source(k.Source))
	if sc.Replied != nil && sc.Replied.Ping != "" && sc.Replied.Ping != rules.Digest {
		ans.say(sc.Voice, "y_ping", "Reason", sc.Voice.Say("ping_"+string(sc.Replied.Ping)))
	}
	return ans, nil
}

func (sc *Scene) whyTask(r *reading) (rules.Task, bool, error) {
	if k, ok := sc.contextTask(); ok {
		return k, true, nil
	}
	if bars := sc.barTasks(); len(bars) > 0 && r.subject().Zero() {
		return bars[0], true, nil // that which closes first
	}
	all := sc.model.AllTasks()
	s := r.subject()
	if s.Zero() && sc.Replied != nil && !sc.toBars() {
		s = rules.ParseSubject(sc.Replied.Subject)
	}
	if s.Zero() && r.step == "" {
		if own, ok, err := sc.ownLastAny(); err != nil {
			return rules.Task{}, false, err
		} else if ok {
			s = own
		} else if m, found, err := sc.Look.LastPing(sc.Crew.ID); err != nil {
			return rules.Task{}, false, err
		} else if found && sc.Look.Now.Sub(m.Sent) < 12*time.Hour {
			return sc.Look.Task(sc.Crew.ID, m.TaskKey)
		}
	}
	if s.Zero() && r.step == "" {
		return rules.Task{}, false, nil
	}
	// The move is what people mean when they ask about a batch before it is done.
	var best rules.Task
	score := 0
	for _, k := range all {
		if r.step != "" && k.Step != r.step || !s.Zero() && k.Subject != s && !(s.Kind == rules.BatchKind && k.Batch == s.Number()) {
			continue
		}
		v := 1
		if k.State == rules.Open {
			v = 2
			if k.Weight == rules.Critical {
				v = 3
			}
		}
		if v > score {
			best, score = k, v
		}
	}
	return best, score > 0, nil
}
