package store

import (
	"cmp"
	"slices"
	"time"

	"yardbell/rules"
)

// The states of an outgoing message:
//
//	queued ──claim──> claimed ──sent──────> sent
//	  ^                  │ ├──final error─> failed
//	  │                  │ └──verdict─────> dropped
//	  └──hold, retry, ───┘
//	     lease expired
//	queued ──replanned─> cancelled ──replanned──> queued
//
// A message is keyed by what it is about: the task, the kind of ping and the
// local day; or the update that it answers. A key is never used twice, so that no
// replanning sends a ping again. Delivery is at least once: a process that dies
// after the chat took a message and before MarkSent sends it again when the lease
// has run out. That is the one window for a duplicate.

// Lease is how long a claim holds. A tick ends well before.
const Lease = 5 * time.Minute

// Message is one row of the outbox.
type Message struct {
	ID       int64
	Crew     int64
	Key      string
	Kind     string // reply, ask, error, ping, digest
	Ping     rules.PingKind
	TaskKey  string
	Step     rules.Step
	Subject  string
	Day      string
	Fire     time.Time // when it was meant to go
	Due      time.Time // when it may go
	Priority int       // lower goes first; 0 until it is queued
	State    string
	Attempt  int
	ReplyTo  int64
	Update   int64
	Text     string
	Buttons  []Button
	Message  int64     // number in the chat, once sent
	Sent     time.Time // or dropped, or given up
	Answered int64
	Reason   string
	Chat     int64  // a private chat, 0 for the crew's group
	Answers  int64  // the person's message it answers
	Edits    int64  // the bot's message it changes in place, 0 for a new one
	Attach   string // a file that goes with it, in package bot's own terms
}

// Button is one press a message offers. Do says what it does, in package bot's
// own terms; it never leaves the database.
type Button struct {
	Label string `json:"label"`
	Do    string `json:"do"`
}

// The order in which messages of one chat go out, whatever they waited for: pings before
// answers, and of these what somebody waits for before the echo of a report.
const (
	CriticalPing = iota + 1
	OtherPing
	DigestPing
	Answer // to a question, or a question of the bot's own
	Echo   // says what was logged, or that something was not
	Change // of what stands in the chat already
	Mark   // the sign on somebody's message: takes nothing of the room that messages have
)

const messageColumns = `id, crew_id, key, kind, ping, task_key, step, subject, day, fire_at, due_at, priority, state, attempt,
	reply_to, update_row, text, buttons, message_id, sent_at, answered, reason, chat_id, answers, edits, attach`

func scanMessage(s scanner) (m Message, err error) {
	err = s.Scan(&m.ID, &m.Crew, &m.Key, &m.Kind, &m.Ping, &m.TaskKey, &m.Step, &m.Subject, &m.Day, instant{&m.Fire}, instant{&m.Due}, &m.Priority, &m.State, &m.Attempt,
		&m.ReplyTo, &m.Update, &m.Text, jsonCol{&m.Buttons}, &m.Message, instant{&m.Sent}, &m.Answered, &m.Reason, &m.Chat, &m.Answers, &m.Edits, &m.Attach)
	return m, err
}

// Queue puts an answer into the outbox, to go at once.
func (t *Tx) Queue(m Message) error {
	if m.Buttons == nil {
		m.Buttons = []Button{}
	}
	priority := cmp.Or(m.Priority, Answer)
	if m.Edits != 0 {
		priority = Change // nobody waits for it
	}
	if m.Signs() {
		priority = Mark
	}
	_, err := t.exec(`INSERT INTO outbox (crew_id, key, kind, ping, task_key, step, subject, day, fire_at, due_at, priority, state, reply_to, update_row, text, buttons, reason, chat_id, answers, edits, attach)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, 'queued', ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT DO NOTHING`,
		m.Crew, m.Key, m.Kind, string(m.Ping), m.TaskKey, string(m.Step), m.Subject, m.Day, toMS(t.Now), toMS(t.Now), priority, m.ReplyTo, m.Update, m.Text, toJSON(m.Buttons), m.Reason, m.Chat, m.Answers, m.Edits, m.Attach)
	return err
}

// EnsureDigest keeps one digest queued for a crew: the next morning that is
// still to come and has had none yet.
func (t *Tx) EnsureDigest(crew int64) error {
	s, err := t.Settings(crew)
	if err != nil {
		return err
	}
	day := rules.DateOf(t.Now, s.Zone)
	had, err := t.DigestSent(crew, day, s.Zone)
	if err != nil {
		return err
	}
	for had || !rules.At(day, s.Morning, s.Zone).After(t.Now) {
		day, had = day.Add(1), false
	}
	queued, err := all(t, scanMessage, `SELECT `+messageColumns+` FROM outbox WHERE crew_id = 0 + ? AND `+digestKeys+` AND state IN ('queued', 'claimed')`, crew)
	if err != nil {
		return err
	}
	for _, m := range queued {
		if m.Day == day.String() && m.Fire.Equal(rules.At(day, s.Morning, s.Zone)) {
			return nil
		}
		if m.State == "claimed" {
			continue // on its way out right now; the next one is what we are here for
		}
		if !m.Fire.After(t.Now) {
			return nil // due now; the tick queues the next when it takes this one
		}
		if _, err := t.exec(`UPDATE outbox SET state = 'cancelled', reason = 'morning hour changed' WHERE id = ?`, m.ID); err != nil {
			return err
		}
	}
	for {
		fire := rules.At(day, s.Morning, s.Zone)
		n, err := t.exec(`INSERT INTO outbox (crew_id, key, kind, ping, day, fire_at, due_at, priority, state) VALUES (?, ?, 'digest', 'digest', ?, ?, ?, ?, 'queued')
			ON CONFLICT (crew_id, key) DO UPDATE SET state = 'queued', fire_at = excluded.fire_at, due_at = excluded.due_at, reason = '' WHERE state = 'cancelled'`,
			crew, "digest/"+day.String(), day.String(), toMS(fire), toMS(fire), DigestPing)
		if err != nil || n > 0 {
			return err
		}
		day = day.Add(1) // this day's went out before the morning hour was moved
	}
}

// Release makes claims whose lease has run out due again, but for those in lanes that are
// worked on: a clock that jumps must not send a message again that is on its way. A lease
// that ends later than one begun now was begun on a clock that has been put back since; it
// would hold as long as the clock was ahead.
func (t *Tx) Release(worked func(Lane) bool) error {
	const claims = `SELECT id, crew_id, chat_id, priority, fire_at, update_row FROM outbox WHERE state = 'claimed' AND lease_until `
	over, err := all(t, scanDue, claims+`< ?`, toMS(t.Now))
	if err != nil {
		return err
	}
	ahead, err := all(t, scanDue, claims+`> ?`, toMS(t.Now.Add(Lease))) // apart: an index serves one bound
	if err != nil {
		return err
	}
	for _, d := range append(over, ahead...) {
		if worked != nil && worked(d.Lane) {
			continue
		}
		if _, err := t.exec(`UPDATE outbox SET state = 'queued', reason = 'lease expired' WHERE id = ?`, d.ID); err != nil {
			return err
		}
	}
	return nil
}

// ReleaseAll makes every claim due again: at start, when no other process can
// hold one. That the service ended is no failed attempt: the next failure must not
// be waited out as if it were the sixth.
func (t *Tx) ReleaseAll() error {
	_, err := t.exec(`UPDATE outbox SET state = 'queued', attempt = max(attempt - 1, 0), reason = 'claimed when the service stopped' WHERE state = 'claimed'`)
	return err
}

// Lane is one chat of a crew's. What goes there goes one after the other; lanes share
// nothing but the bot's overall rate.
type Lane struct {
	Crew int64
	Chat int64 // a private chat, 0 for the crew's group
}

// Lane is where a message waits.
func (m Message) Lane() Lane { return Lane{m.Crew, m.Chat} }

// Due is a message that may go now, as much of it as choosing takes.
type Due struct {
	ID       int64
	Lane     Lane
	Priority int
	Fire     time.Time
	Update   int64
}

func scanDue(s scanner) (d Due, err error) {
	err = s.Scan(&d.ID, &d.Lane.Crew, &d.Lane.Chat, &d.Priority, instant{&d.Fire}, &d.Update)
	return d, err
}

// Due lists what may go now, in the order in which it goes.
func (t *Tx) Due() ([]Due, error) {
	list, err := all(t, scanDue, `SELECT id, crew_id, chat_id, priority, fire_at, update_row FROM outbox WHERE state = 'queued' AND due_at <= ?`, toMS(t.Now))
	slices.SortFunc(list, func(a, b Due) int {
		return cmp.Or(cmp.Compare(a.Priority, b.Priority), a.Fire.Compare(b.Fire), cmp.Compare(a.ID, b.ID))
	})
	return list, err
}

// Claim takes queued messages, and gives them in the order in which they go out.
func (t *Tx) Claim(ids []int64) ([]Message, error) {
	var list []Message
	err := manyRows(ids, 1, func(id int64) []any { return []any{id} }, func(values string, args []any) error {
		more, err := all(t, scanMessage, `UPDATE outbox SET state = 'claimed', attempt = attempt + 1, lease_until = ? WHERE id IN (VALUES `+values+`) AND state = 'queued'
			RETURNING `+messageColumns, append([]any{toMS(t.Now.Add(Lease))}, args...)...)
		list = append(list, more...)
		return err
	})
	sortMessages(list)
	return list, err
}

// ClaimAbout takes what is queued about a task and due before a time.
func (t *Tx) ClaimAbout(crew int64, task string, before time.Time) ([]Message, error) {
	ids, err := all(t, func(s scanner) (id int64, err error) { err = s.Scan(&id); return id, err },
		`SELECT id FROM outbox WHERE crew_id = 0 + ? AND task_key = '' || ? AND task_key <> '' AND state = 'queued' AND due_at < ?`, crew, task, toMS(before))
	if err != nil {
		return nil, err
	}
	return t.Claim(ids)
}

// ClaimEves takes the eve pings that are queued about tasks, whenever they were to go.
func (t *Tx) ClaimEves(crew int64, tasks []string) ([]Message, error) {
	if len(tasks) == 0 {
		return nil, nil
	}
	var ids []int64
	err := manyRows(tasks, 1, func(k string) []any { return []any{k} }, func(values string, args []any) error {
		more, err := all(t, func(s scanner) (id int64, err error) { err = s.Scan(&id); return id, err },
			`SELECT o.id FROM `+aboutTasks(values)+` WHERE o.state = 'queued' AND o.ping = 'eve'`, append(args, crew)...)
		ids = append(ids, more...)
		return err
	})
	if err != nil || len(ids) == 0 {
		return nil, err
	}
	return t.Claim(ids)
}

// Hold puts off whatever waits in a lane from a priority on: the chat takes no more of
// it before then.
func (t *Tx) Hold(l Lane, from int, until time.Time) error {
	_, err := t.exec(`UPDATE outbox SET due_at = ?1, reason = 'the chat asked to wait' WHERE state = 'queued' AND due_at < ?1 AND +crew_id = 0 + ?2 AND +chat_id = 0 + ?3 AND priority >= ?4`, toMS(until), l.Crew, l.Chat, from)
	return err
}

// Written is who wrote an update, and what.
type Written struct {
	Member int64
	Text   string
}

// WhoWrote gives the authors of updates, by their rows.
func (t *Tx) WhoWrote(rows []int64) (map[int64]Written, error) {
	by := make(map[int64]Written, len(rows))
	err := manyRows(rows, 1, func(id int64) []any { return []any{id} }, func(values string, args []any) error {
		_, err := all(t, func(s scanner) (w Written, err error) {
			var id int64
			err = s.Scan(&id, &w.Member, &w.Text)
			by[id] = w
			return w, err
		}, `SELECT id, member_id, text FROM updates WHERE id IN (VALUES `+values+`)`, args...)
		return err
	})
	return by, err
}

// NextDue is when the next message is due.
func (t *Tx) NextDue() (at time.Time, found bool, err error) {
	found, err = t.one(`SELECT due_at FROM outbox WHERE state = 'queued' ORDER BY due_at, priority, id LIMIT 1`, nil, instant{&at})
	return at, found, err
}

// NextAfter is when the next message is due that is not due yet.
func (t *Tx) NextAfter(now time.Time) (at time.Time, found bool, err error) {
	found, err = t.one(`SELECT due_at FROM outbox WHERE state = 'queued' AND due_at > ? ORDER BY due_at, priority, id LIMIT 1`, []any{toMS(now)}, instant{&at})
	return at, found, err
}

// Summed is the reason of an answer that went as a part of a summary. It keeps its own
// words, and nobody can reply to it: the message of that number is about others as well.
const Summed = "in a summary"

// MarkSent records that the chat took a message. It changes nothing, and says
// so, where another claim has taken over meanwhile.
func (t *Tx) MarkSent(m Message, number int64, text string, buttons []Button, reason string) (bool, error) {
	if buttons == nil {
		buttons = []Button{}
	}
	n, err := t.exec(`UPDATE outbox SET state = 'sent', message_id = ?, sent_at = ?, text = ?, buttons = ?, reason = ?
		WHERE id = ? AND state = 'claimed' AND attempt = ?`, number, toMS(t.Now), text, toJSON(buttons), reason, m.ID, m.Attempt)
	return n > 0, err
}

// Reschedule puts a claimed message back until a later time. A hold gives the
// attempt back, a retry keeps it. A ping may have been planned otherwise while the chat
// had it: it is brought in line like one that was queued all the time.
func (t *Tx) Reschedule(m Message, until time.Time, giveBack bool, reason string) error {
	back := 0
	if giveBack {
		back = 1
	}
	n, err := t.exec(`UPDATE outbox SET state = 'queued', due_at = ?, attempt = attempt - ?, reason = ? WHERE id = ? AND state = 'claimed' AND attempt = ?`,
		toMS(until), back, reason, m.ID, m.Attempt)
	if err != nil || n == 0 || m.TaskKey == "" {
		return err
	}
	k, found, err := t.Task(m.Crew, m.TaskKey)
	if err != nil || !found || k.State != rules.Open {
		return err // the tick that takes it says why it does not go
	}
	s, err := t.Settings(m.Crew)
	if err != nil {
		return err
	}
	return t.putPings(m.Crew, []pingPlan{planPings(&k, s)})
}

// Finish ends a claimed message as dropped or failed, and keeps when that was.
func (t *Tx) Finish(m Message, state, reason string) error {
	_, err := t.exec(`UPDATE outbox SET state = ?, reason = ?, sent_at = ? WHERE id = ? AND state = 'claimed' AND attempt = ?`, state, reason, toMS(t.Now), m.ID, m.Attempt)
	return err
}

// digestKeys picks the digests by their key, which an index leads to.
const digestKeys = `key > 'digest/' AND key < 'digest0'`

// sentDigest is a digest that was sent.
type sentDigest struct {
	id, message int64
	sent        time.Time
}

// Outbox lists a crew's messages in the order they were queued.
func (t *Tx) Outbox(crew int64) ([]Message, error) {
	return all(t, scanMessage, `SELECT `+messageColumns+` FROM outbox WHERE crew_id = 0 + ? ORDER BY id`, crew)
}

// HasMessage reports whether a key of a crew's was used.
func (t *Tx) HasMessage(crew int64, key string) (bool, error) {
	var n int
	return t.one(`SELECT 1 FROM outbox WHERE crew_id = 0 + ? AND key = ?`, []any{crew, key}, &n)
}

// Traffic is how the outbox stands.
type Traffic struct {
	Waiting int       // due and not sent yet
	Oldest  time.Time // since when the oldest of them is due, zero for none
	Parked  int       // refused by the chat for good, or given up
	Late    int       // sent late since the time asked for
}

// Traffic counts the messages of a crew, of all crews for 0; those sent late only since
// a time.
func (t *Tx) Traffic(crew int64, since time.Time) (s Traffic, err error) {
	_, err = t.one(`SELECT count(*), coalesce(min(due_at), 0) FROM outbox WHERE state IN ('queued', 'claimed') AND due_at <= ? AND ? IN (0, crew_id)`,
		[]any{toMS(t.Now), crew}, &s.Waiting, instant{&s.Oldest})
	if err != nil {
		return s, err
	}
	_, err = t.one(`SELECT coalesce(sum(state = 'failed'), 0), coalesce(sum(state = 'sent' AND reason LIKE 'late%' AND sent_at > ?), 0) FROM outbox WHERE ? IN (0, crew_id)`,
		[]any{toMS(since), crew}, &s.Parked, &s.Late)
	return s, err
}

func sortMessages(list []Message) {
	slices.SortFunc(list, func(a, b Message) int {
		return cmp.Or(cmp.Compare(a.Priority, b.Priority), a.Fire.Compare(b.Fire), cmp.Compare(a.ID, b.ID))
	})
}
