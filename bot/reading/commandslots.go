package reading

import (
	"cmp"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"yardbell/rules"
)

// commandActs fills the acts of a row; nil where the values make none.
func (l *lattice) commandActs(row *commandRow, c captures) []Act {
	a := Act{Kind: row.kind}
	var acts []Act
	twice := false
	var times, before captures
	next := func() { // the next thing that is added
		if a.Breeder != 0 || a.Builder != "" || a.Yard != "" {
			for _, b := range acts {
				twice = twice || a.Breeder != 0 && a.Breeder == b.Breeder
			}
			acts = append(acts, a)
			a = Act{Kind: row.kind}
		}
	}
	shift := 0
	var unit string
	for _, k := range c {
		n := int(k.num)
		whole := k.num == float64(n) && n > 0 && n < 1e6
		switch k.name {
		case "batch", "order", "count", "days", "year", "number", "percent":
			if !whole {
				return nil
			}
		}
		switch k.name {
		case "topic":
			a.Topic = Topic(k.value)
		case "setting":
			if a.Setting = k.value; a.Setting == "" {
				a.Setting = fold(l.nameAt(k))
			}
		case "value":
			a.Value = k.value
		case "typed":
			if a.Value = l.raw(k.tok); row.kind == Remind {
				a.Value = strings.TrimSpace(l.text[l.toks[k.tok].from:l.toks[k.end-1].to])
			}
		case "step":
			a.Step = rules.Step(k.value)
		case "batch":
			a.Batch = n
		case "breeder":
			if !whole {
				return nil
			}
			if row.kind == Add {
				next()
			}
			a.Breeder = n
		case "builder":
			if row.kind == Add {
				next()
				k = asNew(k)
			}
			a.Builder = builderName(l.nameAt(k))
		case "number": // a builder by its number
			if row.kind == Add {
				next()
			}
			a.Builder = strconv.Itoa(n)
		case "yard":
			if row.kind == Add {
				next()
				k = asNew(k)
			}
			a.Yard = l.nameAt(k)
		case "at": // where a breeder or a builder stands
			a.Yard = l.nameAt(k)
		case "person":
			k.value = "" // as typed: two people may have one first name
			a.Person = l.nameAt(k)
		case "customer":
			a.Customer, _ = strings.CutSuffix(cmp.Or(k.value, l.nameAt(k)), "\x00")
		case "count":
			a.Count = intPtr(n)
		case "unit":
			a.Unit = k.value
		case "percent":
			if n > 99 {
				return nil
			}
			a.Percent = n
		case "order":
			a.Order = n
		case "days":
			a.Days = n
		case "by":
			a.By = k.value
		case "year":
			if n < 2000 || n >= 2200 {
				return nil
			}
			a.Year = n
		case "wds":
			a.Weekdays = append(a.Weekdays, n)
		case "temp":
			t, ok := temperature(c)
			if !ok {
				return nil
			}
			if row.kind == Did {
				x := celsius(t)
				a.C = &x
				continue
			}
			a.Value = t
		case "incubator":
			if a.Incubator = k.value; a.Incubator != AnyIncubator {
				if !whole {
					return nil
				}
				a.Incubator = strconv.Itoa(n)
			}
		case "out":
			a.Out = builderName(l.nameAt(k))
		case "outof":
			if a.Out = rules.IncubatorPlace(k.value); k.value != AnyIncubator {
				if !whole {
					return nil
				}
				a.Out = rules.IncubatorPlace(strconv.Itoa(n))
			}
		case "f", "halfdegree": // of the degrees
		case "all":
			a.All = true
		case "through":
			a.Through = true
		case "power":
			a.Power = true
		case "singly":
			a.Singly = true
		case "both":
			a.Both = boolPtr(k.num == 1)
		case "rests":
			a.Rests = boolPtr(k.num == 1)
		case "shift":
			shift = n
		case "till":
			before, times = times, nil
		case "span":
			unit = k.value
			times = append(times, capture{name: "u", value: k.value, num: k.num})
		default:
			times = append(times, k)
		}
	}
	switch {
	case row.kind == Did:
		if !l.pastSpan(&a, before, times, c.has("till")) {
			return nil
		}
	case shift != 0:
		span := spanOf(times)
		if span <= 0 || span > 60*24*time.Hour {
			return nil
		}
		if unit == "day" || unit == "week" {
			a.Days = shift * int(span/(24*time.Hour))
		} else {
			a.Span = shift * int(span/time.Minute)
		}
	case row.kind == Set && a.Value == "" && len(times) > 0:
		if a.Value = l.clockValue(before, times); a.Value == "" {
			return nil
		}
	case row.kind == Set:
	case len(times) > 0:
		w, ok := l.ahead(times, a.Year, a.Topic == AskRound)
		if !ok {
			return nil
		}
		a.When = &w
		if a.Topic != AskReport {
			a.Year = 0
		}
	}
	for _, b := range acts {
		twice = twice || a.Breeder != 0 && a.Breeder == b.Breeder
	}
	acts = append(acts, a)
	if row.empty && l.known.Holds[a.Builder] != 0 {
		return nil // "B1 38 cells": of those that are in it
	}
	if twice {
		return nil // "reina nueve 9": one of them is no number
	}
	if row.kind == Add {
		shareYard(acts)
	}
	return acts
}

// shareYard gives the yard that is said last to all of the same kind before it: breeders
// 7 and 8 at North both stand there.
func shareYard(acts []Act) {
	last := acts[len(acts)-1]
	if last.Yard == "" || last.Breeder == 0 && last.Builder == "" {
		return
	}
	for i := len(acts) - 2; i >= 0; i-- {
		a := &acts[i]
		if a.Yard != "" || (a.Breeder != 0) != (last.Breeder != 0) || a.Breeder == 0 && a.Builder == "" {
			return
		}
		a.Yard = last.Yard
	}
}

// builderName writes a letter and a number as builders are called: B3.
func builderName(s string) string {
	if len(s) > 1 && len(s) < 5 && strings.Trim(s[1:], "0123456789") == "" {
		return strings.ToUpper(s)
	}
	return s
}

// temperature is what was captured in degrees Celsius.
func temperature(c captures) (string, bool) {
	k, _ := c.get("temp")
	x := k.num
	if c.has("halfdegree") {
		x += 0.5
	}
	if u, ok := c.get("f"); ok && u.value == "f" {
		x = float64(int((x-32)/1.8*10+0.5)) / 10
	}
	return strconv.FormatFloat(x, 'f', -1, 64), x > 10 && x < 120
}

// celsius is a temperature in °C: no incubator that cells live in is over 60, and what is
// over that is in °F.
func celsius(s string) float64 {
	x := atof(s)
	if x > 60 {
		x = math.Round((x-32)/1.8*10) / 10
	}
	return x
}

// pastSpan fills in when something was: at a time, or from one to another.
func (l *lattice) pastSpan(a *Act, before, times captures, span bool) bool {
	to := &a.When
	if span {
		from, ok := l.past(before)
		if !ok {
			return false
		}
		a.When, to = &from, &a.Till
	}
	if len(times) == 0 {
		return !span
	}
	w, ok := l.past(times)
	*to = &w
	return ok
}

// past is a time that is not said to lie ahead.
func (l *lattice) past(c captures) (When, bool) {
	e, ok := l.time(entity{kind: eTime}, c)
	w := e.when
	return w, ok && (w.Day == nil || *w.Day <= 0)
}

// clockValue spells an hour, or the hours from one to another.
func (l *lattice) clockValue(from, to captures) string {
	spell := func(c captures) string {
		m, has, ok := l.clock(c)
		if !has || !ok {
			return ""
		}
		if k, is := c.get("c"); is && len(c) == 1 {
			return l.toks[k.tok].text // as typed
		}
		p, _ := c.get("p")
		switch {
		case c.has("night") && m >= 12*60 && m < 13*60:
			m -= 12 * 60
		case (p.value == halfPM || c.has("night")) && m < 12*60:
			m += 12 * 60
		case p.value == halfAM && m >= 12*60 && m < 13*60:
			m -= 12 * 60
		}
		return fmt.Sprintf("%02d:%02d", m/60, m%60)
	}
	b := spell(to)
	if from == nil || b == "" {
		return b
	}
	a := spell(from)
	if a == "" {
		return ""
	}
	return a + "-" + b
}

// ahead is a time that lies ahead, or today; past says that it may lie behind.
func (l *lattice) ahead(c captures, year int, past bool) (When, bool) {
	var w When
	w.Year = year
	if u, ok := c.get("u"); ok {
		span := spanOf(c)
		if u.value != "day" && u.value != "week" || span <= 0 {
			return w, false
		}
		d := int(span / (24 * time.Hour))
		w.Day = &d
		return w, true
	}
	for _, k := range c {
		w.said(k)
	}
	clock, has, ok := l.clock(c)
	if !ok || w.Day != nil && *w.Day < 0 && !past || w.Month > 12 || w.Month != 0 && w.Date < 1 || w.Date > 31 {
		return w, false
	}
	if has {
		w.Clock = &clock
		w.Fixed = c.has("noon") || c.has("mid") || clock >= 13*60 || clock < 60 || l.leadingZero(c)
	}
	return w, has || w.Day != nil || w.Weekday != 0 || w.Month != 0 || w.Date != 0
}
