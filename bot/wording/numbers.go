package wording

import (
	"math"
	"strconv"
	"strings"
	"time"

	"yardbell/rules"
)

// This file shows numbers, marks and the values of settings as a language writes
// them. What is stored does not depend on the language.

// Number writes a number with at most so many decimals.
func (v Voice) Number(x float64, decimals int) string {
	p := math.Pow10(decimals)
	return v.decimals(strconv.FormatFloat(math.Round(x*p)/p, 'f', -1, 64))
}

// decimals puts the language's own mark in the place of the point.
func (v Voice) decimals(s string) string {
	return markNumber(strings.ReplaceAll(s, ".", v.say("decimal_point", nil)), s)
}

// Mark words the mark of a comb; one of the crew's own stays as it was typed.
func (v Voice) Mark(m string) string {
	if id := "mark_" + Fold(m); m != "" && v.Has(id) {
		return v.Say(id)
	}
	return m
}

// Source words where a figure comes from. Titles and names stay as they are; the
// few words of our own are worded.
func (v Voice) Source(s string) string {
	if was, own := strings.CutPrefix(s, rules.OwnSource); own {
		return v.Say("source_own", "Source", v.Source(was))
	}
	if s == "memory" {
		return v.Say("source_memory")
	}
	s = strings.ReplaceAll(s, "common practice", v.Say("source_practice"))
	return strings.ReplaceAll(s, "from memory", v.Say("source_from_memory"))
}

// Key names a setting as it is typed.
func (v Voice) Key(key string) string {
	if step, ok := strings.CutPrefix(key, rules.StepSetting); ok {
		return v.Say("key_step", "Word", v.Say("word_"+step))
	}
	if step, ok := strings.CutPrefix(key, rules.YieldSetting); ok {
		return v.Say("key_yield", "Stage", v.Say("yield_stage_"+step))
	}
	if strings.HasPrefix(key, rules.OwnLanguage) {
		return v.Say("key_own")
	}
	return v.Say("key_" + strings.ReplaceAll(key, " ", "-"))
}

// weekday translates the English name of a day of the week, whole or its beginning.
func (v Voice) weekday(name string) string {
	for d := time.Sunday; d <= time.Saturday; d++ {
		if startsName(name, d.String()) {
			return v.Say("weekday_" + strconv.Itoa(int(d)))
		}
	}
	return name
}

// startsName reports whether a word is a name or at least three letters of it; a
// plural counts as well.
func startsName(word, name string) bool {
	word, name = Fold(word), Fold(name)
	return len(word) >= 3 && (strings.HasPrefix(name, word) || strings.HasPrefix(name, strings.TrimSuffix(word, "s")))
}

func blankOrComma(r rune) bool { return r == ' ' || r == ',' }

// Stored is the value of a setting as it is kept, from one typed in any language.
// What is in no catalogue stays as it was typed, to be read or refused by rules.
func Stored(key, value string) string {
	for _, l := range Languages[1:] {
		v := In(l, rules.DefaultSettings(), time.Time{})
		for _, word := range []string{"on", "off", "none", "default"} {
			if Fold(value) == Fold(v.Say("value_"+word)) && !(key == "days off" && word == "off") {
				return word
			}
		}
		if key != "days off" {
			continue
		}
		words := strings.FieldsFunc(value, blankOrComma)
		for i, w := range words {
			for d := time.Sunday; d <= time.Saturday; d++ {
				if startsName(w, v.Say("weekday_"+strconv.Itoa(int(d)))) {
					words[i] = d.String()
				}
			}
			if w == strings.TrimSpace(v.Say("and")) {
				words[i] = "and"
			}
		}
		if joined := strings.Join(words, " "); joined != strings.Join(strings.FieldsFunc(value, blankOrComma), " ") {
			return joined
		}
	}
	return value
}

// WordStep is the step that a word names in the settings of some language.
func WordStep(word string) (rules.Step, bool) {
	for _, l := range Languages[1:] {
		v := In(l, rules.DefaultSettings(), time.Time{})
		for _, s := range rules.Steps {
			if Fold(word) == Fold(v.Say("word_"+string(s))) {
				return s, true
			}
		}
	}
	return "", false
}

// HelpTopics are what help tells of beside the steps.
var HelpTopics = []string{"safety", "settings", "answers", "fix", "ask", "lists"}

// WordTopic is the topic of help that a word names in some language.
func WordTopic(word string) (string, bool) {
	for _, l := range Languages {
		v := In(l, rules.DefaultSettings(), time.Time{})
		for _, t := range HelpTopics {
			for w := range strings.SplitSeq(v.Say("topic_"+t), " | ") {
				if Fold(word) == Fold(w) {
					return t, true
				}
			}
		}
	}
	return "", false
}

// Setting words the value of a setting as it is typed.
func (v Voice) Setting(key, value string) string {
	switch value {
	case "on", "off", "none", "default":
		return v.Say("value_" + value)
	}
	switch {
	case key == "days off" && v.Lang != Languages[0]: // which is what is kept, as it was typed
		var days []string
		for _, name := range strings.FieldsFunc(value, blankOrComma) {
			if name != "and" {
				days = append(days, v.weekday(name))
			}
		}
		return JoinList(days)
	case strings.HasPrefix(key, rules.YieldSetting):
		return v.Say("value_percent", "Percent", value)
	case key == "incubator", key == "spread", strings.HasPrefix(key, rules.StepSetting):
		return v.decimals(value)
	}
	return value
}
