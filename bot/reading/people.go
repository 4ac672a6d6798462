package reading

// betweenPeople reports whether a question is put to somebody of the crew and not to the
// bot: it calls somebody by name, says "you", or asks for something that is none of the
// bot's.
func (l *lattice) betweenPeople(items []item, q queried) bool {
	if l.calls(items) || l.meansAny(items, l.r.c.you) {
		return true
	}
	if q.named() || q.things {
		return false
	}
	for i := range items {
		it := &items[i]
		if it.unknown() && letters(it.text) && len(it.text) >= shortest && (l.r.lex.common[it.text] || i > 0 && items[i-1].word() && (items[i-1].means(l.r.c.the) || l.isNoun(&items[i-1]))) {
			return true
		}
	}
	return false
}

// talkPlain is the chance of talk from which a message that is not said to the bot, and is
// no plain report, is left alone.
const talkPlain = 0.98

// justTalk reports whether a message is plainly talk between people.
func (l *lattice) justTalk(k ranking) bool {
	return l.chance(k, classTalk) > talkPlain && !l.known.Addressed
}

// calls reports whether a message begins or ends with the name of somebody of the crew.
func (l *lattice) calls(items []item) bool {
	first, last := 0, len(items)-1
	for first < last && items[first].bound {
		first++
	}
	for last > first && items[last].bound {
		last--
	}
	if first > last {
		return false
	}
	return items[first].is(eMember) || items[last].is(eMember)
}

// byMember reports whether each name of somebody of the crew says who did what is plainly
// told as done, or whom it is thanked for: "Rowan and I moved 34", "36 accepted, thanks Rowan".
func (d *draft) byMember() bool {
	l := d.l
	if len(d.evs) == 0 || d.evs[0].verbless {
		return false
	}
	verb := 1 << 30
	for i := range d.items {
		it := &d.items[i]
		if it.word() && ofTrade(it, &l.r.frames) && l.isDone(it) {
			verb = min(verb, i)
		}
	}
	for i := range d.items {
		if !d.items[i].is(eMember) {
			continue
		}
		thanked := false
		for k := i - 1; k >= 0 && !d.items[k].bound; k-- {
			thanked = thanked || d.items[k].means(l.r.c.greet)
		}
		if !thanked && (i > verb || i+1 < len(d.items) && d.items[i+1].bound) {
			return false
		}
	}
	return true
}

// isDone reports whether a word tells of something that was done.
func (l *lattice) isDone(it *item) bool {
	for _, s := range it.senses {
		if s.form == formDone && l.r.frames.strong[s.concept] {
			return true
		}
	}
	return false
}
