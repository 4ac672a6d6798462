package main

import (
	"bufio"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"sync"
	"time"

	"yardbell/bot"
	"yardbell/bot/console"
	"yardbell/rules"
	"yardbell/scheduler"
	"yardbell/store"
)

type storeTx = store.Tx

// The console's group is one chat of its own source.
const (
	consoleSource = "console"
	consoleChat   = 1
)

// player plays a script: people write, the clock moves, the bot speaks.
type player struct {
	e     env
	path  string
	table *rules.Table
	first map[string]string
	out   io.Writer
	json  bool
	color bool
	echo  bool
	files string // folder of the files that go with messages

	db    *store.DB
	left  []*store.DB // handles of before a restart, which a crash would not close
	con   *console.Console
	bot   *bot.Bot
	sched *scheduler.Scheduler
	now   time.Time
	pause func(shown string) // demo: time to read
}

// open opens the database and wires bot and scheduler to it.
func (p *player) open(ctx context.Context) error {
	db, err := store.Open(ctx, p.path, store.Options{Table: p.table})
	if err != nil {
		return err
	}
	p.db = db
	if p.con == nil {
		p.con = console.NewConsole(p.out, db, p.json, p.color)
		p.con.Folder = p.files
	} else {
		p.con.Reopen(db)
	}
	p.sched = scheduler.New(db, bot.Post{To: p.con, DB: db, Log: logger(p.e)}, logger(p.e))
	p.bot = bot.New(db, p.sched.Wake, logger(p.e), p.first)
	return nil
}

func (p *player) close() error {
	var errs []error
	for _, db := range append(p.left, p.db) {
		if db != nil {
			errs = append(errs, db.Close())
		}
	}
	return errors.Join(errs...)
}

// begin starts the service at now: the crew exists, and what was due meanwhile
// goes out.
func (p *player) begin(ctx context.Context, now time.Time) error {
	p.now = now
	if err := p.bot.Start(ctx, now, consoleSource, consoleChat); err != nil {
		return err
	}
	if err := p.sched.Recover(ctx, now); err != nil {
		return err
	}
	return p.tick(ctx)
}

func (p *player) tick(ctx context.Context) error {
	if err := p.sched.Tick(ctx, p.now); err != nil {
		return err
	}
	// The scheduler takes a failed write for a chat that is away and would try
	// again until the script's clock stands still.
	if o, ok := p.out.(*output); ok {
		return o.err()
	}
	return nil
}

// output remembers that it could not be written to.
type output struct {
	mu     sync.Mutex
	w      io.Writer
	failed error
}

func (o *output) Write(b []byte) (int, error) {
	n, err := o.w.Write(b)
	if err != nil {
		o.mu.Lock()
		defer o.mu.Unlock()
		o.failed = cmp.Or(o.failed, fmt.Errorf("the output cannot be written: %w", err))
	}
	return n, err
}

func (o *output) err() error {
	o.mu.Lock()
	defer o.mu.Unlock()
	return o.failed
}

// play plays every line of a script.
func (p *player) play(ctx context.Context, name string, r io.Reader) error {
	in := bufio.NewReader(r)
	for n := 1; ; n++ {
		s, err := in.ReadString('\n')
		if err != nil && !errors.Is(err, io.EOF) {
			return usage("%s cannot be read", name)
		}
		if s == "" && err != nil {
			return nil
		}
		if n == 1 {
			s = strings.TrimPrefix(s, "\ufeff") // an editor's mark of UTF-8
		}
		l, perr := parseLine(trimEOL(s))
		if perr != nil {
			return usage("%s, line %d: %v", name, n, perr)
		}
		if derr := p.do(ctx, n, l); derr != nil {
			return derr
		}
		if err != nil {
			return nil
		}
	}
}

func trimEOL(s string) string { return strings.TrimRight(s, "\r\n") }

// do plays one line.
func (p *player) do(ctx context.Context, n int, l scriptLine) error {
	p.con.Line(n)
	switch l.kind {
	case blankLine:
		return nil
	case clockLine:
		return p.move(ctx, n, l)
	case downLine:
		p.now = p.now.Add(l.by)
		return p.restart(ctx)
	case restartLine:
		return p.restart(ctx)
	}
	in, err := p.incoming(ctx, l)
	if err != nil {
		return err
	}
	if p.echo {
		s, err := p.settings(ctx, p.now)
		if err != nil {
			return err
		}
		p.con.Echo(p.now, s, l.who, shown(l))
		if p.pause != nil {
			p.pause(l.text)
		}
	}
	if err := p.bot.Handle(ctx, p.now, in); err != nil {
		return err
	}
	return p.tick(ctx)
}

// shown is how a line of the chat looks to somebody reading along.
func shown(l scriptLine) string {
	switch l.kind {
	case replyLine:
		if l.number == 0 {
			return "(replying) " + l.text
		}
		return fmt.Sprintf("(replying to %d) %s", l.number, l.text)
	case pressLine:
		return "(presses) [" + l.text + "]"
	case editLine:
		return "(changes the message to) " + l.text
	case forwardLine:
		return "(forwarding) " + l.text
	case beneathLine:
		return "(replying to the message before) " + l.text
	case thumbLine:
		return "(reacts) " + l.text
	}
	return l.text
}

// restart drops everything in memory and opens the database anew. The old handle
// is left as a crash would leave it.
func (p *player) restart(ctx context.Context) error {
	p.left = append(p.left, p.db)
	if err := p.open(ctx); err != nil {
		return err
	}
	return p.begin(ctx, p.now)
}

// move moves the clock; everything due on the way goes out in order, at its time.
func (p *player) move(ctx context.Context, n int, l scriptLine) error {
	to := p.now.Add(l.by)
	if l.to != "" {
		s, err := p.settings(ctx, p.now)
		if err != nil {
			return err
		}
		if to, err = parseNow(l.to, s.Zone); err != nil {
			return err
		}
		if to.Before(p.now) {
			_, _ = fmt.Fprintf(p.e.errOut, "line %d: %s has passed, the clock stays at %s\n", n, l.to, p.now.In(s.Zone).Format("2006-01-02 15:04"))
			return p.tick(ctx)
		}
	}
	for {
		var at time.Time
		var found bool
		err := p.db.View(ctx, p.now, func(tx *store.Tx) (err error) {
			at, found, err = tx.NextDue()
			return err
		})
		if err != nil {
			return err
		}
		if !found || at.After(to) {
			break
		}
		if at.After(p.now) {
			p.now = at
		}
		if err := p.tick(ctx); err != nil {
			return err
		}
		if p.pause != nil {
			p.pause("")
		}
	}
	p.now = to
	return nil
}

// incoming turns a line into an update, as a chat would.
func (p *player) incoming(ctx context.Context, l scriptLine) (in bot.Incoming, err error) {
	in = bot.Incoming{Source: consoleSource, Chat: consoleChat, UserKey: strings.ToLower(l.who), UserName: l.who, Said: p.now, Text: l.text, Kind: "message"}
	err = p.db.View(ctx, p.now, func(tx *store.Tx) error {
		crew, _, err := tx.Crew(consoleSource, consoleChat)
		if err != nil {
			return err
		}
		last, err := tx.LastUpdateID(consoleSource)
		if err != nil {
			return err
		}
		in.UpdateID = last + 1
		// The bot's messages are numbered from 1; what people write gets numbers of
		// its own, below zero.
		in.Message = -in.UpdateID
		top, err := tx.LastNumber(crew.ID)
		if err != nil {
			return err
		}
		target := l.number
		switch l.kind {
		case replyLine:
			if target == 0 {
				m, found, err := tx.LastPing(crew.ID)
				if err != nil {
					return err
				}
				if target = top + 1; found {
					target = m.Message
				}
			}
			in.ReplyTo = target
		case pressLine:
			in.Kind = "press"
			if target == 0 {
				m, found, err := tx.LastWithButtons(crew.ID)
				if err != nil {
					return err
				}
				if target = top + 1; found {
					target = m.Message
				}
			}
			in.Message = target
		case thumbLine:
			in.Kind, in.Text = "thumb", ""
			if m, found, err := tx.LastPing(crew.ID); err != nil {
				return err
			} else if target == 0 && found {
				target = m.Message
			}
			in.Message = target
		case forwardLine:
			in.Forwarded = true
		case beneathLine:
			id, found, err := tx.MemberKey(crew.ID, in.UserKey)
			if err != nil || !found {
				return err
			}
			in.Beneath, _, err = tx.LastMessageOf(crew.ID, id)
			return err
		case editLine:
			in.Kind = "edit"
			in.Message = 0
			id, found, err := tx.MemberKey(crew.ID, in.UserKey)
			if err != nil || !found {
				return err
			}
			in.Message, _, err = tx.LastMessageOf(crew.ID, id)
			return err
		}
		return nil
	})
	return in, err
}
