package main

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"regexp"
	"runtime"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/spf13/cobra"
)

// This file keeps the log of a service discreet: what people wrote, what they are called
// and what they call their yards stands in none of its lines. Our own lines name rows,
// updates and crews by number. What comes from elsewhere, errors and panics, may quote
// anything, and loses what it quotes.

// logFlags say how serve keeps its log.
type logFlags struct {
	format string
	level  string
}

func (f *logFlags) register(c *cobra.Command) {
	c.Flags().StringVar(&f.format, "log", "text", "form of the log on standard error: text (key=value) or json")
	c.Flags().StringVar(&f.level, "log-level", "info", "least level that is logged: debug, info, warn or error")
}

// logger makes the log of a service.
func (f logFlags) logger(w io.Writer, count func(slog.Level)) (*slog.Logger, error) {
	var level slog.Level
	switch f.level {
	case "debug", "info", "warn", "error":
		if err := level.UnmarshalText([]byte(f.level)); err != nil {
			return nil, err
		}
	default:
		return nil, usage("--log-level takes debug, info, warn or error, not %q", f.level)
	}
	o := &slog.HandlerOptions{Level: level, ReplaceAttr: discreet}
	var h slog.Handler = slog.NewTextHandler(w, o)
	switch f.format {
	case "text":
	case "json":
		h = slog.NewJSONHandler(w, o)
	default:
		return nil, usage("--log takes text or json, not %q", f.format)
	}
	return slog.New(located{h, count}), nil
}

// located adds to a line about a panic where it was, since its value may not be shown,
// and counts lines by their level.
type located struct {
	slog.Handler
	count func(slog.Level)
}

func (l located) Handle(ctx context.Context, r slog.Record) error {
	if l.count != nil {
		l.count(r.Level)
	}
	tripped := false
	r.Attrs(func(a slog.Attr) bool {
		tripped = tripped || a.Key == panicKey
		return true
	})
	if tripped {
		r = r.Clone()
		r.AddAttrs(slog.String("at", panicPlace()))
	}
	return l.Handler.Handle(ctx, r)
}

func (l located) WithAttrs(a []slog.Attr) slog.Handler {
	return located{l.Handler.WithAttrs(a), l.count}
}

func (l located) WithGroup(name string) slog.Handler {
	return located{l.Handler.WithGroup(name), l.count}
}

// panicKey is the key under which what was recovered is logged.
const panicKey = "panic"

// mostFrames is how much of the stack is shown.
const mostFrames = 6

// panicPlace names the functions in which it panicked, innermost first; it is asked
// while the panic is being recovered, so that they are still on the stack.
func panicPlace() string {
	pc := make([]uintptr, 64)
	frames := runtime.CallersFrames(pc[:runtime.Callers(1, pc)])
	var at []string
	for panicking, more := false, true; more && len(at) < mostFrames; {
		var f runtime.Frame
		f, more = frames.Next()
		switch {
		case f.Function == "runtime.gopanic":
			panicking = true
		case panicking && !strings.HasPrefix(f.Function, "runtime."):
			at = append(at, fmt.Sprintf("%s:%d", f.Function, f.Line))
		}
	}
	return strings.Join(at, " ")
}

// discreet takes out of a line what may be somebody's words.
func discreet(_ []string, a slog.Attr) slog.Attr {
	v := a.Value.Resolve()
	switch x := v.Any().(type) {
	case runtime.Error: // "index out of range [5] with length 3"
		return slog.String(a.Key, unquoted(x.Error()))
	case error:
		if a.Key == panicKey {
			return slog.String(a.Key, fmt.Sprintf("%T", x))
		}
		return slog.String(a.Key, unquoted(x.Error()))
	case string:
		if a.Key == panicKey {
			return slog.String(a.Key, "a string")
		}
		return slog.String(a.Key, printable(x))
	}
	if a.Key == panicKey {
		return slog.String(a.Key, fmt.Sprintf("%T", v.Any()))
	}
	return a
}

// quoted is what an error quotes, whatever marks it does it with. A lone apostrophe
// belongs to a word.
var quoted = regexp.MustCompile("\"(?:[^\"\\\\]|\\\\.)*\"?|`[^`]*`?|“[^”]*”?|«[^»]*»?|(^|[ (:=])'[^\n]*'|<[^>]*>?")

// mostLogged is how long an error is shown, in characters.
const mostLogged = 300

// unquoted is an error's text without what it quotes: the chat's server, a driver or a
// parser may repeat a message or a name there.
func unquoted(s string) string {
	s = printable(quoted.ReplaceAllString(s, "$1\"…\""))
	if utf8.RuneCountInString(s) > mostLogged {
		s = string([]rune(s)[:mostLogged]) + "…"
	}
	return s
}

// printable puts a space for whatever ends a line, moves the cursor or turns the
// direction of writing.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if r == utf8.RuneError || !unicode.IsPrint(r) {
			return ' '
		}
		return r
	}, s)
}
