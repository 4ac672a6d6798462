package main

import (
	"bufio"
	"context"
	_ "embed"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/fatih/color"
	"github.com/spf13/cobra"

	"yardbell/rules"
)

// demoScript is in the console protocol; lines that start with "#:" are told to
// the reader. Everything in it is invented.
//
//go:embed demo.txt
var demoScript string

const (
	demoZone  = "America/Chicago"
	demoStart = "2031-04-21 08:00"
	// demoTime is how long the demo takes on a terminal, for reading along.
	demoTime = 16 * time.Second
)

func demoCommand(e env) *cobra.Command {
	var fast bool
	c := &cobra.Command{
		Use:     "demo",
		Short:   "Watch two overlapping rounds of an invented yard, on a simulated clock",
		Example: "  yardbell demo --fast",
		Long:    "Plays a month of an invented crew in under 20 seconds: what people write, what the bot answers, and the pings that go out by themselves. Nothing is kept.",
		Args:    noArgs,
		RunE:    func(c *cobra.Command, _ []string) error { return runDemo(c.Context(), e, fast) },
	}
	c.Flags().BoolVar(&fast, "fast", false, "do not pause for reading")
	return c
}

func runDemo(ctx context.Context, e env, fast bool) (err error) {
	dir, err := os.MkdirTemp("", "yardbell-demo-")
	if err != nil {
		return err
	}
	defer func() { _ = os.RemoveAll(dir) }()
	tty := e.tty(e.out)
	p := &player{e: e, path: filepath.Join(dir, "demo.db"), table: rules.DefaultTable(), first: map[string]string{"zone": demoZone},
		out: e.out, color: tty && e.get("NO_COLOR") == "", echo: true, files: dir}
	var lines []string
	for in := bufio.NewScanner(strings.NewReader(demoScript)); in.Scan(); {
		lines = append(lines, in.Text())
	}
	nap := func() {}
	if tty && !fast {
		each := demoTime / time.Duration(len(lines))
		nap = func() { e.sleep(each) }
	}
	if err := p.open(ctx); err != nil {
		return err
	}
	defer func() { err = errors.Join(err, p.close()) }()
	zone, err := loadZone(demoZone)
	if err != nil {
		return err
	}
	now, err := parseNow(demoStart, zone)
	if err != nil {
		return err
	}
	if err := p.begin(ctx, now); err != nil {
		return err
	}
	for n, s := range lines {
		if ctx.Err() != nil {
			return nil
		}
		if told, ok := strings.CutPrefix(s, "#: "); ok {
			if p.color {
				told = color.New(color.Faint, color.Italic).Sprint(told)
			}
			_, _ = fmt.Fprintf(e.out, "    %s\n\n", told)
			nap()
			continue
		}
		l, err := parseLine(s)
		if err != nil {
			return fmt.Errorf("demo, line %d: %w", n+1, err)
		}
		if err := p.do(ctx, n+1, l); err != nil {
			return err
		}
		nap()
	}
	_, err = fmt.Fprint(e.out, demoEnd)
	return err
}

const demoEnd = `    That was a month of two rounds. Now talk to it yourself:

      go run ./cmd/yardbell console --db my.db --zone America/Chicago

    and type, as a crew would:  add breeder 7   confine 7   due tomorrow   help
    Several people:             Wren: confine 7      Ash: mine
    On a clock you move:        add --now '2031-04-24 08:00' and lines like  @ +1d
`
