package reading

// This file reads that the sender's last line is taken back, with words beside it that say
// why: "nope scratch that one", "please take that last one away, it was another yard".

// takeBack reads a message that opens by taking back the sender's fresh last line. A number
// or a place beside it may be what is right, so that it is no plain taking back.
func (l *lattice) takeBack(items []item, k ranking, m mood) (Result, bool) {
	last := l.known.Last
	if last == nil || last.Since > freshFor || l.known.Reply != nil && l.known.Reply.Task || m.question || m.hearsay {
		return Result{}, false
	}
	if hasAny(items, eNumber, eRatio, eBars, eAllBut, eLost, eYard, eBuilder, eBreeder, eBatch, ePin, eTime, eSpan, eMember) || k.speaksOfBuilt(l) {
		return Result{}, false
	}
	c := l.r.c
	if items[0].means(c.neg) && items[0].means(c.aux) || m.neg && !l.meansAny(items, c.no) || l.meansAny(items, c.back) || l.meansAny(items, c.foreign) {
		return Result{}, false // "don't undo that"
	}
	for i := range items {
		it := &items[i]
		switch {
		case it.bound, it.means(c.no), it.means(c.please), it.means(c.greet), it.means(c.correct) && !it.means(c.void), it.means(c.ok), it.means(c.yes):
			continue
		case it.means(c.void):
			return Result{Outcome: Log, Acts: []Act{{Kind: Void}}}, true
		case it.means(c.voidVerb) && i+1 < len(items) && items[i+1].means(c.lastLine):
			return Result{Outcome: Log, Acts: []Act{{Kind: Void}}}, true
		}
		break
	}
	return Result{}, false
}

// takeBackBatch reads that a batch is to be taken out of the log: "delete batch 1", "lote 6
// no existe, bórralo". Whoever acts on it shows the line and asks.
func (l *lattice) takeBackBatch(items []item, m mood) (Result, bool) {
	c := l.r.c
	if m.question || m.hearsay || l.known.Reply != nil || items[0].means(c.neg) && items[0].means(c.aux) {
		return Result{}, false
	}
	if hasAny(items, eNumber, eRatio, eBars, eAllBut, eLost, eYard, eBuilder, eBreeder, ePin, eRest, eAll) || !l.meansAny(items, c.void) && !l.meansAny(items, c.voidVerb) {
		return Result{}, false
	}
	batch := 0
	for i := range items {
		if e := items[i].entity; items[i].is(eBatch) {
			if batch != 0 && batch != e.n {
				return Result{}, false
			}
			batch = e.n
		}
	}
	if batch == 0 {
		return Result{}, false
	}
	return Result{Outcome: Log, Acts: []Act{{Kind: Void, Batch: batch}}}, true
}
