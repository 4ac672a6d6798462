package bot

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"yardbell/rules"
)

// Settings, as they are set in words.

// settingWords are settings as typed, by their first words.
var settingWords = []struct{ typed, key string }{
	{"days off", "days off"}, {"day off", "days off"}, {"daysoff", "days off"}, {"zone", "zone"}, {"timezone", "zone"}, {"time zone", "zone"},
	{"language", "language"}, {"lang", "language"}, {"evening", "evening"}, {"eve", "evening"}, {"morning", "morning"},
	{"quiet hours", "quiet"}, {"quiet", "quiet"}, {"working hours", "work"}, {"work hours", "work"}, {"work", "work"},
	{"wake", "wake"}, {"pin", "pin"}, {"daily check", "check"}, {"self check", "check"}, {"self-check", "check"}, {"selfcheck", "check"}, {"check", "check"}, {"move", "move"}, {"incubator", "incubator"}, {"spread", "spread"},
}

var settingSmall = words(`to at is ping pings reminder hour :`)

func (d *reader) set() bool {
	r := d.r
	if d.is(doSet) {
		return true
	}
	if v := incubatorAt(d.text); v != "" {
		r.verb, r.key, r.value = doSet, "incubator", v
		return true
	}
	i := 1
	switch {
	case d.word(0) == "incubator" && len(d.toks) == 2 && !unicode.IsLetter([]rune(d.toks[1].text)[0]), d.phrase(0, "incubator off") && len(d.toks) == 2:
		i = 0
	case d.word(0) != "set" && !(d.word(0) == "change" && len(d.toks) > 2):
		return false
	case d.word(1) == "the":
		i = 2
	}
	if d.stepHours(i) {
		return true
	}
	for _, w := range settingWords {
		if !d.phrase(i, w.typed) {
			continue
		}
		k := i + len(splitSpace(w.typed))
		for settingSmall[d.word(k)] {
			k++
		}
		typed := strings.TrimRight(courtesyTail.ReplaceAllString(d.from(k), ""), " .!")
		v := d.settingValue(w.key, typed)
		if w.key == "pin" && v != "on" && v != "off" {
			continue // the pin of a comb
		}
		if w.key == checkKey && v != "off" && (v == "" || v[0] < '0' || v[0] > '9') {
			return false // somebody's daily check of something
		}
		r.verb, r.key, r.value, r.typed = doSet, w.key, v, typed
		return true
	}
	// "set 40 nucs out" is talk about work; only a single unknown name is a setting.
	if d.word(0) == "set" && i == 1 && len(d.toks) == 3 && !d.toks[1].isNum && !d.known(d.word(1)) && (!d.known(d.word(2)) || marks[d.word(2)]) {
		r.verb, r.key, r.value = doSet, d.word(1), d.toks[2].orig
		return true
	}
	return false
}

// incubatorSaid is the incubator's temperature as it is told: "incubator is at 33.5",
// "la incubadora está a 34 grados y medio", "incubator 93 F".
var incubatorSaid = regexp.MustCompile(`(?i)^(?:the |la )?(?:incubator|incubadora)(?: temp| temperature)?(?: is| reads| está| esta| anda| marca| ahora| now| at| en| a| to)* (\d{2,3})(?:[.,](\d))?( y medio)? ?(?:°|º|degrees|deg|grados)?( y medio)? ?([cf])?[ .!]*$`)

// incubatorAt is the temperature that a message tells, in degrees Celsius, "" for none.
func incubatorAt(text string) string {
	m := incubatorSaid.FindStringSubmatch(text)
	if m == nil {
		return ""
	}
	x, _ := strconv.ParseFloat(m[1]+"."+m[2]+"0", 64)
	if m[3]+m[4] != "" {
		x += 0.5
	}
	if strings.EqualFold(m[5], "f") {
		x = math.Round((x-32)/1.8*10) / 10
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// stepHours reads "set accept 18/24/48" and "set accept default": a step's own
// hours are told from other settings by their three parts.
func (d *reader) stepHours(i int) bool {
	if d.word(i) == "step" {
		i++
	}
	step := rules.Step(d.word(i))
	if !slices.Contains(rules.Steps, step) || len(d.toks) < i+2 {
		return false
	}
	typed := d.from(i + 1)
	if len(d.toks) == i+2 {
		typed = d.toks[i+1].orig // without what trails it: "default!"
	}
	v := d.settingValue(rules.StepSetting, typed)
	if strings.Count(v, "/") != 2 && (v != "default" || step == rules.Move) {
		return false
	}
	d.r.verb, d.r.key, d.r.value = doSet, rules.StepSetting+string(step), v
	return true
}
