package bot

import (
	"embed"
	"fmt"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/nicksnyder/go-i18n/v2/i18n"
	"github.com/pelletier/go-toml/v2"
	"golang.org/x/text/language"

	"yardbell/rules"
)

//go:embed words/*.toml
var wordFiles embed.FS

// Languages that have a catalogue in words/.
var Languages = []string{"en", "es"}

var bundle = sync.OnceValue(func() *i18n.Bundle {
	b := i18n.NewBundle(language.English)
	b.RegisterUnmarshalFunc("toml", toml.Unmarshal)
	for _, lang := range Languages {
		if _, err := b.LoadMessageFileFS(wordFiles, "words/"+lang+".toml"); err != nil {
			panic(fmt.Sprintf("bot: catalogue %s: %v", lang, err))
		}
	}
	return b
})

// say words the message id with the values kv: pairs of a name and a value. Times,
// steps, subjects and spans are worded on the way. An id that is not in the
// catalogue is a programming error that a test finds.
func (v voice) say(id string, kv ...any) string {
	if len(kv) > 0 {
		return v.localize(id, kv)
	}
	// The same every time: steps, days, what a button says.
	k := wordingOf{v.lang, id}
	s, known := phrases.Load(k)
	if !known {
		s, _ = phrases.LoadOrStore(k, v.localize(id, nil))
	}
	return s.(string)
}

type wordingOf struct{ lang, id string }

// phrases are those that take no value, worded. single are those with one form alone,
// for one and for many, that were asked for as for a number.
var phrases, single sync.Map

func (v voice) localize(id string, kv []any) string {
	data := make(map[string]any, len(kv)/2)
	cfg := &i18n.LocalizeConfig{MessageID: id, TemplateData: data}
	for i := 0; i+1 < len(kv); i += 2 {
		name := kv[i].(string)
		data[name] = v.value(kv[i+1])
		switch x := kv[i+1].(type) {
		case int:
			if name == "Count" {
				cfg.PluralCount = x
			}
		case *int:
			if name == "Count" && x != nil {
				cfg.PluralCount = *x
			}
		case string:
			if name == "Mark" {
				data[name] = v.mark(x)
			}
		}
	}
	if _, known := single.Load(wordingOf{v.lang, id}); known {
		cfg.PluralCount = nil
	}
	s, err := v.loc.Localize(cfg)
	if err != nil && cfg.PluralCount != nil {
		// A message that reads the same for one and for many has a single form.
		cfg.PluralCount = nil
		if s, err = v.loc.Localize(cfg); err == nil {
			single.Store(wordingOf{v.lang, id}, true)
		}
	}
	if err != nil {
		return "{" + id + "}"
	}
	return s
}

func (v voice) value(x any) any {
	switch x := x.(type) {
	case time.Time:
		return v.at(x)
	case rules.Step:
		return v.say("step_" + string(x))
	case rules.Subject:
		return v.subject(x)
	case *int:
		if x == nil {
			return v.say("e_some")
		}
		return strconv.Itoa(*x)
	case float64:
		return v.number(x, 0)
	case time.Duration:
		return rules.SpanString(x)
	}
	return x
}

// refusal words a refusal of package rules.
func (v voice) refusal(r *rules.Refusal) string {
	var kv []any
	for k, x := range r.Args {
		switch k {
		case "Batch":
			x = v.subject(rules.BatchSubject(x.(int)))
		case "Breeder":
			n := x.(int)
			kv = append(kv, "Number", n)
			x = v.subject(rules.BreederSubject(n))
		case "Mark":
			if m := x.(string); m != "" && r.Code != "no_such_comb" {
				x = v.say("with_mark", "Mark", m)
			}
		case "At":
			if s, ok := x.(rules.Step); ok {
				x, k = v.past(s, argOf(r.Args, "Had", "Later")), "Past"
			}
		case "Step":
			if s := x.(rules.Step); v.has("past_" + string(s)) {
				kv = append(kv, "Now", v.past(s, argOf(r.Args, "Sum", "Count")))
			}
		case "Key":
			if r.Code != "set_unknown" {
				x = v.key(x.(string))
			}
		case "Example":
			key, example := r.Args["Key"].(string), x.(string)
			if key == "language" {
				example = v.lang
			}
			x = v.setting(key, example)
		}
		kv = append(kv, k, x)
	}
	return upper(v.say("r_"+r.Code, kv...))
}

// argOf is the first of a refusal's numbers that it has.
func argOf(args map[string]any, names ...string) *int {
	for _, n := range names {
		switch x := args[n].(type) {
		case int:
			return &x
		case *int:
			return x
		}
	}
	return nil
}

// past words what became of so many cells, nil for a number that is not known.
func (v voice) past(s rules.Step, n *int) string {
	if n == nil {
		return v.say("past_" + string(s))
	}
	return v.say("past_"+string(s), "Count", *n)
}

// count words how many of what a step is about.
func (v voice) count(s rules.Step, n *int) any {
	if n == nil && s == rules.Nucs {
		return v.say("e_some_nucs")
	}
	return n
}

func (v voice) has(id string) bool { return !strings.HasPrefix(v.say(id), "{") }

// subject names a subject inside a sentence, head at its beginning.
func (v voice) subject(s rules.Subject) string {
	if s.Zero() {
		return ""
	}
	return v.say("subject_"+string(s.Kind), "Key", s.Key)
}

func (v voice) head(s rules.Subject) string { return upper(v.subject(s)) }

// named names a subject with its kind, as it is added: "builder B2".
func (v voice) named(s rules.Subject) string {
	return v.say("named_"+string(s.Kind), "Key", s.Key)
}

func upper(s string) string {
	r := []rune(s)
	if len(r) == 0 {
		return s
	}
	return strings.ToUpper(string(r[:1])) + string(r[1:])
}

// at words an instant in the crew's zone: "tomorrow 10:00", "Thu 8 May 10:00".
func (v voice) at(t time.Time) string {
	if t.IsZero() {
		return "?"
	}
	clock := rules.ClockOf(t, v.s.Zone).String()
	day, today := rules.DateOf(t, v.s.Zone), rules.DateOf(v.now, v.s.Zone)
	if t.Sub(rules.At(day, rules.ClockOf(t, v.s.Zone), v.s.Zone)) >= time.Minute {
		// The clocks were put back and show this time for the second time.
		clock = v.say("clock_again", "Clock", clock)
	}
	switch day {
	case today:
		return v.say("today", "Clock", clock)
	case today.Add(1):
		return v.say("tomorrow", "Clock", clock)
	case today.Add(-1):
		return v.say("yesterday", "Clock", clock)
	}
	return v.say("at", "Date", v.date(day), "Clock", clock)
}

func (v voice) date(d rules.Date) string {
	id := "date"
	if d.Year != rules.DateOf(v.now, v.s.Zone).Year {
		id = "date_year"
	}
	return v.say(id, "Weekday", v.say("day_"+strconv.Itoa(int(d.Weekday()))), "Day", d.Day, "Month", v.say("month_"+strconv.Itoa(int(d.Month))), "Year", d.Year)
}

// left words how long is left.
func (v voice) left(d time.Duration) string {
	d = d.Round(time.Minute)
	h, m := int(d/time.Hour), int(d%time.Hour/time.Minute)
	switch {
	case h > 0 && m > 0:
		return v.say("left_hm", "H", h, "M", m)
	case h > 0:
		return v.say("left_h", "H", h)
	}
	return v.say("left_m", "M", max(m, 0))
}

// task names a task: "move cells, batch 4".
func (v voice) task(t rules.Task) string {
	return v.say("task", "Step", t.Step, "Subject", v.taskSubject(t))
}

func (v voice) taskSubject(t rules.Task) string {
	sub := v.subject(t.Subject)
	if t.Subject.Kind == rules.BreederKind && t.Mark != "" {
		sub = v.say("subject_comb", "Key", t.Subject.Key, "Mark", t.Mark)
	}
	if t.Subject.Kind == rules.BuilderKind && t.Step == rules.Rogue && t.Batch != 0 {
		sub += ", " + v.subject(rules.BatchSubject(t.Batch))
	}
	if n, _ := rules.OrderOfTask(t); n != 0 {
		sub = v.say("subject_for", "Subject", sub, "Order", v.subject(rules.OrderSubject(n)))
	}
	return sub
}

// ages words a span of larval ages, "6-24".
func (v voice) ages(a rules.AgeSpan) string {
	s := v.number(a.Lo, 0)
	if hi := v.number(a.Hi, 0); hi != s {
		s += "-" + hi
	}
	return v.say("ages_"+a.Basis, "Ages", s)
}

// line says what an entry logged, in a few words.
func (v voice) line(e rules.Entry) string {
	if e.Step == rules.Ordered {
		return v.orderEntry(e)
	}
	task := v.say("task", "Step", e.Step, "Subject", v.subject(e.Subject))
	switch e.Action {
	case rules.Mine, rules.Later, rules.Skip:
		return v.say("l_"+string(e.Action), "Task", task)
	case rules.Set:
		return v.say("l_set", "Key", v.key(e.Detail.Key), "Value", v.setting(e.Detail.Key, e.Detail.Value))
	}
	part := func(ok bool, id string, kv ...any) string {
		if !ok {
			return ""
		}
		return v.say(id, kv...)
	}
	from := part(e.From != 0, "l_from", "Breeder", e.From)
	into := part(e.Into != "", "l_into", "Into", e.Into)
	mark := part(e.Mark != "", "l_mark", "Mark", e.Mark)
	if batchSteps[e.Step] && (e.Subject.Zero() || e.Subject.Kind == rules.BatchKind) {
		who, count, open := "", "", ""
		switch {
		case e.Of != nil:
			count = v.say("l_many_of", "N", deref(e.Count), "Of", *e.Of)
		case e.Count != nil:
			count = v.say("l_many", "N", *e.Count)
		case needsCount[e.Step]:
			open = v.say("l_uncounted")
		}
		if !e.Subject.Zero() {
			who = v.say("l_who", "Subject", e.Subject)
		}
		return v.say("l_batch", "Who", who, "Count", count, "Past", v.past(e.Step, e.Count), "From", from, "Into", into, "Mark", mark, "Open", open)
	}
	count := part(e.Count != nil, "l_count", "N", deref(e.Count))
	switch {
	case e.Step == rules.Rogue && deref(e.Count) == 0:
		count = v.say("l_clear")
	case e.Step == rules.Rogue:
		count = v.say("l_found", "Count", deref(e.Count))
	case e.Step == rules.Add && e.Count != nil:
		count = v.say("l_nucs", "Count", *e.Count)
	}
	if e.Detail.Release {
		count = v.say("l_release")
	}
	if e.Step == rules.Retire {
		return v.say("l_retire", "Subject", e.Subject, "Cause", v.cause(e))
	}
	subject, step := v.subject(e.Subject), v.say("step_"+string(e.Step))
	if e.Step == rules.Eggs {
		step, count = v.say("l_eggs"), ""
		if e.Detail.NoEggs {
			step = v.say("l_noeggs")
		}
	}
	if e.Step == rules.Add {
		subject = v.named(e.Subject)
	}
	return v.say("l_did", "Step", step, "Subject", part(subject != "", "l_subject", "Subject", subject),
		"Count", count, "From", from, "Into", into, "Mark", mark)
}

// batchSteps are the steps whose line is worded by what became of the cells.
var batchSteps = map[rules.Step]bool{
	rules.Graft: true, rules.Accept: true, rules.Finish: true, rules.Capped: true, rules.Nucs: true, rules.Move: true,
	rules.Emerge: true, rules.Laying: true, rules.Catch: true, rules.Recell: true,
}

func deref(n *int) int {
	if n == nil {
		return 0
	}
	return *n
}
