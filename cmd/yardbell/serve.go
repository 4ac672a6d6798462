package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/url"
	"os"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/sync/errgroup"

	"yardbell/bot"
	"yardbell/bot/telegram"
	"yardbell/scheduler"
	"yardbell/store"
)

type serveFlags struct {
	fileFlags
	api    string
	plain  bool // the token may go to api unencrypted
	listen string
	open   bool // listen may be reached from elsewhere
	config string
	join   bool
	feed   string
	backup backupFlags
	watch  watchFlags
	log    logFlags
}

func serveCommand(e env) *cobra.Command {
	var f serveFlags
	c := &cobra.Command{
		Use:   "serve",
		Short: "Put the bot into the crew's group over the Bot API",
		Long: `Reads the bot's token from the file named by YARDBELL_TOKEN_FILE, or from
YARDBELL_TOKEN, and serves until it is stopped. While no group is claimed, or with
--join, it prints a join code; /join with that code in a group claims it.`,
		Example: `  YARDBELL_TOKEN_FILE=token yardbell serve --db crew.db
  YARDBELL_TOKEN_FILE=token yardbell serve --db crew.db --api http://127.0.0.1:8081   # a Bot API server of your own`,
		Args: noArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			f.watch.asked = c.Flags().Changed("heartbeat")
			return serve(c.Context(), e, f)
		},
	}
	f.register(c)
	_ = c.Flags().MarkHidden("now")
	c.Flags().StringVar(&f.api, "api", "", "address of a Bot API server of your own")
	c.Flags().StringVar(&f.listen, "listen", "", "answer /healthz on this loopback address, e.g. 127.0.0.1:8088, and calendars with --calendar")
	c.Flags().BoolVar(&f.plain, "api-plain", false, "let --api be http:// on another machine; whoever is on the way reads the token")
	c.Flags().BoolVar(&f.open, "listen-open", false, "let --listen listen elsewhere than on loopback; whoever reaches it may ask for calendars, unencrypted")
	c.Flags().StringVar(&f.feed, "calendar", "", "public address of --listen, e.g. https://bees.example; lets phones subscribe to calendars")
	c.Flags().StringVar(&f.config, "config", "", "configuration file (TOML)")
	c.Flags().BoolVar(&f.join, "join", false, "open a join code for one more group")
	f.backup.register(c)
	f.watch.register(c)
	f.log.register(c)
	return c
}

// token reads the bot's token. It comes from a file or the environment, never
// from an argument, which every user of the machine can read.
func token(e env) (string, error) {
	path := e.get("YARDBELL_TOKEN_FILE")
	if path == "" {
		t := strings.TrimSpace(e.get("YARDBELL_TOKEN"))
		if t == "" {
			return "", usage("put the bot's token into a file and name it in YARDBELL_TOKEN_FILE, or put it into YARDBELL_TOKEN")
		}
		return t, nil
	}
	st, err := os.Stat(path)
	if err != nil || !st.Mode().IsRegular() {
		return "", usage("the token file %s cannot be read", path)
	}
	if st.Mode().Perm()&0o007 != 0 {
		return "", usage("the token file %s can be read by everybody; chmod 600 it", path)
	}
	b, err := os.ReadFile(path)
	if err != nil || len(b) > 1024 {
		return "", usage("the token file %s cannot be read", path)
	}
	return strings.TrimSpace(string(b)), nil
}

// fault finds what is wrong with the addresses.
func (f *serveFlags) fault() error {
	if f.open && f.listen == "" {
		return usage("--listen-open needs --listen ADDRESS")
	}
	u, err := url.Parse(f.api)
	if err == nil && u.Scheme == "http" && u.Host != "" && !loopback(u.Hostname()) && !f.plain {
		return usage("--api http://%s would carry the token unencrypted over the network; put https before that server, or insist with --api-plain", u.Host)
	}
	if f.listen == "" {
		return nil
	}
	return listenFault("listen", f.listen, "127.0.0.1:8088", f.open)
}

func serve(ctx context.Context, e env, f serveFlags) (err error) {
	// Told to stop before it serves, it was stopped: what was cut off half way, the making
	// of a new file above all, has many ways to say so. What is wrong with a file for good
	// is found by the next start as well.
	told, serving := ctx, false
	defer func() {
		if told.Err() != nil && !serving {
			err = nil
		}
	}()
	conf, err := loadConfig(f.config)
	if err != nil {
		return err
	}
	if f.db == "" {
		f.db = conf.DB
	}
	if f.db == "" {
		return usage("name the database with --db FILE")
	}
	if f.rules == "" {
		f.rules = conf.Rules
	}
	table, err := loadRules(f.rules)
	if err != nil {
		return err
	}
	if err := f.watch.fault(); err != nil {
		return err
	}
	if err := f.fault(); err != nil {
		return err
	}
	beats := &heartbeats{}
	meter := newMeter(beats)
	log, err := f.log.logger(e.errOut, meter.logged)
	if err != nil {
		return err
	}
	secret, err := token(e)
	if err != nil {
		return err
	}
	client, err := telegram.NewClient(f.api, secret)
	if err != nil {
		return usageError{err}
	}
	lock, err := lockFile(f.db)
	if err != nil {
		return err
	}
	defer func() { _ = lock.Unlock() }()
	db, err := store.Open(ctx, f.db, store.Options{Table: table, Late: true})
	if err != nil {
		return err
	}
	defer func() {
		if !errors.Is(err, errHangs) { // what hangs may hold the file, and closing would wait for it
			err = errors.Join(err, db.Close())
		}
	}()

	switch own, other, err := whose(ctx, db, e.clock(), telegram.Source); {
	case err != nil:
		return err
	case other != "" && !own:
		return usage("database %s was played at the %s; serve a file of its own", f.db, other)
	case other != "": // the group must not go without its pings
		log.Warn("another crew than the group's is in the database; what is due to it is refused by the chat", "source", other)
	}
	wait := e.wait
	if wait == nil {
		wait = pause
	}
	for _, path := range store.Exposed(f.db) {
		log.Warn("everybody on this machine can read the database; chmod 600 it", "file", path)
	}
	first := conf.settings()
	if first["zone"] == "" {
		first["zone"] = "UTC"
	}
	var b *bot.Bot
	out := telegram.NewSender(client, e.clock, wait, func(ctx context.Context, from, to int64) error {
		return b.Moved(ctx, e.clock(), telegram.Source, from, to)
	})
	var sched *scheduler.Scheduler
	b = bot.New(db, func() { sched.Wake() }, log, first)
	b.Hears = client.HearsAll
	b.ByCode = true
	b.Limit()
	b.Withheld = meter.withheld.Inc
	if b.Feed, err = feedAddress(f.feed, f.listen); err != nil {
		return err
	}
	save, err := newSaver(f.backup, db, b, log)
	if err != nil {
		return err
	}
	parts := meter.around(hooks{b, senderAdapter{bot.Post{To: out, DB: db, Log: log}, b, e.clock}}, e.clock)
	if e.around != nil {
		parts = e.around(parts)
	}
	sched = scheduler.New(db, parts.to, log)

	var feed, watch net.Listener
	if f.listen != "" {
		if feed, err = listen("--listen", "127.0.0.1:8088", f.listen); err != nil {
			return err
		}
		defer func() { _ = feed.Close() }()
	}
	if f.watch.at != "" {
		if watch, err = listen("--watch", "127.0.0.1:8089", f.watch.at); err != nil {
			return err
		}
		defer func() { _ = watch.Close() }()
		meter.reg.MustRegister(newStock(db, e.clock, f.backup.dir, log))
	}
	now := e.clock()
	beats.begin(now)
	if err := sched.Recover(ctx, now); err != nil {
		return err
	}
	claimed, err := b.Claimed(ctx, now, telegram.Source)
	if err != nil {
		return err
	}
	if !claimed || f.join {
		code, err := b.OpenJoin(ctx, now)
		if err != nil {
			return err
		}
		if _, err := fmt.Fprintf(e.out, "join code: %s\n", code); err != nil {
			return err
		}
	}
	poller := telegram.NewPoller(client, parts.in, log, e.clock, wait)
	poller.Reading = sched.Reading
	poller.Seen = func(t time.Time) { beats.beat(reached, t) }
	checks := newChecker(db, b, log, f.backup.dir)
	sched.Ticked = func() {
		beats.beat(ticked, e.clock())
		meter.ticks.Inc()
		checks.nudge()
	}
	tell := supervisor(e)
	h := &watchdog{heartbeats: beats, limit: f.watch.heartbeat, stay: !f.watch.asked && e.tty(e.errOut), log: log, alive: func() { tell("WATCHDOG=1") }, stopped: make(chan error, 1)}
	// What people wrote while the service was away is read before anything goes out: no
	// ping is for what they said is done.
	read := make(chan struct{})
	beats.hold()
	poller.CaughtUp = func() { close(read) }

	serving = true
	g, ctx := errgroup.WithContext(ctx)
	g.Go(func() error { return stopped(ctx, poller.Run(ctx)) })
	g.Go(func() error {
		select {
		case <-read:
			beats.free(e.clock())
			return stopped(ctx, sched.Run(ctx, e.clock))
		case <-ctx.Done():
			return nil
		}
	})
	if save != nil {
		g.Go(func() error { return stopped(ctx, save.run(ctx, e.clock)) })
	}
	g.Go(func() error { return checks.run(ctx, e.clock) })
	g.Go(func() error { return stopped(ctx, db.CheckLate(ctx)) })
	g.Go(func() error { return h.run(ctx, e.clock, e.beats) })
	if feed != nil {
		serveHTTP(ctx, g, feed, public(beats, e.clock, b))
	}
	if watch != nil {
		serveHTTP(ctx, g, watch, watched(&readiness{heartbeats: beats, db: db, clock: e.clock}, meter))
	}
	tell("READY=1")
	log.Info("serving")
	err = h.await(g)
	tell("STOPPING=1")
	log.Info("stopped")
	return err
}

// hooks are where what comes in and what goes out pass from one part to the next: a meter,
// or a test, comes between them there.
type hooks struct {
	in telegram.Handler
	to scheduler.Sender
}

// stopped takes the end of the context for a good end.
func stopped(ctx context.Context, err error) error {
	if ctx.Err() != nil {
		return nil
	}
	return err
}

// pause waits, or ends with the context.
func pause(ctx context.Context, d time.Duration) error {
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-ctx.Done():
		return ctx.Err()
	case <-t.C:
		return nil
	}
}

// senderAdapter sends for the scheduler and translates what the chat says: bot and
// scheduler do not know each other.
type senderAdapter struct {
	post  bot.Post
	b     *bot.Bot
	clock func() time.Time
}

func (c senderAdapter) Send(ctx context.Context, out store.Outgoing) (store.Receipt, error) {
	r, err := c.post.Send(ctx, out)
	var not *bot.NotSent
	if !errors.As(err, &not) {
		return r, err
	}
	// What the chat said is noted even where the service is told to stop.
	ctx = context.WithoutCancel(ctx)
	var e error
	switch {
	case out.Chat() != out.Crew.Chat: // a private chat that is closed is no matter of the crew's
		if not.Final {
			e = c.b.PrivateShut(ctx, c.clock(), out)
		}
	case not.Gone:
		e = c.b.Standing(ctx, c.clock(), out.Crew.Source, out.Crew.Chat, "gone", "")
	case out.Messages[0].Aside():
		if not.Lacks {
			e = c.b.NoRight(ctx, c.clock(), out)
		}
	case not.Muted:
		e = c.b.Muted(ctx, c.clock(), out.Crew)
	case not.Final:
		e = c.b.Parked(ctx, c.clock(), out)
	}
	if e != nil {
		return r, e
	}
	after := not.After
	if after > 0 {
		// The scheduler counts from when its tick began; the chat counts from now.
		after += c.clock().Sub(out.Now)
	}
	return r, &scheduler.SendError{Final: not.Final, After: after, Held: not.Held, Share: not.Share, Spare: out.Messages[0].Aside(), Err: not.Err}
}

// public answers what may be let out to the world: /healthz, 200 while the chat's server
// was heard of lately, and calendars by their links.
func public(beats *heartbeats, clock func() time.Time, b *bot.Bot) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /healthz", func(w http.ResponseWriter, _ *http.Request) {
		last, _ := beats.of(reached)
		if silent := clock().Sub(last); silent > freshFor[reached] {
			http.Error(w, "the chat's server has not answered for "+silent.Round(time.Second).String(), http.StatusServiceUnavailable)
			return
		}
		_, _ = fmt.Fprintln(w, "ok")
	})
	if b.Feed != "" {
		mux.HandleFunc("GET /calendar/{link}", calendarFeed(b, clock))
	}
	return mux
}
