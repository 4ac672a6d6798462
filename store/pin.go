package store

import (
	"fmt"

	"yardbell/rules"
)

// The kinds of outbox rows that say nothing but do something to a message that is in
// the chat. Nothing is lost where the chat refuses one, so they are dropped then, not
// parked.
const (
	Pin  rules.PingKind = "pin"  // pin it, without a notification
	Tidy rules.PingKind = "tidy" // delete the chat's own notice of a pinning
)

// Aside reports whether a row only does something beside the conversation.
func (m Message) Aside() bool { return m.Ping == Pin || m.Ping == Tidy || m.Signs() }

// QueuePin has the digest that was just sent pinned, in the transaction that records
// it, where the bot is known to be allowed to. There is one pin a day; the newest is
// the one a phone shows on top.
func (t *Tx) QueuePin(m Message, number int64, s *rules.Settings) error {
	if m.Ping != rules.Digest || m.Edits != 0 || m.Chat != 0 || number <= 0 || !s.Pin {
		return nil
	}
	c, err := t.CrewByID(m.Crew)
	if err != nil || !c.MayPin() {
		return err
	}
	day := rules.DateOf(t.Now, s.Zone).String()
	return t.Queue(Message{Crew: m.Crew, Key: "pin/" + day, Kind: "digest", Ping: Pin, Day: day, Edits: number})
}

// QueueTidy has the notice of a pinning taken away again: it is one more line in the
// chat and says nothing that the pinned message does not.
func (t *Tx) QueueTidy(c Crew, number int64) error {
	return t.Queue(Message{Crew: c.ID, Key: fmt.Sprintf("tidy/%d/%d", c.Chat, number), Kind: "digest", Ping: Tidy, Edits: number})
}
