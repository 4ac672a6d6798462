//go:build linux && !race

package main

import (
	"bytes"
	"database/sql"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"strconv"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"yardbell/bot"
	"yardbell/bot/telegram"
	"yardbell/bot/telegram/apidouble"
	"yardbell/bot/wording"
	"yardbell/store"
)

// season is the world of a service that is killed and ill-treated while crews go on
// with their work: the chat's server, its people, the wire to it, the clock, the disk.
type season struct {
	*apidouble.Double
	t       *testing.T
	clock   *apidouble.ManualClock // the true one, which the chat's server has
	groups  []int64
	people  [][]int64
	nobody  int64 // writes to the bot and is not on any crew, which only wakes the service
	disk    *disk
	err     *tail
	api     *httptest.Server
	control *httptest.Server

	mu     sync.Mutex
	cmd    *exec.Cmd
	dead   chan struct{} // closed when cmd has ended and was accounted for
	held   bool          // not to be started again yet
	over   bool
	broken []string // what must not be
	polls  int      // of the process that lives
	offset time.Duration
	ill    *illness
	ailed  bool     // something ailed the process that lives, or it was born into that
	queue  []strike // what is to happen, one after the other
	fig    figures

	uncertain map[spot]bool        // what the chat took and the service may not know of
	taken     []spot               // of late
	shaky     []stretch            // when things were out of order
	astray    time.Time            // since when the service's clock has been wrong
	downUntil time.Time            // the service is off until then
	missed    map[string]time.Time // pings that could not be answered, and when that was wanted
	watch     *sql.DB
}

// spot is a message in a chat.
type spot struct {
	chat int64
	id   int64
}

type stretch struct{ from, to time.Time }

// tail keeps the end of what the service says and counts what it complains of.
type tail struct {
	mu   sync.Mutex
	last []byte
	seen map[string]int
}

// complaints are counted, by the words in which the service makes them.
var complaints = []string{"the disk is full", "must allow writing", "is read-only", "the disk reports an error", "panic"}

func (l *tail) Write(b []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, c := range complaints {
		l.seen[c] += bytes.Count(b, []byte(c))
	}
	l.last = append(l.last, b...)
	if n := len(l.last) - 20_000; n > 0 {
		l.last = l.last[n:]
	}
	return len(b), nil
}

func (l *tail) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return string(l.last)
}

func (l *tail) count(c string) int {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.seen[c]
}

// newSeason makes the crews, each with its group claimed by its first member, before the
// service starts.
func newSeason(t *testing.T, crews int, begin time.Time) *season {
	s := &season{t: t, clock: apidouble.NewManualClock(begin), disk: newDisk(t), err: &tail{seen: map[string]int{}}, uncertain: map[spot]bool{}, missed: map[string]time.Time{}, fig: figures{}}
	s.Double = apidouble.Start(t, apidouble.Options{Token: markerToken, ReadsAll: true, Clock: s.clock})
	db, err := store.Open(t.Context(), s.disk.path(), store.Options{})
	require.NoError(t, err)
	for i := range crews {
		wren, ash, odile := s.NewUser("Wren", ""), s.NewUser("Ash", ""), s.NewUser("Odile", "")
		group := s.NewSupergroup(fmt.Sprint("Yard ", i), wren, ash, odile)
		s.AddBot(group, wren)
		if i%3 == 0 {
			s.Promote(group, wren)
		}
		s.groups, s.people = append(s.groups, group), append(s.people, []int64{wren, ash, odile})
		b := bot.New(db, func() {}, logger(env{errOut: s.err}), map[string]string{"zone": seasonZones[i%len(seasonZones)], "language": wording.Languages[langOf(i)]})
		b.ByCode = true
		code, err := b.OpenJoin(t.Context(), begin)
		require.NoError(t, err)
		require.NoError(t, b.Handle(t.Context(), begin, bot.Incoming{Source: telegram.Source, UpdateID: int64(1 + i), Chat: group, UserKey: fmt.Sprint(wren),
			UserName: "Wren", Said: begin, Kind: "message", Message: 1_000_000, Text: "/join " + code, Rights: "member"}))
	}
	require.NoError(t, db.Close())
	s.nobody = s.NewUser("Mallory", "")
	s.api = httptest.NewServer(http.HandlerFunc(s.serveAPI))
	s.control = httptest.NewServer(http.HandlerFunc(s.serveControl))
	t.Cleanup(func() { s.finish(); s.api.CloseClientConnections(); s.api.Close(); s.control.Close() })
	s.mu.Lock()
	s.start()
	s.mu.Unlock()
	return s
}

// start starts the process. The lock is held.
func (s *season) start() {
	if s.over || s.held {
		return
	}
	c := exec.Command(os.Args[0], "-test.run=^TestSeasonChild$")
	c.Env = append(os.Environ(), seasonChild+"="+s.control.URL, mortalAPI+"="+s.api.URL, mortalDB+"="+s.disk.path(), "YARDBELL_TOKEN="+markerToken)
	c.Stdout, c.Stderr = s.err, s.err
	if err := c.Start(); err != nil {
		s.broken = append(s.broken, err.Error())
		return
	}
	dead := make(chan struct{})
	s.cmd, s.dead, s.polls, s.ailed = c, dead, 0, s.ill != nil
	s.fig["starts"]++
	go func() {
		_ = c.Wait()
		s.mu.Lock()
		defer s.mu.Unlock()
		s.doubt()
		s.polls = 0
		s.cmd = nil
		if code := c.ProcessState.ExitCode(); code == -1 && !s.over {
			s.fig["kills"]++
		} else if !s.over {
			// It ended by itself: that is for a file that it cannot use, and only then.
			if s.fig["ends by itself"]++; !s.ailed {
				s.broken = append(s.broken, fmt.Sprint("exit status ", code, ": ", s.err))
				s.over = true
			}
			s.advance(30 * time.Second) // until its supervisor starts it again
		}
		close(dead)
		s.start()
	}()
}

// kill ends the process, and waits until it is dead. With hold it stays so.
func (s *season) kill(hold bool) {
	s.mu.Lock()
	c, dead := s.cmd, s.dead
	s.held = s.held || hold
	s.mu.Unlock()
	if c != nil {
		_ = c.Process.Kill()
		<-dead
	}
}

// resume lets the process live again.
func (s *season) resume() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.held = false
	if s.cmd == nil {
		s.start()
	}
}

func (s *season) finish() {
	s.mu.Lock()
	s.over = true
	s.mu.Unlock()
	s.kill(true)
	s.shut()
}

// advance moves the true clock on by so much, setTo to a time; never back. What ails the
// service until then is over. The lock is held.
func (s *season) advance(d time.Duration) { s.setTo(s.clock.Now().Add(d)) }

func (s *season) setTo(at time.Time) {
	if at.After(s.clock.Now()) {
		s.clock.Set(at)
	}
	if s.ill != nil && !s.clock.Now().Before(s.ill.until) {
		s.heal()
	}
}

// theirs is the time that the service believes it is. The lock is held.
func (s *season) theirs() time.Time { return s.clock.Now().Add(s.offset) }

func (s *season) serveControl(w http.ResponseWriter, r *http.Request) {
	q := r.URL.Query()
	s.mu.Lock()
	switch r.URL.Path {
	case "/now":
		_, _ = fmt.Fprint(w, s.theirs().UnixNano())
		if s.ill != nil && s.ill.kind == "writes refused" {
			_, _ = fmt.Fprint(w, " refused")
		}
	case "/wait":
		// Several may wait at the same time: each ends so much after it began.
		d, _ := strconv.ParseInt(q.Get("d"), 10, 64)
		s.advance(time.Duration(d))
	case "/reached":
		if s.strikes(q.Get("point")) == "kill" {
			_, _ = fmt.Fprint(w, "die")
		}
	}
	s.mu.Unlock()
}

// open is a handle on the file beside the service. The lock is held.
func (s *season) open() *sql.DB {
	if s.watch == nil {
		db, err := sql.Open("sqlite", "file:"+s.disk.path()+"?_pragma=busy_timeout(2000)")
		require.NoError(s.t, err)
		db.SetMaxOpenConns(1)
		s.watch = db
	}
	return s.watch
}

func (s *season) shut() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.close()
}

func (s *season) close() {
	if s.watch != nil {
		_ = s.watch.Close()
		s.watch = nil
	}
}

// doubt looks which messages that the chat took of late the service has noted. Of the
// others it may not know. The lock is held.
func (s *season) doubt() {
	for _, p := range s.taken {
		var n int
		err := s.open().QueryRow(`SELECT count(*) FROM outbox o JOIN crews c ON c.id = o.crew_id WHERE c.chat_id = ? AND o.message_id = ? AND o.edits = 0`, p.chat, p.id).Scan(&n)
		if err != nil || n == 0 {
			s.doubtful(p)
		}
	}
	s.taken = nil
}

func (s *season) doubtful(p spot) {
	if !s.uncertain[p] {
		s.uncertain[p] = true
		s.fig["uncertain sends"]++
	}
}

// owedNow counts what is under way or due; two counts, since an index leads to each.
const owedNow = `SELECT (SELECT count(*) FROM outbox WHERE state = 'claimed') + (SELECT count(*) FROM outbox WHERE state = 'queued' AND due_at <= ?)`

// quiet reports whether the service lives, has read everything and owes nothing now.
func (s *season) quiet() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.polls != 1 || s.cmd == nil || !s.Polling() || s.Pending() != 0 {
		return false
	}
	var n int
	err := s.open().QueryRow(owedNow, s.theirs().UnixMilli()).Scan(&n)
	return err == nil && n == 0
}

// state is for whoever wonders why it does not come to rest.
func (s *season) state() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	var owed sql.NullString
	err := s.open().QueryRow(`SELECT group_concat(key || ' ' || state || ' ' || due_at || ' ' || reason, '; ') FROM outbox
		WHERE state = 'claimed' OR state = 'queued' AND due_at <= ?`, s.theirs().UnixMilli()).Scan(&owed)
	return fmt.Sprintf("true %s, off by %s, lives %t, held %t, polls %d, polling %t, unread %d, ill %+v, to come %v, owed %s (%v)", s.clock.Now(), s.offset,
		s.cmd != nil, s.held, s.polls, s.Polling(), s.Pending(), s.ill, s.queue, owed.String, err)
}

// due is when the next message falls due, by the true clock.
func (s *season) due() (at time.Time, found bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	var ms sql.NullInt64
	if err := s.open().QueryRow(`SELECT min(due_at) FROM outbox WHERE state = 'queued'`).Scan(&ms); err != nil || !ms.Valid {
		return at, false
	}
	return time.UnixMilli(ms.Int64).Add(-s.offset).UTC(), true
}

// rest waits until nothing is left to be done. Where that takes long, time goes by,
// faster and faster, and a remark that is not for the bot wakes it.
func (s *season) rest() {
	s.t.Helper()
	began := time.Now()
	again := time.NewTicker(500 * time.Microsecond)
	defer again.Stop()
	woken := began
	by := time.Second
	for calm := 0; calm < 2; {
		<-again.C
		s.mu.Lock()
		broken := s.broken
		s.mu.Unlock()
		require.Empty(s.t, broken)
		if time.Since(began) > bound {
			require.FailNow(s.t, "it never comes to rest", s.state()+"\n"+s.err.String())
		}
		if calm++; !s.quiet() {
			calm = 0
		}
		if calm == 0 && time.Since(woken) > 60*time.Millisecond {
			s.mu.Lock()
			lives := s.polls > 0 || s.ill != nil
			if lives {
				s.advance(by)
			}
			s.mu.Unlock()
			if lives {
				by = min(2*by, 10*time.Minute)
				s.Say(s.nobody, s.nobody, "hm")
			}
			woken = time.Now()
		}
	}
	s.mu.Lock()
	s.taken = nil
	s.mu.Unlock()
}
