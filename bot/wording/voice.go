package wording

import (
	"slices"
	"strings"
	"sync"
	"time"
	"unicode/utf16"

	"github.com/nicksnyder/go-i18n/v2/i18n"

	"yardbell/rules"
	"yardbell/store"
)

var localizers sync.Map

// Voice words things for one crew at one time in one language.
type Voice struct {
	loc      *i18n.Localizer
	Lang     string
	Settings *rules.Settings
	Now      time.Time
	Room     int // UTF-16 units that a list may take

	Rounds []rules.GraftRound // whose bars are one line of a list; none are where it is empty
	Drive  []string           // yards, in the order of a list

	Customers map[int]string // what customers are called, where that may be said; else they are numbers
}

// MostUnits is how much a chat takes in one message, in UTF-16 units (the Bot API
// says 4096 characters and counts so). A list leaves some for what stands around it.
const (
	MostUnits = 4096
	ListUnits = MostUnits - 196
)

// In speaks one language.
func In(lang string, s *rules.Settings, now time.Time) Voice {
	l, ok := localizers.Load(lang)
	if !ok {
		l, _ = localizers.LoadOrStore(lang, i18n.NewLocalizer(bundle(), lang))
	}
	return Voice{loc: l.(*i18n.Localizer), Lang: lang, Settings: s, Now: now, Room: ListUnits}
}

// New speaks the crew's first language.
func New(s *rules.Settings, now time.Time) Voice { return In(s.Langs()[0], s, now) }

// All are all languages of a crew, the first one first. What is said to the
// whole crew unasked is said in each.
func All(s *rules.Settings, now time.Time) []Voice {
	var out []Voice
	langs := s.Langs()
	for _, l := range langs {
		v := In(l, s, now)
		v.Room = ListUnits / len(langs)
		out = append(out, v)
	}
	return out
}

// InEach words something in each language, parted by a blank line.
func InEach(vs []Voice, word func(Voice) string) string { return Each(vs, "\n\n", word) }

// Each words something in each language; what reads the same is said once.
func Each(vs []Voice, parting string, word func(Voice) string) string {
	var parts []string
	for _, v := range vs {
		if s := word(v); !slices.Contains(parts, s) {
			parts = append(parts, s)
		}
	}
	return strings.Join(parts, parting)
}

// LabelParting stands between the words of one button in two languages.
const LabelParting = " / "

// TaskButtons are the four answers to a ping.
func TaskButtons(vs []Voice, key string) []store.Button {
	var out []store.Button
	for _, b := range []string{"done", "mine", "later", "skip"} {
		label := Each(vs, LabelParting, func(v Voice) string { return v.Say("b_" + b) })
		out = append(out, store.Button{Label: label, Do: "task|" + b + "|" + key})
	}
	return out
}

// barButtons are those to a ping about several bars: each is an answer for all of them.
func barButtons(vs []Voice, bars []rules.Task) []store.Button {
	keys := make([]string, len(bars))
	for i, t := range bars {
		keys[i] = t.Key
	}
	var out []store.Button
	for _, b := range []string{"done", "mine", "later", "skip"} {
		id := "b_" + b
		if b == "done" {
			id = "b_all_done"
		}
		label := Each(vs, LabelParting, func(v Voice) string { return v.Say(id) })
		out = append(out, store.Button{Label: label, Do: "tasks|" + b + "|" + strings.Join(keys, keySep)})
	}
	return out
}

// keySep stands between the keys of tasks under a button; no name can have it.
const keySep = "|"

// TasksOf are the keys of the tasks that a message is about, where it is about several.
func TasksOf(m store.Message) []string {
	for _, b := range m.Buttons {
		if rest, is := strings.CutPrefix(b.Do, "tasks|"); is {
			_, keys, _ := strings.Cut(rest, "|")
			return strings.Split(keys, keySep)
		}
	}
	return nil
}

// plainLabels are the buttons that say the same wherever they stand.
var plainLabels = []string{
	"b_done", "b_all_done", "b_mine", "b_take", "b_later", "b_skip", "b_log", "b_anyway", "b_second", "b_second_bar", "b_no", "b_none_left", "b_more", "b_swap", "b_undo", "b_undo_all",
}

// SameLabel reports whether words, folded, are a button's label: the whole of it,
// its part in one language, or what it is called in another.
func SameLabel(label, words string) bool {
	label = Fold(label)
	if label == words {
		return true
	}
	parts := strings.Split(label, LabelParting)
	if len(parts) > 1 && slices.Contains(parts, words) {
		return true
	}
	for _, id := range plainLabels {
		said, meant := false, false
		for _, l := range Languages {
			name := Fold(In(l, rules.DefaultSettings(), time.Time{}).Say(id))
			said, meant = said || name == words, meant || slices.Contains(parts, name)
		}
		if said && meant {
			return true
		}
	}
	return false
}

// Units counts as chats do.
func Units(s string) (n int) {
	for _, r := range Bare(s) {
		n += utf16.RuneLen(r)
	}
	return n
}

func Button(label, do string) store.Button { return store.Button{Label: label, Do: do} }
