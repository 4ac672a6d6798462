package bot

import (
	"math"
	"strconv"
	"strings"
	"time"

	"yardbell/rules"
)

// This file shows numbers, marks and the values of settings as a language writes
// them. What is stored does not depend on the language.

// number writes a number with at most so many decimals.
func (v voice) number(x float64, decimals int) string {
	p := math.Pow10(decimals)
	return v.decimals(strconv.FormatFloat(math.Round(x*p)/p, 'f', -1, 64))
}

// decimals puts the language's own mark in the place of the point.
func (v voice) decimals(s string) string {
	return strings.ReplaceAll(s, ".", v.say("decimal_point"))
}

// mark words the mark of a comb; one of the crew's own stays as it was typed.
func (v voice) mark(m string) string {
	if id := "mark_" + fold(m); m != "" && v.has(id) {
		return v.say(id)
	}
	return m
}

// key names a setting as it is typed.
func (v voice) key(key string) string {
	if step, ok := strings.CutPrefix(key, rules.StepSetting); ok {
		return v.say("key_step", "Word", v.say("word_"+step))
	}
	if strings.HasPrefix(key, rules.OwnLanguage) {
		return v.say("key_own")
	}
	return v.say("key_" + strings.ReplaceAll(key, " ", "-"))
}

// setting words the value of a setting as it is typed.
func (v voice) setting(key, value string) string {
	switch value {
	case "on", "off", "none", "default":
		return v.say("value_" + value)
	}
	switch {
	case key == "days off":
		var days []string
		for _, name := range strings.Split(value, ", ") {
			for d := time.Sunday; d <= time.Saturday; d++ {
				if name == d.String() {
					name = v.say("weekday_" + strconv.Itoa(int(d)))
					break
				}
			}
			days = append(days, name)
		}
		return joinList(days)
	case key == "incubator", key == "spread", strings.HasPrefix(key, rules.StepSetting):
		return v.decimals(value)
	}
	return value
}
