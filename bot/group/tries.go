package group

import (
	"sync"
	"time"

	"golang.org/x/time/rate"
)

// An account may give so many join codes at once and one more after each while. Counted
// is by account alone: by group, a stranger in it could shut out who has the code.
const (
	joinBurst = 10
	joinEvery = 10 * time.Minute
	mostTried = 1000 // accounts remembered
)

// tries counts the join codes that accounts gave. It is in memory, and safe for
// concurrent use.
type tries struct {
	mu sync.Mutex
	by map[string]*rate.Limiter
}

// take reports whether one more code of an account is looked at.
func (t *tries) take(userKey string, at time.Time) bool {
	t.mu.Lock()
	defer t.mu.Unlock()
	k := t.by[userKey]
	if k == nil {
		if t.by == nil || len(t.by) >= mostTried { // all are forgotten: no guess comes near by that
			t.by = map[string]*rate.Limiter{}
		}
		k = rate.NewLimiter(rate.Every(joinEvery), joinBurst)
		t.by[userKey] = k
	}
	return k.AllowN(at, 1)
}
