package main

import (
	"context"
	"encoding/json"
	"fmt"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
	"unicode/utf16"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot"
	"yardbell/bot/console"
	"yardbell/bot/telegram"
	"yardbell/bot/telegram/apidouble"
	"yardbell/rules"
	"yardbell/scheduler"
	"yardbell/store"
)

// spokenLine is what both transports have to agree on about one message.
type spokenLine struct {
	Line    int
	Text    string
	Buttons []string
	Logged  string
}

// Every conversation goes over the Bot API as it goes over the console: the same
// texts, the same buttons, the same lines in the logbook.
func TestTransportsAgree(t *testing.T) {
	list := inTurn(t, 2)
	all := playAll(t, list)
	for _, c := range list {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			said := parse(t, all[c.name].jsonl())
			g := newGroupPlayer(t, c, said)
			g.play(c.text)
			var want []spokenLine
			for _, m := range said {
				line := int(m["line"].(float64))
				if g.skipped[line] != "" || m["kind"] == "notice" { // the sign is no message
					continue
				}
				l := spokenLine{Line: line, Text: m["text"].(string), Logged: spellLogged(t, m["logged"])}
				for _, b := range m["buttons"].([]any) {
					l.Buttons = append(l.Buttons, b.(string))
				}
				want = append(want, l)
			}
			got := g.said()
			for i := range min(len(want), len(got)) {
				want[i].Line, got[i].Line = 0, 0
				require.Equal(t, want[i], got[i], "message %d", i+1)
			}
			require.Len(t, got, len(want))
			assert.Empty(t, g.Violations())
			g.assertDiscreet(c.text, got)
			g.assertPinned(!strings.Contains(c.text, "set pin off") && !strings.Contains(c.text, "ajustar fijar no"))
			for n, why := range g.skipped {
				t.Logf("line %d is left out: %s", n, why)
			}
		})
	}
}

// assertDiscreet finds nothing that was said, and nobody's name, in the log of the
// service, which tells of every update all the same.
func (g *groupPlayer) assertDiscreet(script string, said []spokenLine) {
	g.t.Helper()
	log := g.logged.String()
	require.Contains(g.t, log, "update handled")
	for name := range g.users {
		assert.NotRegexp(g.t, `\b`+regexp.QuoteMeta(name)+`\b`, log)
	}
	for _, s := range strings.Split(script, "\n") {
		if l, err := parseLine(trimEOL(s)); err == nil && strings.Contains(strings.TrimSpace(l.text), " ") {
			assert.NotContains(g.t, log, strings.TrimSpace(l.text))
		}
	}
	for _, m := range said {
		first, _, _ := strings.Cut(m.Text, "\n")
		assert.NotContains(g.t, log, first)
	}
}

// groupPlayer plays a script as people in a group of the Bot API double.
type groupPlayer struct {
	*apidouble.Double
	t       *testing.T
	path    string
	zone    *time.Location
	now     time.Time
	lag     time.Duration // how far the sender's own clock is ahead
	group   int64
	users   map[string]int64
	last    map[string]int // each one's latest message
	console []map[string]any
	skipped map[int]string // lines that cannot be in a chat, and why

	logged screen // the service's own log

	db    *store.DB
	poll  *telegram.Poller
	sched *scheduler.Scheduler
}

func newGroupPlayer(t *testing.T, conv conversation, console []map[string]any) *groupPlayer {
	zoneName, start := head(t, conv.text)
	zone, err := loadZone(zoneName)
	require.NoError(t, err)
	g := &groupPlayer{logged: screen{changed: make(chan struct{})}, t: t, zone: zone, path: filepath.Join(t.TempDir(), "group.db"), users: map[string]int64{}, last: map[string]int{},
		console: console, skipped: map[int]string{}}
	g.now, err = parseNow(start, zone)
	require.NoError(t, err)
	g.Double = apidouble.Start(t, apidouble.Options{Token: markerToken, ReadsAll: true, Rates: apidouble.Rates{RecordOnly: true},
		Clock: apidouble.ClockFunc(func() time.Time { return g.now })})
	// As many members as there are names; the console takes everybody as one.
	admin := g.NewUser("Admin", "")
	g.group = g.NewSupergroup("Yard", admin)
	g.AddBot(g.group, admin)
	g.Promote(g.group, admin) // so that it pins, which must change no text
	for _, s := range strings.Split(conv.text, "\n") {
		l, err := parseLine(trimEOL(s))
		if err != nil || l.who == "" || !utf8.ValidString(l.who) || g.users[l.who] != 0 {
			continue
		}
		g.users[l.who] = g.NewUser(l.who, "")
		g.AddMember(g.group, admin, g.users[l.who])
	}
	g.open()
	// The crew is there with the script's zone and language, and everybody leads, as on the console.
	require.NoError(t, g.db.Update(t.Context(), g.now, func(tx *store.Tx) error {
		c, err := tx.NewCrew(telegram.Source, g.group, map[string]string{"zone": zoneName, "language": conv.lang})
		if err != nil {
			return err
		}
		for name, id := range g.users {
			m, err := tx.Member(c, fmt.Sprint(id), name)
			if err == nil {
				err = tx.SetLead(m.ID, true)
			}
			if err != nil {
				return err
			}
		}
		return nil
	}))
	g.read()
	return g
}

// open starts the service on the file, as after a crash: the old handle is left.
func (g *groupPlayer) open() {
	ctx := g.t.Context()
	db, err := store.Open(ctx, g.path, store.Options{})
	require.NoError(g.t, err)
	g.t.Cleanup(func() { _ = db.Close() })
	g.db = db
	client, err := telegram.NewClient(g.URL(), markerToken)
	require.NoError(g.t, err)
	require.NoError(g.t, client.Connect(ctx))
	clock := func() time.Time { return g.now }
	wait := func(_ context.Context, d time.Duration) error {
		g.lag += d
		return nil
	}
	var b *bot.Bot
	// The sender keeps the limits by a clock of its own that runs while the script's
	// stands still: what the chat allows in a minute must not change a text.
	out := telegram.NewSender(client, func() time.Time { return g.now.Add(g.lag) }, wait, func(ctx context.Context, from, to int64) error {
		return b.Moved(ctx, g.now, telegram.Source, from, to)
	})
	quiet, err := logFlags{format: "text", level: "debug"}.logger(&g.logged, nil)
	require.NoError(g.t, err)
	b = bot.New(db, func() {}, quiet, nil)
	b.ByCode = true
	g.sched = scheduler.New(db, senderAdapter{bot.Post{To: out, DB: db}, b, clock}, quiet)
	g.poll = telegram.NewPoller(client, b, quiet, clock, wait)
	require.NoError(g.t, g.sched.Recover(ctx, g.now))
}

// read takes in what is there, and sends what is due.
func (g *groupPlayer) read() {
	require.NoError(g.t, g.poll.Once(g.t.Context(), 0))
	g.tick()
}

func (g *groupPlayer) tick() {
	g.lag += 2 * time.Minute
	require.NoError(g.t, g.sched.Tick(g.t.Context(), g.now))
}

func (g *groupPlayer) view(fn func(*store.Tx) error) {
	g.t.Helper()
	require.NoError(g.t, g.db.View(g.t.Context(), g.now, fn))
}

func (g *groupPlayer) play(script string) {
	for i, s := range strings.Split(script, "\n") {
		l, err := parseLine(trimEOL(s))
		require.NoError(g.t, err)
		switch l.kind {
		case blankLine:
		case clockLine:
			g.move(l)
		case downLine:
			g.now = g.now.Add(l.by)
			g.open()
			g.read()
		case restartLine:
			g.open()
			g.read()
		default:
			if why := g.write(l); why != "" {
				g.skipped[i+1] = why
				continue
			}
			g.read()
		}
	}
}

// move moves the clock as the console does: everything due on the way goes out.
func (g *groupPlayer) move(l scriptLine) {
	to := g.now.Add(l.by)
	if l.to != "" {
		var err error
		g.view(func(tx *store.Tx) error {
			s, err := tx.Settings(1)
			g.zone = s.Zone
			return err
		})
		to, err = parseNow(l.to, g.zone)
		require.NoError(g.t, err)
		if to.Before(g.now) {
			g.tick()
			return
		}
	}
	for {
		var at time.Time
		var found bool
		g.view(func(tx *store.Tx) (err error) {
			at, found, err = tx.NextDue()
			return err
		})
		if !found || at.After(to) {
			break
		}
		if at.After(g.now) {
			g.now = at
		}
		g.tick()
	}
	g.now = to
}

// write plays a line of the chat. It gives the reason where no chat can have it.
func (g *groupPlayer) write(l scriptLine) (why string) {
	user := g.users[l.who]
	switch {
	case user == 0 || !utf8.ValidString(l.text):
		return "no chat carries bytes that are no text"
	case strings.TrimSpace(l.text) == "":
		return "no chat lets a message without words be sent"
	case len(utf16.Encode([]rune(l.text))) > 4096:
		return "no chat takes more than 4096 characters in a message"
	}
	switch l.kind {
	case editLine:
		if g.last[l.who] == 0 {
			return "who has written nothing has nothing to edit"
		}
		g.Edit(g.group, user, g.last[l.who], l.text)
	case sayLine:
		g.last[l.who] = g.Say(g.group, user, l.text)
	case beneathLine:
		if g.last[l.who] == 0 {
			return "nobody can reply to a message that is not there"
		}
		g.last[l.who] = g.Say(g.group, user, l.text, apidouble.ReplyTo(g.last[l.who]))
	case thumbLine:
		return "of reactions a bot hears where it is an administrator"
	case forwardLine:
		g.last[l.who] = g.Say(g.group, user, l.text, apidouble.Forwarded())
	case replyLine:
		id := g.target(l, func(tx *store.Tx) (store.Message, bool, error) { return tx.LastPing(1) })
		if id == 0 {
			return "nobody can reply to a message that is not there"
		}
		g.last[l.who] = g.Say(g.group, user, l.text, apidouble.ReplyTo(id))
	case pressLine:
		id := g.target(l, func(tx *store.Tx) (store.Message, bool, error) { return tx.LastWithButtons(1) })
		m, found := g.Message(g.group, id)
		if !found {
			return "nobody can press under a message that is not there"
		}
		return g.press(user, m, l.text)
	}
	return ""
}

// press presses a button; one that is no longer shown is pressed by a phone that has
// not yet seen the change.
func (g *groupPlayer) press(user int64, m apidouble.Sent, label string) (why string) {
	shown := [][][]apidouble.Button{m.Buttons}
	for _, v := range m.History {
		shown = append(shown, v.Buttons)
	}
	for _, rows := range shown {
		for _, row := range rows {
			for _, b := range row {
				if strings.EqualFold(b.Text, strings.TrimSpace(label)) {
					g.PressData(g.group, user, m.ID, b.Data)
					return ""
				}
			}
		}
	}
	return "nobody can press a button that was never there"
}

// target is the message a line is about: the console's number, through the order in
// which both sent, or the latest.
func (g *groupPlayer) target(l scriptLine, latest func(*store.Tx) (store.Message, bool, error)) (id int) {
	if l.number == 0 {
		g.view(func(tx *store.Tx) error {
			m, found, err := latest(tx)
			if found {
				id = int(m.Message)
			}
			return err
		})
		return id
	}
	sent := g.Sent(g.group)
	place := 0
	for _, m := range g.console {
		if g.skipped[int(m["line"].(float64))] != "" {
			continue
		}
		if int64(m["n"].(float64)) == l.number {
			if place < len(sent) {
				return sent[place].ID
			}
			return 0
		}
		place++
	}
	return 0
}

// said is what the bot said in the group, as it was when it was said.
func (g *groupPlayer) said() (list []spokenLine) {
	logged := map[int64]string{}
	g.view(func(tx *store.Tx) error {
		out, err := tx.Outbox(1)
		if err != nil {
			return err
		}
		for _, m := range out {
			if m.Message == 0 || m.Update == 0 {
				continue
			}
			lines, err := tx.UpdateLines(m.Update)
			if err != nil {
				return err
			}
			logged[m.Message] = asLogged(g.t, lines)
		}
		return nil
	})
	for _, m := range g.Sent(g.group) {
		if m.File != nil && m.Text == "" {
			continue // one of several files of a message, behind its words
		}
		l := spokenLine{Text: m.Text, Logged: "[]"}
		buttons := m.Buttons
		if len(m.History) > 0 {
			l.Text, buttons = m.History[0].Text, m.History[0].Buttons
		}
		for _, row := range buttons {
			for _, b := range row {
				l.Buttons = append(l.Buttons, b.Text)
			}
		}
		if s := logged[int64(m.ID)]; s != "" {
			l.Logged = s
		}
		list = append(list, l)
	}
	return list
}

// assertPinned finds every morning's list pinned in the group, or none.
func (g *groupPlayer) assertPinned(want bool) {
	g.tick() // the last pin
	g.view(func(tx *store.Tx) error {
		out, err := tx.Outbox(1)
		for _, m := range out {
			if m.State == "sent" && m.Message != 0 && strings.HasPrefix(m.Key, "digest/") {
				shown, found := g.Message(g.group, int(m.Message))
				require.True(g.t, found)
				assert.Equal(g.t, want, shown.Pinned, m.Key)
			}
		}
		return err
	})
}

// asLogged spells lines as the console protocol does.
func asLogged(t testing.TB, lines []store.Line) string {
	list := []console.Logged{}
	for _, l := range lines {
		if l.Action != rules.Set && !(l.Action == rules.Void && l.Step == "") {
			list = append(list, console.AsLogged(l.Entry, time.UTC))
		}
	}
	return spellLogged(t, list)
}

// spellLogged writes logged lines with their times as instants: which zone the crew
// was in when a line was shown is in the texts.
func spellLogged(t testing.TB, v any) string {
	t.Helper()
	b, err := json.Marshal(v)
	require.NoError(t, err)
	var list []map[string]any
	require.NoError(t, json.Unmarshal(b, &list))
	for _, l := range list {
		for _, field := range []string{"happened", "until"} {
			if l[field] == nil {
				continue
			}
			at, err := time.Parse(time.RFC3339, l[field].(string))
			require.NoError(t, err)
			l[field] = at.UTC().Format(time.RFC3339)
		}
	}
	b, err = json.Marshal(list)
	require.NoError(t, err)
	return string(b)
}
