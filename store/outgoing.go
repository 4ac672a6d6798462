package store

import (
	"time"

	"yardbell/rules"
)

// Emergency is the priority of what to do for a person in danger: it goes before all else
// that waits, alone, and is never summed up.
const Emergency = -1

// Outgoing is a message on its way with all that it takes to word it. An answer
// has its text already; a ping has its task, a list has its items.
type Outgoing struct {
	Crew     Crew
	Settings *rules.Settings
	Messages []Message // the rows it covers, at least one
	Task     *rules.Task
	Bars     []rules.Task // of a ping about several bars of a round: each of them, Task first
	Round    rules.Subject
	Laying   map[string]int     // of pings to look again, by task: how many were laying before
	Items    []rules.Task       // digest and lists
	Rounds   []rules.GraftRound // of a list: whose bars are one line
	Drive    []string           // of a list: the yards in their order
	Summary  *Summary           // in place of the answers that it covers
	Unlogged []Unlogged         // the list of what was seen and not logged
	Late     time.Time          // zero, or when it was meant to go
	Builders []string           // the crew's own names, for examples of an answer
	Yards    []string
	Now      time.Time
}

// Summary answers together what one member wrote while much waited.
type Summary struct {
	Name   string
	Logged []Told
	Not    []string // what was not understood, or cannot be, as it was written
}

// Unlogged is a message that carries the sign, and who wrote it.
type Unlogged struct {
	Name   string
	Update Update
}

// Told is one answer of a summary: what it would have said, and the lines that it is about.
type Told struct {
	Text    string
	Entries []rules.Entry
}

// Chat is where it goes: a private chat, or the crew's group.
func (o Outgoing) Chat() int64 {
	if c := o.Messages[0].Chat; c != 0 {
		return c
	}
	return o.Crew.Chat
}

// Receipt is what the chat took.
type Receipt struct {
	Number  int64 // of the message in the chat
	Text    string
	Buttons []Button
}
