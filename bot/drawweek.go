package bot

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"time"

	"yardbell/bot/picture"
	"yardbell/rules"
	"yardbell/store"
)

// mostBars keeps a picture on two screens of a phone.
const mostBars = 28

func drawWeek(v voice, tx *store.Tx, crew int64, a attachment) ([]made, error) {
	open, err := tx.OpenTasks(crew)
	if err != nil {
		return nil, err
	}
	batches, err := tx.Batches(crew)
	if err != nil {
		return nil, err
	}
	day, days := a.dayOf(v), max(a.Days, 1)
	w := v.weekPicture(open, batches, day, days)
	return []made{{name: "week-" + day.String() + ".png", picture: true, draw: w.PNG}}, nil
}

// weekPicture lays out the open tasks of some days: groups as in the lists, windows
// as bars, the chance of a virgin out beside the move.
func (v voice) weekPicture(open []rules.Task, batches []rules.Batch, day rules.Date, days int) picture.Week {
	w := picture.Week{
		Title: v.say("pic_week", "Date", v.date(day)), Now: v.now, NowWord: v.say("pic_now"), Empty: v.say("pic_empty"),
		Legend: picture.Legend{Calm: v.say("pic_routine"), Weighty: v.say("pic_important"), Critical: v.say("pic_critical"), Guard: v.say("pic_guard"),
			Best: v.say("pic_best"), Risk: v.say("pic_risk"), Rest: v.say("pic_rest")},
	}
	for i := range days {
		w.Days = append(w.Days, v.dayColumn(day.Add(i)))
	}
	by := map[int]rules.Batch{}
	for _, b := range batches {
		by[b.Number] = b
	}
	items := rules.DueDays(open, day, days, v.s, v.now)
	slices.SortStableFunc(items, func(a, b rules.Task) int { return cmp.Compare(int(b.Weight), int(a.Weight)) })
	left := len(items) - mostBars
	items = items[:min(len(items), mostBars)]
	slices.SortStableFunc(items, func(a, b rules.Task) int { return a.Best.Compare(b.Best) })
	at := map[string]int{}
	home := []picture.Group{}
	for _, k := range items {
		title := v.groupTitle(k)
		i, known := at[title]
		if !known {
			i = len(home)
			at[title] = i
			home = append(home, picture.Group{Title: strings.TrimSuffix(title, ":")})
		}
		home[i].Bars = append(home[i].Bars, v.barOf(k, by[k.Batch]))
	}
	if left > 0 && len(home) > 0 {
		w.Title += " " + v.say("pic_more", "Count", left)
	}
	w.Groups = home
	return w
}

func (v voice) groupTitle(k rules.Task) string {
	g := yardOf(k)
	switch {
	case g != "":
		return v.say("group_yard", "Yard", g)
	case yardSteps[k.Step]:
		return v.say("group_none")
	}
	return v.say("group_home")
}

func (v voice) barOf(k rules.Task, b rules.Batch) picture.Bar {
	bar := picture.Bar{Earliest: k.Earliest, Best: k.Best, Latest: k.Latest, Class: picture.Class(k.Weight), Late: !k.Guard && !v.now.Before(k.Latest)}
	id := "pic_bar"
	switch {
	case k.Guard:
		id, bar.Class, bar.Best = "pic_bar_guard", picture.Guard, time.Time{}
	case bar.Late:
		id = "pic_bar_late"
	}
	bar.Text = v.say(id, "Task", v.task(k), "What", v.what(k, false), "Close", v.short(k.Latest), "Best", v.short(k.Best))
	if k.Step == rules.Move && b.Number != 0 {
		e := b.Emergence(v.s)
		bar.Risk, bar.RiskTo = e.AnyOut, e.Middle().Add(24*time.Hour)
	}
	return bar
}

// short words an instant for a picture, where every day has its name above.
func (v voice) short(t time.Time) string {
	d := rules.DateOf(t, v.s.Zone)
	return v.say("pic_at", "Weekday", v.say("day_"+strconv.Itoa(int(d.Weekday()))), "Day", d.Day, "Clock", rules.ClockOf(t, v.s.Zone).String())
}

func (v voice) dayColumn(d rules.Date) picture.Day {
	wd := d.Weekday()
	return picture.Day{
		From: rules.DayStart(d, v.s.Zone), To: rules.DayStart(d.Add(1), v.s.Zone),
		Name: v.say("pic_day", "Weekday", v.say("day_"+strconv.Itoa(int(wd))), "Day", d.Day), Off: v.s.DaysOff[wd],
		WorkFrom: rules.At(d, v.s.WorkFrom, v.s.Zone), WorkTo: rules.At(d, v.s.WorkTo, v.s.Zone),
	}
}
