package scheduler

import (
	"context"
	"fmt"
	"sync"
	"time"

	"yardbell/store"
)

// outcome is what became of one message that was given to the chat.
type outcome struct {
	now     time.Time // of the tick
	out     store.Outgoing
	receipt store.Receipt
	err     error // of the send

	holdOff time.Time
	failed  error // of recording it
	done    chan struct{}
}

// records gathers outcomes while others are being written: the disk is waited for once
// for all that came meanwhile and not once for each. Whoever gave one waits until it is
// on the disk, as if it were alone, so that no more messages are uncertain after a
// crash than there are senders.
type records struct {
	mu      sync.Mutex
	waiting []*outcome
	writing bool
}

// record writes down what came of a message. holdOff is not zero where the chat wants
// nothing more before then.
func (s *Scheduler) record(ctx context.Context, o *outcome) (holdOff time.Time, err error) {
	o.done = make(chan struct{})
	r := &s.records
	r.mu.Lock()
	r.waiting = append(r.waiting, o)
	first := !r.writing
	r.writing = true
	r.mu.Unlock()
	if first {
		go s.writeWaiting(ctx) // not by this sender, whose next message would wait for the others
	}
	<-o.done
	return o.holdOff, o.failed
}

// writeWaiting writes until nothing waits any more.
func (s *Scheduler) writeWaiting(ctx context.Context) {
	r := &s.records
	for {
		r.mu.Lock()
		n := 0
		for n < len(r.waiting) && r.waiting[n].now.Equal(r.waiting[0].now) {
			n++ // a transaction has one time
		}
		list := r.waiting[:n:n]
		r.waiting = r.waiting[n:]
		r.writing = len(list) > 0
		r.mu.Unlock()
		if len(list) == 0 {
			return
		}
		if err := s.writeAll(ctx, list); err != nil {
			// What cannot be written must not keep the others from it.
			for _, o := range list {
				o.failed = err
				if len(list) > 1 {
					o.failed = s.writeAll(ctx, []*outcome{o})
				}
			}
		}
		for _, o := range list {
			close(o.done)
		}
	}
}

// writeAll records outcomes in one transaction. What the chat took is recorded even
// where the service is told to stop.
func (s *Scheduler) writeAll(ctx context.Context, list []*outcome) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("panic: %v", p) // those who wait must hear of it
		}
	}()
	return s.db.Update(context.WithoutCancel(ctx), list[0].now, func(tx *store.Tx) error {
		for _, o := range list {
			if err := s.write(tx, o); err != nil {
				return err
			}
		}
		return nil
	})
}
