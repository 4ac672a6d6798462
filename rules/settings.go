package rules

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Settings are a crew's own rules. Wall-clock values are in the crew's zone.
type Settings struct {
	Zone       *time.Location
	Lang       string
	Evening    Clock // eve pings
	Morning    Clock // digest
	QuietFrom  Clock // no ping from here …
	QuietTo    Clock // … to here
	Wake       bool  // critical pings may break quiet hours
	Pin        bool  // the day's digest is pinned where the bot may
	Checks     bool  // the leads are told every day how the log stands …
	CheckAt    Clock // … at this hour
	WorkFrom   Clock
	WorkTo     Clock
	DaysOff    [7]bool       // by time.Weekday
	MoveAt     time.Duration // the crew's own best time for the move after the graft, 0 for the table's
	SigmaBatch float64       // hours, batch-wide spread of emergence
	SigmaCell  float64       // hours, spread from cell to cell
	Incubator  []TempFrom    // logged incubator temperatures, oldest first
	Table      *Table
	baseTable  *Table // the table before settings by chat changed it

	Leaves []Leave         // days off of members, of a folded crew alone
	Said   [Stages]float64 // rates that the crew says it gets, 0 to 1, 0 where it said none

	// Own is the language in which a member is answered, by the member's row.
	Own map[int64]string
}

// TempFrom is an incubator temperature in °C that held from an instant on; NaN
// says that the incubator is no longer used.
type TempFrom struct {
	At time.Time
	C  float64
}

// DefaultSettings are those of a crew that has set nothing.
func DefaultSettings() *Settings {
	return &Settings{
		Zone: time.UTC, Lang: "en", Pin: true,
		Evening: 19 * 60, Morning: 6*60 + 30,
		QuietFrom: 21 * 60, QuietTo: 5*60 + 30,
		WorkFrom: 7 * 60, WorkTo: 18 * 60,
		SigmaBatch: SigmaBatch, SigmaCell: SigmaCell,
		Table: DefaultTable(),
	}
}

// SettingNames lists what can be set, in the order `set` alone shows them.
var SettingNames = []string{"zone", "language", "evening", "morning", "quiet", "wake", "pin", "check", "work", "days off", "move", "incubator", "spread"}

// Apply sets one setting from its text. at is when it was said: an incubator
// temperature holds from then on. The error of a value that cannot be read is a
// *Refusal whose code names the setting.
func (s *Settings) Apply(key, value string, at time.Time) error {
	bad := func() error { return refuse("set_bad", "Key", key, "Value", value, "Example", Example(key)) }
	value = strings.TrimSpace(value)
	if step, ok := strings.CutPrefix(key, StepSetting); ok {
		return s.applyStep(Step(step), value, bad)
	}
	if step, ok := strings.CutPrefix(key, YieldSetting); ok {
		return s.applyYield(Step(step), value, bad)
	}
	if member, ok := strings.CutPrefix(key, OwnLanguage); ok {
		return s.applyOwn(member, value, bad)
	}
	switch key {
	case "zone":
		z, err := time.LoadLocation(value)
		if err != nil || value == "" || value == "Local" {
			return bad()
		}
		s.Zone = z
	case "language":
		lang, ok := ParseLanguages(value, s.Langs()[0])
		if !ok {
			return bad()
		}
		s.Lang = lang
	case "evening", "morning":
		c, err := ParseClock(value)
		if err != nil {
			return bad()
		}
		if key == "evening" {
			s.Evening = c
		} else {
			s.Morning = c
		}
	case "quiet", "work":
		from, to, err := parseSpan(value)
		if err != nil || (key == "work" && to <= from) {
			return bad()
		}
		if key == "quiet" {
			s.QuietFrom, s.QuietTo = from, to
		} else {
			s.WorkFrom, s.WorkTo = from, to
		}
	case "wake", "pin":
		if value != "on" && value != "off" {
			return bad()
		}
		if key == "wake" {
			s.Wake = value == "on"
		} else {
			s.Pin = value == "on"
		}
	case "check":
		if value == "off" {
			s.Checks = false
			return nil
		}
		c, err := ParseClock(value)
		if err != nil {
			return bad()
		}
		s.Checks, s.CheckAt = true, c
	case "days off":
		days, err := parseDays(value)
		if err != nil {
			return bad()
		}
		s.DaysOff = days
	case "move":
		if value == "default" {
			s.MoveAt = 0
			return nil
		}
		d, err := ParseSpan(value)
		if err != nil || d < 8*24*time.Hour || d > 12*24*time.Hour {
			return bad()
		}
		s.MoveAt = d
	case "incubator":
		c := math.NaN()
		if value != "off" {
			var err error
			c, err = parseDecimal(strings.TrimSuffix(strings.ToUpper(value), "C"))
			if err != nil || !(c >= 30 && c <= 38) {
				return bad()
			}
		}
		// What is said last holds from its time on, also where a clock was put back since
		// the one before.
		s.Incubator = slices.DeleteFunc(s.Incubator, func(k TempFrom) bool { return k.At.After(at) })
		s.Incubator = append(s.Incubator, TempFrom{at, c})
	case "spread":
		a, b, ok := strings.Cut(strings.ReplaceAll(value, " ", ""), "/")
		batch, err1 := parseDecimal(a)
		cell, err2 := parseDecimal(b)
		if !ok || err1 != nil || err2 != nil || !(batch >= 0 && batch <= 24) || !(cell >= 1 && cell <= 24) {
			return bad()
		}
		s.SigmaBatch, s.SigmaCell = batch, cell
	default:
		return refuse("set_unknown", "Key", key)
	}
	return nil
}

// StepSetting leads the names of settings that change one step's own hours:
// "step accept" with the value "18/24/48" after the step's anchor.
const StepSetting = "step "

// CheckSetting is the key under which leads ask for a daily check.
const CheckSetting = "check"

func (s *Settings) applyStep(step Step, value string, bad func() error) error {
	base := s.base()
	t, err := s.Table.WithStep(step, value)
	if value == "default" {
		// The row itself comes back, its source with it.
		t, err = s.Table.withRow(base, step)
	}
	if err != nil {
		return bad()
	}
	s.baseTable, s.Table = base, t
	return nil
}

// base is the table as it was before the crew changed it by chat.
func (s *Settings) base() *Table {
	if s.baseTable != nil {
		return s.baseTable
	}
	return s.Table
}

// Clash names two settings that cannot both hold, nil where all is well: a
// ping hour inside the quiet hours would send every eve ping at another time
// than the one the crew asked for.
func (s *Settings) Clash() *Refusal {
	for _, c := range []struct {
		key string
		at  Clock
	}{{"evening", s.Evening}, {"morning", s.Morning}} {
		if s.quietClock(c.at) {
			return refuse("set_clash", "Key", c.key, "At", c.at.String(), "Quiet", s.QuietFrom.String()+"-"+s.QuietTo.String())
		}
	}
	all := true
	for _, off := range s.DaysOff {
		all = all && off
	}
	if all {
		return refuse("set_nowork")
	}
	return nil
}

// Value shows one setting as it would be typed.
func (s *Settings) Value(key string) string {
	if step, ok := strings.CutPrefix(key, StepSetting); ok {
		for _, r := range s.Table.Rows {
			if r.Step == Step(step) && r.Variant == "" {
				return fmt.Sprintf("%g/%g/%g", r.Earliest, r.Best, r.Latest)
			}
		}
		return ""
	}
	if step, ok := strings.CutPrefix(key, YieldSetting); ok {
		return s.yieldValue(Step(step))
	}
	if member, ok := strings.CutPrefix(key, OwnLanguage); ok {
		return s.ownValue(member)
	}
	switch key {
	case "zone":
		return s.Zone.String()
	case "language":
		return s.Lang
	case "evening":
		return s.Evening.String()
	case "morning":
		return s.Morning.String()
	case "quiet":
		return s.QuietFrom.String() + "-" + s.QuietTo.String()
	case "wake":
		return onOff(s.Wake)
	case "pin":
		return onOff(s.Pin)
	case "check":
		if !s.Checks {
			return onOff(false)
		}
		return s.CheckAt.String()
	case "work":
		return s.WorkFrom.String() + "-" + s.WorkTo.String()
	case "days off":
		var out []string
		for d, off := range s.DaysOff {
			if off {
				out = append(out, time.Weekday(d).String())
			}
		}
		if out == nil {
			return "none"
		}
		return strings.Join(out, ", ")
	case "move":
		if s.MoveAt == 0 {
			return "default"
		}
		return SpanString(s.MoveAt)
	case "incubator":
		if n := len(s.Incubator); n > 0 && !math.IsNaN(s.Incubator[n-1].C) {
			return strconv.FormatFloat(s.Incubator[n-1].C, 'f', -1, 64)
		}
		return "off"
	case "spread":
		return strconv.FormatFloat(s.SigmaBatch, 'f', -1, 64) + "/" + strconv.FormatFloat(s.SigmaCell, 'f', -1, 64)
	}
	return ""
}

func onOff(on bool) string {
	if on {
		return "on"
	}
	return "off"
}

// Example is a value that the setting accepts.
func Example(key string) string {
	if step, ok := strings.CutPrefix(key, StepSetting); ok {
		for _, r := range DefaultTable().Rows {
			if r.Step == Step(step) && r.Variant == "" {
				return fmt.Sprintf("%g/%g/%g", r.Earliest, r.Best, r.Latest)
			}
		}
		return "18/24/48"
	}
	if strings.HasPrefix(key, YieldSetting) {
		return "80"
	}
	return map[string]string{
		"zone": "America/Chicago", "language": "en", "evening": "19:00", "morning": "06:30",
		"quiet": "21:00-05:30", "wake": "on", "pin": "off", "check": "06:00", "work": "07:00-18:00", "days off": "Sunday",
		"move": "9d20h", "incubator": "34.5", "spread": "8/7.5",
	}[key]
}

func parseSpan(s string) (from, to Clock, err error) {
	s = strings.NewReplacer("–", "-", " to ", "-", " ", "").Replace(s)
	a, b, ok := strings.Cut(s, "-")
	if !ok {
		return 0, 0, fmt.Errorf("%q is not a span like 21:00-05:30", s)
	}
	if from, err = ParseClock(a); err != nil {
		return 0, 0, err
	}
	to, err = ParseClock(b)
	return from, to, err
}

func parseDays(s string) (out [7]bool, err error) {
	if s == "none" {
		return out, nil
	}
	for _, w := range strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ' ' }) {
		if w == "and" {
			continue
		}
		found := false
		for d := time.Sunday; d <= time.Saturday; d++ {
			name := strings.ToLower(d.String())
			w := strings.TrimSuffix(strings.ToLower(w), "s")
			if len(w) >= 3 && strings.HasPrefix(name, w) {
				out[d], found = true, true
			}
		}
		if !found {
			return out, fmt.Errorf("%q is not a day of the week", w)
		}
	}
	return out, nil
}

var spanForm = regexp.MustCompile(`^(?:(\d{1,3})d)?(?:(\d{1,4})(?:h|$))?(?:(\d{1,4})m)?$`)

// ParseSpan reads a length of time like "9d20h", "236h", "236", "10d" or "2h30m".
func ParseSpan(s string) (time.Duration, error) {
	m := spanForm.FindStringSubmatch(strings.ToLower(strings.ReplaceAll(s, " ", "")))
	if m == nil || m[0] == "" {
		return 0, fmt.Errorf("%q is not a length of time like 9d20h", s)
	}
	n := func(t string) int { v, _ := strconv.Atoi("0" + t); return v }
	return time.Duration(n(m[1]))*24*time.Hour + time.Duration(n(m[2]))*time.Hour + time.Duration(n(m[3]))*time.Minute, nil
}

// SpanString writes a length of time the way ParseSpan reads it.
func SpanString(d time.Duration) string {
	var b strings.Builder
	if days := d / (24 * time.Hour); days > 0 {
		fmt.Fprintf(&b, "%dd", days)
		d -= days * 24 * time.Hour
	}
	if h := d / time.Hour; h > 0 || b.Len() == 0 {
		fmt.Fprintf(&b, "%dh", h)
		d -= h * time.Hour
	}
	if m := d / time.Minute; m > 0 {
		fmt.Fprintf(&b, "%dm", m)
	}
	return b.String()
}

func (s *Settings) quietClock(c Clock) bool {
	if s.QuietFrom == s.QuietTo {
		return false
	}
	if s.QuietFrom < s.QuietTo {
		return c >= s.QuietFrom && c < s.QuietTo
	}
	return c >= s.QuietFrom || c < s.QuietTo
}

// Quiet reports whether t lies in the crew's quiet hours and, if so, when they
// began and when they end. Both ends are instants, not wall-clock times: in a
// repeated hour the clock alone would say that quiet hours begin again after
// they ended, and a ping would be held until a time that has passed.
func (s *Settings) Quiet(t time.Time) (from, to time.Time, quiet bool) {
	if s.QuietFrom == s.QuietTo {
		return from, to, false
	}
	nights := 0
	if s.QuietFrom > s.QuietTo {
		nights = 1
	}
	today := DateOf(t, s.Zone)
	for d := today.Add(-1); !today.Before(d); d = d.Add(1) {
		from, to = At(d, s.QuietFrom, s.Zone), At(d.Add(nights), s.QuietTo, s.Zone)
		if !t.Before(from) && t.Before(to) {
			return from, to, true
		}
	}
	return time.Time{}, time.Time{}, false
}
