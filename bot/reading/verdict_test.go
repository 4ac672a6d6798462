package reading

import (
	"strconv"
	"strings"

	"yardbell/rules"
)

// matches reports whether acts are what one of the alternatives asks for.
func matches(alts [][]want, acts []Act, k Known) bool {
	for _, ws := range alts {
		left := append([]Act{}, acts...)
		ok := true
		for _, w := range ws {
			found := -1
			for i, a := range left {
				if w.fits(a, k) {
					found = i
					break
				}
			}
			switch {
			case found >= 0:
				left = append(left[:found:found], left[found+1:]...)
			case !w.opt:
				ok = false
			}
		}
		if ok && len(left) == 0 {
			return true
		}
	}
	return false
}

func (w want) fits(a Act, k Known) bool {
	kind := string(a.Kind)
	step := string(a.Step)
	batch := a.Batch
	if a.Kind == Add {
		kind, step = "did", "add"
	}
	if a.Kind == Done && k.Reply != nil {
		kind, step, batch = "did", string(k.Reply.Step), k.Reply.Batch
		if a.Breeder == 0 {
			a.Breeder = k.Reply.Breeder
		}
		if a.Builder == "" {
			a.Builder = k.Reply.Builder
		}
		if w.count != nil && a.Count == nil {
			for _, o := range k.Open {
				if string(o.Step) == step && o.Batch == batch {
					a.Count = &o.Had
				}
			}
		}
	}
	if a.Kind == Done && k.Reply == nil {
		for _, o := range k.Open {
			if o.Ready {
				kind, step, batch = "did", string(o.Step), o.Batch
			}
		}
	}
	if kind != w.action || w.step != "" && step != "" && step != w.step {
		return false
	}
	if a.Kind == Amend || a.Kind == Void || a.Kind == Claim || a.Kind == Later || a.Kind == Skip {
		return w.count == nil || a.Count == nil || *a.Count == *w.count
	}
	if w.count != nil && (a.Count == nil || *a.Count != *w.count) {
		return false
	}
	if w.count == nil && a.Count != nil && !a.None && *a.Count != 0 && rules.Step(step) != rules.Nucs && rules.Step(step) != rules.Move && rules.Step(step) != rules.Recell && rules.Step(step) != rules.Rogue {
		return false
	}
	if w.mark != "" && !strings.EqualFold(w.mark, a.Mark) || w.from != "" && w.from != strconv.Itoa(a.Breeder) {
		return false
	}
	if w.into != "" && !strings.EqualFold(w.into, a.Yard) && !strings.EqualFold(w.into, a.Builder) {
		return false
	}
	switch kind, key, _ := strings.Cut(w.subject, " "); kind {
	case "breeder":
		return strconv.Itoa(a.Breeder) == key
	case "builder":
		return strings.EqualFold(a.Builder, key)
	case "yard":
		return strings.EqualFold(a.Yard, key)
	case "batch":
		if rules.Step(step) == rules.Graft || batch == 0 {
			return true
		}
		return strconv.Itoa(batch) == key
	}
	return true
}

// readySteps is how many tasks are open by now.
func readySteps(k Known) (n int) {
	for _, o := range k.Open {
		if o.Ready {
			n++
		}
	}
	return n
}

// verdict scores a result by its label alone, without the log: what the console's scorer
// finds is what counts, this is quick.
func verdict(l labelled, r Result) string {
	w := l.want[0][0]
	if r.Outcome == Log && len(r.Acts) == 1 {
		switch a := r.Acts[0]; {
		case a.Kind == Thanks:
			r = Result{Outcome: Ignore} // it wants no answer
		case a.Kind == Yes, a.Kind == No, a.Kind == Seen:
			r.Outcome = Ignore // they answer a question alone: else nothing is said
			if l.known.Reply != nil && l.known.Reply.Task {
				r.Outcome = Ask
			}
		case a.Kind == Done && l.known.Reply != nil && !l.known.Reply.Task && a.Count == nil:
			r = Result{Outcome: Ignore} // the line that is replied to was seen
		case a.Kind == Done && l.known.Reply == nil && readySteps(l.known) != 1:
			r.Outcome = Ask // of what is open, the handler asks which
		}
	}
	logs := r.Outcome == Log
	entries := 0
	for _, a := range r.Acts {
		switch a.Kind {
		case Query, Seen, Order, Plan, WhatIf, Fit, Yes, No, Thanks:
		case Set:
			if w.action != "set" && w.action != "answer" {
				entries++
			}
		default:
			entries++
		}
	}
	says := r.Outcome == Log || r.Outcome == Ask
	switch w.action {
	case "silent":
		switch {
		case logs && entries > 0:
			return "wrong"
		case says:
			return "spoke"
		case r.Outcome == Notice:
			return "noticed"
		}
		return "right"
	case "nolog", "nodid":
		if logs && entries > 0 && (w.action == "nolog" || r.Acts[0].Kind == Did || r.Acts[0].Kind == Done) {
			return "wrong"
		}
		return "right"
	case "noeggs":
		for _, a := range r.Acts {
			if logs && a.Kind == Did && !(a.Step == rules.Eggs && a.None) {
				return "wrong"
			}
		}
		return "right"
	case "ask":
		switch {
		case logs && entries > 0:
			return "maybe" // the log may refuse it
		case says:
			return "right"
		case r.Outcome == Notice:
			return "noticed"
		}
		return "silent"
	case "answer", "order", "set":
		switch {
		case logs && entries > 0:
			return "wrong"
		case logs:
			return "right"
		case says:
			return "asked"
		case r.Outcome == Notice:
			return "noticed"
		}
		return "silent"
	}
	switch {
	case logs && entries > 0:
		if matches(l.want, r.Acts, l.known) {
			return "right"
		}
		if w.unbuilt {
			return "wrong"
		}
		return "wrong"
	case w.unbuilt && r.Outcome != Ignore:
		return "right"
	case logs:
		return "asked"
	case r.Outcome == Ask:
		for _, o := range r.Others {
			if matches(l.want, o, l.known) {
				return "tap"
			}
		}
		if len(r.Others) > 0 {
			return "badtap"
		}
		return "asked"
	case r.Outcome == Notice:
		return "noticed"
	}
	return "silent"
}
