package apidouble

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"time"
)

const (
	// messageRetention: not longer than 24 hours (docs: "Getting updates"), counted
	// from the date of the message (server, Client.cpp 17448).
	messageRetention = 24 * time.Hour
	// quiet is how long without updates makes the next number a random one (docs: Update).
	quiet = 7 * 24 * time.Hour
	// longestPoll: server, Client.h 1610.
	longestPoll = 50 * time.Second
)

// notByDefault are the kinds a bot has to ask for by name (docs: getUpdates).
var notByDefault = []string{"chat_member", "message_reaction", "message_reaction_count"}

type queuedUpdate struct {
	id      int
	body    json.RawMessage
	expires time.Time
	// again marks a redelivered one: it goes out once, whatever the offset.
	again bool
}

// updateQueue is what waits for the bot. An update stays until an offset above its
// number confirms it, or until it expires.
type updateQueue struct {
	next      int
	last      time.Time // when the last update came in
	pending   []queuedUpdate
	confirmed []queuedUpdate
	allowed   []string // empty: all but notByDefault
}

// push queues an update about something that happened at the given date.
func (d *Double) push(kind string, payload any, date time.Time) {
	d.queue.push(d, kind, payload, date.Add(messageRetention))
}

func (q *updateQueue) push(d *Double, kind string, payload any, expires time.Time) {
	// What is not allowed now is never queued; a later setting does not bring it back
	// (docs: allowed_updates).
	if len(q.allowed) == 0 && slices.Contains(notByDefault, kind) ||
		len(q.allowed) > 0 && !slices.Contains(q.allowed, kind) {
		return
	}
	if !expires.After(d.now()) {
		return // server, Client.cpp 17053: a message older than a day is skipped
	}
	data, err := json.Marshal(payload)
	if err != nil {
		panic(err)
	}
	q.add(d, fmt.Sprintf("%q:%s", kind, data), expires)
}

func (q *updateQueue) add(d *Double, inside string, expires time.Time) int {
	now := d.now()
	if !q.last.IsZero() && now.Sub(q.last) >= quiet {
		// tdlib/td, TQueue.cpp push: the range of a fresh start.
		q.next = 200001 + d.rng.IntN(1<<29)
	}
	id := q.next
	q.next, q.last = id+1, now
	q.pending = append(q.pending, queuedUpdate{
		id: id, body: json.RawMessage(fmt.Sprintf(`{"update_id":%d,%s}`, id, inside)), expires: expires,
	})
	d.bump()
	return id
}

// confirm drops what lies below the offset. One far above the end or far below it
// belongs to another numbering and confirms nothing (tdlib/td, TQueue.cpp get: "in
// the future", "in the past").
func (q *updateQueue) confirm(offset int) {
	switch {
	case offset < 0:
		offset += q.next // docs: counted from the end, earlier ones are forgotten
	case offset == 0 || offset > q.next+10 || offset < q.next-200000:
		return
	}
	keep := q.pending[:0:0]
	for _, u := range q.pending {
		if u.id < offset && !u.again {
			q.confirmed = append(q.confirmed, u)
			continue
		}
		keep = append(keep, u)
	}
	q.pending = keep
}

// take returns the next updates, which stay queued.
func (q *updateQueue) take(now time.Time, limit int) []json.RawMessage {
	out := []json.RawMessage{}
	keep := q.pending[:0:0]
	for _, u := range q.pending {
		if !u.expires.After(now) {
			continue
		}
		if len(out) < limit {
			out = append(out, u.body)
			if u.again {
				continue
			}
		}
		keep = append(keep, u)
	}
	q.pending = keep
	return out
}

// poll is a getUpdates that waits.
type poll struct{ ended chan struct{} }

// getUpdates waits without the lock, so unlike the other methods it takes it itself.
func (d *Double) getUpdates(ctx context.Context, c *call) (any, *apiError) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.webhook != "" {
		return nil, &apiError{code: 409, text: "Conflict: can't use getUpdates method while webhook is active; use deleteWebhook to delete the webhook first"}
	}
	if d.waiting != nil {
		// server, Client.cpp 16224-16247: the one that already waits is ended.
		close(d.waiting.ended)
		d.waiting = nil
	}
	if err := d.setAllowed(c); err != nil {
		return nil, err
	}
	d.queue.confirm(c.id("offset"))
	limit := 100
	if c.has("limit") {
		limit = c.id("limit")
	}
	wait := min(max(time.Duration(c.number("timeout"))*time.Second, 0), longestPoll)
	d.bump()
	me := &poll{ended: make(chan struct{})}
	var over <-chan time.Time
	waits := false
	for {
		if out := d.queue.take(d.now(), limit); len(out) > 0 || wait == 0 {
			d.stopWaiting(me)
			return out, nil
		}
		if !waits {
			waits = true
			over = d.clock.After(wait)
			d.waiting = me
			d.bump()
		}
		changed := d.changed
		d.mu.Unlock()
		select {
		case <-changed:
		case <-over:
			wait = 0
		case <-me.ended:
		case <-ctx.Done():
		case <-d.done:
		}
		d.mu.Lock()
		select {
		case <-me.ended:
			return nil, conflict()
		case <-ctx.Done():
			d.stopWaiting(me)
			return []json.RawMessage{}, nil
		case <-d.done:
			return []json.RawMessage{}, nil
		default:
		}
	}
}

func (d *Double) stopWaiting(p *poll) {
	if d.waiting == p {
		d.waiting = nil
		d.bump()
	}
}

// setAllowed remembers the list; absent or not an array leaves it (server, Client.cpp
// 16901-16911).
func (d *Double) setAllowed(c *call) *apiError {
	var kinds []string
	if !c.has("allowed_updates") || json.Unmarshal([]byte(c.params["allowed_updates"]), &kinds) != nil {
		return nil
	}
	for _, k := range kinds {
		if _, ok := d.spec.field(d.spec.Types["Update"].Fields, k); !ok || k == "update_id" {
			return breached("allowed_updates: there is no kind of update " + k)
		}
	}
	d.queue.allowed = kinds
	return nil
}

// Polling says whether a getUpdates is waiting: the bot has then handled all it got.
func (d *Double) Polling() bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.waiting != nil
}

// Pending counts the updates that are not confirmed.
func (d *Double) Pending() int {
	d.mu.Lock()
	defer d.mu.Unlock()
	n := 0
	for _, u := range d.queue.pending {
		if u.expires.After(d.now()) {
			n++
		}
	}
	return n
}

// Redeliver sends the last n confirmed updates once more, as after a server that
// forgot the confirmation.
func (d *Double) Redeliver(n int) {
	d.mu.Lock()
	defer d.mu.Unlock()
	q := &d.queue
	if n > len(q.confirmed) {
		misuse("only %d updates were confirmed", len(q.confirmed))
	}
	var old []queuedUpdate
	for _, u := range q.confirmed[len(q.confirmed)-n:] {
		u.again, u.expires = true, d.now().Add(messageRetention)
		old = append(old, u)
	}
	q.pending = append(old, q.pending...)
	d.bump()
}

// DeliverRaw queues an update with anything inside: text like `"message":{...}`, JSON
// but else unchecked. It returns the number of the update.
func (d *Double) DeliverRaw(inside string) int {
	if !json.Valid([]byte("{" + inside + "}")) {
		misuse("an answer with %s in it would be no JSON at all; script a BadJSON fault for that", inside)
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.queue.add(d, inside, d.now().Add(messageRetention))
}

// Poison queues an update that does not decode: a text where a number belongs.
func (d *Double) Poison() int {
	return d.DeliverRaw(`"message":{"message_id":"seven","date":{},"chat":[]}`)
}

// SetNextUpdateID changes the numbering from the next update on, as a week without
// any does by itself.
func (d *Double) SetNextUpdateID(id int) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.queue.next, d.queue.last = id, d.now()
}

// PendingRaw are the updates that are not confirmed, as they go over the wire.
func (d *Double) PendingRaw() []json.RawMessage {
	d.mu.Lock()
	defer d.mu.Unlock()
	var out []json.RawMessage
	for _, u := range d.queue.pending {
		out = append(out, u.body)
	}
	return out
}
