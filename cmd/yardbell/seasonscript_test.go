//go:build linux && !race

package main

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"slices"
	"time"
)

// This file is what the crews of TestFaultSeason do: the same for the same seed, whatever
// the service suffers.

// deed is one thing that somebody does in a group.
type deed struct {
	at    time.Time
	crew  int
	who   int // 0 to 2
	text  string
	edits int    // number of the deed whose message becomes this text, -1 for none
	under string // "batch 3 move": the evening ping about it is replied to or pressed, "" for none
	press bool   // its button of that name
	said  int    // number of the message, once said
}

// seasonZones and seasonLanguages make the crews differ: their evenings fall apart.
var seasonZones = []string{"America/Chicago", "America/Chicago", "Europe/Madrid", "America/New_York"}

// crewWords are the lines of a batch in both languages.
var crewWords = map[string][2]string{
	"breeder":  {"add breeder %d", "agregar madre %d"},
	"builder":  {"add builder B%d", "agregar criadora B%d"},
	"yard":     {"add yard North 400 nucs", "agregar apiario North 400 núcleos"},
	"confine":  {"confine %d, bees in", "confinar %d, con abejas"},
	"eggs":     {"eggs %d", "huevos %d"},
	"combout":  {"comb out %d", "saqué panal %d"},
	"graft":    {"graft %d from %d into B%d", "injerté %d de la %d en B%d"},
	"accepted": {"batch %d accepted %d", "lote %d aceptadas %d"},
	"finisher": {"finisher batch %d", "acabadora lote %d"},
	"clear":    {"B%d clear", "B%d limpia"},
	"capped":   {"batch %d capped %d", "lote %d operculadas %d"},
	"nucs":     {"batch %d nucs %d ready at North", "lote %d núcleos %d listos en North"},
	"moved":    {"batch %d moved %d to North", "lote %d pasadas %d a North"},
	"emerged":  {"batch %d emerged %d", "lote %d nacieron %d"},
	"laying":   {"batch %d laying %d", "lote %d en postura %d"},
	"caught":   {"batch %d caught %d", "lote %d capturadas %d"},
	"mine":     {"Mine", "Voy yo"},
	"later":    {"later 2h", "luego 2h"},
	"not":      {"not %d, %d", "no %d, %d"},
	"talk":     {"what a day", "qué día"},
}

// crewScript writes down the season of one crew.
type crewScript struct {
	crew  int
	lang  int
	zone  *time.Location
	first time.Time // local midnight of its first day
	r     *rand.Rand
	out   []deed
}

func langOf(crew int) int { return crew % 3 / 2 }

// on says something on a day of the season at an hour, give or take some minutes.
func (c *crewScript) on(day int, hour float64, who int, what string, args ...any) *deed {
	minutes := int(hour*60) + c.r.IntN(20)
	at := time.Date(c.first.Year(), c.first.Month(), c.first.Day()+day, 0, minutes, c.r.IntN(60), 0, c.zone)
	text := crewWords[what][c.lang]
	if len(args) > 0 {
		text = fmt.Sprintf(text, args...)
	}
	c.out = append(c.out, deed{at: at.UTC(), crew: c.crew, who: who, text: text, edits: -1})
	return &c.out[len(c.out)-1]
}

// batch is one weekly round from the confinement to the caught queens. Every line names
// what it is about, so that none depends on what was said in between.
func (c *crewScript) batch(n int) {
	day, breeder, builder := 7*(n-1)+1, []int{7, 12}[n%2], n%3+1
	who := func() int { return c.r.IntN(3) }
	grafted := 40 + c.r.IntN(20)
	down := func(n int) int { return n - c.r.IntN(4) }
	c.on(day, 8, who(), "confine", breeder)
	c.on(day+1, 7.5, who(), "eggs", breeder)
	c.on(day+1, 8, who(), "combout", breeder)
	meant := grafted
	if n%4 == 2 {
		meant -= 5 // a slip, put right in the message itself
	}
	grafter := who()
	c.on(day+4, 14.5, grafter, "graft", meant, breeder, builder)
	if meant != grafted {
		c.on(day+4, 15, grafter, "graft", grafted, breeder, builder).edits = len(c.out) - 2
	}
	accepted := down(grafted)
	counter := who()
	if n%3 == 1 {
		c.on(day+5, 14, counter, "accepted", n, accepted-1)
		c.on(day+5, 14.4, counter, "not", accepted-1, accepted)
	} else {
		c.on(day+5, 14, counter, "accepted", n, accepted)
	}
	c.on(day+5, 15, who(), "finisher", n)
	c.on(day+9, 9, who(), "clear", builder)
	capped := down(accepted)
	c.on(day+9, 17, who(), "capped", n, capped)
	if n%2 == 0 {
		c.on(day+12, 19.5, who(), "later").under = fmt.Sprintf("batch %d nucs", n)
	}
	c.on(day+13, 11, who(), "nucs", n, capped)
	mine := c.on(day+13, 20, who(), "mine")
	mine.under, mine.press = fmt.Sprintf("batch %d move", n), true
	moved := down(capped)
	c.on(day+14, 8.5, who(), "moved", n, moved)
	emerged := down(moved)
	c.on(day+18, 17, who(), "emerged", n, emerged)
	laying := down(emerged)
	c.on(day+30, 16, who(), "laying", n, laying)
	if n%5 != 4 { // some are forgotten, which is what the pings about the close are for
		c.on(day+44, 15, who(), "caught", n, down(laying))
	}
	c.on(day+c.r.IntN(40), 12, who(), "talk")
}

// seasonScript is what all crews do, in order of time.
func seasonScript(seed uint64, crews, batches int, first time.Time) []deed {
	var all []deed
	for i := range crews {
		zone, err := time.LoadLocation(seasonZones[i%len(seasonZones)])
		if err != nil {
			panic(err)
		}
		c := &crewScript{crew: i, lang: langOf(i), zone: zone, first: first.AddDate(0, 0, i%7), r: rand.New(rand.NewPCG(seed, uint64(i)))}
		for _, b := range []int{7, 12} {
			c.on(0, 9, 0, "breeder", b)
		}
		for _, b := range []int{1, 2, 3} {
			c.on(0, 10, 0, "builder", b)
		}
		c.on(0, 11, 0, "yard")
		for n := 1; n <= batches; n++ {
			c.batch(n)
		}
		for j := range c.out {
			if c.out[j].edits >= 0 {
				c.out[j].edits += len(all)
			}
		}
		all = append(all, c.out...)
	}
	return inOrder(all)
}

// inOrder sorts deeds by time; edits go on naming what they change.
func inOrder(all []deed) []deed {
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(all[a].at.Compare(all[b].at), cmp.Compare(all[a].crew, all[b].crew))
	})
	at := make([]int, len(all))
	for now, was := range order {
		at[was] = now
	}
	out := make([]deed, len(all))
	for now, was := range order {
		out[now] = all[was]
		if e := out[now].edits; e >= 0 {
			out[now].edits = at[e]
		}
	}
	return out
}
