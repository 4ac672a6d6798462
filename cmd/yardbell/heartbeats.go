package main

import (
	"sync"
	"time"
)

// heartbeat names a part of the service that shows again and again that it works.
type heartbeat int

const (
	ticked  heartbeat = iota // a tick ended well
	reached                  // what the chat's server gave to a poll was saved
	heartbeatKinds
)

// String says it as the log and /readyz do.
func (s heartbeat) String() string { return [heartbeatKinds]string{"tick", "chat"}[s] }

// heartbeats remembers when each part of the service last showed it. Times are
// kept as the clock gave them: the real one counts on where somebody sets it.
type heartbeats struct {
	mu    sync.Mutex
	last  [heartbeatKinds]time.Time
	count [heartbeatKinds]int64
	held  bool // ticks wait for what is in the chat
}

// begin takes the start for the first heartbeat of each.
func (p *heartbeats) begin(now time.Time) {
	p.mu.Lock()
	defer p.mu.Unlock()
	for s := range p.last {
		p.last[s] = now
	}
}

// hold says that no tick is to be expected until free.
func (p *heartbeats) hold() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.held = true
}

// free takes now for the first heartbeat of the ticks that were held.
func (p *heartbeats) free(now time.Time) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.held, p.last[ticked] = false, now
}

// expects reports whether a heartbeat of the part is due by and by.
func (p *heartbeats) expects(s heartbeat) bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	return s != ticked || !p.held
}

func (p *heartbeats) beat(s heartbeat, now time.Time) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.last[s] = now
	p.count[s]++
}

// of gives the last heartbeat of a part, and how many there were.
func (p *heartbeats) of(s heartbeat) (last time.Time, count int64) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.last[s], p.count[s]
}
