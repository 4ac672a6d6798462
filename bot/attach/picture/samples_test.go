package picture

import (
	"fmt"
	"math"
	"strings"
	"time"
)

func sampleWeek(n int) Week {
	zone, _ := time.LoadLocation("America/Chicago")
	day := func(d, h, m int) time.Time { return time.Date(2031, 5, d, h, m, 0, 0, zone) }
	w := Week{Title: "Week from Mon 5 May", Now: day(6, 10, 20), NowWord: "now", Empty: "Nothing is due in these days.",
		Legend: Legend{"routine", "important", "a batch hangs on it", "leave alone", "best time", "chance of a virgin out", "rest"}}
	names := []string{"Mon 5", "Tue 6", "Wed 7", "Thu 8", "Fri 9", "Sat 10", "Sun 11"}
	for i, nm := range names {
		w.Days = append(w.Days, Day{From: day(5+i, 0, 0), To: day(6+i, 0, 0), Name: nm, Off: i == 6, WorkFrom: day(5+i, 7, 0), WorkTo: day(5+i, 18, 0)})
	}
	if n == 0 {
		return w
	}
	risk := func(t time.Time) float64 { return min(1, max(0, t.Sub(day(8, 0, 0)).Hours()/48)) }
	w.Groups = []Group{{"Breeders and builders", []Bar{
		{Text: "count accepted cells, batch 2: best Tue 10:00", Earliest: day(6, 4, 0), Best: day(6, 10, 0), Latest: day(7, 10, 0), Class: Weighty},
		{Text: "LATE: search for rogue cells, B2, was due before Sun 4 May 10:00", Earliest: day(2, 0, 0), Best: day(3, 0, 0), Latest: day(4, 10, 0), Class: Weighty, Late: true},
		{Text: "hands off the cells, batch 1", Earliest: day(3, 0, 0), Latest: day(7, 10, 0), Class: Guard},
	}}, {"North", nil}}
	for i := range n {
		w.Groups[1].Bars = append(w.Groups[1].Bars, Bar{Text: fmt.Sprintf("move cells, batch %d: 36 from B2, before Thu 10:00", i+1), Earliest: day(7, 10, 0), Best: day(8, 7, 0), Latest: day(8, 10, 0), Class: Critical, Risk: risk, RiskTo: day(10, 0, 0)},
			Bar{Text: "feed nucs", Earliest: day(5, 0, 0), Best: day(9, 9, 0), Latest: day(16, 9, 0), Class: Calm})
	}
	return w
}

func sampleSeason(n int) Season {
	zone, _ := time.LoadLocation("America/Chicago")
	t0 := time.Date(2031, 4, 21, 0, 0, 0, 0, zone)
	day := func(d float64) time.Time { return t0.Add(time.Duration(d * 24 * float64(time.Hour))) }
	s := Season{Title: "Season 2031", From: day(0), To: day(98), Now: day(40), NowWord: "now", Empty: "Nothing was grafted yet.",
		Legend: SeasonLegend{"breeder on a comb", "cells", "virgins in nucs", "laying", "planned", "cells must be in nucs"}}
	days, apart := 98, 7.0
	if n > 14 { // a season full of rounds
		days, apart = 126, 2
		s.To = day(126)
	}
	for d := 0; d <= days; d += 7 {
		s.Ticks = append(s.Ticks, Tick{day(float64(d)), day(float64(d)).Format("2 Jan")})
	}
	for i := range n {
		d := apart * float64(i)
		if i > 5 && n <= 14 {
			s.Rounds = append(s.Rounds, Round{Text: fmt.Sprintf("planned round %d: 60 from breeder 7", i), Stretches: []Stretch{{day(d), day(d + 36), Planned}}})
			continue
		}
		s.Rounds = append(s.Rounds, Round{Text: fmt.Sprintf("batch %d, breeder 7: 45 grafted, 38 accepted, 34 moved, 27 laying", i+1), Risk: day(d + 14),
			Stretches: []Stretch{{day(d), day(d + 1), Comb}, {day(d + 4), day(d + 13.7), Cells}, {day(d + 13.7), day(d + 29), Virgins}, {day(d + 29), day(d + 42), Layers}}})
	}
	return s
}

func sampleCurve() Curve {
	zone, _ := time.LoadLocation("America/Chicago")
	t0 := time.Date(2031, 5, 14, 0, 0, 0, 0, zone)
	h := func(x float64) time.Time { return t0.Add(time.Duration(x * float64(time.Hour))) }
	c := Curve{Title: "Batch 4: chance that a virgin is out", From: h(0), To: h(96), Now: h(31), NowWord: "now", Windowed: "cells may move",
		Window: [2]time.Time{h(10), h(34)}, Marks: []Tick{{h(30), "best Thu 06:00"}, {h(34), "close Thu 10:00"}, {h(49.9), "1 % Fri 01:55"}},
		Lines: []Line{{"a first virgin is out", func(t time.Time) float64 { return 1 / (1 + math.Exp(-(t.Sub(h(62)).Hours())/3)) }},
			{"half of them are out", func(t time.Time) float64 { return 1 / (1 + math.Exp(-(t.Sub(h(75)).Hours())/5)) }}}}
	for i := 0; i <= 4; i++ {
		c.Ticks = append(c.Ticks, Tick{h(float64(i * 24)), h(float64(i * 24)).Format("Mon 2 Jan")})
	}
	return c
}

// inSpanish puts the longest words that the Spanish catalogue makes on a picture of the
// week: names of a crew are longer still.
func inSpanish(w Week) Week {
	w.Title, w.NowWord, w.Empty = "Desde el lun 5 may (faltan 18 sin dibujar)", "ahora", "Nada vence en estos días."
	w.Legend = Legend{"rutina", "importante", "de esto depende un lote", "no tocar", "mejor hora", "riesgo de una virgen suelta", "fuera de horario"}
	for i, nm := range []string{"lun 5", "mar 6", "mié 7", "jue 8", "vie 9", "sáb 10", "dom 11"} {
		w.Days[i].Name = nm
	}
	texts := []string{"hasta mié 7 10:00: contar aceptadas, lote 2: 41 en B2", "TARDE, hasta dom 4 10:00: buscar celdas de emergencia, B1, lote 1", "hasta mié 7 10:00: no tocar las celdas, lote 1",
		"hasta jue 8 14:00: pasar celdas, lote 3: 42 de B3 a Lower Meadow Farm, Creek y North, sin apiario todavía para las demás", "hasta vie 16 09:00: alimentar núcleos en Lower Meadow Farm"}
	n := 0
	for g := range w.Groups {
		w.Groups[g].Title = []string{"Madres y criadoras", "Lower Meadow Farm, Creek"}[g]
		for b := range w.Groups[g].Bars {
			if w.Groups[g].Bars[b].Text = texts[min(n, 3+n%2)]; n < 3 {
				w.Groups[g].Bars[b].Text = texts[n]
			}
			n++
		}
	}
	return w
}

func seasonInSpanish(s Season) Season {
	s.Title, s.NowWord, s.Empty = "Temporada 2031", "ahora", "Este año no se injertó nada."
	s.Legend = SeasonLegend{"madre en el panal", "celdas", "vírgenes en núcleos", "en postura", "planeado", "celdas ya en núcleos"}
	for i := range s.Rounds {
		s.Rounds[i].Text = fmt.Sprintf("lote %d, madre 12: 45 injertadas, 38 aceptadas, 34 pasadas, 27 en postura, 24 capturadas", i+1)
	}
	for i := range s.Ticks {
		s.Ticks[i].Name = strings.NewReplacer("Apr", "abr", "May", "may", "Jun", "jun", "Jul", "jul").Replace(s.Ticks[i].Name)
	}
	return s
}

func curveInSpanish(c Curve) Curve {
	c.Title, c.NowWord, c.Windowed = "Lote 4: riesgo de una virgen suelta", "ahora", "las celdas se pueden pasar"
	c.Lines[0].Name, c.Lines[1].Name = "ya salió la primera virgen", "parte de las vírgenes que ya salió"
	c.Marks[0].Name, c.Marks[1].Name, c.Marks[2].Name = "mejor jue 15 06:00", "cierre jue 15 10:00", "1 % vie 16 01:55"
	for i := range c.Ticks {
		c.Ticks[i].Name = []string{"mié 14", "jue 15", "vie 16", "sáb 17", "dom 18"}[i]
	}
	return c
}

func sampleBoard() Board {
	return Board{Title: "North, Thu 8 May: 40 nucs", Lots: []Lot{
		{Title: "Leave alone until Mon 12 May 16:00", Alone: true, Nucs: []Nucs{{Text: "12 with a cell (batch 2)", Hive: WithCell, Count: 12, Labels: []string{"4", "19"}}}},
		{Title: "Leave alone until Sun 18 May 17:00", Alone: true, Nucs: []Nucs{{Text: "7 with a virgin (batch 1)", Hive: WithVirgin, Count: 7, Labels: []string{"21"}}}},
		{Title: "May be opened", Nucs: []Nucs{
			{Text: "6 free", Hive: Free, Count: 6}, {Text: "4 caught out", Hive: Emptied, Count: 4, Labels: []string{"8"}},
			{Text: "3 queenless, no. 3, 7 and 12", Hive: Failed, Count: 3, Labels: []string{"3", "7", "12"}}, {Text: "5 laying (batch 1)", Hive: WithLayer, Count: 5}, {Text: "3 not told of", Hive: NotTold, Count: 3}}},
		{Title: "Lost this year", Nucs: []Nucs{{Text: "2 absconded", Hive: Gone, Count: 2, Labels: []string{"11"}}, {Text: "1 robbed out", Hive: Gone, Count: 1}}},
	}}
}

func boardInSpanish() Board {
	b := sampleBoard()
	b.Title = "Lower Meadow Farm, jueves 8 de mayo: 40 núcleos en pie"
	for i, t := range []string{"No tocar hasta el lunes 12 de mayo 16:00", "No tocar hasta el domingo 18 de mayo 17:00", "Se pueden abrir", "Perdidos este año"} {
		b.Lots[i].Title = t
	}
	b.Lots[0].Nucs[0].Text = "12 con celda (lote 2), n.º 4 y 19"
	b.Lots[1].Nucs[0].Text = "7 con virgen (lote 1), n.º 21"
	for i, t := range []string{"6 libres", "4 capturados, n.º 8", "3 huérfanos, n.º 3, 7 y 12", "5 en postura (lote 1)", "3 sin noticia"} {
		b.Lots[2].Nucs[i].Text = t
	}
	b.Lots[3].Nucs[0].Text, b.Lots[3].Nucs[1].Text = "2 fugados, n.º 11", "1 saqueado"
	return b
}

func fullBoard() Board {
	return Board{Title: "Creek, Fri 9 May: 240 nucs", Lots: []Lot{{Title: "Leave alone until Tue 20 May 12:00", Alone: true, Nucs: []Nucs{{Text: "200 with a virgin (batch 14)", Hive: WithVirgin, Count: 200}}},
		{Title: "May be opened", Nucs: []Nucs{{Text: "40 free", Hive: Free, Count: 40}}}}}
}
