package reading

import (
	"encoding/json"
	"time"

	"yardbell/rules"
)

// Kind is what an act does.
type Kind string

// Did reports work. Amend puts the sender's last line right, Void takes it back. Claim,
// Later and Skip are about a task that is open, Done about the one of the ping replied
// to, or of the only one that is open. Seen says that a ping was read, and no more. Yes and
// No answer a question of the bot, Thanks wants no answer. Query asks.
//
// The others are commands: Set changes a setting, Add puts a breeder, a builder or a yard
// on the list, Order and Plan ask how an order could be filled, Cancel calls one off,
// WhatIf and Fit ask what a change of the plan would do. Remove takes somebody off the
// crew, Lead hands the lead over, Forget forgets a person. Assign gives somebody a task, Away
// says on which days somebody is off, Remind asks for a reminder of the crew's own.
const (
	Did   Kind = "did"
	Amend Kind = "amend"
	Void  Kind = "void"
	Claim Kind = "mine"
	Later Kind = "later"
	Skip  Kind = "skip"
	Done  Kind = "done"
	Seen  Kind = "seen"
	Query Kind = "query"

	Yes    Kind = "yes"
	No     Kind = "no"
	Thanks Kind = "thanks"

	Set    Kind = "set"
	Add    Kind = "add"
	Order  Kind = "order"
	Plan   Kind = "plan"
	Cancel Kind = "cancel"
	WhatIf Kind = "whatif"
	Fit    Kind = "fit"
	Remove Kind = "remove"
	Lead   Kind = "lead"
	Forget Kind = "forget"
	Assign Kind = "assign"
	Away   Kind = "away"
	Remind Kind = "remind"
)

// Act is one thing that a message asks for: a kind and typed slots. Which slots a step
// takes stands in frames.txt; [Reader.Check] holds an act to it. An act is kept under the
// button that offers it, so that no press reads text again; its JSON is part of the file.
type Act struct {
	Kind    Kind       `json:"kind"`
	Step    rules.Step `json:"step,omitempty"`
	Batch   int        `json:"batch,omitempty"`
	Breeder int        `json:"breeder,omitempty"`
	Builder string     `json:"builder,omitempty"`
	Yard    string     `json:"yard,omitempty"`
	Count   *int       `json:"count,omitempty"`
	Of      *int       `json:"of,omitempty"`
	Old     *int       `json:"old,omitempty"` // amend: the count it was, or the number of the breeder or batch
	Was     *Act       `json:"was,omitempty"` // amend: other values that it was
	All     bool       `json:"all,omitempty"` // everything there was; without a batch, all bars of the round
	But     []string   `json:"but,omitempty"` // the bars that are left out of all: names of builders, "batch 2"
	Mark    string     `json:"mark,omitempty"`
	Bees    *bool      `json:"bees,omitempty"`
	AgeLo   *float64   `json:"age_lo,omitempty"` // hours since hatch
	AgeHi   *float64   `json:"age_hi,omitempty"`
	Litres  float64    `json:"litres,omitempty"`
	Each    bool       `json:"each,omitempty"`  // to each nuc
	Honey   bool       `json:"honey,omitempty"` // feed: it was honey
	None    bool       `json:"none,omitempty"`  // eggs: looked, none there
	Release bool       `json:"release,omitempty"`
	When    *When      `json:"when,omitempty"`

	Incubator string   `json:"incubator,omitempty"` // its name, AnyIncubator where none was said
	Out       string   `json:"out,omitempty"`       // place: the builder, or "incubator NAME", the cells came out of
	C         *float64 `json:"c,omitempty"`         // °C
	Till      *When    `json:"till,omitempty"`      // temp: when it ended
	Power     bool     `json:"power,omitempty"`     // temp: the power was out
	Singly    bool     `json:"singly,omitempty"`    // cells are caged one by one
	Both      *bool    `json:"both,omitempty"`      // add: the builder starts and finishes
	Rests     *bool    `json:"rests,omitempty"`     // add: the builder rests

	Span   int    `json:"span,omitempty"` // later: minutes
	Reason string `json:"reason,omitempty"`
	Topic  Topic  `json:"topic,omitempty"` // query: what about

	State rules.NucState `json:"state,omitempty"` // nuc: what is told of them
	Nucs  []string       `json:"nucs,omitempty"`  // nuc: their numbers, where the crew gives them some

	Setting  string `json:"setting,omitempty"`  // set: its name in the data, "step" for the hours of Step, "own" for the sender's language; empty shows them all
	Value    string `json:"value,omitempty"`    // set: on, off, default, none, both, a language, 19:00, 21:00-05:30, else as it was typed. help: the topic as typed. calendar, report: which part
	Weekdays []int  `json:"weekdays,omitempty"` // set: days off, 1 Monday to 7 Sunday
	Unit     string `json:"unit,omitempty"`     // order: queens or cells
	Percent  int    `json:"percent,omitempty"`  // order: how sure it is to be
	Order    int    `json:"order,omitempty"`    // the number of an order
	Days     int    `json:"days,omitempty"`     // due: how many. what if: how many later, negative for earlier
	Year     int    `json:"year,omitempty"`     // report
	Through  bool   `json:"through,omitempty"`  // away: until the day, or from the first weekday to the last
	Person   string `json:"person,omitempty"`   // of people's commands and yields; of an order, who wants it
	By       string `json:"by,omitempty"`       // yields: side by side

	Done bool `json:"done,omitempty"` // query: it is asked as done

	Customer string `json:"customer,omitempty"` // hand, lose: who got the queens, by name
	Tags     string `json:"tags,omitempty"`     // the numbers on the queens, as rules.Tags writes them
	Back     bool   `json:"back,omitempty"`     // hand: the customer gave them back
	Ship     bool   `json:"ship,omitempty"`     // hand: sent by post or carrier
	Caught   bool   `json:"caught,omitempty"`   // bank: they were caught in the same breath
	Stock    bool   `json:"stock,omitempty"`    // lose: of the queens that are caught
	Arrival  bool   `json:"arrival,omitempty"`  // lose: dead when the customer got them

	concluded bool // the batch was not named
}

// AnyIncubator is the incubator of an act that was not named.
const AnyIncubator = "it"

// Concluded reports whether the batch of an act was not named but the only one that could
// be meant. It is not kept under a button, whose words name it.
func (a Act) Concluded() bool { return a.concluded }

// String spells an act as its JSON, which is how it stands under a button.
func (a Act) String() string {
	b, err := json.Marshal(a)
	if err != nil {
		return err.Error()
	}
	return string(b)
}

// Topic is what a question is about.
type Topic string

// The questions that are understood.
const (
	AskDue      Topic = "due"      // what is to be done, on a day
	AskWhen     Topic = "when"     // when a step is due
	AskWho      Topic = "who"      // who took a task
	AskBatch    Topic = "batch"    // how a batch stands
	AskRound    Topic = "round"    // how what was grafted on one day stands, the newest where no day is said
	AskBreeder  Topic = "breeder"  // how a breeder stands
	AskBuilder  Topic = "builder"  // what is in a builder
	AskYard     Topic = "yard"     // how a yard stands
	AskFree     Topic = "free"     // nucs that are free
	AskBreeders Topic = "breeders" // which breeders there are
	AskCount    Topic = "count"    // a number on record
	AskLog      Topic = "log"      // the newest lines
	AskHelp     Topic = "help"
	AskWhy      Topic = "why"      // the reasons of a window
	AskOrders   Topic = "orders"   // all orders, or one
	AskYields   Topic = "yields"   //
	AskWeek     Topic = "week"     // the picture of the week
	AskSeason   Topic = "season"   // the picture of the season
	AskReport   Topic = "report"   // the records of a year
	AskCalendar Topic = "calendar" //
	AskPhotos   Topic = "photos"   //
	AskStock    Topic = "stock"    // the queens that are caught, or of them those in the bank
	AskCustomer Topic = "customer" // what one customer got
	AskQueen    Topic = "queen"    // where the queen with a tag is from and went

	AskIncubator Topic = "incubator" // what is in an incubator
	AskCells     Topic = "cells"     // where cells are
	AskNucs      Topic = "freenucs"  // which nucs stand free
	AskOpen      Topic = "open"      // which may be opened, and when
	AskAlone     Topic = "alone"     // which are left alone
)

// ShareAsked is the value of a question for a number that asks which part it is.
const ShareAsked = "share"

// When is a time as it was said. The zero value says nothing.
type When struct {
	Now     bool          `json:"now,omitempty"`
	Ago     time.Duration `json:"ago,omitempty"`
	Day     *int          `json:"day,omitempty"`     // days from today, -1 yesterday
	Weekday int           `json:"weekday,omitempty"` // 1 Monday to 7 Sunday
	Month   int           `json:"month,omitempty"`
	Date    int           `json:"date,omitempty"`  // day of the month
	Year    int           `json:"year,omitempty"`  // of a date that lies ahead
	Clock   *int          `json:"clock,omitempty"` // minutes since midnight, as said
	Fixed   bool          `json:"fixed,omitempty"` // the clock is of 24 hours: noon, 19:30
	Half    string        `json:"half,omitempty"`  // am, pm
	Approx  bool          `json:"approx,omitempty"`
}

// Outcome is what becomes of a message.
type Outcome string

// Log does the acts at once. Ask asks, offering Others where there are any. Notice shows
// that the message was seen and not logged. Ignore leaves it alone.
const (
	Log    Outcome = "log"
	Ask    Outcome = "ask"
	Notice Outcome = "notice"
	Ignore Outcome = "ignore"
)

// Result is what was made of a message.
type Result struct {
	Outcome  Outcome
	Acts     []Act    // Log: what to do, in order. Ask: the likeliest, where there is one
	Others   [][]Act  // Ask: what a button each may offer, the likeliest first
	Doubts   []string // why it was not logged: names of flags
	Unread   []string // words that nobody explained
	Moods    []string // what it is beside a report: question, plan, hearsay, hedge, negation
	Language string   // "en", "es" … in which it is written, empty where it does not say
	Talk     float64  // how likely it is talk, 0 to 1
	Why      []Piece

	Clear     bool // Ask: the acts are plain, and whoever does them asks about what is in doubt
	Left      bool // Ask: a report, of which a number was left over: none is offered
	Addressed bool // the bot was plainly spoken to, by a slash or its name as well

	exact bool // every word was explained by a row of commands.txt, none through a slip
}

// Piece says what a run of words was taken for.
type Piece struct {
	Words string
	As    string
}

// Known is what the reader is told beside the text.
type Known struct {
	Now       time.Time // in the crew's zone
	Language  string    // of the crew
	Breeders  []int
	Builders  []string
	Yards     []string
	Members   []string
	Former    []string       // who was on the crew once
	Customers []string       `json:",omitempty"` // who got queens or cells
	Stock     int            `json:",omitempty"` // queens caught that are in hand or banked
	Combs     map[int]string // breeder on a comb: the pin's colour, or empty
	Holds     map[string]int // builder: the batch in it
	Open      []Expect       // open tasks, and counts that are still to come
	Live      []int          // batches of which something is left

	Addressed bool  // the bot is plainly spoken to
	Reply     *Ping // the bot's message that is replied to
	Asked     *Ping // what the bot asked this member last, still open
	Last      *Line // the sender's last line, while it is fresh
}

// Expect is something open that a message may report.
type Expect struct {
	Step    rules.Step
	Batch   int            `json:",omitempty"`
	Breeder int            `json:",omitempty"`
	Builder string         `json:",omitempty"`
	Mark    string         `json:",omitempty"` // of the comb that is grafted from
	Yards   map[string]int `json:",omitempty"` // where they are, and how many
	Had     int            `json:",omitempty"` // how many there are to count from, 0 unknown
	Ready   bool           `json:",omitempty"` // its window is open by now
}

// Ping is a message of the bot. Step is empty where it is about none.
type Ping struct {
	Step    rules.Step `json:",omitempty"`
	Batch   int        `json:",omitempty"`
	Breeder int        `json:",omitempty"`
	Builder string     `json:",omitempty"`
	Yard    string     `json:",omitempty"`
	Need    string     `json:",omitempty"` // question: "count", "time", "yard", "builder"
	Place   string     `json:",omitempty"` // question: "yard" or "builder", where that is not known either
	Task    bool       `json:",omitempty"` // it is about a task that can be answered
	New     bool       `json:",omitempty"` // question: of a line that is not in the log yet
}

// Line is a line of the log as it counts now.
type Line struct {
	Act   Act
	At    time.Time // when it happened, in the crew's zone
	Since time.Duration
}
