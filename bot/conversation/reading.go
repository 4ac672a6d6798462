package conversation

import (
	"time"
	"yardbell/bot/planning"

	rdg "yardbell/bot/reading"
	"yardbell/rules"
)

// verb is what a message wants.
type verb string

const (
	noVerb      verb = ""
	doStep      verb = "step"   // log a step
	doDone      verb = "done"   // log the step the context names
	doMine      verb = "mine"   // take a task
	doLater     verb = "later"  // be told again
	doSkip      verb = "skip"   // let a task go
	doAssign    verb = "assign" // give a task to somebody
	doAway      verb = "away"   // days off
	doRemind    verb = "remind" // a reminder of the crew's own
	doUndo      verb = "undo"   // take the last line back
	doFix       verb = "fix"    // correct a count
	doAdd       verb = "add"    // add to the yard list
	doSet       verb = "set"    // change a setting
	askDue      verb = "due"    // what is open
	askShow     verb = "show"   // one batch, breeder, builder or yard
	askWhy      verb = "why"    // the reasoning
	askHelp     verb = "help"   //
	justCount   verb = "count"  // a bare number, an answer at most
	sayYes      verb = "yes"    // an answer at most
	sayNo       verb = "no"     //
	askPlan     verb = "plan"   // how an order could be filled
	doOrder     verb = "order"  // the same, to be accepted
	doCancel    verb = "cancel" // call an order off
	askOrders   verb = "orders" // all orders or one
	askYields   verb = "yields"
	askCapacity verb = "capacity"
	askWhatIf   verb = "what if"
	askFit      verb = "fit"
	askPicture  verb = "week"   //
	askReport   verb = "report" // the records of a year
	askCal      verb = "calendar"
	askPhotos   verb = "photos"
	askRound    verb = "round"   // what was grafted on one day
	askCells    verb = "cells"   // where cells are
	askNucs     verb = "nucs"    // which stand free, may be opened, are left alone: the topic
	askLog      verb = "recent"  // the newest lines
	doForget    verb = "forget"  // a customer
	notYet      verb = "not yet" // what the log has no line for yet: the topic
)

// when is a time as it was said; it is settled against the clock and the crew's
// hours later.
type when struct {
	set     bool
	hasDay  bool
	back    int  // days back, where not hasDate
	weekday int  // 1..7 for Sunday..Saturday, 0 for none
	date    bool // an explicit date
	year    int
	month   int
	day     int
	clock   rules.Clock
	hasTime bool
	half    bool // am or pm was said, or a 24-hour form that leaves no doubt
	ago     time.Duration
	isAgo   bool
	part    string // the part of the day that was said: morning, afternoon, evening, night
}

// planAsk is what a question about the weeks ahead names beside its subject.
type planAsk struct {
	unit   rules.Unit
	day    when // by which day, or for a step on which day
	order  int
	chance int // the chance asked for, in percent, 0 where none was
	shift  rules.Shift
	shifts bool      // "a day later", and not a time of its own
	person string    // whose yields
	by     rules.Dim // yields side by side
}

// sure is the chance with which an order is to be filled.
func (p planAsk) sure() float64 {
	if p.chance == 0 {
		return planning.PlanConfidence
	}
	return min(max(float64(p.chance)/100, 0.01), 0.99)
}

// reading is one message read.
type reading struct {
	concluded bool // the batch was not named but the only one
	verb      verb
	step      rules.Step
	breeder   int
	batch     int
	builder   string
	yard      string
	mark      string
	count     *int
	of        *int
	all       bool // "all", "every one"
	when      when
	bees      *bool
	noEggs    bool
	release   bool
	ageLo     *float64
	ageHi     *float64
	span      time.Duration // later
	reason    string        // skip, retire
	nuc       rules.NucState
	labels    []string  // numbers of single nucs
	key       string    // set
	value     string    // set
	typed     string    // set: the value as it was typed
	old       *int      // fix: the count it was
	day       *rdg.When // round: which, nil for the newest
	days      int       // due: how many days, 0 for today's list
	dueDay    when      // due: from which day
	topic     string    // help
	plan      planAsk   // what a question about the weeks ahead names
	litres    float64   // feed
	each      bool      // to each nuc
	honey     bool      // feed: of honey
	several   bool      // feed: of several hives, which are not named
	whose     string    // undo: the member whose line it is; assign, away: who
	weekdays  []int     // away: 1 Monday to 7 Sunday
	through   bool      // away: until the day, or from the first to the last
	rest      []string  // words nothing was made of

	buyer    string // hand, lose: who got the queens, by name as it was typed
	customer int    // … by number, 0 where they are on no list
	tags     string // the numbers on queens
	back     bool   // hand: they came back
	ship     bool   // hand: by post or carrier
	caught   bool   // bank: they were caught in the same breath
	arrival  bool   // lose: dead when the customer got them
	stock    bool   // lose: of the queens caught

	incubator string   // its name, rdg.AnyIncubator where none was said
	out       string   // place: where the cells were
	degrees   *float64 // °C
	till      when     // temp: when it ended
	power     bool     // temp: the power was out
	singly    bool     // the cells are caged one by one
	both      *bool    // add: the builder starts and finishes
	rests     *bool    // add: the builder rests

	addressed bool // slash, name of the bot, or a reply to it
	hedged    bool
	lang      string // "en" or "es" where the words say so, else empty
	text      string
}

func (r *reading) subject() rules.Subject {
	switch {
	case r.batch != 0:
		return rules.BatchSubject(r.batch)
	case r.breeder != 0:
		return rules.BreederSubject(r.breeder)
	case r.builder != "":
		return rules.BuilderSubject(r.builder)
	case r.yard != "":
		return rules.YardSubject(r.yard)
	case r.incubator != "" && r.incubator != rdg.AnyIncubator:
		return rules.IncubatorSubject(r.incubator)
	}
	return rules.Subject{}
}

// names are the crew's own builders and yards.
type names struct {
	builders []string
	yards    []string
}
