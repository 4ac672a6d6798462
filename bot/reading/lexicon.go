package reading

import (
	"bufio"
	"fmt"
	"io/fs"
	"sort"
	"strings"
)

// form is how a word of a concept is used: reported, bare, going on, ahead, a state, or
// in the present of who speaks, which is not done yet.
type form uint8

const (
	anyForm form = iota
	formDone
	formBare
	formGoing
	formPlan
	formState
	formPresent
	formAccented   // done, where the accent is typed; else the present
	formInfinitive // languages note with it what was done: "mover 34 a North"
)

var formNames = map[string]form{"done": formDone, "bare": formBare, "going": formGoing, "plan": formPlan, "state": formState, "present": formPresent, "accented": formAccented, "infinitive": formInfinitive}

// concept is the number of a concept's name.
type concept int16

// sense is one meaning of a phrase.
type sense struct {
	concept concept
	form    form
	lang    uint8
	value   string
	accent  bool // a past that is written with an accent, which people leave off
}

type phrase struct {
	words  []string
	senses []sense
}

// spelling is what a word that was typed otherwise stands for.
type spelling struct {
	words []string
	lang  uint8
}

// lexicon holds the phrases of all languages.
type lexicon struct {
	langs    []string
	concepts map[string]concept
	names    []string
	byFirst  map[string][]*phrase // longest first
	words    map[string]uint8     // every word of a phrase: the languages it is in, a bit each
	single   map[string]*phrase
	phrases  map[string]*phrase    // by all their words
	same     map[string][]spelling // what is typed: what stands for it
	common   map[string]bool       // words of daily life that a slip must not turn into one of the trade
	slips    *slips
	endings  []ending
	causes   []causePhrase

	commandPhrases map[string][]*phrase // that commands alone know: lines "command CONCEPT: …"
	commandSingle  map[string]*phrase
}

// ending is how the end of a word is left off in speech: "mornin".
type ending struct{ short, full string }

func newLexicon() *lexicon {
	return &lexicon{concepts: map[string]concept{}, byFirst: map[string][]*phrase{}, words: make(map[string]uint8, 1<<15), single: map[string]*phrase{}, phrases: make(map[string]*phrase, 1<<16), same: map[string][]spelling{}, common: map[string]bool{},
		commandPhrases: map[string][]*phrase{}, commandSingle: map[string]*phrase{}}
}

func (l *lexicon) concept(name string) concept {
	c, ok := l.concepts[name]
	if !ok {
		c = concept(len(l.names))
		l.concepts[name] = c
		l.names = append(l.names, name)
	}
	return c
}

// fault is what is wrong with a file of data, and where.
func fault(file string, line int, format string, a ...any) error {
	return fmt.Errorf("%s:%d: %s", file, line, fmt.Sprintf(format, a...))
}

// eachLine calls f with every line of a file that says something.
func eachLine(fsys fs.FS, file string, f func(n int, line string) error) error {
	r, err := fsys.Open(file)
	if err != nil {
		return err
	}
	defer func() { _ = r.Close() }()
	s := bufio.NewScanner(r)
	s.Buffer(nil, 1<<20)
	for n := 1; s.Scan(); n++ {
		line := strings.TrimSpace(s.Text())
		if line == "" || strings.HasPrefix(line, "# ") || line == "#" {
			continue
		}
		if err := f(n, line); err != nil {
			return err
		}
	}
	return s.Err()
}

// phraseWords cuts a phrase of the data into the tokens that a message would have.
func phraseWords(s string) []string {
	var out []string
	for _, t := range tokenize(s) {
		out = append(out, t.text)
	}
	return out
}

// language is the number of a language, a new one where it is not known yet.
func (l *lexicon) language(name string) uint8 {
	for i, n := range l.langs {
		if n == name {
			return uint8(i)
		}
	}
	l.langs = append(l.langs, name)
	return uint8(len(l.langs) - 1)
}

type paradigm map[form][]string

// load reads one language.
func (l *lexicon) load(fsys fs.FS, file string) error {
	lang := uint8(0)
	named := false
	paradigms := map[string]paradigm{}
	return eachLine(fsys, file, func(n int, line string) error {
		head, rest, ok := strings.Cut(line, ":")
		if name, isLang := strings.CutPrefix(line, "language "); isLang {
			lang, named = l.language(strings.TrimSpace(name)), true
			return nil
		}
		if !named {
			return fault(file, n, "the first line is language NAME")
		}
		if strings.HasPrefix(head, "same \"") || strings.HasPrefix(line, ":") {
			ok = ok && strings.Count(head, "\"") == 2
		}
		if !ok {
			return fault(file, n, "no colon in %q", line)
		}
		words := strings.Fields(head)
		if len(words) == 0 {
			return fault(file, n, "no concept in %q", line)
		}
		switch words[0] {
		case "ending":
			if len(words) != 2 {
				return fault(file, n, "want ending FULL: SHORT")
			}
			for _, p := range strings.Split(rest, "|") {
				l.endings = append(l.endings, ending{short: fold(strings.TrimSpace(p)), full: fold(words[1])})
			}
			return nil
		case "cause":
			if len(words) != 2 {
				return fault(file, n, "want cause NAME: phrases")
			}
			for _, p := range strings.Split(rest, "|") {
				if w := phraseWords(p); len(w) > 0 {
					l.causes = append(l.causes, causePhrase{w, words[1]})
				}
			}
			return nil
		case "same":
			for _, p := range strings.Split(rest, "|") {
				w := fold(strings.Join(strings.Fields(p), " "))
				if w == "" {
					continue
				}
				l.same[w] = append(l.same[w], spelling{phraseWords(strings.ReplaceAll(strings.TrimPrefix(head, "same "), "\"", "")), lang})
			}
			return nil
		case "paradigm":
			if len(words) != 3 {
				return fault(file, n, "want paradigm NAME FORM: endings")
			}
			f, known := formNames[words[2]]
			if !known {
				return fault(file, n, "no form is called %q", words[2])
			}
			if paradigms[words[1]] == nil {
				paradigms[words[1]] = paradigm{}
			}
			paradigms[words[1]][f] = append(paradigms[words[1]][f], strings.Fields(rest)...)
			return nil
		}
		if len(words) == 3 && words[1] == "verb" {
			p, known := paradigms[words[2]]
			if !known {
				return fault(file, n, "no paradigm is called %q", words[2])
			}
			return l.verb(lang, words[0], p, rest)
		}
		command := len(words) == 2 && words[0] == kindCommand
		if command {
			words = words[1:]
		}
		if len(words) != 1 {
			return fault(file, n, "%q is no concept", head)
		}
		name, value, _ := strings.Cut(words[0], "=")
		name, fname, _ := strings.Cut(name, ".")
		f, known := formNames[fname]
		if fname != "" && !known {
			return fault(file, n, "no form is called %q", fname)
		}
		if strings.ToUpper(name) != name {
			return fault(file, n, "a concept is written in capitals, %q is not", name)
		}
		for _, p := range strings.Split(rest, "|") {
			if w := phraseWords(p); len(w) > 0 && command {
				l.addCommand(w, sense{concept: l.concept(name), form: f, value: value, lang: lang})
			} else if len(w) > 0 {
				l.add(w, sense{concept: l.concept(name), form: f, value: value, lang: lang, accent: l.past(f, strings.TrimSpace(p))})
			}
		}
		return nil
	})
}

// verb adds all forms of verbs by their paradigm: stem, or stem/second stem.
func (l *lexicon) verb(lang uint8, name string, p paradigm, rest string) error {
	for _, v := range strings.Split(rest, "|") {
		stem, second, has := strings.Cut(strings.TrimSpace(v), "/")
		if !has {
			second = stem
		}
		if stem == "" {
			continue
		}
		for f, endings := range p {
			for _, e := range endings {
				w := stem + e
				if s, ok := strings.CutPrefix(e, "*"); ok {
					w = second + s
				}
				l.add(phraseWords(strings.TrimSuffix(w, "-")), sense{concept: l.concept(name), form: f, lang: lang, accent: l.past(f, w)})
			}
		}
	}
	return nil
}

// past reports whether a word of the data is a past with an accent on its last vowel.
func (l *lexicon) past(f form, w string) bool {
	return (f == formDone || f == formAccented) && accented(w) && !strings.Contains(w, " ")
}

func (l *lexicon) add(words []string, s sense) {
	for _, w := range words {
		l.words[w] |= 1 << s.lang
	}
	key := strings.Join(words, " ")
	if p := l.phrases[key]; p != nil {
		for _, have := range p.senses {
			if have == s {
				return
			}
		}
		p.senses = append(p.senses, s)
		return
	}
	p := &phrase{words: words, senses: []sense{s}}
	l.phrases[key] = p
	l.byFirst[words[0]] = append(l.byFirst[words[0]], p)
	if len(words) == 1 {
		l.single[words[0]] = p
	}
}

// addCommand adds a phrase that commands alone know, so that it changes nothing of what
// is made of other messages.
func (l *lexicon) addCommand(words []string, s sense) {
	for _, p := range l.commandPhrases[words[0]] {
		if strings.Join(p.words, " ") == strings.Join(words, " ") {
			p.senses = append(p.senses, s)
			return
		}
	}
	p := &phrase{words: words, senses: []sense{s}}
	l.commandPhrases[words[0]] = append(l.commandPhrases[words[0]], p)
	if len(words) == 1 {
		l.commandSingle[words[0]] = p
	}
}

// dropSwallowed takes out phrases such as "all hatched" that begin with a word of its own
// meaning and go on as a phrase of the same concept: the longer one would hide the "all".
func (l *lexicon) dropSwallowed() {
	all, ok := l.concepts["ALL"]
	if !ok {
		return
	}
	for first, list := range l.byFirst {
		one := l.single[first]
		if one == nil || !one.means(all) {
			continue
		}
		var keep []*phrase
		for _, p := range list {
			rest := l.phrases[strings.Join(p.words[1:], " ")]
			hidden := len(p.words) > 1 && rest != nil
			for _, s := range p.senses {
				hidden = hidden && s.concept != all && rest.means(s.concept)
			}
			if !hidden {
				keep = append(keep, p)
			}
		}
		l.byFirst[first] = keep
	}
}

// anyOf reports whether a phrase has a concept of a set.
func (p *phrase) anyOf(set map[concept]bool) bool {
	for _, s := range p.senses {
		if set[s.concept] {
			return true
		}
	}
	return false
}

func (p *phrase) means(c concept) bool {
	for _, s := range p.senses {
		if s.concept == c {
			return true
		}
	}
	return false
}

// settle puts the longest phrases first.
func (l *lexicon) settle() {
	l.dropSwallowed()
	for _, list := range l.byFirst {
		sort.SliceStable(list, func(i, k int) bool { return len(list[i].words) > len(list[k].words) })
		for _, p := range list {
			sort.SliceStable(p.senses, func(i, k int) bool {
				a, b := p.senses[i], p.senses[k]
				if a.concept != b.concept {
					return l.names[a.concept] < l.names[b.concept]
				}
				return a.form < b.form
			})
		}
	}
}
