//go:build linux && !race

package main

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"slices"
	"strings"
	"time"

	"github.com/stretchr/testify/require"
)

// strike is one thing that goes wrong: at the nth passing, from when it is its turn, of a
// boundary between two steps of the service's work, or of a request on the wire.
type strike struct {
	kind  string
	at    string // the only point at which it strikes, "" for any
	nth   int
	after time.Duration // for a kill so long behind the point, wherever it is by then
	wait  int           // steps for which it has waited for its point
	last  time.Duration // of what lasts
}

// At a request, before the chat's server has it, and at its answer; the others anywhere.
var (
	onRequest = []string{"cut before", "error page before", "delay", "too many", "server error", "broken answer", "twice"}
	onAnswer  = []string{"cut after", "cut inside", "error page after"}
	between   = []string{"disk full, then a line", "read-only file", "away for hours", "redelivery"} // between two steps
)

// mortalPoints are the steps of the way of a line and of a message. A third of the kills
// strikes at them, a third anywhere, a third at no step at all but some time behind one.
var mortalPoints = []string{"update read", "inside the transaction", "update saved", "message claimed", "message sent, not recorded",
	"request getUpdates", "answer getUpdates", "request sendMessage", "answer sendMessage", "answer editMessageText"}

func newKill(r *rand.Rand, i int) strike {
	k := strike{kind: "kill", nth: 1 + r.IntN(20)}
	if i%3 == 0 {
		return k
	}
	k.nth = 1 + r.IntN(2)
	k.at = mortalPoints[i/3%len(mortalPoints)]
	if i%3 == 2 {
		k.at = one(r, "update read", "message claimed")
		k.after = time.Duration(1 + r.Int64N(int64(6*time.Millisecond)))
	}
	return k
}

// faultCounts is how often each of them strikes.
type faultCounts map[string]int

func countsOf(kills, wire, ails, steps int) faultCounts {
	n := faultCounts{"kill": kills, "clock step": steps, "redelivery": 3 * wire, "disk full": ails, "writes refused": ails,
		"disk full, then a line": ails, "read-only file": ails, "away for hours": ails}
	for _, k := range slices.Concat(onRequest, onAnswer) {
		n[k] = wire
	}
	return n
}

// newPlan spreads the faults over the steps of a season.
func newPlan(seed uint64, counts faultCounts, steps int) map[int][]strike {
	r := rand.New(rand.NewPCG(seed, 5))
	plan := map[int][]strike{}
	first, last := min(20, steps/4), steps*93/100
	put := func(step int, k strike) { plan[step] = append(plan[step], k) }
	for _, kind := range slices.Sorted(maps.Keys(counts)) {
		for i := range counts[kind] {
			step := first + r.IntN(last-first)
			k := strike{kind: kind, nth: 1 + r.IntN(8)}
			switch kind {
			case "kill":
				k = newKill(r, i)
			case "away for hours":
				k.last = time.Hour + time.Duration(r.Int64N(int64(8*time.Hour)))
			case "clock step":
				k.last = time.Minute + time.Duration(r.Int64N(int64(3*time.Hour)))
				if r.IntN(2) == 0 {
					k.last = -k.last
				}
				put(min(step+1+r.IntN(15), last), strike{kind: kind, nth: 1 + r.IntN(8)}) // and right again
			default:
				k.last = 30*time.Second + time.Duration(r.Int64N(int64(20*time.Minute)))
			}
			put(step, k)
		}
	}
	for _, list := range plan {
		r.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
	}
	return plan
}

// illness is a fault of the disk that lasts.
type illness struct {
	kind        string
	from, until time.Time
	before      int  // complaints until it began
	sure        bool // nothing can have been written meanwhile
}

// strikes passes a point and gives what goes wrong there, "" for nothing or for what is
// done already. The lock is held.
func (s *season) strikes(point string) string {
	if len(s.queue) == 0 || s.cmd == nil {
		return ""
	}
	k := &s.queue[0]
	request, answer := strings.HasPrefix(point, "request "), strings.HasPrefix(point, "answer ")
	if slices.Contains(onRequest, k.kind) && !request || slices.Contains(onAnswer, k.kind) && !answer || s.ill != nil && k.last > 0 {
		return ""
	}
	if k.at != "" && k.at != point {
		return ""
	}
	if k.nth--; k.nth > 0 {
		return ""
	}
	now := *k
	s.queue = s.queue[1:]
	switch now.kind {
	case "kill":
		if now.after > 0 {
			go s.killSoon(s.cmd, now.after)
			return ""
		}
		return now.kind
	case "clock step":
		s.step(now.last)
		return ""
	case "disk full", "writes refused":
		s.fall(now.kind, now.last)
		return ""
	}
	s.fig[now.kind]++
	return now.kind
}

// killSoon kills a process from outside, in the midst of whatever it does then.
func (s *season) killSoon(c *exec.Cmd, after time.Duration) {
	time.Sleep(after)
	_ = c.Process.Kill()
}

// step puts the service's clock wrong, or right again. The lock is held.
func (s *season) step(by time.Duration) {
	if s.offset == 0 && by == 0 {
		return // somebody has put it right already
	}
	s.fig["clock step"]++
	now := s.clock.Now()
	if s.offset != 0 {
		s.shaky = append(s.shaky, stretch{s.astray, now.Add(max(0, s.offset))})
	}
	s.offset, s.astray = by, now
}

// fall begins an illness. The lock is held.
func (s *season) fall(kind string, last time.Duration) {
	if kind == "disk full" && !s.disk.mounted {
		kind = "writes refused" // the nearest that can be had
	}
	s.doubt()
	now := s.clock.Now()
	s.ailed = true
	s.ill = &illness{kind: kind, from: now, until: now.Add(last), before: s.complaints()}
	s.fig[kind]++
	if kind == "disk full" {
		if err := s.disk.fill(); err != nil {
			s.broken = append(s.broken, "fill: "+err.Error())
		}
	}
}

func (s *season) complaints() (n int) {
	for _, c := range complaints {
		n += s.err.count(c)
	}
	return n
}

// heal ends it. The lock is held.
func (s *season) heal() {
	ill := s.ill
	s.ill = nil
	if s.complaints() > ill.before {
		s.fig[ill.kind+", felt"]++
	}
	if ill.sure && s.Pending() == 0 {
		s.broken = append(s.broken, "a line was confirmed that cannot have been saved")
	}
	s.shaky = append(s.shaky, stretch{ill.from, s.clock.Now()})
	var err error
	switch {
	case ill.kind == "read-only file" && !s.disk.mounted:
		err = os.Chmod(s.disk.path(), 0o600)
	case ill.kind != "writes refused":
		err = s.disk.room()
	}
	if err != nil {
		s.broken = append(s.broken, "heal: "+err.Error())
	}
}

// fullAtRest leaves no room on the disk while nothing is under way: not the file beside
// the file, in which commits go first, has any left.
func (s *season) fullAtRest(last time.Duration) {
	s.mu.Lock()
	defer s.mu.Unlock()
	var busy, log, done int
	err := s.open().QueryRow(`PRAGMA wal_checkpoint(TRUNCATE)`).Scan(&busy, &log, &done)
	s.fall("disk full", last)
	s.ill.sure = err == nil && busy == 0 && s.polls == 1
}

// readOnly stops the service and starts it again on a file that cannot be written.
func (s *season) readOnly(last time.Duration) {
	s.kill(true)
	s.mu.Lock()
	s.close()
	now := s.clock.Now()
	s.ill = &illness{kind: "read-only file", from: now, until: now.Add(last), before: s.complaints()}
	s.fig["read-only file"]++
	var err error
	if s.disk.mounted {
		err = s.disk.lock()
	} else {
		err = os.Chmod(s.disk.path(), 0o400)
	}
	s.mu.Unlock()
	require.NoError(s.t, err)
	s.resume()
}

// figures are what came of a season.
type figures map[string]int

func (f figures) String() string {
	var out []string
	for _, k := range slices.Sorted(maps.Keys(f)) {
		out = append(out, fmt.Sprintf("%s %d", k, f[k]))
	}
	return strings.Join(out, ", ")
}
