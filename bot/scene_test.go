package bot

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the zones under test must not depend on the machine

	"github.com/stretchr/testify/require"

	"yardbell/bot/console"
	"yardbell/rules"
	"yardbell/scheduler"
	"yardbell/store"
)

// A scene is a crew's file after one of the context scripts was played. Only this
// test brings bot and scheduler together here: pings must have gone out for
// somebody to answer them.
type scene struct {
	db   *store.DB
	bot  *Bot
	crew store.Crew
	zone *time.Location
	now  time.Time
	out  []store.Message // what the bot has said, oldest first
	last int64           // number of the last update
}

const sceneSource, sceneChat = "scene", 1

// playScene plays a context with a crew that speaks English.
func playScene(t testing.TB, path string) *scene {
	t.Helper()
	return playSceneIn(t, path, "en")
}

// playSceneIn plays a context. It knows the lines that contexts have: the clock moved
// to a time, somebody writing, somebody pressing a button of the latest question. The
// crew speaks one language.
func playSceneIn(t testing.TB, path, lang string) *scene {
	t.Helper()
	script, err := os.ReadFile(path)
	require.NoError(t, err)
	ctx := context.Background()
	db, err := store.Open(ctx, filepath.Join(t.TempDir(), "scene.db"), store.Options{})
	require.NoError(t, err)
	t.Cleanup(func() { _ = db.Close() })
	s := &scene{db: db}
	quiet := slog.New(slog.NewTextHandler(io.Discard, nil))
	sched := scheduler.New(db, Post{To: console.NewConsole(&bytes.Buffer{}, db, false, false)}, quiet)
	clock := func(at string) time.Time {
		c, err := time.ParseInLocation("2006-01-02 15:04", strings.TrimSpace(at), s.zone)
		require.NoError(t, err, path)
		return c
	}
	for i, line := range strings.Split(string(script), "\n") {
		who, text, said := strings.Cut(line, ":")
		switch {
		case strings.HasPrefix(line, "# zone:"):
			s.zone, err = time.LoadLocation(strings.TrimSpace(text))
			require.NoError(t, err)
			s.bot = New(db, func() {}, quiet, map[string]string{"zone": strings.TrimSpace(text), "language": lang})
			s.bot.ByCode = true
		case strings.HasPrefix(line, "# now:"):
			s.now = clock(text)
			require.NoError(t, s.bot.Start(ctx, s.now, sceneSource, sceneChat))
			s.gather(t)
		case strings.TrimSpace(line) == "", strings.HasPrefix(line, "#"):
		case strings.HasPrefix(line, "@ "):
			s.until(t, sched, clock(line[2:]))
		case said:
			in := s.incoming(strings.TrimSuffix(strings.TrimSpace(who), " *"), strings.TrimSpace(text))
			if strings.HasSuffix(strings.TrimSpace(who), "*") {
				require.NoError(t, db.View(ctx, s.now, func(tx *store.Tx) error {
					c, _, err := tx.Crew(sceneSource, sceneChat)
					require.NoError(t, err)
					m, found, err := tx.LastWithButtons(c.ID)
					require.True(t, found, "%s:%d: nothing to press", path, i+1)
					in.Kind, in.Message = "press", m.Message
					return err
				}))
			}
			s.last = in.UpdateID
			require.NoError(t, s.bot.Handle(ctx, s.now, in))
			require.NoError(t, sched.Tick(ctx, s.now))
		default:
			t.Fatalf("%s:%d: cannot play %q", path, i+1, line)
		}
	}
	require.NoError(t, db.View(ctx, s.now, func(tx *store.Tx) (err error) {
		if s.crew, _, err = tx.Crew(sceneSource, sceneChat); err != nil {
			return err
		}
		all, err := tx.Outbox(s.crew.ID)
		for _, m := range all {
			if m.Message != 0 && m.Edits == 0 {
				s.out = append(s.out, m)
			}
		}
		return err
	}))
	return s
}

// gather makes the crew as a real group has it: three members, and Ash leads.
func (s *scene) gather(t testing.TB) {
	t.Helper()
	require.NoError(t, s.db.Update(context.Background(), s.now, func(tx *store.Tx) error {
		c, _, err := tx.Crew(sceneSource, sceneChat)
		require.NoError(t, err)
		for _, who := range []string{"Ash", "Wren", "Rowan"} {
			m, err := tx.Member(c, strings.ToLower(who), who)
			if err != nil {
				return err
			}
			if who == "Ash" {
				require.NoError(t, tx.SetLead(m.ID, true))
			}
		}
		return nil
	}))
}

// until moves the clock; what falls due goes out on the way.
func (s *scene) until(t testing.TB, sched *scheduler.Scheduler, to time.Time) {
	t.Helper()
	ctx := context.Background()
	for {
		var at time.Time
		var found bool
		require.NoError(t, s.db.View(ctx, s.now, func(tx *store.Tx) (err error) {
			at, found, err = tx.NextDue()
			return err
		}))
		if !found || at.After(to) {
			break
		}
		if at.After(s.now) {
			s.now = at
		}
		require.NoError(t, sched.Tick(ctx, s.now))
	}
	s.now = to
}

func (s *scene) incoming(who, text string) Incoming {
	id := s.last + 1
	return Incoming{Source: sceneSource, UpdateID: id, Chat: sceneChat, UserKey: strings.ToLower(who), UserName: who, Said: s.now, Kind: "message", Message: -id, Text: text}
}

// target is the message that "ripe >", "ripe >move" or "ripe >!" reply to.
func (s *scene) target(which string) (store.Message, bool) {
	var best store.Message
	for _, m := range s.out {
		ping := m.Ping != "" && m.TaskKey != ""
		fits := which == "!" || ping && (which == "" || string(m.Step) == which || strings.Contains("/"+m.TaskKey+"/", "/"+which+"/"))
		if fits && m.Message > best.Message {
			best = m
		}
	}
	return best, best.Message != 0
}

// ending is what became of an utterance.
type ending struct {
	logged []rules.Entry
	kind   string // silence, ask, answer, or logged
	asks   bool   // about more than it logged
	place  int    // of the answer among what waits
	offers bool   // to log what was read
	text   string
	labels string // of its buttons
}

var errRollback = errors.New("rolled back")

// try handles one utterance in a transaction that is rolled back.
func (s *scene) try(who, text string, reply int64) (o ending, err error) {
	in := s.incoming(who, text)
	in.ReplyTo = reply
	err = s.db.Update(context.Background(), s.now, func(tx *store.Tx) error {
		sc, fresh, err := s.bot.begin(tx, in)
		if err != nil || !fresh {
			return errors.Join(err, fmt.Errorf("%q was not taken in", text))
		}
		ans, err := sc.Run()
		if err != nil {
			return err
		}
		if ans, err = finish(tx, sc, ans); err != nil {
			return err
		}
		o = ending{logged: ans.Logged, kind: "ask", asks: ans.Sort() == "ask", place: ans.Place(), text: strings.Join(ans.Lines, "\n")}
		for _, b := range ans.Buttons {
			o.labels += b.Label + "\n"
		}
		o.offers = slices.ContainsFunc(ans.Buttons, func(b store.Button) bool { return strings.HasPrefix(b.Do, "act|") && strings.Contains(b.Do, "sure=1") })
		switch {
		case len(ans.Logged) > 0:
			o.kind = "logged"
		case ans.Silent:
			o.kind = "silence"
		case ans.Sort() == "reply":
			o.kind = "answer"
		}
		return errRollback
	})
	if errors.Is(err, errRollback) {
		err = nil
	}
	return o, err
}
