package reading

import "yardbell/rules"

// nounOnly are the steps whose evidence may be a noun alone.
var nounOnly = map[rules.Step]bool{rules.Eggs: true, rules.Dearth: true, rules.Flow: true, rules.Drones: true, rules.Finish: true, rules.Rogue: true}

// outcome decides between asking, the sign and silence, once a message is not logged.
func (d *draft) outcome(addressed bool, talk float64, strong, entity, open, neg, serious bool, flags []doubt, danger, soft []string, offers [][]Act) Outcome {
	l := d.l
	notice := func(most float64) Outcome {
		if strong && entity && talk < most && !d.foreign() || d.touches(talk) || d.meant(open, talk) {
			return Notice
		}
		return Ignore
	}
	odd, howMany := false, false
	for _, f := range flags {
		odd = odd || f == fNoun
		howMany = howMany || f == fHowMany
	}
	switch {
	case addressed:
		return Ask
	case (!l.r.Built(d.acts[0].act.Step) || l.mayLose(d.acts[0].act) && len(danger)+len(soft) == 0) && (talk < askTalkMost || talk < askTalkTold && d.toldUnbuilt()) && !neg && (!d.mood.neg || hasAny(d.items, eLost)) && !d.foreign():
		return Ask
	case howMany && !neg && !d.foreign() && talk < askTalkOpen:
		return Ask
	case d.loneNumber() && l.known.Asked == nil:
		return Ignore // "echo 3", "34": of what, nobody says
	case neg:
		if strong && entity && talk < 0.5 && !d.foreign() {
			return Ask
		}
		if d.meant(open, talk) {
			return Notice
		}
		return Ignore
	case d.mood.hedge && open && hasAny(d.items, eNumber, eRatio, ePercent) && !d.foreign() && !odd:
		return Ask
	}
	most := askTalkMost
	if open && hasAny(d.items, eNumber, eRatio, eBars, eAllBut, eLost) {
		most = askTalkOpen
	}
	talkish := talk > most || odd && talk > 0.3 || d.foreign()
	small := 0
	for i := range d.items {
		if it := &d.items[i]; it.word() && l.onlyHarmless(it) {
			small++
		}
	}
	short := small < 2 && len(d.rank.ev.weight) > 0 && len(d.items) <= 3 && len(danger) == 0 && len(soft) == 0 && strong
	switch {
	case d.full:
		return Ask // a whole report, with something beside it
	case talkish && !short, l.justTalk(d.rank) && (len(danger) > 0 || d.acts[0].has(fNoCount)):
		return notice(0.97)
	case len(offers) == 0 && !serious && !strong:
		return notice(0.97)
	case len(d.rank.ev.weight) == 0 && !open && talk > 0.4:
		return Ignore
	}
	return Ask
}

// loneNumber reports whether a number that is not likely is all that a message names.
func (d *draft) loneNumber() bool {
	for i := range d.items {
		if it := &d.items[i]; it.entity != nil && !it.is(eNumber) {
			return false
		}
	}
	return len(d.evs) == 1 && d.evs[0].verbless && d.acts[0].has(fUnlikely) && len(d.rank.ev.weight) == 0
}

// meant reports whether a message that cannot be offered was plainly meant for the log all
// the same: a count of what is open, with a place, a batch or a builder of the crew's.
func (d *draft) meant(open bool, talk float64) bool {
	if !open || talk > askTalkMost || d.mood.held() || d.foreign() || !hasAny(d.items, eYard, eBuilder, eBatch) {
		return false
	}
	return hasAny(d.items, eNumber, eRatio, eAll, eAllBut, eBars, eHalf)
}

// shortCorrection is how many items a correction of no line of the sender's has at most that
// gets the sign: what is longer is a story.
const shortCorrection = 6

// touches reports whether a message may be about work though nothing of it was read: it
// names something of the crew's, with a word that nobody knows, of the trade or for done.
func (d *draft) touches(talk float64) bool {
	if talk > touchTalkMost || d.mood.held() || d.foreign() {
		return false
	}
	if d.l.meansAny(d.items, d.l.r.c.correct) && counts(d.items) && len(d.items) <= shortCorrection {
		return true // "hang on it was 37", of a line that somebody else wrote
	}
	if d.mood.neg || !hasAny(d.items, eBuilder, eBatch, eYard, eBreeder) {
		return false
	}
	if counts(d.items) {
		return true // "34 to North", where nothing waits for it
	}
	for i := range d.items {
		it := &d.items[i]
		if it.unknown() && len(it.text) > 2 || it.word() && (it.means(d.l.r.c.doneWord) || d.l.speaksTrade(d.items[i:i+1])) {
			return true
		}
	}
	return false
}

func (d *draft) isStrong() bool {
	for i := range d.items {
		for _, s := range d.items[i].senses {
			if d.l.r.frames.strong[s.concept] {
				return true
			}
		}
	}
	return false
}

func (d *draft) foreign() bool {
	items := d.items
	if d.plainly() {
		items = nil // "B1 clear and then we had lunch": what stands apart from the work
		for i := range d.evs {
			items = append(items, d.evs[i].items...)
		}
	}
	for i := range items {
		if items[i].means(d.l.r.c.foreign) && !d.l.isTrade(&items[i]) {
			return true
		}
	}
	return false
}
