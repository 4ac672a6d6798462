package apidouble

import (
	"context"
	"fmt"
	"math/rand/v2"
	"net/http/httptest"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
)

// DefaultToken is the token of a double whose Options name none. The number before
// the colon is the bot's own user id, as it is with real tokens.
const DefaultToken = "700100:DOUBLE-token_for-tests"

// Options of a double; the zero value is a bot in privacy mode on a clock that
// stands still.
type Options struct {
	Token    string
	Username string // without the @; "yardbell_bot" if empty
	// ReadsAll is privacy mode switched off.
	ReadsAll bool
	// HearsMentions lets a plain @mention through privacy mode. The docs do not
	// promise that, so it is off unless asked for.
	HearsMentions bool
	// Clock is a ManualClock at DefaultStart if nil. A clock that stands still refills
	// no limit: advance it, or have Rates only record.
	Clock Clock
	Rates Rates
	// CallbackWindow is how long a press can be answered. No documented time; users
	// report failures from 10 to 20 s on. 15 s if zero.
	CallbackWindow time.Duration
	// FirstUpdateID is the number of the first update; 300001 if zero.
	FirstUpdateID int
}

// Double is the server and the world behind it. All methods may be called from
// several goroutines at once.
type Double struct {
	opts   Options
	clock  Clock
	spec   *spec
	server *httptest.Server
	done   chan struct{}
	once   sync.Once
	rng    *rand.Rand

	mu      sync.Mutex
	changed chan struct{} // closed and replaced at every change

	me       *User
	readsAll bool
	users    map[int64]*User
	chats    map[int64]*chat

	nextUser, nextGroup, nextSuper int64
	sharedID                       int // of messages in private chats and basic groups
	nextCallback, nextFile         int

	queue     updateQueue
	waiting   *poll
	webhook   string
	callbacks map[string]*press
	answers   []CallbackAnswer
	commands  map[string][]Command
	files     map[string]*File

	rates      *limiter
	faults     map[string][]*scripted
	requests   []Request
	violations []Violation
	badTokens  int
}

// New starts a double; Close ends it. It panics if the description of the API
// cannot be read, since nothing could be checked then.
func New(opts Options) *Double {
	s, err := loadSpec()
	if err != nil {
		panic("apidouble: " + err.Error())
	}
	if opts.Token == "" {
		opts.Token = DefaultToken
	}
	if opts.Username == "" {
		opts.Username = "yardbell_bot"
	}
	if opts.Clock == nil {
		opts.Clock = NewManualClock(DefaultStart)
	}
	if opts.CallbackWindow == 0 {
		opts.CallbackWindow = 15 * time.Second
	}
	if opts.FirstUpdateID == 0 {
		opts.FirstUpdateID = 300001
	}
	number, _, _ := strings.Cut(opts.Token, ":")
	id, err := strconv.ParseInt(number, 10, 64)
	if err != nil {
		panic("apidouble: a token starts with the number of the bot")
	}
	d := &Double{
		opts: opts, clock: opts.Clock, spec: s,
		done: make(chan struct{}), changed: make(chan struct{}),
		rng:      rand.New(rand.NewPCG(uint64(id), 1)),
		me:       &User{ID: id, Bot: true, FirstName: "Yardbell", Username: opts.Username},
		readsAll: opts.ReadsAll,
		users:    map[int64]*User{}, chats: map[int64]*chat{},
		nextUser: 1001, nextGroup: 4001, nextSuper: 1000000000001,
		callbacks: map[string]*press{}, commands: map[string][]Command{}, files: map[string]*File{},
		faults: map[string][]*scripted{},
	}
	d.queue.next = opts.FirstUpdateID
	d.rates = newLimiter(opts.Rates)
	d.users[id] = d.me
	d.server = httptest.NewServer(d)
	return d
}

// Start is New for a test, closed at its end.
func Start(tb testing.TB, opts Options) *Double {
	tb.Helper()
	d := New(opts)
	tb.Cleanup(d.Close)
	return d
}

// Close ends waiting polls and slow answers and stops listening.
func (d *Double) Close() {
	d.once.Do(func() {
		close(d.done)
		d.server.CloseClientConnections()
		d.server.Close()
	})
}

// URL is the address for --api, without a slash at its end.
func (d *Double) URL() string { return d.server.URL }

// Endpoint is the address as tgbotapi wants it.
func (d *Double) Endpoint() string { return d.server.URL + "/bot%s/%s" }

// Token is the one the double accepts.
func (d *Double) Token() string { return d.opts.Token }

// Clock is the clock the double runs on.
func (d *Double) Clock() Clock { return d.clock }

// Me is the bot itself.
func (d *Double) Me() User { return *d.me }

func (d *Double) now() time.Time { return d.clock.Now() }

// bump tells everybody who waits that something has changed. The lock is held.
func (d *Double) bump() {
	close(d.changed)
	d.changed = make(chan struct{})
}

// Await returns when cond, which may call any method of the double, holds. It looks
// again at every change in the double, so a test needs no sleeping.
func (d *Double) Await(ctx context.Context, cond func() bool) error {
	for {
		d.mu.Lock()
		changed := d.changed
		d.mu.Unlock()
		if cond() {
			return nil
		}
		select {
		case <-changed:
		case <-d.done:
			return fmt.Errorf("the double was closed")
		case <-ctx.Done():
			return ctx.Err()
		}
	}
}

// Violation is a request that the description of the API does not allow.
type Violation struct {
	Method string
	Detail string
	At     time.Time
}

func (v Violation) String() string { return v.Method + ": " + v.Detail }

// Violations are all breaches of the API so far; a well-behaved bot has none.
func (d *Double) Violations() []Violation {
	d.mu.Lock()
	defer d.mu.Unlock()
	return append([]Violation(nil), d.violations...)
}

func (d *Double) violate(method, detail string) {
	d.violations = append(d.violations, Violation{method, detail, d.now()})
}

// Request is one call of the bot with the right token, whatever came of it.
type Request struct {
	Method string
	Params map[string]string
	Files  map[string]string // field to file name
	At     time.Time
}

// Requests are the calls so far, of one method or, without any, of all.
func (d *Double) Requests(methods ...string) []Request {
	d.mu.Lock()
	defer d.mu.Unlock()
	var out []Request
	for _, r := range d.requests {
		for _, m := range methods {
			if m == r.Method {
				out = append(out, r)
			}
		}
		if len(methods) == 0 {
			out = append(out, r)
		}
	}
	return out
}

// BadTokens counts the requests refused with 401 for their token.
func (d *Double) BadTokens() int {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.badTokens
}

// misuse is the test's mistake.
func misuse(format string, args ...any) {
	panic("apidouble: " + fmt.Sprintf(format, args...))
}
