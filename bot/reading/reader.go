// Package reading makes out what a message of a crew says. It is pure: the same text and
// the same situation give the same result. What it knows of languages and of the work
// stands in data/: lexicons, patterns of entities, frames of steps, learnt weights.
package reading

import (
	"embed"
	"fmt"
	"io/fs"
	"sort"
	"strings"

	"yardbell/rules"
)

//go:embed data
var embedded embed.FS

// Data is the data that the program is built with.
func Data() fs.FS {
	sub, err := fs.Sub(embedded, "data")
	if err != nil {
		panic(err) // the folder is embedded above
	}
	return sub
}

// Reader reads messages. It is safe for use by several goroutines.
type Reader struct {
	lex      *lexicon
	patterns []pattern
	frames   frames
	model    *model
	digits   []string         // the words for one to nine
	dynamic  map[concept]bool // concepts that no word has: numbers, names

	num, hour, hourMin, spokenMin, known, onComb, openBatch, clockC, ratioC, ownYard, ownBuilder, ownCustomer, newCustomer, member, end concept
	colour, pinWord, none, poss, weekday, day, month, digit, teen, tens, hundred, one, and, andTen, halfUnit, halfC, withHalf, dozen    concept
	c                                                                                                                                   usedConcepts
	groups                                                                                                                              map[string]*group // of patterns, by name
	cmd                                                                                                                                 commands

	rivals     *rivals
	slipPlaces []slipPlace
}

// usedConcepts are the concepts that the rules of reading go by.
type usedConcepts struct {
	neg, yet, plan, hearsay, hedge, habit, qword, aux, correct, only, approx                                                                          concept
	yes, ok, doneWord, claim, snooze, skip, void, help, greet, again, alone, handsOff, status                                                         concept
	noEggs, noRogue, rogue, kill, foundC, clear, nothing, release, comb, beesIn, noBees, cell                                                         concept
	foreign, lostWord, deadWord, lose, incubator, nuc, queen, harmless, each, honey                                                                   concept
	dueWord, whoWord, whenWord, howMany, freeWord, logWord, butConj, then, also, the, into                                                            concept
	noneTook, sum, more, less, whereWord, to, at, earlier, place, lastC, no, please, breederWord, back, in, check, ifC, justDone, already, letter     concept
	now, speaker, queenless, oneOut, virginOut, wants, skipWhy                                                                                        concept
	all, you, notIs, have, both, from, of, share, batchWord, builderWord, state, qtail, and, mated, laying                                            concept
	finisher, since, reason, out, put, but, graftN, larva, ordinal, exclaim, finish, toGo, remind, afterwards, voidVerb, lastLine, wasWrong, intoEach concept

	sold, handed, sent, returned, onArrival, markQ, tagWord, bank, shipped, inBank, banked, caught concept // of caught queens
	nucOne                                                                                         concept // of nucs
}

// Load reads the data in fsys: signs.lex and a lexicon for every language, entities.txt,
// frames.txt, common.txt and, where they are there, the learnt weights. What is wrong with
// a file is named by file and line.
func Load(fsys fs.FS) (*Reader, error) {
	r := &Reader{lex: newLexicon(), dynamic: map[concept]bool{}, groups: map[string]*group{}}
	for name, c := range map[string]*concept{"NUM": &r.num, "HOUR": &r.hour, "HOURMIN": &r.hourMin, "SPOKENMIN": &r.spokenMin, "KNOWN": &r.known, "ONCOMB": &r.onComb, "OPENBATCH": &r.openBatch, "CLOCK": &r.clockC, "RATIO": &r.ratioC,
		"OWNYARD": &r.ownYard, "OWNBUILDER": &r.ownBuilder, "OWNCUSTOMER": &r.ownCustomer, "NEWCUSTOMER": &r.newCustomer, "MEMBER": &r.member, "END": &r.end,
		"TYPED": &r.cmd.typed, "NAME": &r.cmd.name, "WORD": &r.cmd.word, "WORDS": &r.cmd.words, "PROPER": &r.cmd.proper, "FORMER": &r.cmd.former} {
		*c = r.lex.concept(name)
	}
	for i := range r.lex.names {
		r.dynamic[concept(i)] = true
	}
	files, err := fs.Glob(fsys, "*.lex")
	if err != nil {
		return nil, err
	}
	sort.Strings(files)
	if len(files) > 8 {
		return nil, fmt.Errorf("%d lexicons are more than 8", len(files))
	}
	for _, f := range files {
		if err := r.lex.load(fsys, f); err != nil {
			return nil, err
		}
	}
	r.lex.settle()
	for name, c := range map[string]*concept{"NONE": &r.none, "COLOUR": &r.colour, "PINWORD": &r.pinWord, "POSS": &r.poss, "WEEKDAY": &r.weekday, "DAY": &r.day, "MONTH": &r.month, "DIGIT": &r.digit, "TEEN": &r.teen, "TENS": &r.tens, "HUNDRED": &r.hundred, "ONE": &r.one, "AND": &r.and, "HALFUNIT": &r.halfUnit, "HALF": &r.halfC, "WITHHALF": &r.withHalf, "DOZEN": &r.dozen, "SUMWORD": &r.c.sum, "MORE": &r.c.more, "LESS": &r.c.less, "ANDTEN": &r.andTen,
		"NEG": &r.c.neg, "YET": &r.c.yet, "PLAN": &r.c.plan, "HEARSAY": &r.c.hearsay, "HEDGE": &r.c.hedge, "HABIT": &r.c.habit, "QWORD": &r.c.qword, "AUX": &r.c.aux,
		"CORRECT": &r.c.correct, "ONLY": &r.c.only, "APPROX": &r.c.approx, "YES": &r.c.yes, "OKWORD": &r.c.ok, "DONEWORD": &r.c.doneWord, "CLAIM": &r.c.claim, "SNOOZE": &r.c.snooze,
		"SKIP": &r.c.skip, "ALONE": &r.c.alone, "STATUSWORD": &r.c.status, "HANDSOFF": &r.c.handsOff, "VOID": &r.c.void, "HELPWORD": &r.c.help, "GREET": &r.c.greet, "AGAIN": &r.c.again, "NOEGGS": &r.c.noEggs, "NOROGUE": &r.c.noRogue, "ROGUE": &r.c.rogue,
		"KILL": &r.c.kill, "FOUND": &r.c.foundC, "CLEAR": &r.c.clear, "NOTHING": &r.c.nothing, "RELEASE": &r.c.release, "COMB": &r.c.comb, "BEESIN": &r.c.beesIn, "NOBEES": &r.c.noBees,
		"CELL": &r.c.cell, "FOREIGN": &r.c.foreign, "LOSTWORD": &r.c.lostWord, "DEADWORD": &r.c.deadWord, "LOSE": &r.c.lose, "INCUBATOR": &r.c.incubator, "NUC": &r.c.nuc, "QUEEN": &r.c.queen,
		"HARMLESS": &r.c.harmless, "EACH": &r.c.each, "INTOEACH": &r.c.intoEach, "HONEY": &r.c.honey, "DUEWORD": &r.c.dueWord, "WHOWORD": &r.c.whoWord, "WHENWORD": &r.c.whenWord, "HOWMANY": &r.c.howMany, "FREEWORD": &r.c.freeWord,
		"LOGWORD": &r.c.logWord, "BUTCONJ": &r.c.butConj, "THEN": &r.c.then, "ALSO": &r.c.also, "THE": &r.c.the, "INTO": &r.c.into, "LETTER": &r.c.letter, "NONETOOK": &r.c.noneTook, "EARLIER": &r.c.earlier, "TO": &r.c.to, "AT": &r.c.at, "IN": &r.c.in, "CHECK": &r.c.check, "IF": &r.c.ifC, "JUSTDONE": &r.c.justDone, "ALREADY": &r.c.already, "NOW": &r.c.now, "QUEENLESS": &r.c.queenless, "ONEOUT": &r.c.oneOut, "VIRGINOUT": &r.c.virginOut, "SPEAKER": &r.c.speaker, "PLACE": &r.c.place, "LAST": &r.c.lastC, "NO": &r.c.no, "PLEASE": &r.c.please, "BACK": &r.c.back, "BREEDERWORD": &r.c.breederWord, "WHEREWORD": &r.c.whereWord, "WANTS": &r.c.wants, "SKIPWHY": &r.c.skipWhy, "BOTNAME": &r.cmd.bot, "CUSTOMER": &r.cmd.customer, "POLITE": &r.cmd.polite} {
		*c = r.lex.concept(name)
	}
	for name, c := range map[string]*concept{"ALL": &r.c.all, "YOU": &r.c.you, "NOTIS": &r.c.notIs, "HAVE": &r.c.have, "BOTH": &r.c.both, "FROM": &r.c.from, "OF": &r.c.of, "SHAREWORD": &r.c.share, "BATCHWORD": &r.c.batchWord, "BUILDERWORD": &r.c.builderWord, "STATE": &r.c.state, "QTAIL": &r.c.qtail, "MATED": &r.c.mated, "LAYING": &r.c.laying, "AND": &r.c.and} {
		*c = r.lex.concept(name)
	}
	for name, c := range map[string]*concept{"NUCONE": &r.c.nucOne, "FINISHER": &r.c.finisher, "SINCE": &r.c.since, "REASON": &r.c.reason, "OUT": &r.c.out, "PUT": &r.c.put, "BUT": &r.c.but, "FINISH": &r.c.finish, "TOGO": &r.c.toGo, "GRAFTN": &r.c.graftN, "LARVA": &r.c.larva, "ORDINAL": &r.c.ordinal, "EXCLAIM": &r.c.exclaim, "REMIND": &r.c.remind, "AFTERWARDS": &r.c.afterwards, "VOIDVERB": &r.c.voidVerb, "LASTLINE": &r.c.lastLine, "WASWRONG": &r.c.wasWrong,
		"SOLD": &r.c.sold, "HANDED": &r.c.handed, "SENT": &r.c.sent, "RETURNED": &r.c.returned, "ONARRIVAL": &r.c.onArrival, "MARKQ": &r.c.markQ, "TAGWORD": &r.c.tagWord, "BANK": &r.c.bank, "SHIPPED": &r.c.shipped, "INBANK": &r.c.inBank, "BANKED": &r.c.banked, "CATCH": &r.c.caught} {
		*c = r.lex.concept(name)
	}
	if err := r.loadEntities(fsys, "entities.txt"); err != nil {
		return nil, err
	}
	for i := range r.patterns {
		p, heads := &r.patterns[i], map[concept]bool{}
		if r.heads(p.elems, heads) {
			p.heads = make([]uint64, len(r.lex.names)/64+1)
			for c := range heads {
				p.heads[c/64] |= 1 << (c % 64)
			}
		}
	}
	r.cmd.greet = r.c.greet
	if err := r.loadCommands(fsys, "commands.txt", r.groups); err != nil {
		return nil, err
	}
	if err := r.frames.load(fsys, "frames.txt", r.lex); err != nil {
		return nil, err
	}
	if err := r.loadSlipPlaces(fsys, "slips.txt"); err != nil {
		return nil, err
	}
	r.ofLosses()
	for w, p := range r.lex.single {
		if p.means(r.digit) {
			r.digits = append(r.digits, w)
		}
	}
	sort.Strings(r.digits)
	if err := eachLine(fsys, "common.txt", func(_ int, line string) error {
		r.lex.common[line] = true
		return nil
	}); err != nil {
		return nil, err
	}
	r.lex.slips = newSlips(r.lex, r.frames.closed, func(c concept) bool {
		return r.frames.trade[c] || r.frames.strong[c] || r.frames.carries[c]
	})
	if _, err := fs.Stat(fsys, weightsFile); err == nil {
		if r.model, err = loadModel(fsys, weightsFile, r.classes()); err != nil {
			return nil, err
		}
	}
	r.rivals = newRivals(r.lex, r.model)
	r.lex.slips.index = newNeighbours(r.rivals.words, r.lex.slips.words, r.lex.slips.others, r.lex.slips.near, r.cmd.slips.words)
	r.rivals.index, r.cmd.slips.index = r.lex.slips.index, r.lex.slips.index
	return r, nil
}

// Languages are the languages that have a lexicon.
func (r *Reader) Languages() []string {
	var out []string
	for _, l := range r.lex.langs {
		if l != neutral {
			out = append(out, l)
		}
	}
	return out
}

// Check reports what of an act its frame does not take.
func (r *Reader) Check(a Act) error {
	if a.Kind != Did {
		return nil
	}
	i, ok := r.frames.byStep[a.Step]
	if !ok {
		return fmt.Errorf("no frame is called %q", a.Step)
	}
	f := r.frames.list[i]
	var extra []string
	for slot, set := range map[string]bool{"count": a.Count != nil, "of": a.Of != nil, "all": a.All, "batch": a.Batch != 0, "breeder": a.Breeder != 0, "builder": a.Builder != "",
		"yard": a.Yard != "", "mark": a.Mark != "", "bees": a.Bees != nil, "age": a.AgeLo != nil || a.AgeHi != nil, "litres": a.Litres != 0, "each": a.Each, "honey": a.Honey, "none": a.None,
		"release": a.Release, "when": a.When != nil} {
		if set && !f.slots[slot] {
			extra = append(extra, slot)
		}
	}
	if len(extra) > 0 {
		sort.Strings(extra)
		return fmt.Errorf("%s takes no %s", a.Step, strings.Join(extra, ", "))
	}
	return nil
}

// Built reports whether the log has lines for a step.
func (r *Reader) Built(s rules.Step) bool {
	i, ok := r.frames.byStep[s]
	return ok && !r.frames.list[i].unbuilt
}

// StepOf is the step that a word or phrase speaks of by itself, empty for none.
func (r *Reader) StepOf(text string) rules.Step {
	l := r.newLattice(text, &Known{})
	var step rules.Step
	best := 0.0
	ev := r.licences(l.readings()[0], &Known{})
	for _, f := range r.frames.list {
		if w := ev.weight[f.step]; w > best {
			step, best = f.step, w
		}
	}
	return step
}

// Speaks reports whether a word has a meaning in reports, so that it is no name.
func (r *Reader) Speaks(word string) bool {
	p := r.lex.single[fold(word)]
	if p == nil {
		return false
	}
	for _, s := range p.senses {
		if s.concept != r.c.place && (r.frames.trade[s.concept] || r.frames.closed[s.concept] || r.frames.free[s.concept]) {
			return true
		}
	}
	return false
}
