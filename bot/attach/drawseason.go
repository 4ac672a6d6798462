package attach

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"yardbell/bot/attach/picture"
	"yardbell/bot/planning"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

func drawSeason(v wording.Voice, tx *store.Tx, crew int64, a Attachment) ([]made, error) {
	batches, err := tx.Batches(crew)
	if err != nil {
		return nil, err
	}
	tasks, err := tx.Tasks(crew)
	if err != nil {
		return nil, err
	}
	combs := map[int64]rules.Comb{}
	for _, b := range batches {
		list, err := tx.Combs(crew, b.Breeder)
		if err != nil {
			return nil, err
		}
		for _, c := range list {
			combs[c.ID] = c
		}
	}
	year := a.dayOf(v).Year
	s := seasonPicture(v, batches, combs, tasks, year)
	if err := addPlanned(v, &s, tx, crew, year); err != nil {
		return nil, err
	}
	scale(v, &s, year)
	return []made{{name: "season-" + strconv.Itoa(year) + ".png", picture: true, draw: s.PNG}}, nil
}

// mostRounds keeps the picture of a season on a few screens: the newest stay.
const mostRounds = 40

// seasonPicture lays out the batches grafted in a year, each from its breeder's comb
// to the last window that is planned for it.
func seasonPicture(v wording.Voice, batches []rules.Batch, combs map[int64]rules.Comb, tasks []rules.Task, year int) picture.Season {
	s := picture.Season{Title: v.Say("pic_season", "Year", strconv.Itoa(year)), Now: v.Now, NowWord: v.Say("pic_now"), Empty: v.Say("pic_season_empty"),
		Legend: picture.SeasonLegend{Comb: v.Say("pic_comb"), Cells: v.Say("pic_cells"), Virgins: v.Say("pic_virgins"), Layers: v.Say("pic_layers"), Close: v.Say("pic_close")}}
	at := func(batch int, step rules.Step) (k rules.Task) {
		for _, x := range tasks {
			if x.Batch == batch && x.Step == step {
				return x
			}
		}
		return k
	}
	var in []rules.Batch
	for _, b := range batches {
		if rules.DateOf(b.Grafted, v.Settings.Zone).Year == year {
			in = append(in, b)
		}
	}
	for _, b := range in[max(0, len(in)-mostRounds):] {
		r := picture.Round{Text: roundText(v, b), Risk: at(b.Number, rules.Move).Latest}
		if c, ok := combs[b.Comb]; ok && b.Comb != 0 {
			out := c.Out
			if out.IsZero() {
				out = c.PlannedOut()
			}
			r.Stretches = append(r.Stretches, picture.Stretch{From: c.Confined, To: out, Stage: picture.Comb})
		}
		moved := b.Moved
		if moved.IsZero() {
			moved = at(b.Number, rules.Move).Best
		}
		if moved.IsZero() || b.Ended && b.Moved.IsZero() {
			moved = b.Grafted.Add(24 * time.Hour) // none were accepted, or none were left
			r.Risk = time.Time{}
		}
		r.Stretches = append(r.Stretches, picture.Stretch{From: b.Grafted, To: moved, Stage: picture.Cells})
		laying, caught := at(b.Number, rules.Laying).Best, at(b.Number, rules.Catch).Best
		if !b.Ended && laying.After(moved) {
			r.Stretches = append(r.Stretches, picture.Stretch{From: moved, To: laying, Stage: picture.Virgins})
			if caught.After(laying) {
				r.Stretches = append(r.Stretches, picture.Stretch{From: laying, To: caught, Stage: picture.Layers})
			}
		}
		for _, x := range r.Stretches {
			if s.From.IsZero() || x.From.Before(s.From) {
				s.From = x.From
			}
			if x.To.After(s.To) {
				s.To = x.To
			}
		}
		s.Rounds = append(s.Rounds, r)
	}
	return s
}

// addPlanned adds the planned rounds of which nothing is grafted yet.
func addPlanned(v wording.Voice, s *picture.Season, tx *store.Tx, crew int64, year int) error {
	o, err := planning.Of(tx, crew, v.Settings)
	if err != nil {
		return err
	}
	first := len(s.Rounds)
	for _, b := range o.Book {
		for _, r := range o.Rounds(b) {
			if len(r.Left) == 0 || len(r.Batches) > 0 || rules.DateOf(r.Graft, v.Settings.Zone).Year != year || len(s.Rounds) >= mostRounds {
				continue
			}
			left := r.Round
			left.Batches = r.Left
			s.Legend.Planned = v.Say("pic_planned")
			text := v.Say("pic_round", "Order", v.Head(rules.OrderSubject(b.Number)), "Number", r.Number, "Grafts", left.Grafts(), "Breeders", planning.Breeders(v, r.Breeders))
			to := r.Ready(b.Unit)
			s.Rounds = append(s.Rounds, picture.Round{Text: text, Risk: r.Move.Latest, Stretches: []picture.Stretch{{From: r.Confined, To: to, Stage: picture.Planned}}})
			if s.From.IsZero() || r.Confined.Before(s.From) {
				s.From = r.Confined
			}
			if to.After(s.To) {
				s.To = to
			}
		}
	}
	slices.SortStableFunc(s.Rounds[first:], func(a, b picture.Round) int { return a.Stretches[0].From.Compare(b.Stretches[0].From) })
	return nil
}

// scale puts the Mondays on the time axis.
func scale(v wording.Voice, s *picture.Season, year int) {
	if s.From.IsZero() {
		s.From = rules.DayStart(rules.Date{Year: year, Month: 1, Day: 1}, v.Settings.Zone)
		s.To = rules.DayStart(rules.Date{Year: year + 1, Month: 1, Day: 1}, v.Settings.Zone)
	}
	first := rules.DateOf(s.From, v.Settings.Zone)
	first = first.Add(-(int(first.Weekday()) + 6) % 7) // its Monday
	s.From = rules.DayStart(first, v.Settings.Zone)
	for d := first; rules.DayStart(d, v.Settings.Zone).Before(s.To); d = d.Add(7) {
		s.Ticks = append(s.Ticks, picture.Tick{At: rules.DayStart(d, v.Settings.Zone), Name: v.Say("pic_tick", "Day", d.Day, "Month", v.Say("month_"+strconv.Itoa(int(d.Month))))})
	}
}

// roundText names a batch and what became of it.
func roundText(v wording.Voice, b rules.Batch) string {
	var counts []string
	for _, step := range []rules.Step{rules.Graft, rules.Accept, rules.Move, rules.Laying, rules.Catch} {
		if n := b.Counts.Of(step); n != nil {
			counts = append(counts, v.Say("s_count", "Count", *n, "Past", v.Say("past_"+string(step))))
		}
	}
	who := v.Subject(rules.BatchSubject(b.Number))
	if b.Breeder != 0 {
		who += ", " + v.Subject(rules.BreederSubject(b.Breeder))
	}
	if len(counts) == 0 {
		return who
	}
	return who + ": " + strings.Join(counts, ", ")
}
