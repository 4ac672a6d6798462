package calendar

import (
	"fmt"
	"time"

	ics "github.com/arran4/golang-ical"
)

// timezone describes a zone from the change of the clock before from to the last one
// before to. Every change stands by itself, as the zone data has it: rules of recurrence
// would be wrong where a government changed its mind.
func timezone(zone *time.Location, from, to time.Time) *ics.VTimezone {
	z := ics.NewTimezone(zone.String())
	for at := from; ; {
		start, end := at.In(zone).ZoneBounds()
		name, offset := at.In(zone).Zone()
		before := offset
		begins := time.Date(1970, 1, 1, 0, 0, 0, 0, time.UTC)
		if !start.IsZero() {
			_, before = start.Add(-time.Second).In(zone).Zone()
			// The start is written in the local time that ended with it (RFC 5545, 3.6.5).
			begins = start.UTC().Add(time.Duration(before) * time.Second)
		}
		p := observance{begins.Format(local), hhmm(before), hhmm(offset), name}
		if at.In(zone).IsDST() {
			d := &ics.Daylight{}
			p.put(&d.ComponentBase)
			z.Components = append(z.Components, d)
		} else {
			s := ics.NewStandard()
			p.put(&s.ComponentBase)
			z.Components = append(z.Components, s)
		}
		if end.IsZero() || !end.Before(to) {
			return z
		}
		at = end
	}
}

// observance is one stretch of time with one offset.
type observance struct{ start, from, to, name string }

func (o observance) put(c *ics.ComponentBase) {
	c.SetProperty(ics.ComponentPropertyDtStart, o.start)
	c.SetProperty(ics.ComponentProperty(ics.PropertyTzoffsetfrom), o.from)
	c.SetProperty(ics.ComponentProperty(ics.PropertyTzoffsetto), o.to)
	c.SetProperty(ics.ComponentProperty(ics.PropertyTzname), o.name)
}

// hhmm writes an offset from UTC in seconds, "-0500".
func hhmm(offset int) string {
	sign := '+'
	if offset < 0 {
		sign, offset = '-', -offset
	}
	if s := offset % 60; s != 0 {
		return fmt.Sprintf("%c%02d%02d%02d", sign, offset/3600, offset/60%60, s)
	}
	return fmt.Sprintf("%c%02d%02d", sign, offset/3600, offset/60%60)
}
