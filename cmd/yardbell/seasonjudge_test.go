//go:build linux && !race

package main

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/group"
	"yardbell/bot/telegram/apidouble"
	"yardbell/rules"
	"yardbell/store"
)

func (s *season) crewName(i int) string { return fmt.Sprint("crew ", i+1) }

// about is what the ping of a deed is about.
func (d deed) about() (step, subject string) {
	i := strings.LastIndex(d.under, " ")
	return d.under[i+1:], d.under[:i]
}

// told is what came of a season.
type told struct {
	lines   map[string]int // of the logbook
	updates map[string]int // what people said, and what became of it
	answers map[string]store.Message
	pings   map[string]store.Message
	others  map[string]int // rows of other kinds, by kind
	edges   map[string]time.Time
	closed  map[string][]closing // of a step of a subject
	owed    []string
	chat    map[spot]apidouble.Sent
	noted   map[spot]string
}

// closing is a line that says that a step is done, and the message that answered it.
type closing struct {
	said   time.Time
	answer int64
}

// doneBefore reports whether a ping stands in the chat behind the answer that says that
// what it is about is done; the same step comes up again some weeks later.
func (o *told) doneBefore(name string, m store.Message) bool {
	return slices.ContainsFunc(o.closed[name+" "+string(m.Step)+" "+m.Subject], func(c closing) bool {
		return c.answer != 0 && c.answer < m.Message && c.said.Sub(m.Fire).Abs() < 72*time.Hour
	})
}

// reckon reads what came of a season, from the file and from the chats.
func (s *season) reckon() *told {
	o := &told{lines: map[string]int{}, updates: map[string]int{}, answers: map[string]store.Message{}, pings: map[string]store.Message{},
		others: map[string]int{}, edges: map[string]time.Time{}, closed: map[string][]closing{}, chat: map[spot]apidouble.Sent{}, noted: map[spot]string{}}
	db, err := store.Open(s.t.Context(), s.disk.path(), store.Options{ReadOnly: true})
	require.NoError(s.t, err)
	defer func() { _ = db.Close() }()
	require.NoError(s.t, db.View(s.t.Context(), s.clock.Now(), func(tx *store.Tx) error {
		for i, group := range s.groups {
			for _, m := range s.Sent(group) {
				o.chat[spot{group, int64(m.ID)}] = m
			}
			c, _, err := tx.Crew("telegram", group)
			if err != nil {
				return err
			}
			if err := s.reckonCrew(tx, c, s.crewName(i), o); err != nil {
				return err
			}
		}
		return nil
	}))
	return o
}

func (s *season) reckonCrew(tx *store.Tx, c store.Crew, name string, o *told) error {
	said := map[int64]string{} // by the row of the update
	book, err := tx.Logbook(c.ID)
	if err != nil {
		return err
	}
	rows, err := tx.Outbox(c.ID)
	if err != nil {
		return err
	}
	spellUpdate := func(row int64) (string, error) {
		u, found, err := tx.UpdateRow(row)
		if err != nil || !found {
			return "", err
		}
		when := u.Said.Format(time.RFC3339)
		if u.Kind == "press" {
			when = "" // a press has no date of its own
		}
		if group.IsJoin(u.Text) {
			u.Text = "/join" // codes are drawn at random
		}
		said[row] = fmt.Sprintf("%s %d %s %s %q", name, u.Member, u.Kind, when, u.Text)
		o.updates[said[row]+" "+u.Outcome]++
		if u.Kind != "press" {
			o.edges[said[row]] = u.Said
		}
		return said[row], nil
	}
	told := map[int64]int64{} // the answer to an update
	combs := combsOf(book)
	for _, m := range rows {
		at := spot{c.Chat, m.Message}
		if m.Message != 0 && m.Edits == 0 {
			o.noted[at] = m.Key
		}
		kind, _, _ := strings.Cut(m.Key, "/")
		switch {
		case m.State == "claimed" || m.State == "failed":
			o.owed = append(o.owed, name+" "+m.Key+" "+m.State+" "+m.Reason)
		case kind == "answer":
			key, err := spellUpdate(m.Update)
			if err != nil {
				return err
			}
			o.answers[key] = m
			told[m.Update] = m.Message
		case m.Ping != "" && m.Edits == 0 && !m.Aside():
			o.pings[name+" "+combs(m.Key)] = m
		default:
			o.others[kind]++
		}
	}
	for _, l := range book {
		// What a press tells happened when it was read.
		when := l.Said.Format(time.RFC3339) + " " + l.Happened.Format(time.RFC3339)
		if l.Update != 0 && strings.Contains(said[l.Update], " press ") {
			when = ""
		}
		e := l.Entry
		detail, err := json.Marshal(e.Detail)
		if err != nil {
			return err
		}
		o.lines[fmt.Sprintf("%s: %s %s %s %s %v of %v from %d into %s %q by %s %s raw %q", name, when, e.Action, e.Step, e.Subject, number(e.Count), number(e.Of), e.From, e.Into, e.Mark, e.By, combs(string(detail)), l.Raw)]++
		key := name + " " + string(e.Step) + " " + e.Subject.String()
		if e.Action == rules.Did || e.Action == rules.Skip {
			o.closed[key] = append(o.closed[key], closing{l.Said, told[l.Update]})
		}
	}
	return nil
}

// combsOf gives combs names that do not depend on how much other crews wrote: the day on
// which the breeder came on it, in place of the number of that line.
func combsOf(book []store.Line) func(string) string {
	var pairs []string
	for _, l := range book {
		if l.Action != rules.Did || l.Step != rules.Confine {
			continue
		}
		day := l.Happened.Format(time.DateOnly)
		pairs = append(pairs, fmt.Sprintf(`"comb":%d`, l.ID), `"comb":`+day)
		for _, step := range []rules.Step{rules.Eggs, rules.CombOut, rules.Graft} {
			pairs = append(pairs, fmt.Sprintf("%s/%s/%d/", l.Subject, step, l.ID), fmt.Sprintf("%s/%s/%s/", l.Subject, step, day))
		}
	}
	return strings.NewReplacer(pairs...).Replace
}

func number(n *int) string {
	if n == nil {
		return "-"
	}
	return fmt.Sprint(*n)
}

// shakyAt reports whether things were out of order about then.
func (s *season) shakyAt(at time.Time) bool {
	const about = 15 * time.Minute
	return slices.ContainsFunc(s.shaky, func(x stretch) bool { return at.After(x.from.Add(-about)) && at.Before(x.to.Add(about)) })
}

// sameCounts holds counted things of two seasons against each other.
func sameCounts(t *testing.T, what string, calm, got map[string]int, but func(string) bool) {
	t.Helper()
	for k, n := range calm {
		if got[k] != n && !but(k) {
			assert.Fail(t, what+": lost or doubled", "%s: %d times, not %d", k, got[k], n)
		}
	}
	for k, n := range got {
		if calm[k] == 0 {
			assert.Fail(t, what+": invented", "%s: %d times", k, n)
		}
	}
}

// judge holds a season with faults against the same without any.
func (s *season) judge(calm *told) {
	t := s.t
	got := s.reckon()
	// What was not pressed or replied to for want of a ping is no line that was lost.
	missed := func(k string) bool {
		name := strings.Join(strings.Fields(strings.Replace(k, ":", " ", 1))[:2], " ")
		return slices.ContainsFunc(keysOf(s.missed), func(m string) bool {
			about, who, _ := strings.Cut(m, " crew ")
			step, subject := deed{under: about}.about()
			said := strings.Contains(k, " press ") || strings.Contains(k, crewWords["later"][0]) || strings.Contains(k, crewWords["later"][1])
			return name == "crew "+who && (said || strings.Contains(k, " mine "+step+" "+subject+" ") || strings.Contains(k, " later "+step+" "+subject+" ") || strings.Contains(k, subject+"/"+step+"/again"))
		})
	}
	sameCounts(t, "line", calm.lines, got.lines, missed)
	sameCounts(t, "what was said", calm.updates, got.updates, missed)
	assert.Empty(t, got.owed)
	for k := range got.others {
		assert.Contains(t, calm.others, k, "messages of a kind that nothing called for")
	}
	s.judgeAnswers(calm, got, missed)
	s.judgePings(calm, got, missed)
	s.judgeChats(got)
	assert.Empty(t, s.Violations())
	for _, n := range calm.lines {
		s.fig["lines"] += n
	}
	s.fig["answers"] = len(calm.answers)
}

// unanswered reports whether a ping of that crew could not be answered not long before:
// what is said about that work then does not name who is on it.
func (s *season) unanswered(key string, at time.Time) bool {
	for k, wanted := range s.missed {
		if _, who, _ := strings.Cut(k, " crew "); strings.HasPrefix(key, "crew "+who+" ") && at.Sub(wanted) < 36*time.Hour && wanted.Before(at) {
			return true
		}
	}
	return false
}

func keysOf(m map[string]time.Time) (out []string) {
	for k := range m {
		out = append(out, k)
	}
	return out
}

// shows reports whether a row's message stands in its chat.
func (o *told) shows(group int64, m store.Message) bool {
	_, ok := o.chat[spot{group, m.Message}]
	return m.State == "sent" && ok
}

func (s *season) groupOf(key string) int64 {
	var n int
	_, err := fmt.Sscanf(key, "crew %d ", &n)
	require.NoError(s.t, err, key)
	return s.groups[n-1]
}

// judgeAnswers: every answer is there, and says the same where things were in order.
func (s *season) judgeAnswers(calm, got *told, missed func(string) bool) {
	for k, want := range calm.answers {
		have, ok := got.answers[k]
		if missed(k) {
			continue
		}
		if !ok || !got.shows(s.groupOf(k), have) {
			assert.Fail(s.t, "an answer is lost", "%s: %s", k, want.Text)
			continue
		}
		if at, dated := calm.edges[k]; dated && !s.shakyAt(at) && have.Text != want.Text && !s.unanswered(k, at) {
			assert.Fail(s.t, "an answer says something else", "%s: %s\nnot: %s", k, have.Text, want.Text)
		}
	}
}

// judgePings: every ping of the season without faults is there, or was done without for a
// reason that the faults give; no other is.
func (s *season) judgePings(calm, got *told, missed func(string) bool) {
	for k, want := range calm.pings {
		if want.State != "sent" || want.Ping == rules.Again && missed(k) {
			continue
		}
		s.fig["pings"]++
		have := got.pings[k]
		shaky := s.shakyAt(want.Fire)
		switch {
		case got.shows(s.groupOf(k), have):
			if want.Text != have.Text && !shaky && !s.shakyAt(have.Sent) && !s.unanswered(k, want.Fire) {
				assert.Fail(s.t, "a ping says something else", "%s: %s\nnot: %s", k, have.Text, want.Text)
			}
		case shaky && (have.State == "dropped" || have.State == "cancelled"):
			s.fig["pings overtaken while away: "+have.Reason]++
		default:
			assert.Fail(s.t, "a ping is lost", "%s: %s %s, due %s", k, have.State, have.Reason, want.Fire)
		}
	}
	for k, have := range got.pings {
		if have.State != "sent" || calm.pings[k].State == "sent" {
			continue
		}
		_, planned := calm.pings[k]
		name := strings.Join(strings.Fields(k)[:2], " ")
		switch {
		case !planned:
			assert.Fail(s.t, "a ping is invented", "%s: %s", k, have.Text)
		case !s.shakyAt(have.Fire):
			assert.Fail(s.t, "a ping for what is done", "%s, due %s: %s", k, have.Fire, have.Text)
		case have.Step != rules.Laying && got.doneBefore(name, have):
			assert.Fail(s.t, "a ping after it was told that it is done", "%s, due %s: %s", k, have.Fire, have.Text)
		default:
			s.fig["pings before their time or after it"]++
		}
	}
}

// judgeChats: whatever stands in a chat is noted as sent, or is the double of a send whose
// end the service could not know.
func (s *season) judgeChats(got *told) {
	for p, m := range got.chat {
		first := m.Text
		if len(m.History) > 0 {
			first = m.History[0].Text
		}
		switch _, noted := got.noted[p]; {
		case noted:
		case s.uncertain[p]:
			s.fig["doubles"]++
		default:
			assert.Fail(s.t, "said twice, or unasked", "%d in %d: %s", p.id, p.chat, first)
		}
	}
	assert.LessOrEqual(s.t, s.fig["doubles"], s.fig["uncertain sends"])
}
