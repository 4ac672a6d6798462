//go:build linux && !race

package main

import (
	"database/sql"
	"slices"
	"strings"
	"time"

	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
)

// together is how much time one step of the season takes in at most.
const together = 15 * time.Minute

// patience is for how many steps a kill waits for its point to be passed.
const patience = 10

// steady is how long a step lasts in which nothing was out of order.
const steady = 3 * time.Minute

// play plays a season until its end: the clock goes to where the next thing is said or
// falls due, and on when that has come to rest. It gives the number of steps.
func (s *season) play(script []deed, plan map[int][]strike, end time.Time) (steps int) {
	s.rest()
	script = slices.Clone(script)
	well := false
	for next := 0; ; steps++ {
		at, ok := s.nextStep(script, next, end)
		if !ok && well {
			return steps
		}
		if !ok {
			// What was put off by a clock that ran ahead still falls due.
			s.recover()
			end, well = end.Add(24*time.Hour), true
			continue
		}
		s.mu.Lock()
		s.setTo(at)
		s.mu.Unlock()
		upto := next
		for upto < len(script) && !script[upto].at.After(at) {
			upto++
		}
		s.begin(plan, steps, script[next:], upto > next)
		s.speak(script, next, upto)
		next = upto
		s.steady(at)
	}
}

// nextStep is when the next thing happens.
func (s *season) nextStep(script []deed, next int, end time.Time) (at time.Time, ok bool) {
	s.mu.Lock()
	down := s.downUntil
	s.mu.Unlock()
	due, waits := s.due()
	if !down.IsZero() {
		due, waits = down, true // nobody sends before
	}
	waits = waits && due.Before(end)
	if next == len(script) {
		return due, waits
	}
	first := script[next].at
	if waits && due.Before(first) {
		return due, true
	}
	for _, d := range script[next:] {
		if d.at.Sub(first) > together || waits && !d.at.Before(due) || d.under != "" {
			break
		}
		at = d.at
	}
	if at.IsZero() {
		at = first // it is under a message
	}
	return at, true
}

// begin has the faults of a step ready, and does those that strike between two steps.
func (s *season) begin(plan map[int][]strike, step int, ahead []deed, spoken bool) {
	s.mu.Lock()
	well := s.ill == nil && s.downUntil.IsZero()
	s.mu.Unlock()
	for _, k := range plan[step] {
		if (strings.HasPrefix(k.at, "update ") || k.at == "inside the transaction") && !spoken {
			plan[step+1] = append(plan[step+1], k) // it is about a line
			continue
		}
		if !slices.Contains(between, k.kind) {
			s.mu.Lock()
			s.queue = append(s.queue, k)
			s.mu.Unlock()
			continue
		}
		// What needs a service that is well, or nobody at a button, waits for that.
		now := s.clock.Now()
		pressed := slices.ContainsFunc(ahead, func(d deed) bool { return d.under != "" && d.at.Before(now.Add(k.last+time.Hour)) })
		if !well || pressed && k.kind == "away for hours" {
			plan[step+1] = append(plan[step+1], k)
			continue
		}
		switch k.kind {
		case "redelivery":
			s.fig[k.kind]++
			s.Redeliver(5 * k.nth) // most of them remarks that are not for the bot
		case "disk full, then a line":
			s.fullAtRest(k.last)
			well = false
		case "read-only file":
			s.readOnly(k.last)
			well = false
		case "away for hours":
			s.fig[k.kind]++
			s.kill(true)
			s.mu.Lock()
			s.downUntil = now.Add(k.last)
			s.shaky = append(s.shaky, stretch{now, s.downUntil})
			s.mu.Unlock()
			well = false
		}
	}
}

// speak has people say what is theirs to say, and lets the service come to rest.
func (s *season) speak(script []deed, from, upto int) {
	for i := from; i < upto; i++ {
		d := &script[i]
		group, who := s.groups[d.crew], s.people[d.crew][d.who]
		switch {
		case d.under != "":
			s.answerPing(d)
		case d.edits >= 0:
			s.Edit(group, who, script[d.edits].said, d.text)
		default:
			d.said = s.Say(group, who, d.text, apidouble.At(d.at))
		}
	}
	s.mu.Lock()
	down := s.downUntil
	if !down.IsZero() && !s.clock.Now().Before(down) {
		s.downUntil = time.Time{}
		down = time.Time{}
	}
	s.mu.Unlock()
	if !down.IsZero() {
		return
	}
	s.resume()
	if from == upto {
		s.wake()
	}
	s.rest()
	// A kill for which there was not enough to do strikes at rest, in the end.
	for {
		s.mu.Lock()
		idle := len(s.queue) > 0 && s.queue[0].kind == "kill"
		if idle && s.queue[0].at != "" && s.queue[0].wait < patience {
			s.queue[0].wait++
			idle = false
		} else if idle {
			s.queue = s.queue[1:]
		}
		s.mu.Unlock()
		if !idle {
			return
		}
		s.fig["kills at rest"]++
		s.kill(false)
		s.wake()
		s.rest()
	}
}

// wake makes the service look at what is due.
func (s *season) wake() { s.Say(s.nobody, s.nobody, "hm") }

// answerPing replies to the ping of a deed, or presses its button until that arrives: a
// press lives for some minutes only. A clock that is wrong is put right before: nobody can
// answer what has not come yet.
func (s *season) answerPing(d *deed) {
	s.mu.Lock()
	s.step(0)
	s.mu.Unlock()
	s.wake()
	s.rest()
	group, who := s.groups[d.crew], s.people[d.crew][d.who]
	step, subject := d.about()
	for range 20 {
		var number int
		s.mu.Lock()
		err := s.open().QueryRow(`SELECT o.message_id FROM outbox o JOIN crews c ON c.id = o.crew_id WHERE c.chat_id = ? AND o.subject = ? AND o.step = ?
			AND o.ping = 'eve' AND o.state = 'sent' AND o.text <> '' ORDER BY o.id DESC LIMIT 1`, group, subject, step).Scan(&number)
		s.mu.Unlock()
		if err != nil {
			require.ErrorIs(s.t, err, sql.ErrNoRows)
		}
		m, _ := s.Message(group, number)
		if number == 0 || d.press && !slices.Contains(m.Labels(), d.text) {
			s.missed[d.under+" "+s.crewName(d.crew)] = d.at
			s.fig["pings that had no button"]++
			s.t.Logf("not answered, since it had not come: %s, crew %d, at %s: %s", d.under, d.crew+1, s.clock.Now(), s.rowsAbout(group, subject, step))
			return
		}
		if !d.press {
			d.said = s.Say(group, who, d.text, apidouble.At(d.at), apidouble.ReplyTo(number))
			return
		}
		s.Press(group, who, number, d.text)
		s.rest()
		var n int
		s.mu.Lock()
		err = s.open().QueryRow(`SELECT count(*) FROM updates u JOIN crews c ON c.id = u.crew_id WHERE c.chat_id = ? AND u.kind = 'press' AND u.message_id = ?`, group, number).Scan(&n)
		s.mu.Unlock()
		if err == nil && n > 0 {
			return
		}
		s.fig["presses again"]++
	}
	require.FailNow(s.t, "a button does nothing", "%v", d)
}

// rowsAbout tells what became of the evening pings about a step.
func (s *season) rowsAbout(group int64, subject, step string) (out string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	var list sql.NullString
	err := s.open().QueryRow(`SELECT group_concat(o.key || ' ' || o.state || ' due ' || datetime(o.due_at / 1000, 'unixepoch') || ' ' || o.reason, '; ') FROM outbox o
		JOIN crews c ON c.id = o.crew_id WHERE c.chat_id = ? AND o.subject = ? AND o.step = ? AND o.ping = 'eve'`, group, subject, step).Scan(&list)
	if err != nil {
		return err.Error()
	}
	return list.String
}

// steady notes a step that took long, or a clock that is wrong: what was said and sent
// about then may be worded otherwise, or go late.
func (s *season) steady(at time.Time) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if now := s.clock.Now(); now.Sub(at) > steady {
		s.shaky = append(s.shaky, stretch{at, now})
	}
}

// recover puts all right at the end of a season and lets it come to rest.
func (s *season) recover() {
	s.mu.Lock()
	if s.ill != nil {
		s.heal()
	}
	if s.offset != 0 {
		s.step(0)
	}
	s.downUntil = time.Time{}
	s.mu.Unlock()
	s.resume()
	for range 50 {
		s.mu.Lock()
		left := len(s.queue)
		s.mu.Unlock()
		if left == 0 {
			break
		}
		s.wake()
		s.rest()
	}
	s.mu.Lock()
	if s.ill != nil {
		s.heal()
	}
	if s.offset != 0 {
		s.step(0)
	}
	s.mu.Unlock()
	s.wake()
	s.rest()
}
