package apidouble

import (
	"sync"
	"time"
)

// Clock is where the double takes the time from: for message dates, retention,
// rate limits, and the end of a long poll.
type Clock interface {
	Now() time.Time
	// After is only waited on by long polls.
	After(d time.Duration) <-chan time.Time
}

// ManualClock stands still until a test moves it.
type ManualClock struct {
	mu      sync.Mutex
	now     time.Time
	waiting []waiter
}

type waiter struct {
	at time.Time
	ch chan time.Time
}

// DefaultStart is where the clock of a double stands if Options name none.
var DefaultStart = time.Date(2031, time.April, 24, 13, 0, 0, 0, time.UTC)

// NewManualClock returns a clock that shows start.
func NewManualClock(start time.Time) *ManualClock { return &ManualClock{now: start} }

// Now is the time last set.
func (c *ManualClock) Now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.now
}

// After fires when the clock has been moved by d.
func (c *ManualClock) After(d time.Duration) <-chan time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	ch := make(chan time.Time, 1)
	at := c.now.Add(d)
	if d <= 0 {
		ch <- c.now
		return ch
	}
	c.waiting = append(c.waiting, waiter{at, ch})
	return ch
}

// Advance moves the clock on.
func (c *ManualClock) Advance(d time.Duration) { c.Set(c.Now().Add(d)) }

// Set puts the clock to t and fires what is due by then.
func (c *ManualClock) Set(t time.Time) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.now = t
	var later []waiter
	for _, w := range c.waiting {
		if w.at.After(t) {
			later = append(later, w)
			continue
		}
		w.ch <- t
	}
	c.waiting = later
}

// WallClock runs in real time. It is given the function that reads the time, since no
// package below cmd asks for it by itself.
func WallClock(now func() time.Time) Clock { return wallClock{now} }

type wallClock struct{ now func() time.Time }

func (c wallClock) Now() time.Time                         { return c.now() }
func (c wallClock) After(d time.Duration) <-chan time.Time { return time.After(d) }

// ClockFunc follows somebody else's clock. A long poll on it ends with an update or
// with its request, never by itself: a function cannot tell when it will say a time.
func ClockFunc(now func() time.Time) Clock { return funcClock{now} }

type funcClock struct{ now func() time.Time }

func (c funcClock) Now() time.Time                       { return c.now() }
func (c funcClock) After(time.Duration) <-chan time.Time { return nil }
