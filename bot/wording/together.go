package wording

import (
	"fmt"
	"strings"

	"yardbell/store"
)

// This file words what is told in one message of several.

// mostQuoted is how much of a message is quoted, in characters.
const mostQuoted = 60

// Quoted is the beginning of what somebody wrote, in one line.
func Quoted(text string) string {
	r := []rune(Clean(text))
	if len(r) > mostQuoted {
		return string(r[:mostQuoted-1]) + "…"
	}
	return string(r)
}

// Summary words one.
func (v Voice) Summary(s store.Summary, messages int) string {
	var logged []string
	for _, a := range s.Logged {
		if len(a.Entries) < 2 { // what the echo says first is the line, with all its figures
			first, _, _ := strings.Cut(a.Text, "\n")
			logged = append(logged, first)
			continue
		}
		for _, e := range a.Entries {
			logged = append(logged, v.Line(e))
		}
	}
	not := make([]string, len(s.Not))
	for i, text := range s.Not {
		not[i] = Quoted(text)
	}
	text := ""
	for most := mostLines; most > 0; most-- {
		lines := []string{v.Say("summary_head", "Name", s.Name, "Count", messages)}
		if len(not) > 0 { // first, since somebody may believe that it is logged
			lines = append(lines, v.Say("summary_not", "Count", len(not)))
			lines = append(lines, v.counted("summary_quote", not, most)...)
		}
		if len(logged) > 0 {
			lines = append(lines, v.Say("summary_logged", "Count", len(logged)))
			lines = append(lines, v.counted("summary_line", logged, most)...)
		}
		if text = strings.Join(lines, "\n"); Units(text) <= v.Room {
			break
		}
	}
	return text
}

// counted lists what differs, each with how often it is there, up to so many.
func (v Voice) counted(id string, list []string, most int) (lines []string) {
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
			n = v.Say("summary_times", "Count", times[s])
		}
		lines = append(lines, v.Say(id, "What", s, "Times", n))
	}
	if rest > 0 {
		lines = append(lines, v.Say("summary_more", "Count", rest))
	}
	return lines
}

// mostSeen is how many messages the evening's list shows.
const mostSeen = 5

// mostOnButton is how much of a message stands on a button, in characters.
const mostOnButton = 18

// unlogged words the evening's list of what carries the sign, and its buttons.
func (v Voice) unlogged(list []store.Unlogged) string {
	lines := []string{v.Say("seen_head")}
	for i, u := range list[:min(len(list), mostSeen)] {
		lines = append(lines, v.Say("seen_line", "N", i+1, "Name", u.Name, "At", u.Update.Said, "Text", Quoted(u.Update.Text)))
	}
	if n := len(list) - mostSeen; n > 0 {
		lines = append(lines, v.Say("summary_more", "Count", n))
	}
	return strings.Join(append(lines, v.Say("seen_foot")), "\n")
}

func unloggedButtons(list []store.Unlogged) (out []store.Button) {
	for i, u := range list[:min(len(list), mostSeen)] {
		r := []rune(Clean(u.Update.Text))
		if len(r) > mostOnButton {
			r = append(r[:mostOnButton-1], '…')
		}
		out = append(out, Button(fmt.Sprintf("%d. %s", i+1, string(r)), tellDo(u.Update.ID)))
	}
	return out
}

func tellDo(update int64) string { return fmt.Sprintf("told|%d", update) }
