package main

import (
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A line label says what a crew member wants of the bot: what is to be logged, asked,
// answered or left alone. testdata/utterances/situations/README.md has the grammar.
type lineLabel [][]want // alternatives, each of several parts

// want is one part of a label: an entry that is to be logged, or one word for what
// else is to happen.
type want struct {
	special string // ask, silent, nolog, nodid, noeggs, answer, order; empty for an entry
	answer  *regexp.Regexp

	action, step, subject string
	count                 *int
	all                   bool   // all of it, by number or by word
	state                 string // of nucs
	attrs                 []labelAttr
	optional              bool // may be there, need not
	novel                 bool // a notion that may not be built yet
}

// labelAttr is a further value of an entry: at=, at~, on=, into=, from=, mark=, cause=, C=,
// until=, to=, who=, power=.
type labelAttr struct {
	key, value string
	near       bool // at~: within 80 minutes instead of 6
}

var (
	labelActions  = []string{"did", "amend", "mine", "later", "skip", "void", "assign", "away", "remind"}
	labelSpecials = []string{"silent", "ask", "nolog", "nodid", "noeggs", "answer", "order"}
	labelSubjects = []string{"breeder", "batch", "builder", "yard", "nuc", "incubator", "round", "order"}
	labelAttrForm = regexp.MustCompile(`^(at|on|into|from|mark|of|cause|C|until|to|who|power)([=~])(.+)$`)
)

// logsWork are the actions that tell of work; a claim or a snooze does no harm.
var logsWork = []string{"did", "amend", "void"}

func parseLabel(text string) (lineLabel, error) {
	var l lineLabel
	for alt := range strings.SplitSeq(text, " || ") {
		alt, novel := strings.CutPrefix(strings.TrimSpace(alt), "new ")
		var parts []want
		for part := range strings.SplitSeq(alt, ";") {
			w, err := parseWant(strings.TrimSpace(part))
			if err != nil {
				return nil, fmt.Errorf("label %q: %w", text, err)
			}
			w.novel = novel
			parts = append(parts, w)
		}
		l = append(l, parts)
	}
	return l, nil
}

func parseWant(part string) (w want, err error) {
	f := strings.Fields(part)
	if len(f) > 0 && f[0] == "opt" {
		w.optional, f = true, f[1:]
	}
	if len(f) == 0 {
		return w, fmt.Errorf("a part of it is empty")
	}
	if slices.Contains(labelSpecials, f[0]) {
		w.special = f[0]
		rest := strings.TrimSpace(strings.TrimPrefix(part, f[0]))
		if w.special != "answer" {
			if rest != "" {
				return w, fmt.Errorf("nothing can stand after %q", w.special)
			}
			return w, nil
		}
		w.answer, err = regexp.Compile(strings.TrimPrefix(rest, "~"))
		return w, err
	}
	if !slices.Contains(labelActions, f[0]) {
		return w, fmt.Errorf("%q is no action", f[0])
	}
	w.action = f[0]
	switch w.action { // a task given to somebody, and two steps that are named by themselves
	case "assign":
		w.action = "mine"
	case "away", "remind":
		w.action, w.step = "did", f[0]
	}
	var rest []string
	for _, x := range f[1:] {
		if x == "power" {
			x = "power=true"
		}
		m := labelAttrForm.FindStringSubmatch(x)
		if m == nil {
			rest = append(rest, x)
			continue
		}
		a := labelAttr{key: m[1], near: m[2] == "~", value: inWords(m[3])}
		if a.key == "into" {
			a.value = strings.Replace(a.value, "incubator-", "incubator ", 1)
		}
		form := map[string]string{"at": "01-02T15:04", "on": "01-02"}[a.key]
		if form != "" {
			if _, err := time.Parse(form, a.value); err != nil {
				return w, fmt.Errorf("%q is no time", x)
			}
		}
		w.attrs = append(w.attrs, a)
	}
	if len(rest) > 0 && w.step == "" {
		w.step, rest = rest[0], rest[1:]
	}
	if len(rest) > 1 && slices.Contains(labelSubjects, rest[0]) {
		w.subject, rest = inWords(strings.Join(rest[:2], " ")), rest[2:]
		if name, ok := strings.CutPrefix(w.subject, "nuc "); ok { // nuc North-3
			w.subject = "nuc " + strings.Replace(name, "-", " ", 1)
		}
	}
	if len(rest) > 0 && w.step == "nuc" {
		w.state, rest = rest[0], rest[1:]
	}
	if len(rest) == 1 && rest[0] == "all" {
		w.all, rest = true, nil
	}
	if len(rest) > 0 {
		n, err := strconv.Atoi(rest[0])
		if err != nil || len(rest) > 1 {
			return w, fmt.Errorf("%q is no count", strings.Join(rest, " "))
		}
		w.count = &n
	}
	return w, nil
}

// inWords gives a name of several words, which a label writes with underscores.
func inWords(name string) string { return strings.ReplaceAll(name, "_", " ") }

// heard is one message of the bot, in the console's JSON.
type heard struct {
	N       int64         `json:"n"`
	Line    int           `json:"line"`
	Kind    string        `json:"kind"`
	Step    string        `json:"step"`
	Text    string        `json:"text"`
	Buttons []string      `json:"buttons"`
	Logged  []loggedEntry `json:"logged"`
}

// loggedEntry is an entry in the console's JSON.
type loggedEntry struct {
	Action   string `json:"action"`
	Step     string `json:"step,omitempty"`
	Subject  string `json:"subject,omitempty"`
	Count    *int   `json:"count,omitempty"`
	Of       *int   `json:"of,omitempty"`
	From     *int   `json:"from,omitempty"`
	Into     string `json:"into,omitempty"`
	Mark     string `json:"mark,omitempty"`
	Happened string `json:"happened"`

	Cause  string   `json:"cause,omitempty"`
	All    bool     `json:"all,omitempty"`
	C      *float64 `json:"c,omitempty"`
	Power  bool     `json:"power,omitempty"`
	Until  string   `json:"until,omitempty"`
	State  string   `json:"state,omitempty"`
	Days   string   `json:"days,omitempty"`
	Value  string   `json:"value,omitempty"`
	Member int64    `json:"member,omitempty"`
}

func hears(out string) (list []heard, err error) {
	for l := range strings.Lines(out) {
		var h heard
		if err := json.Unmarshal([]byte(l), &h); err != nil {
			return nil, fmt.Errorf("%q: %w", l, err)
		}
		list = append(list, h)
	}
	return list, nil
}

// work: the incubator that a first word of it adds to the list is none.
func (e loggedEntry) work() bool {
	return slices.Contains(logsWork, e.Action) && !(e.Step == "add" && strings.HasPrefix(e.Subject, "incubator "))
}

// order: the protocol gives an order's lines no step.
func (e loggedEntry) order() bool { return e.Step == "" && strings.HasPrefix(e.Subject, "order ") }

func loggedIn(msgs []heard) (all, work []loggedEntry) {
	for _, m := range msgs {
		for _, e := range m.Logged {
			all = append(all, e)
			if e.work() {
				work = append(work, e)
			}
		}
	}
	return all, work
}

// fits reports whether an entry is the one wanted, its further values aside.
func (w want) fits(e loggedEntry) bool {
	return e.Action == w.action && (w.step == "" || w.step == e.Step) &&
		(w.subject == "" || strings.EqualFold(w.subject, e.Subject)) &&
		(w.count == nil || e.Count != nil && *e.Count == *w.count) &&
		(!w.all || e.All || e.Count != nil) && (w.state == "" || sameState(w.state, e.State))
}

// sameState compares the names of a state, whatever parts their words.
func sameState(a, b string) bool {
	plain := func(s string) string { return strings.NewReplacer("_", "", "-", "", " ", "").Replace(s) }
	return plain(a) == plain(b)
}

// off lists the further values in which an entry is not as wanted.
func (w want) off(e loggedEntry) (bad []string) {
	for _, a := range w.attrs {
		if is, ok := a.holds(e); !ok {
			bad = append(bad, fmt.Sprintf("%s=%s got %s", a.key, a.value, is))
		}
	}
	return bad
}

func (a labelAttr) holds(e loggedEntry) (is string, ok bool) {
	num := func(n *int) string {
		if n == nil {
			return ""
		}
		return strconv.Itoa(*n)
	}
	switch a.key {
	case "at", "on", "until":
		happened := e.Happened
		if a.key == "until" || e.Step == "remind" {
			happened = e.Until
		}
		if e.Days != "" { // away: the first day, the last day
			days := strings.Fields(e.Days)
			happened = days[len(days)-1]
			return happened, strings.HasSuffix(happened, a.value)
		}
		at, err := time.Parse(time.RFC3339, happened)
		if err != nil {
			return happened, false
		}
		is = at.Format("01-02T15:04")
		if a.key == "on" {
			return is, at.Format("01-02") == a.value
		}
		within := 6 * time.Minute
		if a.near {
			within = 80 * time.Minute
		}
		want, err := time.ParseInLocation("2006-01-02T15:04", fmt.Sprintf("%d-%s", at.Year(), a.value), at.Location())
		return is, err == nil && at.Sub(want).Abs() <= within
	case "into":
		is = e.Into
	case "from":
		is = num(e.From)
		if e.Days != "" {
			is = strings.Fields(e.Days)[0]
			return is, strings.HasSuffix(is, a.value)
		}
	case "cause":
		is = e.Cause
	case "C":
		if e.C != nil {
			is = strconv.FormatFloat(*e.C, 'f', -1, 64)
		}
	case "power":
		is = strconv.FormatBool(e.Power)
	case "to":
		is = e.Value
	case "who": // lines hold the number of a member
		return "", e.Member != 0 || e.Step == "away"
	case "mark":
		is = e.Mark
	case "of":
		is = num(e.Of)
	}
	return is, strings.EqualFold(is, a.value)
}

// lineVerdicts in the order of the table; README.md there says what each means.
var lineVerdicts = []string{"right", "tap", "asked", "noticed", "silent", "detail", "spoke", "badtap", "wrong"}

// verdictRank: of several alternatives of a label the best counts.
var verdictRank = []string{"right", "detail", "asked", "spoke", "silent", "wrong"}

// judge says what became of a line, from what the bot said, signs left out.
func (l lineLabel) judge(msgs []heard) (best string) {
	for i, parts := range l {
		v := judgeParts(parts, msgs)
		if i == 0 || slices.Index(verdictRank, v) < slices.Index(verdictRank, best) {
			best = v
		}
	}
	return best
}

func judgeParts(parts []want, msgs []heard) string {
	all, work := loggedIn(msgs)
	pick := func(ok bool, yes, no string) string {
		if ok {
			return yes
		}
		return no
	}
	unread := pick(len(msgs) > 0, "asked", "silent")
	switch first := parts[0]; first.special {
	case "silent":
		return pick(len(msgs) == 0, "right", pick(len(all) > 0, "wrong", "spoke"))
	case "ask":
		asked := slices.ContainsFunc(msgs, func(m heard) bool {
			return m.Kind == "ask" || len(m.Buttons) > 0 || strings.Contains(m.Text, "?")
		})
		return pick(len(all) > 0, "wrong", pick(asked, "right", unread))
	case "nolog":
		return pick(len(all) == 0, "right", "wrong")
	case "nodid":
		return pick(len(work) == 0, "right", "wrong")
	case "noeggs":
		other := slices.ContainsFunc(work, func(e loggedEntry) bool {
			return e.Step != "eggs" || e.Count != nil && *e.Count != 0
		})
		return pick(other, "wrong", "right")
	case "order":
		other := slices.ContainsFunc(all, func(e loggedEntry) bool { return e.Step != "order" && !e.order() })
		return pick(other, "wrong", pick(len(msgs) > 0, "right", "silent"))
	case "answer":
		var text []string
		for _, m := range msgs {
			text = append(text, m.Text)
		}
		return pick(len(all) > 0, "wrong", pick(first.answer.MatchString(strings.Join(text, " ")) && len(msgs) > 0, "right", unread))
	}
	if parts[0].novel && len(work) == 0 {
		return pick(len(msgs) > 0, "right", "silent")
	}
	left, ok, amiss := slices.Clone(all), true, false
	for _, w := range parts {
		at := -1
		for i, e := range left {
			if w.fits(e) && (at < 0 || len(w.off(e)) < len(w.off(left[at]))) {
				at = i
			}
		}
		if at < 0 {
			ok = ok && w.optional
			continue
		}
		amiss = amiss || len(w.off(left[at])) > 0
		left = slices.Delete(left, at, at+1)
	}
	if ok && !slices.ContainsFunc(left, loggedEntry.work) {
		return pick(amiss, "detail", "right")
	}
	return pick(len(all) > 0, "wrong", unread)
}

// wantsEntry reports whether a tap may give what the label wants.
func (l lineLabel) wantsEntry() bool { return l[0][0].special == "" }

func (l lineLabel) wantsNothing() bool {
	return slices.Contains([]string{"silent", "nolog", "nodid"}, l[0][0].special)
}

func (l lineLabel) novel() bool { return l[0][0].novel || l[len(l)-1][0].novel }

func TestLineLabels(t *testing.T) {
	said := func(kind, text string, logged ...loggedEntry) []heard {
		return []heard{{Kind: kind, Text: text, Logged: logged}}
	}
	n := func(i int) *int { return &i }
	accept := loggedEntry{Action: "did", Step: "accept", Subject: "batch 1", Count: n(38), Happened: "2031-04-29T10:30:00-05:00"}
	feed := loggedEntry{Action: "did", Step: "feed", Subject: "builder B1", Happened: "2031-04-29T10:30:00-05:00"}
	mine := loggedEntry{Action: "mine", Step: "move", Subject: "batch 1", Happened: "2031-04-29T10:30:00-05:00"}
	order := loggedEntry{Action: "did", Subject: "order 1", Happened: "2031-04-29T10:30:00-05:00"}
	for _, c := range []struct {
		label string
		msgs  []heard
		want  string
	}{
		{"did accept batch 1 38", said("echo", "Logged", accept), "right"},
		{"did accept batch 1 38", said("echo", "Logged", accept, feed), "wrong"},
		{"did accept batch 1 38", said("echo", "Logged", accept, mine), "right"},
		{"did accept batch 1 36", said("echo", "Logged", accept), "wrong"},
		{"did accept batch 2 38", said("echo", "Logged", accept), "wrong"},
		{"did accept batch 1 38; did feed builder B1", said("echo", "Logged", accept), "wrong"},
		{"did accept batch 1 38; did feed builder b1", said("echo", "Logged", feed, accept), "right"},
		{"did accept batch 1 38; opt did feed", said("echo", "Logged", accept), "right"},
		{"did accept batch 1 38; opt did feed", said("echo", "Logged", feed), "wrong"},
		{"did accept batch 1 38 at=04-29T10:36", said("echo", "Logged", accept), "right"},
		{"did accept batch 1 38 at=04-29T10:37", said("echo", "Logged", accept), "detail"},
		{"did accept batch 1 38 at~04-29T11:50", said("echo", "Logged", accept), "right"},
		{"did accept batch 1 38 at~04-29T11:51", said("echo", "Logged", accept), "detail"},
		{"did accept batch 1 38 on=04-28", said("echo", "Logged", accept), "detail"},
		{"did add yard La_Loma", said("reply", "Added", loggedEntry{Action: "did", Step: "add", Subject: "yard La Loma"}), "right"},
		{"did accept batch 1 38 into=North", said("echo", "Logged", accept), "detail"},
		{"did accept batch 1 38", said("ask", "Log it?"), "asked"},
		{"did accept batch 1 38", nil, "silent"},
		{"did accept batch 1 38 || ask", said("ask", "Which?"), "right"},
		{"new did lose batch 1 7", said("ask", "Which?"), "right"},
		{"new did lose batch 1 7", said("echo", "Logged", accept), "wrong"},
		{"new did lose batch 1 7", nil, "silent"},
		{"silent", nil, "right"},
		{"silent", said("ask", "Which?"), "spoke"},
		{"silent", said("echo", "Logged", mine), "wrong"},
		{"ask", said("ask", "Which"), "right"},
		{"ask", said("answer", "No."), "asked"},
		{"ask", nil, "silent"},
		{"ask", said("echo", "Logged", feed), "wrong"},
		{"nolog", said("answer", "No."), "right"},
		{"nolog", said("echo", "Logged", mine), "wrong"},
		{"nodid", said("echo", "Logged", mine), "right"},
		{"nodid", said("echo", "Logged", feed), "wrong"},
		{"noeggs", said("echo", "Logged", loggedEntry{Action: "did", Step: "eggs", Count: n(0)}), "right"},
		{"noeggs", said("echo", "Logged", loggedEntry{Action: "did", Step: "eggs", Count: n(2)}), "wrong"},
		{"answer ~[Mm]ove|38", said("answer", "The move"), "right"},
		{"answer ~[Mm]ove|38", said("answer", "Nothing"), "asked"},
		{"answer ~.", nil, "silent"},
		{"answer ~.", said("echo", "The move", mine), "wrong"},
		{"order", said("answer", "Plan"), "right"},
		{"order", said("echo", "Logged", order), "right"},
		{"order", said("echo", "Logged", accept), "wrong"},
		{"void", said("echo", "Undone", loggedEntry{Action: "void", Step: "move"}), "right"},
	} {
		l, err := parseLabel(c.label)
		require.NoError(t, err)
		assert.Equal(t, c.want, l.judge(c.msgs), "%s: %v", c.label, c.msgs)
	}
	for _, bad := range []string{"", "did accept batch 1 many", "done accept", "silent 3", "did accept; ", "did move at=7:00", "answer ~("} {
		_, err := parseLabel(bad)
		assert.Error(t, err, bad)
	}
}
