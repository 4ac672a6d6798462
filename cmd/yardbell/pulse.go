package main

import (
	"sync"
	"time"
)

// sign is a sign of life of one part of the service.
type sign int

const (
	ticked  sign = iota // a tick ended well
	reached             // what the chat's server gave to a poll was saved
	signs
)

// String says it as the log and /readyz do.
func (s sign) String() string { return [signs]string{"tick", "chat"}[s] }

// pulse remembers when each part of the service last gave a sign of life. Times are
// kept as the clock gave them: the real one counts on where somebody sets it.
type pulse struct {
	mu    sync.Mutex
	last  [signs]time.Time
	count [signs]int64
	held  bool // ticks wait for what is in the chat
}

// begin takes the start for the first sign of each.
func (p *pulse) begin(now time.Time) {
	p.mu.Lock()
	defer p.mu.Unlock()
	for s := range p.last {
		p.last[s] = now
	}
}

// hold says that no tick is to be expected until free.
func (p *pulse) hold() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.held = true
}

// free takes now for the first sign of the ticks that were held.
func (p *pulse) free(now time.Time) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.held, p.last[ticked] = false, now
}

// expects reports whether a sign of the part is due by and by.
func (p *pulse) expects(s sign) bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	return s != ticked || !p.held
}

func (p *pulse) beat(s sign, now time.Time) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.last[s] = now
	p.count[s]++
}

// of gives the last sign of a part, and how many there were.
func (p *pulse) of(s sign) (last time.Time, count int64) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.last[s], p.count[s]
}
