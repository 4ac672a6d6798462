package reading

import (
	"io/fs"
	"slices"
	"strings"

	"yardbell/rules"
)

// need is one condition of a licence: a concept, maybe in a form, or a slot.
type need struct {
	concept concept
	form    form
	slot    string
}

// licence is evidence for a step.
type licence struct {
	weight float64 // 1 strong, 0.5 spoken of, 0.4 in a reply
	reply  bool    // counts in a reply alone
	open   bool    // counts where the step is open alone
	told   bool    // counts where it is said to the bot
	needs  []need
	line   int
}

// frame is what is known of a step.
type frame struct {
	step     rules.Step
	unbuilt  bool                // the log has no line for it yet
	replies  map[rules.Step]bool // pings of other steps that it may answer
	slots    map[string]bool
	nouns    map[concept]bool           // what its count may count
	about    map[concept]bool           // what alone makes a question one of this step
	states   map[concept]rules.NucState // nuc: what a word tells of it
	licences []licence
	words    map[concept]bool // concepts of its licences
}

// frames are all steps, and the classes of concepts that the rules of judgement use.
type frames struct {
	list    []*frame
	byStep  map[rules.Step]int
	closed  map[concept]bool
	trade   map[concept]bool
	strong  map[concept]bool
	unit    map[concept]bool
	modal   map[concept]bool
	carries map[concept]bool
	free    map[concept]bool
	noun    map[concept]bool
	hard    map[concept]bool
	note    map[concept]bool
	deed    map[concept]bool
	works   map[concept]bool
	vague   map[concept]bool
}

// slotNeeds are the entities that a slot in a licence asks for.
var slotNeeds = map[string][]entityKind{
	"count":   {eNumber, eRatio, eAll, eNone, eAllBut, eBars, eHalf},
	"ratio":   {eRatio},
	"breeder": {eBreeder, eNumber},
	"builder": {eBuilder, eBuilders},
	"yard":    {eYard, eYards},
	"nucs":    {eNucs},
	"batch":   {eBatch},
	"mark":    {ePin},
	"litres":  {eLitres},
	"lost":    {eLost},
	"dead":    {eLostCells},
	"temp":    {eTemp},
	"gone":    {eGone},

	"customer": {eCustomer},
	"buyer":    {eBuyer, eCustomer},
	"tags":     {eTags},
}

// slotNames are the slots that a frame may take.
var slotNames = map[string]bool{"count": true, "of": true, "all": true, "batch": true, "breeder": true, "builder": true, "yard": true, "mark": true, "bees": true,
	"age": true, "litres": true, "each": true, "honey": true, "none": true, "release": true, "when": true,
	"customer": true, "tags": true}

// load reads frames.txt.
func (f *frames) load(fsys fs.FS, file string, lex *lexicon) error {
	classes := map[string]*map[concept]bool{"closed": &f.closed, "trade": &f.trade, "strong": &f.strong, "unit": &f.unit, "modal": &f.modal, "carries": &f.carries, "free": &f.free, "noun": &f.noun, "hard": &f.hard, "deed": &f.deed, "works": &f.works, "vague": &f.vague, "typed": &f.note}
	for _, c := range classes {
		*c = map[concept]bool{}
	}
	f.byStep = map[rules.Step]int{}
	var cur *frame
	return eachLine(fsys, file, func(n int, line string) error {
		words := strings.Fields(line)
		named := func(w string) (concept, error) {
			if _, ok := lex.concepts[w]; !ok {
				return 0, fault(file, n, "no lexicon has a word of %q", w)
			}
			return lex.concept(w), nil
		}
		switch words[0] {
		case "class":
			name, rest, ok := strings.Cut(strings.TrimPrefix(line, "class "), ":")
			set := classes[name]
			if !ok || set == nil {
				return fault(file, n, "no class is called %q", name)
			}
			for _, w := range strings.Fields(rest) {
				c, err := named(w)
				if err != nil {
					return err
				}
				(*set)[c] = true
			}
			return nil
		case "step", "unbuilt":
			if len(words) != 2 {
				return fault(file, n, "want %s NAME", words[0])
			}
			cur = &frame{step: rules.Step(words[1]), unbuilt: words[0] == "unbuilt", slots: map[string]bool{}, replies: map[rules.Step]bool{}, nouns: map[concept]bool{}, about: map[concept]bool{}, states: map[concept]rules.NucState{}, words: map[concept]bool{}}
			f.byStep[cur.step] = len(f.list)
			f.list = append(f.list, cur)
			return nil
		}
		if cur == nil {
			return fault(file, n, "%q stands before any step", line)
		}
		switch words[0] {
		case "slots":
			for _, w := range words[1:] {
				if !slotNames[w] {
					return fault(file, n, "no slot is called %q", w)
				}
				cur.slots[w] = true
			}
		case "replies":
			for _, w := range words[1:] {
				cur.replies[rules.Step(w)] = true
			}
		case "nouns", "about":
			set := map[string]map[concept]bool{"nouns": cur.nouns, "about": cur.about}[words[0]]
			for _, w := range words[1:] {
				c, err := named(w)
				if err != nil {
					return err
				}
				set[c] = true
			}
		case "state":
			if len(words) != 3 || !slices.Contains(rules.NucStates, rules.NucState(words[1])) {
				return fault(file, n, "want state NAME CONCEPT, and NAME a state of nucs")
			}
			c, err := named(words[2])
			if err != nil {
				return err
			}
			cur.states[c], cur.words[c] = rules.NucState(words[1]), true
		case "log", "ask", "reply", "open", "called":
			l := licence{weight: map[string]float64{"log": 1, "ask": 0.5, "reply": 0.8, "open": 1, "called": 1}[words[0]], reply: words[0] == "reply", open: words[0] == "open", told: words[0] == "called", line: n}
			for _, w := range words[1:] {
				if slotNeeds[w] != nil {
					l.needs = append(l.needs, need{slot: w})
					continue
				}
				name, fname, has := strings.Cut(w, ".")
				c, err := named(name)
				if err != nil {
					return err
				}
				fm, known := formNames[fname]
				if has && !known {
					return fault(file, n, "no form is called %q", fname)
				}
				l.needs = append(l.needs, need{concept: c, form: fm})
				cur.words[c] = true
			}
			if len(l.needs) == 0 {
				return fault(file, n, "a licence needs something")
			}
			cur.licences = append(cur.licences, l)
		default:
			return fault(file, n, "want slots, nouns, state, log, ask, reply or open, not %q", words[0])
		}
		return nil
	})
}

// evidence is what licenses steps in a run of items.
type evidence struct {
	weight map[rules.Step]float64
	exact  map[rules.Step]bool // no word of it was read through a slip
}

// licences finds the steps that the items speak of, and how plainly.
func (r *Reader) licences(items []item, known *Known) evidence {
	ev := evidence{weight: map[rules.Step]float64{}, exact: map[rules.Step]bool{}}
	type use struct {
		forms [formInfinitive + 1]bool
		any   bool
		slip  bool
		clean bool
	}
	seen := map[concept]*use{}
	kinds := map[entityKind]bool{}
	var lost []rules.Step
	breeder := false // a bare number is one of the crew's breeders
	for i := range items {
		it := &items[i]
		if it.entity != nil {
			if it.entity.kind == eNumber {
				kinds[eNumber] = true
				breeder = breeder || known.isBreeder(it.entity.n)
				continue
			}
			kinds[it.entity.kind] = true
			kinds[eAll] = kinds[eAll] || it.entity.whole && it.entity.kind != eLost
			kinds[eLostCells] = kinds[eLostCells] || it.entity.kind == eLost && it.entity.named
			if it.entity.kind == eNone {
				seen[r.c.nothing] = &use{any: true, clean: true}
				seen[r.c.nothing].forms[anyForm] = true
			}
			if it.entity.kind == eLost && it.entity.name != "" {
				lost = append(lost, rules.Step(it.entity.name))
			}
			continue
		}
		for _, s := range it.senses {
			u := seen[s.concept]
			if u == nil {
				u = &use{}
				seen[s.concept] = u
			}
			u.any = true
			u.forms[s.form] = true
			if it.slip {
				u.slip = true
			} else {
				u.clean = true
			}
		}
	}
	for _, f := range r.frames.list {
		for _, lic := range f.licences {
			w, exact := lic.weight, true
			if lic.reply && !(known.Reply != nil && known.Reply.Task && (known.Reply.Step == f.step || f.replies[known.Reply.Step])) || lic.open && !known.expects(f.step) && !known.expectsAny(f.replies) || lic.told && (!known.Addressed || known.Reply != nil) {
				continue
			}
			ok := true
			for _, n := range lic.needs {
				if n.slot != "" {
					has := false
					for _, k := range slotNeeds[n.slot] {
						has = has || kinds[k] && (k != eNumber || n.slot != "breeder" || breeder)
					}
					if !has {
						ok = false
						break
					}
					continue
				}
				u := seen[n.concept]
				if u == nil || n.form != anyForm && !u.forms[n.form] {
					ok = false
					break
				}
				if n.form == anyForm && !u.forms[anyForm] && !u.forms[formDone] && !u.forms[formState] {
					w *= 0.5 // going on, ahead or in the present: it is not said to be done
				}
				exact = exact && u.clean
			}
			if !ok {
				continue
			}
			if !exact {
				w *= 0.8
			}
			if !exact && lic.reply {
				continue // a word that reports in a reply alone has to be it
			}
			w *= 1 + 0.01*float64(len(lic.needs))
			if w > ev.weight[f.step] {
				ev.weight[f.step], ev.exact[f.step] = w, exact
			}
		}
	}
	if lostNucs(items) && ev.weight[rules.Nuc] < 1 {
		ev.weight[rules.Nuc], ev.exact[rules.Nuc] = 1.02, true
	}
	for _, s := range lost { // "3 didn't hatch" speaks of what hatched
		if ev.weight[s] < 1 {
			ev.weight[s], ev.exact[s] = 1, true
		}
	}
	return ev
}

// ofLosses finds the step that a word of loss speaks of: "didn't hatch" is of emergence,
// since a word of it alone reports that step.
func (r *Reader) ofLosses() {
	alone := map[concept]rules.Step{}
	for _, f := range r.frames.list {
		for _, lic := range f.licences {
			if len(lic.needs) == 1 && lic.needs[0].slot == "" && lic.weight == 1 && !lic.open && counted[f.step] {
				alone[lic.needs[0].concept] = f.step
			}
		}
	}
	for _, p := range r.lex.phrases {
		for i := range p.senses {
			s := &p.senses[i]
			if s.concept != r.c.deadWord && s.concept != r.c.lostWord || len(p.words) < 2 {
				continue
			}
			steps := map[rules.Step]bool{}
			for _, w := range p.words {
				if one := r.lex.single[w]; one != nil {
					for _, x := range one.senses {
						if st, ok := alone[x.concept]; ok && x.lang == s.lang {
							steps[st] = true
						}
					}
				}
			}
			if len(steps) == 1 {
				for st := range steps {
					s.value = string(st)
				}
			}
		}
	}
}
