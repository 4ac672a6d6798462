package bot

import (
	"time"

	"yardbell/bot/attach"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// why tells how a window came about: of the message replied to, of the step named,
// or of the sender's last subject.
func (t *talk) why(r *reading) error {
	k, ok, err := t.whyTask(r)
	if err != nil {
		return err
	}
	if !ok {
		t.ask("y_none")
		return nil
	}
	t.step, t.subject = k.Step, k.Subject
	t.say("y_task", "Task", wording.Upper(t.v.Task(k)), "Open", k.Earliest, "Best", k.Best, "Close", k.Latest)
	t.say("y_from", "Anchor", t.v.Say("anchor_"+k.Reason), "When", k.Anchor)
	switch {
	case k.Unfit:
		t.say("y_unfit")
	case !k.Guard && !k.Ideal.Equal(k.Best):
		t.say("y_work", "Ideal", k.Ideal)
	}
	t.say("stake_" + k.Stake)
	if b, found, err := t.tx.Batch(t.crew.ID, k.Batch); err != nil {
		return err
	} else if found && (k.Step == rules.Move || k.Step == rules.Nucs || k.Step == rules.Emerge) {
		e := b.Emergence(t.s)
		t.attach = attach.Attachment{Kind: "emergence", Batch: b.Number}
		t.say("y_safe", "Count", e.Cells, "Ages", t.v.Ages(b.Age), "Safe", b.Safe, "Emerges", b.Emerges)
		if b.Shift != 0 {
			t.say("y_incubator", "Hours", -b.Shift)
		}
	}
	if k.Step == rules.Graft && k.Breeder != 0 {
		if err := t.larvae(k); err != nil {
			return err
		}
	}
	t.say("y_source", "Source", t.v.Source(k.Source))
	if t.replied != nil && t.replied.Ping != "" && t.replied.Ping != rules.Digest {
		t.say("y_ping", "Reason", t.v.Say("ping_"+string(t.replied.Ping)))
	}
	return nil
}

func (t *talk) whyTask(r *reading) (rules.Task, bool, error) {
	if k, ok := t.contextTask(); ok {
		return k, true, nil
	}
	all, err := t.tx.Tasks(t.crew.ID)
	if err != nil {
		return rules.Task{}, false, err
	}
	s := r.subject()
	if s.Zero() && t.replied != nil {
		s = rules.ParseSubject(t.replied.Subject)
	}
	if s.Zero() && r.step == "" {
		if own, ok, err := t.ownLastAny(); err != nil {
			return rules.Task{}, false, err
		} else if ok {
			s = own
		} else if m, found, err := t.tx.LastPing(t.crew.ID); err != nil {
			return rules.Task{}, false, err
		} else if found && t.tx.Now.Sub(m.Sent) < 12*time.Hour {
			return t.tx.Task(t.crew.ID, m.TaskKey)
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
