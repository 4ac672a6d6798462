package main

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"yardbell/bot"
	"yardbell/rules"
)

// lineKind is a kind of line of the console protocol.
type lineKind int

const (
	blankLine lineKind = iota
	clockLine
	sayLine
	replyLine
	pressLine
	editLine
	forwardLine
	beneathLine
	thumbLine
	restartLine
	downLine
)

// scriptLine is one line of the console protocol.
type scriptLine struct {
	kind   lineKind
	who    string
	number int64 // message replied to or pressed under, 0 for the latest
	text   string
	to     string        // clock: the local time as written
	by     time.Duration // clock, down: the length
}

// A name is letters, digits and marks, up to three words; "done at 7:30" is not
// somebody called "done at 7".
var saidForm = regexp.MustCompile(`(?s)^\s*(\pL[\pL\pM\pN.'_-]*(?: \pL[\pL\pM\pN.'_-]*){0,2})\s*(?:(>>|[~<])|([>*+])(\d*))?:[ \t]?(.*)$`)

func parseLine(s string) (scriptLine, error) {
	t := strings.TrimSpace(s)
	switch {
	case t == "" || strings.HasPrefix(t, "#"):
		return scriptLine{}, nil
	case strings.HasPrefix(t, "@"):
		return parseClockLine(strings.TrimSpace(t[1:]))
	case strings.HasPrefix(t, "!"):
		f := strings.Fields(t[1:])
		if len(f) == 1 && f[0] == "restart" {
			return scriptLine{kind: restartLine}, nil
		}
		if len(f) == 2 && f[0] == "down" {
			if d, err := rules.ParseSpan(f[1]); err == nil {
				return scriptLine{kind: downLine, by: d}, nil
			}
		}
		return scriptLine{}, fmt.Errorf("cannot read %q; put ! restart or ! down 6h", short(t))
	}
	m := saidForm.FindStringSubmatch(s)
	if m == nil {
		return scriptLine{}, fmt.Errorf("cannot read %q; put a name before it, like Wren: confine 7", short(t))
	}
	l := scriptLine{kind: sayLine, who: m[1], text: m[5]}
	switch m[2] + m[3] {
	case ">":
		l.kind = replyLine
	case "*":
		l.kind = pressLine
	case "+":
		l.kind = thumbLine
	case "~":
		l.kind = editLine
	case "<":
		l.kind = forwardLine
	case ">>":
		l.kind = beneathLine
	}
	if l.kind == thumbLine && !bot.ThumbsUp(l.text) {
		return scriptLine{}, fmt.Errorf("%q is no thumb; put one, like Wren +: 👍", short(l.text))
	}
	if m[4] != "" {
		n, err := strconv.ParseInt(m[4], 10, 64)
		if err != nil || n == 0 {
			return scriptLine{}, fmt.Errorf("%q is not the number of a message", m[4])
		}
		l.number = n
	}
	return l, nil
}

func parseClockLine(s string) (scriptLine, error) {
	if rest, ok := strings.CutPrefix(s, "+"); ok {
		d, err := rules.ParseSpan(rest)
		if err != nil {
			return scriptLine{}, fmt.Errorf("cannot read %q; put @ +36h or @ +2d", short(s))
		}
		return scriptLine{kind: clockLine, by: d}, nil
	}
	if _, err := parseNow(s, time.UTC); err != nil {
		return scriptLine{}, fmt.Errorf("cannot read %q; put @ 2031-05-08 19:00 or @ +36h", short(s))
	}
	return scriptLine{kind: clockLine, to: s}, nil
}

func short(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}
