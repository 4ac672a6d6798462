package bot

import (
	"strings"

	"yardbell/rules"
	"yardbell/store"
)

// This file answers together what one member wrote while much of it waited: one message
// that says what was logged and what was not, in place of many that nobody reads. What
// needs an answer, or warns, is never in it: see place.

// place is where the answer of a message stands among those that wait. An echo may be
// summed up with others; so that nothing is lost by that, it only says what its lines say,
// or that there are none.
func (t *talk) place() int {
	for _, e := range t.logged {
		if e.Action == rules.Did && e.Step == rules.Virgin {
			return store.CriticalPing // the others read it in this answer
		}
	}
	switch {
	case len(t.buttons) > 0 || t.attach.Kind != "" || len(t.later) > 0 || t.warned || t.kind == "ask":
		return store.Answer
	case t.kind == "error":
		return store.Echo
	case len(t.logged) == 0:
		return store.Answer
	}
	for _, e := range t.logged {
		if e.Action == rules.Void || e.Action == rules.Amend {
			return store.Answer // it tells of two lines
		}
	}
	return store.Echo
}

// mostQuoted is how much of a message is quoted, in characters.
const mostQuoted = 60

// quoted is the beginning of what somebody wrote, in one line.
func quoted(text string) string {
	r := []rune(clean(text))
	if len(r) > mostQuoted {
		return string(r[:mostQuoted-1]) + "…"
	}
	return string(r)
}

// summary words one.
func (v voice) summary(s store.Summary, messages int) string {
	var logged []string
	for _, a := range s.Logged {
		if len(a.Entries) < 2 { // what the echo says first is the line, with all its figures
			first, _, _ := strings.Cut(a.Text, "\n")
			logged = append(logged, first)
			continue
		}
		for _, e := range a.Entries {
			logged = append(logged, v.line(e))
		}
	}
	not := make([]string, len(s.Not))
	for i, text := range s.Not {
		not[i] = quoted(text)
	}
	text := ""
	for most := mostLines; most > 0; most-- {
		lines := []string{v.say("summary_head", "Name", s.Name, "Count", messages)}
		if len(not) > 0 { // first, since somebody may believe that it is logged
			lines = append(lines, v.say("summary_not", "Count", len(not)))
			lines = append(lines, v.counted("summary_quote", not, most)...)
		}
		if len(logged) > 0 {
			lines = append(lines, v.say("summary_logged", "Count", len(logged)))
			lines = append(lines, v.counted("summary_line", logged, most)...)
		}
		if text = strings.Join(lines, "\n"); utf16Units(text) <= v.room {
			break
		}
	}
	return text
}

// counted lists what differs, each with how often it is there, up to so many.
func (v voice) counted(id string, list []string, most int) (lines []string) {
	times := map[string]int{}
	var kinds []string
	for _, s := range list {
		if times[s]++; times[s] == 1 {
			kinds = append(kinds, s)
		}
	}
	rest := 0
	for i, s := range kinds {
		if i >= most {
			rest += times[s]
			continue
		}
		n := ""
		if times[s] > 1 {
			n = v.say("summary_times", "Count", times[s])
		}
		lines = append(lines, v.say(id, "What", s, "Times", n))
	}
	if rest > 0 {
		lines = append(lines, v.say("summary_more", "Count", rest))
	}
	return lines
}
