package conversation

import (
	"encoding/json"
	"fmt"
	"strings"
	"sync"
	"time"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// Understand is the reader, loaded once. Its data is built in, so that a fault in it is a
// fault of the program.
var Understand = sync.OnceValue(func() *rdg.Reader {
	r, err := rdg.Load(rdg.Data())
	if err != nil {
		panic(err)
	}
	return r
})

// asReadings turns acts into what the handlers take.
func (sc *Scene) asReadings(acts []rdg.Act) many {
	m := many{}
	for i, a := range acts {
		p := part{r: sc.asReading(a)}
		p.carried = i > 0 && a.Kind == acts[i-1].Kind && a.Step == acts[i-1].Step && (a.Batch == 0 || a.Batch == acts[i-1].Batch)
		m.parts = append(m.parts, p)
	}
	m.whole = m.parts[0].r
	if len(m.parts) == 1 {
		m.parts = nil
	}
	return m
}

func (sc *Scene) asReading(a rdg.Act) *reading {
	a = plainAct(a)
	r := &reading{verb: doStep, step: a.Step, breeder: a.Breeder, batch: a.Batch, builder: a.Builder, yard: a.Yard, mark: a.Mark, count: a.Count, of: a.Of,
		all: a.All, bees: a.Bees, ageLo: a.AgeLo, ageHi: a.AgeHi, litres: a.Litres, each: a.Each, honey: a.Honey, noEggs: a.None, release: a.Release, reason: a.Reason, nuc: a.State, labels: a.Nucs,
		buyer: a.Customer, tags: a.Tags, back: a.Back, ship: a.Ship, caught: a.Caught, arrival: a.Arrival, stock: a.Stock,
		concluded: a.Concluded(), addressed: true, text: sc.Origin.Text}
	if a.All {
		r.count = nil
	}
	r.customer = sc.customerCalled(a.Customer)
	r.placesOf(a)
	switch a.Kind {
	case rdg.Done:
		r.verb, r.step = doDone, ""
	case rdg.Claim:
		r.verb = doMine
	case rdg.Later:
		r.verb, r.span = doLater, time.Duration(a.Span)*time.Minute
	case rdg.Skip:
		r.verb = doSkip
	case rdg.Void:
		r.verb, r.whose = doUndo, a.Person
	}
	if a.When != nil {
		r.when = sc.asWhen(*a.When, a.Kind == rdg.Later)
	}
	if a.Till != nil {
		r.when, r.till = spanWhen(a.When), spanWhen(a.Till)
	}
	return r
}

// placesOf takes what an act says of incubators and builders.
func (r *reading) placesOf(a rdg.Act) {
	r.incubator, r.out, r.degrees, r.power, r.singly, r.both, r.rests = a.Incubator, a.Out, a.C, a.Power, a.Singly, a.Both, a.Rests
}

// asWhen turns a time as it was said into what the handlers take. later is of a time that
// lies ahead.
func (sc *Scene) asWhen(w rdg.When, later bool) when {
	said := sc.Origin.Said.In(sc.Settings.Zone)
	switch {
	case w.Now:
		return when{}
	case w.Ago != 0:
		return when{set: true, isAgo: true, ago: w.Ago}
	}
	if later {
		return sc.whenAgain(w)
	}
	at, exact, _ := w.Settle(said)
	y, m, d := at.Date()
	out := when{set: true, hasDay: true, date: true, year: y, month: int(m), day: d}
	if exact {
		out.hasTime, out.clock, out.half = true, rules.Clock(at.Hour()*60+at.Minute()), true
	} else {
		out.part = map[string]string{"am": "morning", "pm": "afternoon"}[w.Half]
		if w.Approx && out.part == "" {
			out.part = "earlier"
		}
		if y2, m2, d2 := said.Date(); out.part == "" && y == y2 && m == m2 && d == d2 {
			return when{} // today, no hour said
		}
	}
	return out
}

// actDo spells a button that does acts. What else is said about it stands in the options.
func actDo(update int64, options string, acts []rdg.Act) string {
	b, err := json.Marshal(acts)
	if err != nil {
		panic(fmt.Sprintf("an act has no JSON: %v", err)) // plain fields alone
	}
	return fmt.Sprintf("act|%d|%s|%s", update, options, b)
}

// parseActs is the inverse.
func parseActs(rest string) (o options, acts []rdg.Act, err error) {
	opts, js, _ := strings.Cut(rest, "|")
	o = parseOptions(opts)
	err = json.Unmarshal([]byte(js), &acts)
	return o, acts, err
}

// plainAct makes what stands in an act as it was typed safe to be shown: one line, nothing
// unseen. A reason with a line of its own would look like one of the bot's.
func plainAct(a rdg.Act) rdg.Act {
	for _, s := range []*string{&a.Builder, &a.Yard, &a.Incubator, &a.Out, &a.Mark, &a.Reason, &a.Value, &a.Person, &a.Customer} {
		*s = wording.Clean(*s)
	}
	return a
}
