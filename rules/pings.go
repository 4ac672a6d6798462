package rules

import "time"

// PingKind is why a ping goes out.
type PingKind string

// Eve is the evening before the best day, OpenPing the opening of a window that
// is counted in hours, Closing6 and Closing2 six and two hours before the close,
// OverPing the close itself. NoAnswer asks what became of it, Again is the
// reminder somebody asked for. Digest is the crew's morning list.
const (
	Eve      PingKind = "eve"
	OpenPing PingKind = "open"
	Closing6 PingKind = "closing6"
	Closing2 PingKind = "closing2"
	OverPing PingKind = "over"
	NoAnswer PingKind = "noanswer"
	Again    PingKind = "again"
	Digest   PingKind = "digest"
	Reminded PingKind = "remind" // a reminder of the crew's own
)

// Public is the kind as the protocol names it, "" for those that are not pings
// in its sense.
func (k PingKind) Public() string {
	switch k {
	case Closing6, Closing2:
		return "closing"
	case Eve, OpenPing, OverPing:
		return string(k)
	}
	return ""
}

// Ping is one planned message about a task. Day is the local date it belongs to:
// one task has one ping of a kind a day.
type Ping struct {
	Kind PingKind
	Fire time.Time
	Day  Date
}

// Pings are all pings a task deserves, whether or not their time has passed.
func Pings(t Task, s *Settings) []Ping {
	if t.Step == Remind && t.State == Open { // at the time that was asked for, quiet or not
		return []Ping{{Reminded, t.Best, DateOf(t.Best, s.Zone)}}
	}
	if t.State != Open || t.Guard || t.NeedsComb() {
		return nil
	}
	out := make([]Ping, 0, 7)
	add := func(k PingKind, at time.Time) {
		p := Ping{k, at.UTC(), DateOf(at, s.Zone)}
		for _, have := range out {
			if have.Kind == p.Kind && have.Day == p.Day {
				return
			}
			// Two closing pings that quiet hours moved to one minute would say the
			// same thing twice.
			if k == Closing2 && have.Kind == Closing6 && have.Fire.Equal(p.Fire) {
				return
			}
		}
		out = append(out, p)
	}
	loud := t.Weight == Critical && s.Wake
	if t.Weight >= Important {
		eve := At(DateOf(t.Best, s.Zone).Add(-1), s.Evening, s.Zone)
		add(Eve, s.outOfQuiet(eve, t.Latest, loud))
		if t.Step == Graft {
			add(OpenPing, s.outOfQuiet(t.Earliest, t.Latest, loud))
		}
		for _, c := range []struct {
			kind   PingKind
			before time.Duration
		}{{Closing6, 6 * time.Hour}, {Closing2, 2 * time.Hour}} {
			at := t.Latest.Add(-c.before)
			if at.After(t.Earliest) {
				add(c.kind, s.outOfQuiet(at, t.Latest, loud))
			}
		}
		add(OverPing, s.afterQuiet(t.Latest, loud))
		ask := At(DateOf(t.Latest, s.Zone), s.Evening, s.Zone)
		if ask.Before(t.Latest.Add(2 * time.Hour)) {
			ask = At(DateOf(t.Latest, s.Zone).Add(1), s.Evening, s.Zone)
		}
		add(NoAnswer, s.afterQuiet(ask, loud))
	}
	if !t.Snoozed.IsZero() {
		add(Again, s.afterQuiet(t.Snoozed, loud))
	}
	return out
}

// SamePings reports whether two tasks of one key deserve the same pings, as far as can be
// seen at a glance: under the same settings Pings gives the same for both.
func SamePings(a, b *Task) bool {
	return a.State == b.State && a.Weight == b.Weight && a.Guard == b.Guard && a.Step == b.Step && a.Reason == b.Reason &&
		a.Earliest.Equal(b.Earliest) && a.Best.Equal(b.Best) && a.Latest.Equal(b.Latest) && a.Snoozed.Equal(b.Snoozed)
}

// outOfQuiet moves a ping out of the quiet hours: to their end if two hours are then
// left before the close, else to just before they begin.
func (s *Settings) outOfQuiet(at, latest time.Time, loud bool) time.Time {
	from, to, quiet := s.Quiet(at)
	if !quiet || loud {
		return at
	}
	if latest.Sub(to) >= 2*time.Hour {
		return to
	}
	return from.Add(-time.Minute)
}

// afterQuiet moves a ping that has no deadline ahead to the end of the quiet hours.
func (s *Settings) afterQuiet(at time.Time, loud bool) time.Time {
	if _, to, quiet := s.Quiet(at); quiet && !loud {
		return to
	}
	return at
}

// Do is what happens to a message that is due.
type Do string

// Send it now, hold it until later, or drop it for good.
const (
	SendIt Do = "send"
	HoldIt Do = "hold"
	DropIt Do = "drop"
)

// Verdict is a decision on one due message with its reason, which is stored
// with the message and shown by `why`.
type Verdict struct {
	Do     Do
	Reason string
	Until  time.Time
}

// LateAfter is how long after its time a ping is marked late.
const LateAfter = 5 * time.Minute

// Decide says whether a ping may go out now. fire is its planned time, found is
// false where its task is gone, digestToday says that this day's digest, which
// lists the task, is going out or has gone out already.
func Decide(kind PingKind, fire time.Time, t Task, found bool, digestToday bool, s *Settings, now time.Time) Verdict {
	switch {
	case !found:
		return Verdict{Do: DropIt, Reason: "no longer planned"}
	case t.State == Done:
		return Verdict{Do: DropIt, Reason: "done"}
	case t.State == Skipped:
		return Verdict{Do: DropIt, Reason: "skipped"}
	case t.State == Passed:
		return Verdict{Do: DropIt, Reason: "overtaken by a later step"}
	}
	if t.ClaimedBy != "" && (kind == OpenPing || kind == NoAnswer) {
		return Verdict{Do: DropIt, Reason: "claimed by " + t.ClaimedBy}
	}
	if t.Snoozed.After(now) && (kind == Eve || kind == OpenPing) {
		return Verdict{Do: DropIt, Reason: "snoozed"}
	}
	late := now.Sub(fire) > LateAfter
	if late && kind == Eve && digestToday && DateOf(fire, s.Zone).Before(DateOf(now, s.Zone)) {
		return Verdict{Do: DropIt, Reason: "replaced by the digest of the day"}
	}
	if _, to, quiet := s.Quiet(now); quiet && late && !(t.Weight == Critical && s.Wake) {
		return Verdict{Do: HoldIt, Reason: "quiet hours", Until: to}
	}
	reason := "due"
	if late {
		reason = "late"
	}
	return Verdict{Do: SendIt, Reason: reason}
}

// LaterAt is when a snoozed task is said again: as asked, but not in quiet hours.
func LaterAt(until time.Time, t Task, s *Settings) time.Time {
	if _, to, quiet := s.Quiet(until); quiet && !(t.Weight == Critical && s.Wake) {
		return to
	}
	return until
}
