package bot

import (
	"time"

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
	askLog      verb = "recent"  // the newest lines
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
	shift  rules.Shift
	shifts bool      // "a day later", and not a time of its own
	person string    // whose yields
	by     rules.Dim // yields side by side
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
	either    bool // one of several yards, as a ping shows them: "Creek/North"
	mark      string
	count     *int
	of        *int
	all       bool // "all", "every one"
	when      when
	bees      *bool
	noEggs    bool
	release   bool
	both      bool // of two batches, which are not named
	bare      bool // the deed is guessed from what was named
	ageLo     *float64
	ageHi     *float64
	span      time.Duration // later
	reason    string        // skip, retire
	key       string        // set
	value     string        // set
	typed     string        // set: the value as it was typed
	old       *int          // fix: the count it was
	days      int           // due: how many days, 0 for today's list
	dueDay    when          // due: from which day
	topic     string        // help
	plan      planAsk       // what a question about the weeks ahead names
	litres    float64       // feed
	each      bool          // to each nuc
	honey     bool          // feed: of honey
	several   bool          // feed: of several hives, which are not named
	whose     string        // undo: the member whose line it is
	typos     []string      // words that were corrected
	rest      []string      // words nothing was made of

	courtesy  bool // thanks and praise, and nothing else
	soft      verb // a correction in words that talk has as well: right after the line only
	addressed bool // slash, name of the bot, or a reply to it
	question  bool
	negated   bool
	hedged    bool
	guessed   bool   // a slip was read across languages, which is asked back
	going     bool   // the deed is told as one under way
	ahead     bool   // the deed itself is said to lie ahead
	digits    bool   // some number was typed
	among     bool   // she that hatched may be among cells
	found     bool   // rogue cells were found, and their number was not read
	headed    bool   // only the first piece was read: a whole report, with talk behind it
	lang      string // "en" or "es" where the words say so, else empty
	text      string
}

// clear reports whether every word was understood and nothing casts doubt.
func (r *reading) clear() bool {
	return len(r.rest) == 0 && !r.question && !r.negated && !r.hedged
}

// firm reports whether so much of a report was read that words nothing was made of are
// worth a question.
func (r *reading) firm() bool {
	return r.digits || r.headed || r.step == rules.Virgin || r.among || !r.subject().Zero() && r.yard == "" && len(r.rest) < 3
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
	}
	return rules.Subject{}
}

// names is what the reader is told beside the text: the crew's own names, which a
// message may use without saying what they are, and whether the bot is spoken to.
type names struct {
	builders  []string
	yards     []string
	breeders  []int
	crew      []string   // the members
	langs     []string   // the languages of the crew and of who writes; none: any
	stand     []int      // what the open batches stand at, their newest count and the one before
	hang      bool       // cells hang that a virgin may be among
	hatching  []int      // how many cells were moved of the batches whose virgins are due and not counted
	spoken    bool       // the message replies to the bot, so that a bare word is meant for it
	counts    bool       // it is a piece of a message in which cells or queens are counted
	accounted bool       // a piece of a message in which what was lost adds up
	ping      rules.Step // of the ping it replies to
}
