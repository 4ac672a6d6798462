package reading

// What one message may tell: more is a story, or nobody's message. Every event is weighed
// against the whole message, so that without a bound a long one would cost its square.
const (
	mostEvents = 24
	mostItems  = 400
)

// tooLong is what becomes of a message that is not read to its end: never logged, and never
// in silence where it speaks of the work.
func (l *lattice) tooLong(items []item) Result {
	res := Result{Outcome: Ignore, Doubts: []string{"long"}}
	d := &draft{l: l, items: items}
	switch {
	case l.known.Addressed || l.known.Reply != nil:
		res.Outcome = Ask
	case d.isStrong() && hasAny(items, eNumber, eRatio, eBars, eYard, eBuilder, eBatch, eBreeder):
		res.Outcome = Notice
	}
	if l.lang >= 0 {
		res.Language = l.r.lex.langs[l.lang]
	}
	return res
}
