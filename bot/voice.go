package bot

import (
	"strings"
	"sync"
	"time"
	"unicode/utf16"

	"github.com/nicksnyder/go-i18n/v2/i18n"

	"yardbell/rules"
	"yardbell/store"
)

var localizers sync.Map

// voice words things for one crew at one time in one language.
type voice struct {
	loc  *i18n.Localizer
	lang string
	s    *rules.Settings
	now  time.Time
	room int // UTF-16 units that a list may take
}

// mostUnits is how much a chat takes in one message, in UTF-16 units (the Bot API
// says 4096 characters and counts so). A list leaves some for what stands around it.
const (
	mostUnits = 4096
	listUnits = mostUnits - 196
)

// voiceIn speaks one language.
func voiceIn(lang string, s *rules.Settings, now time.Time) voice {
	l, ok := localizers.Load(lang)
	if !ok {
		l, _ = localizers.LoadOrStore(lang, i18n.NewLocalizer(bundle(), lang))
	}
	return voice{l.(*i18n.Localizer), lang, s, now, listUnits}
}

// newVoice speaks the crew's first language.
func newVoice(s *rules.Settings, now time.Time) voice { return voiceIn(s.Langs()[0], s, now) }

// voices are all languages of a crew, the first one first. What is said to the
// whole crew unasked is said in each.
func voices(s *rules.Settings, now time.Time) []voice {
	var out []voice
	langs := s.Langs()
	for _, l := range langs {
		v := voiceIn(l, s, now)
		v.room = listUnits / len(langs)
		out = append(out, v)
	}
	return out
}

// inEach words something in each language, parted by a blank line.
func inEach(vs []voice, word func(voice) string) string { return each(vs, "\n\n", word) }

// each words something in each language; what reads the same is said once.
func each(vs []voice, parting string, word func(voice) string) string {
	var parts []string
	for _, v := range vs {
		if s := word(v); !has(parts, s) {
			parts = append(parts, s)
		}
	}
	return strings.Join(parts, parting)
}

// labelParting stands between the words of one button in two languages.
const labelParting = " / "

// taskButtons are the four answers to a ping.
func taskButtons(vs []voice, key string) []store.Button {
	var out []store.Button
	for _, b := range []verb{doDone, doMine, doLater, doSkip} {
		label := each(vs, labelParting, func(v voice) string { return v.say("b_" + string(b)) })
		out = append(out, store.Button{Label: label, Do: "task|" + string(b) + "|" + key})
	}
	return out
}

// plainLabels are the buttons that say the same wherever they stand.
var plainLabels = []string{
	"b_done", "b_mine", "b_take", "b_later", "b_skip", "b_log", "b_anyway", "b_second", "b_no", "b_none_left", "b_more", "b_swap", "b_undo", "b_undo_all",
}

// sameLabel reports whether words, folded, are a button's label: the whole of it,
// its part in one language, or what it is called in another.
func sameLabel(label, words string) bool {
	label = fold(label)
	if label == words {
		return true
	}
	parts := strings.Split(label, labelParting)
	if len(parts) > 1 && has(parts, words) {
		return true
	}
	for _, id := range plainLabels {
		said, meant := false, false
		for _, l := range Languages {
			name := fold(voiceIn(l, rules.DefaultSettings(), time.Time{}).say(id))
			said, meant = said || name == words, meant || has(parts, name)
		}
		if said && meant {
			return true
		}
	}
	return false
}

// utf16Units counts as chats do.
func utf16Units(s string) (n int) {
	for _, r := range s {
		n += utf16.RuneLen(r)
	}
	return n
}

// speak settles the language of the answer: the sender's own, else the one the
// message is plainly written in, else the crew's first.
func (t *talk) speak(written string) {
	t.written = written
	lang := t.s.Langs()[0]
	switch own := t.s.Own[t.member.ID]; {
	case own != "":
		lang = own
	case has(Languages, written):
		lang = written
	}
	t.v = voiceIn(lang, t.s, t.tx.Now)
}

// mostPresses is how far back a press of a press is followed.
const mostPresses = 8

// writtenIn is the language of the text that a message of the bot answers, "" for
// what answers none.
func (t *talk) writtenIn(m store.Message) (string, error) {
	for range mostPresses {
		if m.Update == 0 {
			return "", nil
		}
		u, found, err := t.tx.UpdateRow(m.Update)
		if err != nil || !found {
			return "", err
		}
		if u.Kind != "press" {
			if len(splitSpace(u.Text)) == 1 {
				return "", nil
			}
			return understand().Language(u.Text, t.s.Lang), nil
		}
		if m, found, err = t.tx.SentIn(t.crew.ID, t.chat, u.Message); err != nil || !found {
			return "", err
		}
	}
	return "", nil
}
