package rules

import (
	"fmt"
	"time"
)

// Stage is one of the four losses between a grafted larva and a laying queen.
type Stage int

// The stages in order: of the larvae grafted those accepted, of these the cells
// capped, of the cells that went on the queens emerged, of these the ones laying.
const (
	StageAccepted Stage = iota
	StageCapped
	StageEmerged
	StageLaying
	Stages = 4
)

// Step is the step at which the stage's count is logged.
func (g Stage) Step() Step { return [...]Step{Accept, Capped, Emerge, Laying}[g] }

// StageOf is the stage whose count is logged at a step, ok false where none is.
func StageOf(step Step) (g Stage, ok bool) {
	for g = StageAccepted; g < Stages; g++ {
		if g.Step() == step {
			return g, true
		}
	}
	return 0, false
}

// Range is a published range of a rate and where it stands.
type Range struct {
	Lo, Hi float64
	Source string
}

// Published are the rates that a crew without counts of its own starts from.
// Each is of the stage before; where a source gives shares of the larvae
// grafted they were divided.
var Published = [Stages]Range{
	{13.5 / 24, 13.0 / 14, "Kamboj et al. 2023, IJECC 13(11):1668-1678, abstract (13.5 of 24); common practice (13 of 14 where all goes well); between them Wahid, Singh & Singh 2023, J. Entomol. Zool. Stud. 11(4), abstract (58.8 % dry, 76.4 % wet) and Büchler et al. 2013, J. Apic. Res. 52(1), s2.1.7 (80 % or more)"},
	{9.0 / 13.5, 70.9 / 76.4, "Kamboj et al. 2023, abstract (9.0 sealed of 13.5); Wahid, Singh & Singh 2023, abstract (70.9 of 76.4 wet; 46.8 of 58.8 dry); derived"},
	{6.0 / 9.0, 44.3 / 46.8, "Kamboj et al. 2023, abstract (6.0 emerged of 9.0 sealed); Wahid, Singh & Singh 2023, abstract (44.3 of 46.8 dry; 51.7 of 70.9 wet); derived"},
	{12.0 / 27 / 0.807, 0.70 / 0.80, "Panasiuk et al. 2015, COLOSS conference abstract (12 laying of 27, in the worse of two periods), over the middle of the emergence rates above; Pérez-Sato & Ratnieks 2006, Apidologie 37(5):571-576, abstract (70 % of cells, two thirds of the loss before mating); derived, low confidence"},
}

// Prior gives the shapes of the beta law that stands for a published range: its
// middle is the mean, and the range is taken as four standard deviations wide.
func (r Range) Prior() (alpha, beta float64) {
	mean, sd := (r.Lo+r.Hi)/2, (r.Hi-r.Lo)/4
	k := mean*(1-mean)/(sd*sd) - 1
	return mean * k, (1 - mean) * k
}

// rhoAlpha and rhoBeta are the beta law of over-dispersion before any count:
// mean 0.05, between 0.004 and 0.15 in 19 cases of 20. The mean is what 12 of 27
// and 17 of 26 queens laying in two periods of one season come to by analysis of
// variance (Panasiuk et al. 2015, COLOSS conference abstract); derived, low confidence,
// hence the width.
const (
	rhoAlpha = 1.5
	rhoBeta  = 28.5
)

// Trial is one count of a batch: Got out of Of at a stage, and by what it may be told apart.
type Trial struct {
	Stage   Stage
	Of, Got int
	Batch   int
	Breeder string // number as text, "" where not known, like the other three
	Builder string
	Grafter string
	Week    string // ISO week of the graft in the crew's zone, "2031-W18"
	Implied bool   // the count between two stages was not logged and was filled in
}

// WeekOf names the ISO week of t in a zone the way Trial.Week does.
func WeekOf(t time.Time, zone *time.Location) string {
	y, w := t.In(zone).ISOWeek()
	return fmt.Sprintf("%04d-W%02d", y, w)
}

// TrialsOf reads a batch's counts as trials; entries are the batch's effective
// ones, which say who grafted. Cells that were left over when the nucs were full
// are no loss: emerged counts are out of those moved where that was logged. Where
// a stage was not counted but the next was, the loss of the two is split the way
// the published rates make most likely, and both trials are marked Implied.
// Laying counts as soon as any queen lays or the batch has ended without one.
func TrialsOf(b Batch, entries []Entry, zone *time.Location) []Trial {
	base := Trial{Batch: b.Number, Builder: b.Start, Week: WeekOf(b.Grafted, zone)}
	if b.Breeder > 0 {
		base.Breeder = fmt.Sprint(b.Breeder)
	}
	for _, e := range did(entries, Graft) {
		if e.ID == b.Graft {
			base.Grafter = e.By
		}
	}
	laying := b.Counts.Laying
	if c := b.Counts.Caught; c != nil && (laying == nil || *c > *laying) {
		laying = c
	}
	if laying != nil && *laying == 0 && !b.Ended {
		laying = nil
	}
	got := [Stages]*int{b.Counts.Accepted, b.Counts.Capped, b.Counts.Emerged, laying}
	var out []Trial
	of, open := b.Counts.Grafted, []Stage(nil)
	for g := StageAccepted; g < Stages; g++ {
		if g == StageEmerged && b.Counts.Moved != nil {
			of, open = b.Counts.Moved, nil // what went before is closed by this count
		}
		if of == nil {
			of = got[g]
			continue
		}
		open = append(open, g)
		if got[g] == nil {
			continue
		}
		out = append(out, split(base, open, *of, *got[g])...)
		of, open = got[g], nil
	}
	return out
}

// split makes trials of a loss over one or more stages.
func split(base Trial, stages []Stage, of, got int) []Trial {
	of = max(of, got) // a later count that is higher corrects the earlier one
	var out []Trial
	for i, g := range stages {
		t := base
		t.Stage, t.Of, t.Got, t.Implied = g, of, got, len(stages) > 1
		if rest := stages[i+1:]; len(rest) > 0 {
			// Of those lost in all, the share lost here at the published rates.
			here := Published[g].mean()
			all := here
			for _, r := range rest {
				all *= Published[r].mean()
			}
			lost := float64(of-got) * (1 - here) / (1 - all)
			t.Got = of - int(lost+0.5)
		}
		out = append(out, t)
		of = t.Got
	}
	return out
}

func (r Range) mean() float64 { return (r.Lo + r.Hi) / 2 }
