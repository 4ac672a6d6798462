package wording

import (
	"strings"

	"yardbell/rules"
	"yardbell/store"
)

// A Delivery is one worded message for a transport.
type Delivery struct {
	Out     store.Outgoing
	Row     store.Message // the first row it covers
	Kind    string        // reply, ask, error, ping, digest
	Ping    string        // eve, open, closing, over, or ""
	Text    string
	Buttons []store.Button
	Answers int64 // the person's message it answers, 0 for none
	Edits   int64 // the bot's message it changes in place, 0 for a new one
	Thread  int64 // topic of a forum, 0 for none
	Files   []File
}

// File goes out with a message: a picture is shown, anything else is to be opened.
type File struct {
	Name    string
	Picture bool
	Data    []byte
	Kept    string // the chat's own name for a picture that it has already, instead of Data
}

// Render words an outgoing message. Answers were worded when they were queued;
// pings are worded when they go, so that they say what is true then.
func Render(out store.Outgoing) Delivery {
	m := out.Messages[0]
	d := Delivery{Out: out, Row: m, Kind: m.Kind, Ping: m.Ping.Public(), Text: m.Text, Buttons: m.Buttons, Answers: m.Answers, Edits: m.Edits}
	if m.Signs() {
		d.Kind = "notice"
		return d
	}
	if m.Chat == 0 {
		d.Thread = out.Crew.Thread
	}
	vs, today := All(out.Settings, out.Now), rules.DateOf(out.Now, out.Settings.Zone)
	for i := range vs {
		vs[i].Rounds, vs[i].Drive = out.Rounds, out.Drive
	}
	var word func(v Voice) string
	switch {
	case m.Ping == rules.Digest && len(out.Items) == 0:
		word = func(v Voice) string { return v.Say("digest_all_done", "Date", v.Date(today)) }
	case m.Ping == rules.Digest:
		word = func(v Voice) string { return v.morning(out.Items, today) }
	case len(out.Items) > 0:
		head := "routine_head"
		if !out.Late.IsZero() {
			head = "late_head"
		}
		d.Kind, d.Ping = "digest", ""
		word = func(v Voice) string { return v.List(v.Say(head), out.Items, today.Add(400)) }
	case out.Summary != nil:
		word = func(v Voice) string { return v.Summary(*out.Summary, len(out.Messages)) }
		d.Answers = out.Messages[len(out.Messages)-1].Answers // whose author is told of it
	case out.Unlogged != nil:
		word = func(v Voice) string { return v.unlogged(out.Unlogged) }
		d.Buttons = unloggedButtons(out.Unlogged)
	case out.Task != nil:
		word = func(v Voice) string { return v.ping(m.Ping, out) }
		if d.Buttons = TaskButtons(vs, out.Task.Key); len(out.Bars) > 1 {
			d.Buttons = barButtons(vs, out.Bars)
		}
		if m.Ping == rules.Reminded {
			d.Buttons = nil // nobody answers for it
		}
	default: // worded when it was queued, and perhaps not in the crew's first language
		word = func(Voice) string { return m.Text }
	}
	d.Text = InEach(vs, word)
	if !out.Late.IsZero() {
		d.Text = InEach(vs, func(v Voice) string { return v.Say("p_late", "Fire", out.Late, "Text", word(v)) })
	}
	return d
}

// ping words one ping: the fact, the deadline, the reason in half a line, how to
// answer.
func (v Voice) ping(kind rules.PingKind, out store.Outgoing) string {
	t := *out.Task
	if kind == rules.Reminded {
		return v.Say("p_remind", "Words", v.words(t.Mark), "Name", t.ClaimedBy)
	}
	var lines []string
	task, what, bars := v.Task(t), v.whatNow(t, out), len(out.Bars) > 1
	if bars {
		task, what = v.Say("task", "Step", t.Step, "Subject", out.Round), v.whatBars(out.Bars)
		t.Best, t.ClaimedBy = bestOf(out.Bars), ""
	}
	kv := []any{"Task", task, "What", what, "Best", t.Best, "Close", t.Latest, "Stake", v.Say("stake_" + t.Stake)}
	over := !v.Now.Before(t.Latest)
	kv = append(kv, "Now", v.overNow(t.Step), "Left", v.Left(t.Latest.Sub(v.Now)))
	id := map[rules.PingKind]string{rules.Eve: "p_eve", rules.OpenPing: "p_open", rules.Closing6: "p_closing", rules.Closing2: "p_closing",
		rules.OverPing: "p_over", rules.NoAnswer: "noanswer", rules.Again: "again"}[kind]
	switch {
	case kind == rules.Again && over:
		id = "again_over"
	case over && (kind == rules.Eve || kind == rules.OpenPing || kind == rules.Closing6 || kind == rules.Closing2):
		id = "p_closed_late" // it went out late; what it was to warn of has come
	case kind == rules.Eve && rules.DateOf(t.Best, v.Settings.Zone) != rules.DateOf(v.Now, v.Settings.Zone).Add(1):
		id = "p_eve_today"
	}
	lines = append(lines, Upper(v.Say(id, kv...)))
	if bars {
		lines = append(lines, v.barLines(out)...)
	}
	if kind == rules.Eve || kind == rules.OpenPing || kind == rules.Again {
		if t.Unfit {
			lines = append(lines, v.Say("w_unfit"))
		}
		if t.Step == rules.Graft && kind == rules.Eve {
			builder := v.Say("prep_builder")
			if len(out.Builders) == 1 {
				builder = out.Builders[0]
			}
			lines = append(lines, v.Say("prep_cups", "Builder", builder))
		}
		if id := "bring_" + string(t.Step); v.Has(id) {
			year := rules.DateOf(t.Best, v.Settings.Zone).Year
			lines = append(lines, v.Say("p_bring", "List", v.Say(id, "Mark", rules.MarkColour(year))))
		}
	}
	if t.ClaimedBy != "" {
		lines = append(lines, v.Say("p_mine", "Name", t.ClaimedBy))
	}
	forms := v.forms(t, out)
	if bars {
		forms = v.barForms(out)
	}
	lines = append(lines, v.Say("p_answer", "Forms", forms))
	return strings.Join(lines, "\n")
}

func (v Voice) overNow(s rules.Step) string {
	if id := "over_" + string(s); v.Has(id) {
		return v.Say(id)
	}
	return v.Say("over_other")
}

// forms shows how to answer, with the task's own figures and the crew's own names.
func (v Voice) forms(t rules.Task, out store.Outgoing) string {
	n, yard, builder := 34, v.Say("form_yard"), v.Say("form_builder")
	if t.Count != nil {
		n = *t.Count
	}
	if t.Into != "" {
		yard = strings.ReplaceAll(t.Into, rules.YardSep, "/")
	} else if len(out.Yards) > 0 {
		// Which of several is the crew's to say: one taken at random would be copied.
		yard = strings.Join(out.Yards[:min(len(out.Yards), 3)], "/")
	}
	if len(out.Builders) > 0 {
		builder = out.Builders[0]
	}
	switch t.Step {
	case rules.Move:
		return v.Say("forms_move", "N", n, "Yard", yard)
	case rules.Nucs:
		return v.Say("forms_nucs", "N", n, "Yard", yard)
	case rules.Graft:
		return v.Say("forms_graft", "Breeder", t.Breeder, "Builder", builder)
	case rules.Accept, rules.Capped, rules.Emerge, rules.Laying, rules.Catch, rules.Recell:
		return v.Say("forms_count", "N", n)
	}
	return v.Say("forms_plain")
}

// What says how many of what, from where and to where; place is false where the
// place stands above already.
func (v Voice) What(t rules.Task, place bool) string {
	id := map[rules.Step]string{
		rules.Move: "what_count", rules.Accept: "what_count", rules.Capped: "what_count", rules.Finish: "what_cells", rules.Emerge: "what_cells",
		rules.Nucs: "what_count", rules.Recell: "what_count", rules.Catch: "what_count", rules.Laying: "what_queens", rules.Graft: "what_larvae",
	}[t.Step]
	if id == "" || t.Step == rules.Graft && t.Count == nil {
		return ""
	}
	s := ""
	if free := v.FreeNucs(t); free != "" && t.Count != nil {
		s = v.Say("what_nucs_more", "Count", *t.Count, "Free", free)
	} else if t.Count != nil {
		s = v.Say(id, "Count", *t.Count)
	} else if t.Step != rules.Nucs && t.Step != rules.Recell {
		s = v.Say("what_unknown")
	}
	switch t.Step {
	case rules.Move, rules.Finish:
		if t.From != "" {
			s += v.Say("what_from", "From", v.Places(t.From))
		}
		if t.Step == rules.Move && t.Into != "" {
			s += v.Say("what_to", "To", t.Into)
		} else if t.Step == rules.Move {
			s += v.Say("what_to_unknown")
		}
	case rules.Graft:
		if t.Into != "" {
			s += v.Say("what_into", "Into", t.Into)
		}
	case rules.Accept, rules.Capped:
		if t.From != "" {
			s += v.Say("what_in", "In", v.Places(t.From))
		}
	default:
		if at := YardOf(t); at != "" && place {
			s += v.Say("what_at", "At", at)
		}
	}
	return s
}

// mostLines keeps a list on a phone's screen.
const mostLines = 20

// List words tasks grouped by yard: breeders and builders first, then each yard.
// What is best after the last day asked for stands under a heading of its own. Long
// names make for fewer lines: a chat takes only so much.
func (v Voice) List(head string, items []rules.Task, last rules.Date) string {
	s := v.lines(head, items, last, mostLines)
	for most := mostLines - 1; most > 0 && Units(s) > v.Room; most-- {
		s = v.lines(head, items, last, most)
	}
	return s
}

func (v Voice) lines(head string, items []rules.Task, last rules.Date, most int) string {
	lines := []string{head}
	var now, can []rules.Task
	for _, t := range items {
		if !t.Guard && last.Before(rules.DateOf(t.Best, v.Settings.Zone)) && last.Before(rules.DateOf(t.Latest, v.Settings.Zone)) {
			can = append(can, t)
		} else {
			now = append(now, t)
		}
	}
	if len(now) == 0 {
		lines[0] += " " + v.Say("nothing_must")
	}
	n := 0
	add := func(list []rules.Task) {
		var groups, yards []string
		by := map[string][]rules.Task{}
		for _, t := range list {
			yard := YardOf(t)
			g := yard
			if g == "" && YardSteps[t.Step] {
				g = v.Say("group_none")
			} else if g != "" {
				g = v.Say("group_yard", "Yard", g)
			}
			if by[g] == nil {
				groups, yards = append(groups, g), append(yards, yard)
			}
			by[g] = append(by[g], t)
		}
		for _, g := range v.driven(groups, yards) {
			if len(groups) > 1 || g != "" {
				if g == "" {
					lines = append(lines, v.Say("group_home"))
				} else {
					lines = append(lines, g)
				}
			}
			for _, part := range rules.Together(by[g], v.Rounds) {
				if n++; n <= most {
					lines = append(lines, v.item(part))
				}
			}
		}
	}
	add(now)
	if len(can) > 0 {
		lines = append(lines, v.Say("due_can"))
		add(can)
	}
	if n > most {
		lines = append(lines, v.Say("more", "Count", n-most))
	}
	return strings.Join(lines, "\n")
}

// YardOf is the yard a task is done in, "" for the breeders' and builders' place.
func YardOf(t rules.Task) string {
	switch t.Step {
	case rules.Nucs, rules.Recell:
		return t.Into
	case rules.Emerge, rules.Flights, rules.Laying, rules.Catch:
		return t.From
	case rules.Feed:
		if t.Subject.Kind == rules.YardKind {
			return t.Subject.Key
		}
	}
	return ""
}

// YardSteps are done in a mating yard.
var YardSteps = map[rules.Step]bool{
	rules.Nucs: true, rules.Recell: true, rules.Emerge: true, rules.Flights: true, rules.Laying: true, rules.Catch: true,
}

// Item is one line of a list; place is false where its yard stands above.
func (v Voice) Item(t rules.Task, place bool) string {
	claim := ""
	if t.ClaimedBy != "" {
		claim = v.Say("claim", "Name", t.ClaimedBy)
	}
	if t.Step == rules.Remind {
		return v.Say("line_remind", "When", t.Best, "Words", v.words(t.Mark), "Claim", claim)
	}
	id := "line"
	switch {
	case t.Guard:
		id = "line_guard"
	case !v.Now.Before(t.Latest):
		id = "line_over"
	}
	return v.Say(id, "Task", v.Task(t), "What", v.What(t, place), "Best", t.Best, "Close", t.Latest, "Claim", claim, "Until", t.Latest)
}
