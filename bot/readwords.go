package bot

// This file puts slips of the thumb right, and holds what the reader knows: a word that
// means something is no slip of another.

// slips puts slips of the thumb right, in words that mean nothing as they stand.
func (d *reader) slips() {
	own := d.ownWords()
	for i := range d.toks {
		t := &d.toks[i]
		d.looks++
		if t.isNum || t.firm || t.glossed || own[t.text] || d.known(t.text) {
			continue
		}
		w, ok := slip(t.text)
		if t.text == "form" && i+1 < len(d.toks) && d.toks[i+1].isNum {
			w, ok = "from", true // a word of its own, but not before a number
		}
		if !ok {
			w, ok = ownSlip(t.text, own)
		}
		if ok {
			d.r.typos = append(d.r.typos, t.orig)
			t.text = w
		}
	}
}

// ownSlip finds the name of the crew's own that was meant, where it is long enough
// to be told from another word.
func ownSlip(w string, own map[string]bool) (string, bool) {
	best := ""
	if len(w) < 4 || len(w) > longestWord+8 || realWords[w] {
		return "", false
	}
	for p := range own {
		if len(p) < 5 || !oneSlip(w, p) || w[0] != p[0] {
			continue
		}
		if best != "" {
			return "", false
		}
		best = p
	}
	return best, best != ""
}

// known reports whether a word means something to the reader.
func (d *reader) known(w string) bool { return vocabulary[w] }

var vocabulary = func() map[string]bool {
	m := map[string]bool{}
	for _, set := range []map[string]bool{fillers, strictFillers, negations, openers, chatter, hedges, comparing, notNow, marks, doneWords, thingWords, leads,
		stuffWords, measureWords, weAre, countedThings, hiveThings, plainKinds, determiners, subjectWords, breederWords, pinWords, hourWords, dayParts, otherWords} {
		for w := range set {
			m[w] = true
		}
	}
	for w := range stepWords {
		m[w] = true
	}
	for _, p := range stepPhrases {
		for w := range words(p.first + " " + p.then) {
			m[w] = true
		}
	}
	for _, set := range stepFillers {
		for w := range set {
			m[w] = true
		}
	}
	for w := range weekdays {
		m[w] = true
	}
	for w := range months {
		m[w] = true
	}
	for w := range numberWords {
		m[w] = true
	}
	return m
}()

// otherWords have a place in some form of words, but in no list.
var otherWords = words(`mine skip later undo help due week why yes no plan order set settings show add new log not all none everything rest remaining
	of from with without half quarter past noon midday o'clock am pm ago at old shook shaken age aged one hundred every other but except
	sorry correction meant make tomorrow yesterday open todo snooze remind report`)
