package rules

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// Step names one piece of work of a round. The values are used as they stand
// in JSON, in steps.csv and in documentation.
type Step string

// The steps of a round, then the three kinds of logbook line that are not
// work on a batch: adding something to the yard list, and the honey flow.
const (
	Confine  Step = "confine"
	Eggs     Step = "eggs"
	CombOut  Step = "combout"
	Graft    Step = "graft"
	Accept   Step = "accept"
	Finish   Step = "finish"
	Capped   Step = "capped"
	HandsOff Step = "handsoff"
	Rogue    Step = "rogue"
	Nucs     Step = "nucs"
	Move     Step = "move"
	Emerge   Step = "emerge"
	Flights  Step = "flights"
	Laying   Step = "laying"
	Catch    Step = "catch"
	Recell   Step = "recell"
	Feed     Step = "feed"
	Drones   Step = "drones"

	Add    Step = "add"
	Dearth Step = "dearth"
	Flow   Step = "flow"

	// Ordered is the line about an order: accepted, or with the action Skip called off.
	Ordered Step = "order"

	// Virgin is a virgin seen among cells that are not in their nucs yet: an alarm.
	Virgin Step = "virgin"
	// Away is days on which a member is not there; Remind a reminder of the crew's own.
	Away   Step = "away"
	Remind Step = "remind"
	// Retire takes a breeder out of every plan; her lines stay.
	Retire Step = "retire"

	// Lose is cells, virgins or queens that are gone, at whatever stage the batch stands.
	Lose Step = "lose"
	// Placed is cells put into a builder or an incubator. It ends no deadline.
	Placed Step = "place"
	// Temp is a temperature of an incubator, or a time without power.
	Temp Step = "temp"
	// Queenless is a builder whose queen was taken out, Brood one that got brood or bees.
	Queenless Step = "queenless"
	Brood     Step = "brood"

	// What becomes of queens once they are caught: marked, put into a bank, given to a
	// customer (or taken back from one), given to a colony of the crew's own.
	Marked     Step = "mark"
	Banked     Step = "bank"
	Handed     Step = "hand"
	Introduced Step = "introduce"
)

// Steps lists the steps of a round in the order they are done.
var Steps = []Step{
	Drones, Confine, Eggs, CombOut, Graft, Accept, Finish, Capped, Rogue, HandsOff,
	Nucs, Move, Emerge, Flights, Laying, Catch, Recell, Feed,
}

// NeedsCount are the steps whose number the planning lives on.
var NeedsCount = map[Step]bool{
	Graft: true, Accept: true, Capped: true, Nucs: true, Move: true,
	Emerge: true, Laying: true, Catch: true,
}

// Weight says how much hangs on a step; it chooses the pings.
type Weight int

// Routine steps appear in the morning digest only; Important ones are pinged;
// Critical ones lose a batch when missed and may be allowed to break quiet hours.
const (
	Routine Weight = iota
	Important
	Critical
)

func (w Weight) String() string {
	return [...]string{"routine", "important", "critical"}[w]
}

// ParseWeight reads the word used in steps.csv.
func ParseWeight(s string) (Weight, error) {
	for w := Routine; w <= Critical; w++ {
		if w.String() == s {
			return w, nil
		}
	}
	return 0, fmt.Errorf("weight %q is not one of routine, important, critical", s)
}

// Kind is the kind of thing a logbook line is about.
type Kind string

// The kinds of subject. A crew-wide line (dearth, a setting) has no subject.
const (
	NoKind      Kind = ""
	BreederKind Kind = "breeder"
	BatchKind   Kind = "batch"
	BuilderKind Kind = "builder"
	YardKind    Kind = "yard"
	OrderKind   Kind = "order"
	// MemberKind is one of the crew, by the number that the store gave; ReminderKind a
	// reminder that the crew asked for, numbered from 1.
	MemberKind   Kind = "member"
	ReminderKind Kind = "reminder"

	IncubatorKind Kind = "incubator"
	StockKind     Kind = "stock"
)

// Subject names one breeder, batch, builder or yard of a crew.
type Subject struct {
	Kind Kind
	Key  string
}

// BreederSubject, BatchSubject, BuilderSubject and YardSubject spell the
// subjects so that no caller joins strings by hand.
func BreederSubject(n int) Subject { return Subject{BreederKind, strconv.Itoa(n)} }

// BatchSubject is batch n of the crew, numbered from 1 in the order grafted.
func BatchSubject(n int) Subject { return Subject{BatchKind, strconv.Itoa(n)} }

// BuilderSubject is the cell builder of that name.
func BuilderSubject(name string) Subject { return Subject{BuilderKind, name} }

// IncubatorSubject is the incubator of that name, mostly a number.
func IncubatorSubject(name string) Subject { return Subject{IncubatorKind, name} }

// StockSubject is the queens that are caught, of whichever batch.
func StockSubject() Subject { return Subject{StockKind, "queens"} }

// YardSubject is the mating yard of that name.
func YardSubject(name string) Subject { return Subject{YardKind, name} }

// MemberSubject is a member by the number that the store gave.
func MemberSubject(id int64) Subject { return Subject{MemberKind, strconv.FormatInt(id, 10)} }

// ReminderSubject is reminder n of the crew, numbered from 1.
func ReminderSubject(n int) Subject { return Subject{ReminderKind, strconv.Itoa(n)} }

// Zero reports whether the subject names nothing.
func (s Subject) Zero() bool { return s.Kind == NoKind }

// Number is the subject's number, 0 where it has a name instead.
func (s Subject) Number() int {
	n, _ := strconv.Atoi(s.Key)
	return n
}

func (s Subject) String() string {
	if s.Zero() {
		return ""
	}
	return string(s.Kind) + " " + s.Key
}

// ParseSubject is the inverse of String.
func ParseSubject(s string) Subject {
	kind, key, ok := strings.Cut(s, " ")
	if !ok {
		return Subject{}
	}
	return Subject{Kind(kind), key}
}

// Action is what a logbook entry does.
type Action string

// Did logs work done. Mine, Later and Skip are about a task that is open; Mine with a Whom
// gives it to that member, as if he had said it. Void
// takes an entry back, Amend replaces its values. Set changes a crew setting.
const (
	Did   Action = "did"
	Mine  Action = "mine"
	Later Action = "later"
	Skip  Action = "skip"
	Void  Action = "void"
	Amend Action = "amend"
	Set   Action = "set"
)

// Entry is one line of the logbook. Entries are appended and never changed; a
// Void or an Amend names the entry it is about in Ref.
type Entry struct {
	ID       int64
	Said     time.Time // when the message was written, UTC
	Happened time.Time // when the work was done, UTC
	By       string    // name of the crew member
	Whom     string    // name of the member it is about (mine, away): a name is never part of a detail, or it could not be forgotten
	Action   Action
	Step     Step
	Subject  Subject
	Count    *int
	Of       *int
	From     int    // breeder number, 0 for none
	Into     string // builder (graft, finish) or yard (nucs, move and after)
	Mark     string // colour or other mark of the comb's pin
	Detail   Detail
	Ref      int64 // the entry a Void or Amend is about
}

// Detail holds what only some steps need. It is stored as JSON; names are
// short because every entry carries it.
type Detail struct {
	BeesIn   *bool    `json:"bees,omitempty"`     // confine: bees shaken in beside her
	AgeLo    *float64 `json:"age_lo,omitempty"`   // graft: stated larval age, hours since hatch
	AgeHi    *float64 `json:"age_hi,omitempty"`   //
	NoEggs   bool     `json:"no_eggs,omitempty"`  // eggs: looked, none yet; combout: came out empty
	NoneYet  bool     `json:"none_yet,omitempty"` // emerge: looked while virgins may still come, none was out
	More     bool     `json:"more,omitempty"`     // emerge: looked while virgins may still come, and more than a few were not out
	Cause    string   `json:"cause,omitempty"`    // retire: CauseDied, lose: CauseDropped …, "" where none was said
	Out      string   `json:"out,omitempty"`      // place, move, a count of cells: the place they were in
	Part     bool     `json:"part,omitempty"`     // emerge, laying: a count of this yard alone
	State    NucState `json:"state,omitempty"`    // nuc: what is told of them
	Batch    int      `json:"batch,omitempty"`    // nuc: whose cells or queens were in them, 0 where it is nobody's
	Release  bool     `json:"release,omitempty"`  // combout: she was let go, rather than the comb taken
	C        *float64 `json:"c,omitempty"`        // temp: °C
	Power    bool     `json:"power,omitempty"`    // temp: the power was out
	Singly   bool     `json:"singly,omitempty"`   // add: cells in this incubator are caged one by one
	Both     *bool    `json:"both,omitempty"`     // add: this builder starts and finishes its cells
	Rests    *bool    `json:"rests,omitempty"`    // add: this builder rests
	All      bool     `json:"all,omitempty"`      // nothing is left to do for the rest of the batch; lose: all of it
	Occ      string   `json:"occ,omitempty"`      // which occurrence of a task a line answers
	Until    int64    `json:"until,omitempty"`    // later, remind, temp: UTC milliseconds
	Reason   string   `json:"reason,omitempty"`   // skip: why; remind: of what; in the crew's words
	Member   int64    `json:"member,omitempty"`   // mine: the number of whom it is given to
	Days     string   `json:"days,omitempty"`     // away: the days, 2031-05-02 2031-05-03
	Key      string   `json:"key,omitempty"`      // set: name of the setting
	Value    string   `json:"value,omitempty"`    // set: its value
	Comb     int64    `json:"comb,omitempty"`     // eggs, combout: the confinement it is about
	Accepted bool     `json:"accepted,omitempty"` // the crew was warned and said to log it anyway
	Customer int      `json:"customer,omitempty"` // hand, lose: who got the queens, by number; names are in no line
	Tags     string   `json:"tags,omitempty"`     // mark, hand, lose …: the numbers on the queens, "1-24", as Tags writes them
	Back     bool     `json:"back,omitempty"`     // hand: the customer gave them back
	Ship     bool     `json:"ship,omitempty"`     // hand: sent by post or carrier
	Litres   float64  `json:"litres,omitempty"`   // feed: how much syrup was given
	Each     bool     `json:"each,omitempty"`     // feed: to each nuc, not to the yard as a whole
	Plan     *Booking `json:"plan,omitempty"`     // order: what was accepted
}

// TaskState is where a task stands in the logbook. Whether its window is open
// yet depends on the clock and is worked out when asked.
type TaskState string

// Open tasks wait for somebody; Done and Skipped were answered; Passed tasks
// were overtaken by a later step or have nothing left to work on.
const (
	Open    TaskState = "open"
	Done    TaskState = "done"
	Skipped TaskState = "skipped"
	Passed  TaskState = "passed"
)

// Task is one piece of work with its window. Guard tasks (hands off, flights)
// are times to leave things alone: they pass by themselves and are not pinged.
type Task struct {
	Key       string // unique in the crew
	Subject   Subject
	Step      Step
	Occ       string // told apart by this where a subject has several of one step
	Earliest  time.Time
	Best      time.Time
	Latest    time.Time
	Ideal     time.Time // best time before it was fitted to working hours
	Weight    Weight
	Guard     bool
	State     TaskState
	ClaimedBy string
	Snoozed   time.Time // zero, or when the crew asked to be told again
	Reason    string    // "grafted", "confined" …: the fact it is counted from
	Anchor    time.Time // the instant it is counted from
	Batch     int       // 0, or the batch it belongs to
	Breeder   int
	Count     *int   // how many cells, queens or nucs
	From      string // where they are
	Into      string // where they go
	Mark      string
	Unfit     bool // no working time inside the window
	Stake     string
	Source    string
}

// NeedsComb reports whether it is a step of an order's planned round that has no
// comb yet. It stands in the lists of days to come and nowhere else: without a comb
// there is nothing to take out and no larva to graft, and once one is in, its own
// steps take the place of the planned ones.
func (t Task) NeedsComb() bool {
	return t.Reason == "planned" && (t.Step == CombOut || t.Step == Graft)
}

// TaskKey spells the key of a task.
func TaskKey(s Subject, step Step, occ string) string {
	k := s.String() + "/" + string(step)
	if occ != "" {
		k += "/" + occ
	}
	return k
}

// Phase says where a window stands at an instant.
type Phase string

// The phases of a window, in order.
const (
	Waiting Phase = "waiting"
	InTime  Phase = "open"
	Over    Phase = "over"
)

// Phase of the task's window at now.
func (t Task) Phase(now time.Time) Phase {
	switch {
	case now.Before(t.Earliest):
		return Waiting
	case now.Before(t.Latest):
		return InTime
	}
	return Over
}

// Hours turns a number of hours into a duration.
func Hours(h float64) time.Duration { return time.Duration(h * float64(time.Hour)) }

// Refusal is a fact or a wish that the crew has to settle: impossible, unknown
// or doubtful. It carries a code and figures; package bot has the sentence.
type Refusal struct {
	Code string
	Args map[string]any
	Ask  bool // the crew may say "log it anyway"
}

func (r *Refusal) Error() string { return r.Code }

func refuse(code string, kv ...any) *Refusal {
	r := &Refusal{Code: code, Args: map[string]any{}}
	for i := 0; i+1 < len(kv); i += 2 {
		r.Args[kv[i].(string)] = kv[i+1]
	}
	return r
}

func (r *Refusal) orConfirm() *Refusal { r.Ask = true; return r }
