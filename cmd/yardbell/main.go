// Command yardbell is a reminder service and logbook for a queen-rearing crew.
//
// This package wires the others together and owns what they must not touch: the
// clock, the environment, signals, standard input and output, the exit status.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"syscall"
	"time"
	_ "time/tzdata" // zones on machines that have none

	"github.com/spf13/cobra"

	"yardbell/cmd/yardbell/early"
	"yardbell/store"
)

// env is what a command may know of the world.
type env struct {
	in     io.Reader
	out    io.Writer
	errOut io.Writer
	get    func(string) string
	clock  func() time.Time
	tty    func(io.Writer) bool
	sleep  func(time.Duration)
	wait   func(context.Context, time.Duration) error // serve: nil to wait by the real clock
	around func(hooks) hooks                          // serve: nil to leave the parts as they are
	beats  time.Duration                              // serve: how often the watchdog is looked at, 0 for the default
}

// usageError is a mistake in how the program was called: exit status 2.
type usageError struct{ err error }

func (u usageError) Error() string { return u.err.Error() }
func (u usageError) Unwrap() error { return u.err }

func usage(format string, args ...any) error { return usageError{fmt.Errorf(format, args...)} }

func main() {
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan int, 1)
	go func() {
		done <- run(ctx, os.Args[1:], env{
			in: os.Stdin, out: os.Stdout, errOut: os.Stderr, get: os.Getenv,
			clock: time.Now, tty: isTerminal, sleep: time.Sleep,
		})
	}()
	os.Exit(await(early.Signals, stop, done))
}

// await waits for the end. The first signal stops what runs; the second ends what does
// not end by the first, also where the program was started with the signal ignored, as
// scripts start what they leave in the background.
func await(signals <-chan os.Signal, stop func(), done <-chan int) int {
	select {
	case code := <-done:
		return code
	case <-signals:
		stop()
	}
	select {
	case code := <-done:
		return code
	case s := <-signals:
		n, _ := s.(syscall.Signal)
		return 128 + int(n) // as a shell counts what a signal ended
	}
}

// run is the program: arguments in, exit status out. Whatever goes wrong is one
// line on standard error.
func run(ctx context.Context, args []string, e env) int {
	root := command(e)
	root.SetArgs(append([]string{}, args...)) // where there are none, cobra would take those of the process
	err := root.ExecuteContext(ctx)
	if err == nil {
		return 0
	}
	var quiet *exitStatus
	if errors.As(err, &quiet) {
		return quiet.code
	}
	if ctx.Err() != nil && store.Interrupted(err) {
		err = errors.New("stopped before it was done")
	}
	_, _ = fmt.Fprintln(e.errOut, "yardbell:", oneLine(err.Error()))
	var u usageError
	if errors.As(err, &u) {
		return 2
	}
	return 1
}

// exitStatus ends the program when everything was said already.
type exitStatus struct{ code int }

func (e *exitStatus) Error() string { return fmt.Sprintf("exit status %d", e.code) }

func command(e env) *cobra.Command {
	root := &cobra.Command{
		Use:   "yardbell",
		Short: "Reminders and a logbook for a queen-rearing crew, in its group chat",
		Long: `Yardbell keeps a queen-rearing crew's logbook, works out every window from the
biology and the crew's own rules, and pings the night before, the morning of and
before a window closes.`,
		SilenceUsage:  true,
		SilenceErrors: true,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 0 {
				return usage("there is no command %q; see yardbell --help", args[0])
			}
			return nil
		},
		RunE: func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	root.SetIn(e.in)
	root.SetOut(e.out)
	root.SetErr(e.errOut)
	root.SetFlagErrorFunc(func(c *cobra.Command, err error) error {
		return usage("%v; see %s --help", err, c.CommandPath())
	})
	root.AddCommand(consoleCommand(e), demoCommand(e), dueCommand(e), calendarCommand(e), exportCommand(e), reportCommand(e),
		rebuildCommand(e), backupCommand(e), restoreCommand(e), checkCommand(e), serveCommand(e), joinCommand(e), healthCommand(e), readCommand(e))
	return root
}

// noArgs refuses stray words after a command.
func noArgs(c *cobra.Command, args []string) error {
	if len(args) > 0 {
		return usage("%s takes no argument %q; see %s --help", c.CommandPath(), args[0], c.CommandPath())
	}
	return nil
}
