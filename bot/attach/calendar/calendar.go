// Package calendar writes the crew's work as an iCalendar file (RFC 5545, 2009),
// which any phone's calendar reads. It writes what it is given, already worded; it
// knows no language, no clock and no database.
package calendar

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"

	ics "github.com/arran4/golang-ical"
)

// Event is one piece of work.
type Event struct {
	UID       string // the same for as long as the work is the same
	Sequence  int    // grows with every change that was shown to anybody
	Changed   time.Time
	Cancelled bool
	Start     time.Time // when it is best begun
	End       time.Time
	Summary   string
	Text      string
	Place     string
	Alarms    []time.Time

	// The window and what it is about, kept beside the slot in the calendar, so that a
	// program reads from the file what a person reads from the text.
	Step, Subject          string
	Earliest, Best, Latest time.Time
}

// Calendar is a crew's calendar.
type Calendar struct {
	Name    string
	Zone    *time.Location
	Refresh time.Duration // how often a phone should look again
	Events  []Event
}

const (
	local = "20060102T150405"
	utc   = "20060102T150405Z"
)

// Bytes writes the calendar. Times are in the crew's zone, with the zone's own
// changes of the clock beside them; alarms are instants. The same calendar gives
// the same bytes.
func (c Calendar) Bytes() ([]byte, error) {
	cal := &ics.Calendar{}
	cal.SetVersion("2.0")
	cal.SetProductId("-//Yardbell//Queen rearing//EN")
	cal.SetCalscale("GREGORIAN")
	cal.SetMethod(ics.MethodPublish)
	cal.SetXWRCalName(plain(c.Name))
	cal.SetName(plain(c.Name))
	cal.SetXWRTimezone(c.Zone.String())
	if c.Refresh > 0 {
		d := duration(c.Refresh)
		cal.SetXPublishedTTL(d)
		cal.SetRefreshInterval(d)
	}
	if from, to, ok := c.span(); ok {
		cal.AddVTimezone(timezone(c.Zone, from, to))
	}
	for _, e := range c.Events {
		cal.AddVEvent(c.event(e))
	}
	var b bytes.Buffer
	err := cal.SerializeTo(&b, ics.WithNewLine("\r\n"))
	return b.Bytes(), err
}

func (c Calendar) span() (from, to time.Time, ok bool) {
	for _, e := range c.Events {
		if !ok || e.Start.Before(from) {
			from = e.Start
		}
		if !ok || e.End.After(to) {
			to = e.End
		}
		ok = true
	}
	return from, to, ok
}

func (c Calendar) event(e Event) *ics.VEvent {
	v := ics.NewEvent(e.UID)
	at := func(p ics.ComponentProperty, t time.Time) {
		v.SetProperty(p, t.In(c.Zone).Format(local), ics.WithTZID(c.Zone.String()))
	}
	v.SetProperty(ics.ComponentPropertyDtstamp, e.Changed.UTC().Format(utc))
	v.SetProperty(ics.ComponentPropertyLastModified, e.Changed.UTC().Format(utc))
	v.SetSequence(e.Sequence)
	at(ics.ComponentPropertyDtStart, e.Start)
	at(ics.ComponentPropertyDtEnd, e.End)
	v.SetSummary(plain(e.Summary))
	if e.Text != "" {
		v.SetDescription(plain(e.Text))
	}
	if e.Place != "" {
		v.SetLocation(plain(e.Place))
	}
	v.SetTimeTransparency(ics.TransparencyTransparent)
	v.SetStatus(ics.ObjectStatusConfirmed)
	if e.Cancelled {
		v.SetStatus(ics.ObjectStatusCancelled)
		return v
	}
	for name, t := range map[string]time.Time{"EARLIEST": e.Earliest, "BEST": e.Best, "LATEST": e.Latest} {
		if !t.IsZero() {
			v.SetProperty(ics.ComponentProperty("X-YARDBELL-"+name), t.UTC().Format(utc))
		}
	}
	for name, s := range map[string]string{"STEP": e.Step, "SUBJECT": e.Subject} {
		if s != "" {
			v.SetProperty(ics.ComponentProperty("X-YARDBELL-"+name), plain(s))
		}
	}
	slices.SortFunc(v.Properties, func(a, b ics.IANAProperty) int { return strings.Compare(a.IANAToken, b.IANAToken) })
	for _, t := range e.Alarms {
		a := v.AddAlarm()
		a.SetAction(ics.ActionDisplay)
		a.SetProperty(ics.ComponentPropertyTrigger, t.UTC().Format(utc), ics.WithValue("DATE-TIME"))
		a.SetProperty(ics.ComponentPropertyDescription, plain(e.Summary))
	}
	return v
}

// plain takes out what no line of a calendar may hold. Commas, semicolons and line
// breaks are escaped when they are written.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		if r == '\n' {
			return r
		}
		if unicode.IsControl(r) || r == '\u2028' || r == '\u2029' {
			return ' '
		}
		if unicode.Is(unicode.C, r) {
			return -1 // what turns the direction of writing
		}
		return r
	}, strings.ToValidUTF8(strings.ReplaceAll(s, "\r\n", "\n"), "\uFFFD"))
}

// duration writes whole minutes as an iCalendar duration.
func duration(d time.Duration) string { return fmt.Sprintf("PT%dM", int(d/time.Minute)) }
