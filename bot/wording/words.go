package wording

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

//go:embed *.toml
var wordFiles embed.FS

// Languages that have a catalogue here.
var Languages = []string{"en", "es"}

var bundle = sync.OnceValue(func() *i18n.Bundle {
	b := i18n.NewBundle(language.English)
	b.RegisterUnmarshalFunc("toml", toml.Unmarshal)
	for _, lang := range Languages {
		if _, err := b.LoadMessageFileFS(wordFiles, lang+".toml"); err != nil {
			panic(fmt.Sprintf("bot: catalogue %s: %v", lang, err))
		}
	}
	return b
})

// Say words the message id with the values kv: pairs of a name and a value. Times,
// steps, subjects and spans are worded on the way. An id that is not in the
// catalogue is a programming error that a test finds.
func (v Voice) Say(id string, kv ...any) string {
	return markSentence(id, v.say(id, kv))
}

func (v Voice) say(id string, kv []any) string {
	if len(kv) > 0 {
		return v.localize(id, kv)
	}
	// The same every time: steps, days, what a button says.
	k := wordingOf{v.Lang, id}
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

func (v Voice) localize(id string, kv []any) string {
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
				data[name] = v.Mark(x)
			}
		}
	}
	if marked.Load() {
		for name, x := range data {
			data[name] = mark(argMark+name, fmt.Sprint(x))
		}
	}
	if _, known := single.Load(wordingOf{v.Lang, id}); known {
		cfg.PluralCount = nil
	}
	s, err := v.loc.Localize(cfg)
	if err != nil && cfg.PluralCount != nil {
		// A message that reads the same for one and for many has a single form.
		cfg.PluralCount = nil
		if s, err = v.loc.Localize(cfg); err == nil {
			single.Store(wordingOf{v.Lang, id}, true)
		}
	}
	if err != nil {
		return "{" + id + "}"
	}
	return s
}

func (v Voice) value(x any) any {
	switch x := x.(type) {
	case time.Time:
		return v.At(x)
	case rules.Step:
		return v.Say("step_" + string(x))
	case rules.Subject:
		return v.Subject(x)
	case *int:
		if x == nil {
			return v.Say("e_some")
		}
		return strconv.Itoa(*x)
	case float64:
		return v.Number(x, 0)
	case time.Duration:
		return rules.SpanString(x)
	}
	return x
}

// Refusal words a refusal of package rules.
func (v Voice) Refusal(r *rules.Refusal) string {
	var kv []any
	for k, x := range r.Args {
		switch k {
		case "Batch":
			x = v.Subject(rules.BatchSubject(x.(int)))
		case "Breeder":
			n := x.(int)
			kv = append(kv, "Number", n)
			x = v.Subject(rules.BreederSubject(n))
		case "Mark":
			if m := x.(string); m != "" && r.Code != "no_such_comb" {
				x = v.Say("with_mark", "Mark", m)
			}
		case "Where":
			x = v.Place(x.(string))
		case "At":
			if s, ok := x.(rules.Step); ok {
				x, k = v.Past(s, argOf(r.Args, "Had", "Later")), "Past"
			}
		case "Step":
			if s := x.(rules.Step); v.Has("past_" + string(s)) {
				kv = append(kv, "Now", v.Past(s, argOf(r.Args, "Sum", "Count")))
			}
		case "Key":
			if r.Code != "set_unknown" {
				x = v.Key(x.(string))
			}
		case "Example":
			key, example := r.Args["Key"].(string), x.(string)
			if key == "language" {
				example = v.Lang
			}
			x = v.Setting(key, example)
		}
		kv = append(kv, k, x)
	}
	return Upper(v.Say("r_"+r.Code, kv...))
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

// Past words what became of so many cells, nil for a number that is not known.
func (v Voice) Past(s rules.Step, n *int) string {
	if n == nil {
		return v.Say("past_" + string(s))
	}
	return v.Say("past_"+string(s), "Count", *n)
}

// Count words how many of what a step is about.
func (v Voice) Count(s rules.Step, n *int) any {
	if n == nil && s == rules.Nucs {
		return v.Say("e_some_nucs")
	}
	return n
}

func (v Voice) Has(id string) bool { return !strings.HasPrefix(v.say(id, nil), "{") }

// Subject names a subject inside a sentence, head at its beginning.
func (v Voice) Subject(s rules.Subject) string {
	if s.Zero() {
		return ""
	}
	if day, err := rules.ParseDate(s.Key); s.Kind == rules.RoundKind && err == nil {
		return v.Say("subject_round", "Key", v.Date(day))
	}
	return v.Say("subject_"+string(s.Kind), "Key", s.Key)
}

// Head names it where a sentence begins, with its article where the language has one.
func (v Voice) Head(s rules.Subject) string {
	if id := "head_" + string(s.Kind); v.Has(id) {
		return v.Say(id, "Key", s.Key)
	}
	return Upper(v.Subject(s))
}

// Named names a subject with its kind, as it is added: "builder B2".
func (v Voice) Named(s rules.Subject) string {
	return v.Say("named_"+string(s.Kind), "Key", s.Key)
}

func Upper(s string) string {
	r, name := []rune(s), false
	for i, c := range r {
		switch c {
		case markOpens:
			name = true
		case markNamed:
			name = false
		case markCloses:
		default:
			if !name {
				return string(r[:i]) + strings.ToUpper(string(c)) + string(r[i+1:])
			}
		}
	}
	return s
}

// At words an instant in the crew's zone: "tomorrow 10:00", "Thu 8 May 10:00".
func (v Voice) At(t time.Time) string {
	return markTime(v.at(t), "2006-01-02 15:04", t, v.Settings.Zone)
}

func (v Voice) at(t time.Time) string {
	if t.IsZero() {
		return "?"
	}
	clock := rules.ClockOf(t, v.Settings.Zone).String()
	day, today := rules.DateOf(t, v.Settings.Zone), rules.DateOf(v.Now, v.Settings.Zone)
	if t.Sub(rules.At(day, rules.ClockOf(t, v.Settings.Zone), v.Settings.Zone)) >= time.Minute {
		// The clocks were put back and show this time for the second time.
		clock = v.Say("clock_again", "Clock", clock)
	}
	switch day {
	case today:
		return v.Say("today", "Clock", clock)
	case today.Add(1):
		return v.Say("tomorrow", "Clock", clock)
	case today.Add(-1):
		return v.Say("yesterday", "Clock", clock)
	}
	return v.Say("at", "Date", v.Date(day), "Clock", clock)
}

func (v Voice) Date(d rules.Date) string { return markDate(v.date(d), d) }

func (v Voice) date(d rules.Date) string {
	id := "date"
	if d.Year != rules.DateOf(v.Now, v.Settings.Zone).Year {
		id = "date_year"
	}
	return v.Say(id, "Weekday", v.Say("day_"+strconv.Itoa(int(d.Weekday()))), "Day", d.Day, "Month", v.Say("month_"+strconv.Itoa(int(d.Month))), "Year", d.Year)
}

// Left words how long is left.
func (v Voice) Left(d time.Duration) string {
	d = d.Round(time.Minute)
	h, m := int(d/time.Hour), int(d%time.Hour/time.Minute)
	switch {
	case h > 0 && m > 0:
		return v.Say("left_hm", "H", h, "M", m)
	case h > 0:
		return v.Say("left_h", "H", h)
	}
	return v.Say("left_m", "M", max(m, 0))
}

// Task names a task: "move cells, batch 4".
func (v Voice) Task(t rules.Task) string {
	return v.Say("task", "Step", t.Step, "Subject", v.TaskSubject(t))
}

func (v Voice) TaskSubject(t rules.Task) string {
	sub := v.Subject(t.Subject)
	if t.Subject.Kind == rules.BreederKind && t.Mark != "" {
		sub = v.Say("subject_comb", "Key", t.Subject.Key, "Mark", t.Mark)
	}
	if t.Subject.Kind == rules.BuilderKind && t.Step == rules.Rogue && t.Batch != 0 {
		sub += ", " + v.Subject(rules.BatchSubject(t.Batch))
	}
	if n, _ := rules.OrderOfTask(t); n != 0 {
		sub = v.Say("subject_for", "Subject", sub, "Order", v.Subject(rules.OrderSubject(n)))
	}
	return sub
}

// Ages words a span of larval ages, "6-24".
func (v Voice) Ages(a rules.AgeSpan) string {
	s := v.Number(a.Lo, 0)
	if hi := v.Number(a.Hi, 0); hi != s {
		s += "-" + hi
	}
	return v.Say("ages_"+a.Basis, "Ages", s)
}

// Line says what an entry logged, in a few words.
func (v Voice) Line(e rules.Entry) string {
	if e.Step == rules.Ordered {
		return v.orderEntry(e)
	}
	if OfStock(e) && e.Action == rules.Did {
		return v.stockLine(e)
	}
	task := v.Say("task", "Step", e.Step, "Subject", v.Subject(e.Subject))
	switch e.Action {
	case rules.Mine, rules.Later, rules.Skip:
		if e.Whom != "" {
			return v.Say("l_assign", "Name", e.Whom, "Task", task)
		}
		return v.Say("l_"+string(e.Action), "Task", task)
	case rules.Set:
		return v.Say("l_set", "Key", v.Key(e.Detail.Key), "Value", v.Setting(e.Detail.Key, e.Detail.Value))
	}
	switch e.Step {
	case rules.Away:
		return v.Say("l_away", "Name", e.Whom, "List", v.Days(rules.ParseDays(e.Detail.Days)))
	case rules.Remind:
		return v.Say("l_remind", "When", time.UnixMilli(e.Detail.Until), "Words", v.words(e.Detail.Reason))
	}
	part := func(ok bool, id string, kv ...any) string {
		if !ok {
			return ""
		}
		return v.Say(id, kv...)
	}
	from := part(e.From != 0, "l_from", "Breeder", e.From)
	into := part(e.Into != "", "l_into", "Into", v.Place(e.Into))
	mark := part(e.Mark != "", "l_mark", "Mark", e.Mark)
	if BatchSteps[e.Step] && (e.Subject.Zero() || e.Subject.Kind == rules.BatchKind) {
		who, count, open := "", "", ""
		switch {
		case e.Of != nil:
			count = v.Say("l_many_of", "N", Deref(e.Count), "Of", *e.Of)
		case e.Count != nil:
			count = v.Say("l_many", "N", *e.Count)
		case rules.NeedsCount[e.Step]:
			open = v.Say("l_uncounted")
		}
		if !e.Subject.Zero() {
			who = v.Say("l_who", "Subject", e.Subject)
		}
		return v.Say("l_batch", "Who", who, "Count", count, "Past", v.Past(e.Step, e.Count), "From", from, "Into", into, "Mark", mark, "Open", open)
	}
	count := part(e.Count != nil, "l_count", "N", Deref(e.Count))
	switch {
	case e.Step == rules.Rogue && Deref(e.Count) == 0:
		count = v.Say("l_clear")
	case e.Step == rules.Rogue:
		count = v.Say("l_found", "Count", Deref(e.Count))
	case e.Step == rules.Add && e.Subject.Kind == rules.BuilderKind:
		count = v.builderIs(e)
	case e.Step == rules.Add && e.Detail.Singly:
		count = v.Say("l_and", "What", v.Say("c_singly"))
	case e.Step == rules.Add && e.Count != nil:
		count = v.Say("l_nucs", "Count", *e.Count)
	}
	if e.Detail.Release {
		count = v.Say("l_release")
	}
	if e.Step == rules.Temp {
		count = v.temperature(e)
	}
	if e.Step == rules.Lose {
		return v.lost(e)
	}
	if e.Step == rules.Nuc {
		return v.nucLine(e)
	}
	if e.Step == rules.Retire {
		return v.Say("l_retire", "Subject", e.Subject, "Cause", v.Cause(e))
	}
	subject, step := v.Subject(e.Subject), v.Say("step_"+string(e.Step))
	if e.Step == rules.Eggs {
		step, count = v.Say("l_eggs"), ""
		if e.Detail.NoEggs {
			step = v.Say("l_noeggs")
		}
	}
	if e.Step == rules.Add {
		subject = v.Named(e.Subject)
	}
	return v.Say("l_did", "Step", step, "Subject", part(subject != "", "l_subject", "Subject", subject),
		"Count", count, "From", from, "Into", into, "Mark", mark)
}

// BatchSteps are the steps whose line is worded by what became of the cells.
var BatchSteps = map[rules.Step]bool{
	rules.Graft: true, rules.Accept: true, rules.Finish: true, rules.Capped: true, rules.Nucs: true, rules.Move: true,
	rules.Emerge: true, rules.Laying: true, rules.Catch: true, rules.Recell: true, rules.Placed: true,
}

func Deref(n *int) int {
	if n == nil {
		return 0
	}
	return *n
}
