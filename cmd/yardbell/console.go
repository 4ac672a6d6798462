package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"yardbell/bot/wording"
	"yardbell/rules"
)

type consoleFlags struct {
	fileFlags
	zone   string
	lang   string
	json   bool
	echo   bool
	config string
	files  string
}

func consoleCommand(e env) *cobra.Command {
	var f consoleFlags
	c := &cobra.Command{
		Use:   "console [FILE...]",
		Short: "Talk to the bot here, or play a script",
		Long: `Reads lines from the files or standard input.

  Wren: confine 7           crew member Wren writes to the group
  Wren >12: done            a reply to bot message 12; Wren >: to the latest ping
  Wren *12: Done            presses that button; Wren *: under the latest message with buttons
  Wren ~: graft 54 from 7   changes Wren's latest message
  Wren >>: which batch?     a reply to Wren's own latest message
  Wren +12: 👍              a thumb put on bot message 12; Wren +: on the latest ping
  Wren <: graft 54 from 7   passes on what somebody else wrote elsewhere
  @ 2031-05-08 19:00        moves the clock there; @ +36h or @ +2d by that much
  ! restart                 drops everything in memory and opens the database anew
  ! down 6h                 the service is away for that long
  # text                    a remark

Without --now the real clock is used and lines with @ or "! down" are refused. A
line without a name is said by "Me" when you type it at a terminal.`,
		Example: `  yardbell console --db crew.db --zone America/Chicago
  printf 'Wren: add breeder 7\nWren: confine 7\n@ +20h\n' | yardbell console --now '2031-04-24 08:00' --json`,
		RunE: func(c *cobra.Command, args []string) error { return runConsole(c.Context(), e, f, args) },
	}
	f.register(c)
	c.Flags().StringVar(&f.zone, "zone", "", "IANA time zone of a new crew (default: $TZ, else UTC)")
	c.Flags().StringVar(&f.lang, "lang", "", "language of a new crew: en, es, or both as en+es, es+en")
	c.Flags().BoolVar(&f.json, "json", false, "one JSON object a line")
	c.Flags().BoolVar(&f.echo, "echo", false, "show what people write, too")
	c.Flags().StringVar(&f.config, "config", "", "configuration file (TOML)")
	c.Flags().StringVar(&f.files, "files", "", "folder for pictures and other files (default: beside the database)")
	return c
}

func runConsole(ctx context.Context, e env, f consoleFlags, files []string) (err error) {
	conf, err := loadConfig(f.config)
	if err != nil {
		return err
	}
	first := conf.settings()
	if f.zone != "" {
		first["zone"] = f.zone
	} else if first["zone"] == "" {
		first["zone"] = "UTC"
		if tz := e.get("TZ"); tz != "" {
			if _, err := loadZone(tz); err == nil {
				first["zone"] = tz
			}
		}
	}
	if _, err := loadZone(first["zone"]); err != nil {
		return err
	}
	if f.lang != "" {
		first["language"] = f.lang
	}
	if l := first["language"]; l != "" {
		if _, ok := rules.ParseLanguages(l, wording.Languages[0]); !ok {
			return usage("there is no language %q; there are %v, and both as en+es or es+en", l, wording.Languages)
		}
	}
	if f.rules == "" {
		f.rules = conf.Rules
	}
	table, err := loadRules(f.rules)
	if err != nil {
		return err
	}
	inputs, closeAll, err := openInputs(e, files)
	if err != nil {
		return err
	}
	defer closeAll()

	path := f.db
	if path == "" {
		path = conf.DB
	}
	if path == "" {
		dir, err := os.MkdirTemp("", "yardbell-")
		if err != nil {
			return err
		}
		defer func() { _ = os.RemoveAll(dir) }()
		path = filepath.Join(dir, "crew.db")
	}
	if f.files == "" && (f.db != "" || conf.DB != "") {
		f.files = filepath.Dir(path)
	}
	p := &player{e: e, path: path, files: f.files, table: table, first: first, out: &output{w: e.out}, json: f.json, color: !f.json && e.tty(e.out) && e.get("NO_COLOR") == "", echo: f.echo}
	if err := p.open(ctx); err != nil {
		return err
	}
	defer func() { err = errors.Join(err, p.close()) }()
	lock, err := lockFile(path)
	if err != nil {
		return err
	}
	defer func() { _ = lock.Unlock() }()
	switch _, other, err := whose(ctx, p.db, e.clock(), consoleSource); {
	case err != nil:
		return err
	case other != "":
		return usage("database %s holds a crew of %s, whose pings would go to the console and not to the group; due, export and report read it", path, other)
	}
	if f.now == "" {
		return p.live(ctx, inputs)
	}
	zone, err := loadZone(first["zone"])
	if err != nil {
		return err
	}
	if zone, err = crewZone(ctx, p.db, e.clock(), zone); err != nil {
		return err
	}
	now, err := parseNow(f.now, zone)
	if err != nil {
		return err
	}
	if err := p.begin(ctx, now); err != nil {
		return err
	}
	for _, in := range inputs {
		if err := p.play(ctx, in.name, in.r); err != nil {
			return err
		}
	}
	return nil
}

type input struct {
	name string
	r    io.Reader
}

// openInputs opens the script files, or takes standard input. A file that cannot
// be read is found before anything is played.
func openInputs(e env, files []string) ([]input, func(), error) {
	if len(files) == 0 {
		return []input{{"standard input", e.in}}, func() {}, nil
	}
	var list []input
	var open []*os.File
	closeAll := func() {
		for _, f := range open {
			_ = f.Close()
		}
	}
	for _, name := range files {
		f, err := os.Open(name)
		if err == nil {
			open = append(open, f)
			if st, e := f.Stat(); e == nil && st.IsDir() {
				err = errors.New("it is a directory")
			}
		}
		if err != nil {
			closeAll()
			return nil, nil, usage("script %s cannot be read", name)
		}
		list = append(list, input{name, f})
	}
	return list, closeAll, nil
}

// liveEvery is how often the console on the real clock looks for what is due.
const liveEvery = 20 * time.Second

// live runs the console on the real clock: lines as they come, and ticks between them.
func (p *player) live(ctx context.Context, inputs []input) error {
	now := p.e.clock()
	if err := p.begin(ctx, now); err != nil {
		return err
	}
	if p.e.tty(p.e.out) {
		s, err := p.settings(ctx, now)
		if err != nil {
			return err
		}
		_, _ = fmt.Fprintf(p.out, "Yardbell, %s. Type as the crew would: \"confine 7\", or \"Wren: confine 7\" for somebody else. help shows the forms, Ctrl-D ends.\n\n", s.Zone)
	}
	return p.converse(ctx, inputs)
}

// converse takes lines until the inputs or ctx end. One after the other: of two ticks
// at once, each on its own clock, one would take the other's claims for run out.
func (p *player) converse(ctx context.Context, inputs []input) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel() // whatever ends it, nobody is left to take the next line
	due := time.NewTicker(liveEvery)
	defer due.Stop()
	lines := make(chan string)
	go func() {
		defer close(lines)
		for _, in := range inputs {
			r := bufio.NewReader(in.r)
			for {
				s, err := r.ReadString('\n')
				if s != "" {
					select {
					case lines <- s:
					case <-ctx.Done():
						return
					}
				}
				if err != nil {
					break
				}
			}
		}
	}()
	for n := 1; ; n++ {
		select {
		case <-ctx.Done():
			return nil
		case <-due.C:
			p.now = p.e.clock()
			if err := p.tick(ctx); err != nil {
				return err
			}
		case s, ok := <-lines:
			if !ok {
				return nil
			}
			p.now = p.e.clock()
			l, err := parseLine(trimEOL(s))
			if err != nil {
				l = scriptLine{kind: sayLine, who: "Me", text: trimEOL(s)}
			}
			if l.kind == clockLine || l.kind == downLine || l.kind == restartLine {
				_, _ = fmt.Fprintln(p.e.errOut, "the clock here is the real one; start with --now to move it")
				continue
			}
			if err := p.do(ctx, n, l); err != nil {
				return err
			}
		}
	}
}

func (p *player) settings(ctx context.Context, now time.Time) (s *rules.Settings, err error) {
	err = p.db.View(ctx, now, func(tx *storeTx) error {
		crew, _, err := tx.Crew(consoleSource, consoleChat)
		if err != nil {
			return err
		}
		s, err = tx.Settings(crew.ID)
		return err
	})
	return s, err
}
