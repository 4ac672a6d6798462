package planning

import (
	"encoding/json"
	"math"
	"strconv"
	"strings"

	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// PlanConfidence is that of the plan that is proposed where none was asked for: the crew
// fails one order in ten. The needs at other chances stand beside it.
const PlanConfidence = 0.9

// Offered is a plan under a button. It is accepted as it was shown, or not at all.
type Offered struct {
	Order int           `json:"order,omitempty"` // the order that the rounds are added to
	Want  int           `json:"want"`
	Plan  rules.Booking `json:"plan"`
}

func (o Offered) Do() string {
	b, err := json.Marshal(o)
	if err != nil {
		panic(err) // only plain values come here
	}
	return "order|" + string(b)
}

// OrderHead says what is asked for and on whose yields the plan rests.
func OrderHead(v wording.Voice, p rules.Plan, counted int) string {
	yields := v.Say("o_published")
	if counted > 0 {
		yields = v.Say("o_own", "Count", counted)
	}
	if v.Settings.Said != ([rules.Stages]float64{}) {
		yields = v.Say("o_said")
		if counted > 0 {
			yields = v.Say("o_said_own", "Count", counted)
		}
	}
	return v.Say("o_head", "What", v.Wanted(p.Order.Want, p.Order.Unit), "By", p.Order.By, "Yields", yields)
}

// Needs says how many to graft for each chance.
func Needs(v wording.Voice, p rules.Plan) string {
	var list []string
	for _, n := range p.Needs {
		id := "o_need"
		if !n.OK {
			id = "o_need_not"
		}
		list = append(list, v.Say(id, "Percent", v.Number(n.Confidence*100, 0), "Grafts", n.Grafts))
	}
	return v.Say("o_needs", "List", wording.JoinList(list))
}

// mostRoundLines keeps a plan on a few screens of a phone.
const mostRoundLines = 12

// Rounds words the rounds of a plan, one line each, what is on the way before them.
func Rounds(v wording.Voice, p rules.Plan) []string {
	lines := onTheWay(v, p)
	percent := v.Number(p.Confidence*100, 0)
	if !p.OK {
		percent = strconv.Itoa(InHundred(p.Chance))
	}
	if len(p.Rounds) > 0 {
		lines = append(lines, v.Say("o_rounds", "Percent", percent, "Grafts", p.Grafts, "Count", len(p.Rounds)))
	} else if p.OK {
		lines = append(lines, v.Say("o_enough", "Percent", InHundred(p.Chance)))
	}
	for i, r := range p.Rounds {
		if i == mostRoundLines {
			lines = append(lines, v.Say("o_more", "Count", len(p.Rounds)-i))
			break
		}
		lines = append(lines, roundLine(v, r, p))
	}
	return append(append(lines, takes(v, p)...), cautions(v, p)...)
}

// onTheWay says which batches the plan counts on.
func onTheWay(v wording.Voice, p rules.Plan) []string {
	var list []string
	for _, k := range p.From {
		list = append(list, v.Say("o_from_batch", "Count", k.N, "Batch", v.Subject(rules.BatchSubject(k.Batch))))
	}
	if len(list) == 0 {
		return nil
	}
	return []string{v.Say("o_from", "List", wording.JoinList(list))}
}

// takes says how many nucs the rounds of a plan keep at once.
func takes(v wording.Voice, p rules.Plan) []string {
	most := map[string]int{}
	cal := rules.Calendar{Uses: p.Uses}
	var names []string
	for _, u := range p.Uses {
		if u.Place.Kind == rules.YardKind && most[u.Place.Key] == 0 {
			names = append(names, u.Place.Key)
			for _, l := range cal.Levels(u.Place) {
				most[u.Place.Key] = max(most[u.Place.Key], l.Used)
			}
		}
	}
	var list []string
	for _, n := range names {
		list = append(list, v.Say("o_nucs_at", "Count", most[n], "Yard", n))
	}
	if len(list) == 0 {
		return nil
	}
	return []string{v.Say("o_nucs", "List", wording.JoinList(list))}
}

// cautions say what is not as it is best.
func cautions(v wording.Voice, p rules.Plan) (lines []string) {
	if p.Tight {
		lines = append(lines, v.Say("o_tight_"+string(p.Order.Unit)))
	}
	if p.Early {
		lines = append(lines, v.Say("o_early_"+string(p.Order.Unit), "Keeps", p.Keeps))
	}
	if p.Unfit {
		lines = append(lines, v.Say("o_unfit"))
	}
	return lines
}

func roundLine(v wording.Voice, r rules.Round, p rules.Plan) string {
	u := p.Order.Unit
	ready := v.At(r.Ready(u))
	if p.Tight {
		ready = v.Date(rules.DateOf(r.Soonest(u), v.Settings.Zone))
	}
	if r.Comb != nil {
		return v.Say("o_round_comb", "Breeders", Breeders(v, r.Breeders), "Graft", r.Graft, "Parts", shares(v, r.Batches), "Ready", v.Say("o_ready_"+string(u), "At", ready))
	}
	return v.Say("o_round", "Breeders", Breeders(v, r.Breeders), "Confine", r.Confined, "Graft", r.Graft, "Parts", shares(v, r.Batches),
		"Ready", v.Say("o_ready_"+string(u), "At", ready))
}

func Breeders(v wording.Voice, list []int) string {
	var names []string
	for _, n := range list {
		names = append(names, v.Subject(rules.BreederSubject(n)))
	}
	return wording.JoinList(names)
}

// shares words who takes how many of a round.
func shares(v wording.Voice, list []rules.PlannedBatch) string {
	var parts []string
	for _, b := range list {
		s := strconv.Itoa(b.Grafts)
		if b.Builder != "" {
			s = v.Say("o_share", "Grafts", b.Grafts, "Builder", b.Builder)
		}
		parts = append(parts, s)
	}
	return wording.JoinList(parts)
}

// Nofit says why a plan does not fit and what would: the number that holds with the
// confidence asked for beside the number to expect.
func Nofit(v wording.Voice, p rules.Plan) (lines []string) {
	lines = append(lines, v.Say("o_nofit", "Why", broken(v, p)))
	percent := v.Number(p.Confidence*100, 0)
	fits := v.Say("o_fits_none")
	switch {
	case p.Fits > 0 && p.Chance > 0:
		fits = v.Say("o_fits", "What", v.Wanted(p.Fits, p.Order.Unit), "Percent", percent, "Mean", v.Number(p.Mean, 0))
	case p.Fits > 0:
		fits = v.Say("o_fits_now", "What", v.Wanted(p.Fits, p.Order.Unit))
	}
	if p.Partial {
		lines[0] = v.Say("o_partial")
	}
	if !p.FitsBy.IsZero() {
		fits += " " + v.Say("o_fits_by", "By", v.Date(rules.DateOf(p.FitsBy, v.Settings.Zone)))
	}
	return append(lines, fits)
}

// broken names what is short.
func broken(v wording.Voice, p rules.Plan) string {
	var list []string
	for i := range p.Breaks {
		list = append(list, short(v, &p.Breaks[i]))
	}
	if len(list) == 0 {
		return v.Say("o_break")
	}
	return wording.JoinList(list)
}

func short(v wording.Voice, b *rules.Break) string {
	switch {
	case b.Place.Zero():
		return v.Say("o_break_time", "At", b.At)
	case b.Place.Kind == rules.BreederKind:
		return v.Say("o_break_breeder", "Day", v.Date(b.Day))
	case b.Place.Kind == rules.YardKind:
		at := ""
		if b.Place.Key != "" {
			at = v.Say("e_at", "Yard", b.Place.Key)
		}
		return v.Say("o_break_yard", "Day", v.Date(b.Day), "Count", b.Have, "At", at, "Need", b.Need)
	case b.Place.Key == "":
		return v.Say("o_break_builders", "Have", b.Have, "Need", b.Need)
	}
	return v.Say("o_break_builder", "Day", v.Date(b.Day), "Builder", b.Place.Key)
}

// deadlines says until when something can still be begun for an order, "" where it is
// too late for all.
func deadlines(v wording.Voice, d rules.Deadline) string {
	switch {
	case v.Now.After(d.Graft):
		return v.Say("o_too_late")
	case v.Now.After(d.Confine):
		return v.Say("o_last_graft", "Graft", d.Graft)
	}
	return v.Say("o_last", "Graft", d.Graft, "Confine", d.Confine)
}

// AcceptButtons are under a plan that the whole crew is shown.
func AcceptButtons(vs []wording.Voice, do string) []store.Button {
	label := func(id string) string {
		return wording.Each(vs, wording.LabelParting, func(v wording.Voice) string { return v.Say(id) })
	}
	return []store.Button{wording.Button(label("b_accept"), do), wording.Button(label("b_no"), "no")}
}

// InHundred is a chance in whole percent: never none and, while it is one, never all.
func InHundred(p float64) int {
	if p >= 1 {
		return 100
	}
	return int(math.Max(1, math.Min(99, math.Round(p*100))))
}

// RoundState words a round of an order as it stands: its batches, what is left of it.
func RoundState(v wording.Voice, r rules.RoundState) (lines []string) {
	for _, x := range r.Batches {
		p, counted := rules.PartOf(x)
		what := v.Say("s_order_uncounted")
		switch {
		case x.Ended && p.Count == 0:
			what = v.Say("s_order_closed")
		case counted:
			what = v.Say("s_count", "Count", p.Count, "Past", v.Past(p.Done, &p.Count))
		}
		lines = append(lines, v.Say("s_order_batch", "Number", r.Number, "Batch", v.Subject(rules.BatchSubject(x.Number)), "What", what))
	}
	switch {
	case r.Gone && len(r.Batches) == 0:
		lines = append(lines, v.Say("s_order_gone", "Number", r.Number))
	case len(r.Left) == 0:
	case len(r.Combs) > 0 || len(r.Batches) > 0:
		graft := r.Graft
		for _, c := range r.Combs {
			graft = c.Confined.Add(r.Graft.Sub(r.Confined))
		}
		lines = append(lines, v.Say("s_order_on", "Number", r.Number, "Parts", shares(v, r.Left), "Graft", graft, "Breeders", Breeders(v, r.Breeders)))
	default:
		lines = append(lines, v.Say("s_order_wait", "Number", r.Number, "Breeders", Breeders(v, r.Breeders), "Confine", r.Confined, "Graft", r.Graft, "Parts", shares(v, r.Left)))
	}
	return lines
}

// Rescue says what can still be done for an order in time, and gives the button that
// plans it, "" where nothing more fits.
func Rescue(v wording.Voice, o *Outlook, b rules.Booked) (lines []string, do string) {
	if len(o.Limits.Breeders) == 0 {
		return []string{v.Say("r_order_no_breeder")}, "" // the planner would take any
	}
	p := o.Planner().Rescue(b.Order, o.Parts(b), b.Confidence, v.Now)
	switch {
	case p.OK && len(p.Rounds)+len(p.From) > 0:
		lines = append(onTheWay(v, p), lines...)
		lines = append(lines, v.Say("o_rescue", "Grafts", p.Grafts, "Percent", v.Number(b.Confidence*100, 0), "Count", len(p.Rounds)))
		for _, r := range p.Rounds {
			lines = append(lines, roundLine(v, r, p))
		}
		lines = append(lines, cautions(v, p)...)
		lines = append(lines, deadlines(v, p.Deadline))
		return lines, Offered{b.Number, b.Want, p.Book(o.Limits)}.Do()
	case len(p.Rounds) > 0:
		lines = append(lines, v.Say("o_norescue", "Why", broken(v, p)), v.Say("o_rescue_part", "What", v.Wanted(p.Fits, b.Unit), "Percent", v.Number(b.Confidence*100, 0), "Grafts", p.Grafts))
		for _, r := range p.Rounds {
			lines = append(lines, roundLine(v, r, p))
		}
		do = Offered{b.Number, b.Want, p.Book(o.Limits)}.Do()
	default:
		fits := v.Say("o_fits_none")
		if p.Fits > 0 {
			fits = v.Say("o_fits_now", "What", v.Wanted(p.Fits, b.Unit))
		}
		lines = append(lines, v.Say("o_norescue", "Why", broken(v, p)), fits)
	}
	if !p.FitsBy.IsZero() {
		lines[len(lines)-1] += " " + v.Say("o_fits_by", "By", v.Date(rules.DateOf(p.FitsBy, v.Settings.Zone)))
	}
	return append(lines, deadlines(v, p.Deadline)), do
}

// WeekStart is the Monday of an ISO week named as rules.WeekOf does, "2031-W18".
func WeekStart(key string) (d rules.Date, ok bool) {
	y, w, found := strings.Cut(key, "-W")
	year, err1 := strconv.Atoi(y)
	week, err2 := strconv.Atoi(w)
	if !found || err1 != nil || err2 != nil {
		return d, false
	}
	// The fourth of January lies in the first week (ISO 8601).
	d = rules.Date{Year: year, Month: 1, Day: 4}
	return d.Add(-(int(d.Weekday())+6)%7 + 7*(week-1)), true
}
