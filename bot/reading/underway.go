package reading

import "yardbell/rules"

// Doubts that whoever answers goes by.
const (
	DoubtAhead = "ahead" // the work lies ahead
	DoubtGoing = "going" // it is under way, or may be

	DoubtAlarm   = "alarm"          // a virgin may be out among cells
	DoubtHowMany = string(fHowMany) // rogue cells were found, and not counted
	DoubtUnbuilt = "unbuilt"        // the log has no line for it yet
)

// stage is how far the work is that a run of items speaks of.
type stage struct {
	done   bool // it is told as done
	going  bool // it is told in the present, or as going on
	either bool // a word is a present and a past alike: "alimentamos"
	now    bool // beside a word for now
}

// ahead reports whether the work is plainly not done yet: "ahorita muevo las 36".
func (s stage) ahead() bool { return s.going && s.now && !s.done }

// unsure reports whether it may not be done yet.
func (s stage) unsure() bool { return s.going || s.either && s.now }

// stageOf finds how far the work is. What is told as seen, such as "12 hatching", is a
// report whatever its tense; what somebody does is one once it is done.
func (l *lattice) stageOf(items []item) (s stage) {
	c := l.r.c
	already, past, weekday := false, false, false
	for i := range items {
		it := &items[i]
		switch {
		case l.begins(it, c.justDone):
			s.done = true
			continue
		case l.begins(it, c.now) || it.means(c.snooze):
			already = already || it.means(c.already)
			s.now = s.now || !it.means(c.already)
			continue
		case it.is(eTime) && it.entity.when.Weekday != 0:
			weekday = true
		}
		if !it.word() {
			continue
		}
		told, going, bare, seen, left := false, false, false, false, false
		for _, x := range it.senses {
			switch {
			case !l.r.frames.deed[x.concept]:
				seen = seen || l.r.frames.strong[x.concept] && x.form != formBare && x.form != anyForm
			case x.form == formPresent || x.form == formGoing:
				going, left = true, left || x.accent
			case x.form == formBare:
				bare = true
			case x.form == formDone || x.form == formState:
				told, left = true, left || x.accent && !l.toks[it.from].accent
			}
		}
		speaks := i > 0 && items[i-1].means(c.speaker)
		switch {
		case told && going:
			s.either, past = true, past || left
		case told:
			s.done = true
		case seen:
		case going, bare && speaks:
			s.going, past = true, past || left
		}
	}
	switch {
	case already && s.going && !past:
		s.now = true
	case weekday && past && !s.done:
		s.either, s.now = true, true // "el lunes armo 40": the last, or the next
	case already && past:
		s.either, s.now = true, true // "ya confino la 7": with its accent it was done
		s.going = false
	case s.now && past && !s.done:
		s.going = true // "ahorita confino la 7": beside "now" it is what is typed
	}
	return s
}

// begins reports whether an item begins with a phrase of a concept: what became a time
// has no senses of its own.
func (l *lattice) begins(it *item, x concept) bool {
	if it.entity == nil {
		return it.means(x)
	}
	if !it.is(eTime) || it.to <= it.from {
		return false
	}
	for _, e := range l.edges[it.from] {
		for _, s := range e.senses {
			if s.concept == x && it.from+e.n <= it.to {
				return true
			}
		}
	}
	return false
}

// tellAhead notes on what was said to the bot, and is not logged, that the work lies ahead,
// and of which step it is.
func (d *draft) tellAhead(res *Result) {
	if res.Outcome != Ask || !d.mood.plan || d.mood.question || d.mood.hearsay || d.mood.neg {
		return
	}
	if len(res.Acts) == 0 {
		best := 0.0
		var step rules.Step
		for _, f := range d.l.r.frames.list {
			w := d.rank.ev.weight[f.step]
			if p := d.l.known.Reply; w > 0 && p != nil && p.Step == f.step {
				w += 0.1
			}
			if w > best {
				best, step = w, f.step
			}
		}
		if step == "" {
			return
		}
		res.Acts = []Act{{Kind: Did, Step: step}}
	}
	res.Doubts = append(res.Doubts, DoubtAhead)
}

// empty reports whether a further clause names nothing, of work that nothing waits for: its
// word is left over, and asked about.
func (l *lattice) empty(e *event, step rules.Step) bool {
	for i := range e.items {
		if e.items[i].entity != nil && !e.items[i].is(eTime) {
			return false
		}
	}
	if !counted[step] {
		return ofBatch[step] && !l.awaits(step)
	}
	return ofBatch[step] && !l.known.expects(step)
}
