package attach

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"time"

	"yardbell/bot/attach/picture"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// mostBars keeps a picture on two screens of a phone.
const mostBars = 28

func drawWeek(v wording.Voice, tx *store.Tx, crew int64, a Attachment) ([]made, error) {
	open, err := tx.OpenTasks(crew)
	if err != nil {
		return nil, err
	}
	batches, err := tx.Batches(crew)
	if err != nil {
		return nil, err
	}
	model, err := tx.Model(crew)
	if err != nil {
		return nil, err
	}
	v.Rounds = model.Rounds()
	day, days := a.dayOf(v), max(a.Days, 1)
	w := weekPicture(v, open, batches, day, days)
	return []made{{name: "week-" + day.String() + ".png", picture: true, draw: w.PNG}}, nil
}

// weekPicture lays out the open tasks of some days: groups as in the lists, windows
// as bars, the chance of a virgin out beside the move.
func weekPicture(v wording.Voice, open []rules.Task, batches []rules.Batch, day rules.Date, days int) picture.Week {
	w := picture.Week{
		Title: v.Say("pic_week", "Date", v.Date(day)), Now: v.Now, NowWord: v.Say("pic_now"), Empty: v.Say("pic_empty"),
		Legend: picture.Legend{Calm: v.Say("pic_routine"), Weighty: v.Say("pic_important"), Critical: v.Say("pic_critical"), Guard: v.Say("pic_guard"),
			Best: v.Say("pic_best"), Risk: v.Say("pic_risk"), Rest: v.Say("pic_rest")},
	}
	for i := range days {
		w.Days = append(w.Days, dayColumn(v, day.Add(i)))
	}
	by := map[int]rules.Batch{}
	for _, b := range batches {
		by[b.Number] = b
	}
	items := rules.Together(rules.DueDays(open, day, days, v.Settings, v.Now), v.Rounds)
	slices.SortStableFunc(items, func(a, b []rules.Task) int { return cmp.Compare(int(b[0].Weight), int(a[0].Weight)) })
	left := len(items) - mostBars
	items = items[:min(len(items), mostBars)]
	slices.SortStableFunc(items, func(a, b []rules.Task) int { return wording.BestOf(a).Compare(wording.BestOf(b)) })
	at := map[string]int{}
	home := []picture.Group{}
	for _, part := range items {
		k := part[0]
		title := taskGroup(v, k)
		i, known := at[title]
		if !known {
			i = len(home)
			at[title] = i
			home = append(home, picture.Group{Title: strings.TrimSuffix(title, ":")})
		}
		home[i].Bars = append(home[i].Bars, barOf(v, part, by[k.Batch]))
	}
	if left > 0 && len(home) > 0 {
		w.Title += " " + v.Say("pic_more", "Count", left)
	}
	w.Groups = home
	return w
}

func taskGroup(v wording.Voice, k rules.Task) string {
	g := wording.YardOf(k)
	switch {
	case g != "":
		return v.Say("group_yard", "Yard", g)
	case wording.YardSteps[k.Step]:
		return v.Say("group_none")
	}
	return v.Say("group_home")
}

// barOf draws a task, or the bars of a round that it is done on: by the one that closes first,
// which is the round's deadline.
func barOf(v wording.Voice, part []rules.Task, b rules.Batch) picture.Bar {
	k := part[0]
	k.Best = wording.BestOf(part)
	task, what := v.Several(part)
	bar := picture.Bar{Earliest: k.Earliest, Best: k.Best, Latest: k.Latest, Class: picture.Class(k.Weight), Late: !k.Guard && !v.Now.Before(k.Latest)}
	id := "pic_bar"
	switch {
	case k.Guard:
		id, bar.Class, bar.Best = "pic_bar_guard", picture.Guard, time.Time{}
	case bar.Late:
		id = "pic_bar_late"
	}
	bar.Text = v.Say(id, "Task", task, "What", what, "Close", short(v, k.Latest), "Best", short(v, k.Best))
	if k.Step == rules.Move && b.Number != 0 {
		e := b.Emergence(v.Settings)
		bar.Risk, bar.RiskTo = e.AnyOut, e.Middle().Add(24*time.Hour)
	}
	return bar
}

// short words an instant for a picture, where every day has its name above.
func short(v wording.Voice, t time.Time) string {
	d := rules.DateOf(t, v.Settings.Zone)
	return v.Say("pic_at", "Weekday", v.Say("day_"+strconv.Itoa(int(d.Weekday()))), "Day", d.Day, "Clock", rules.ClockOf(t, v.Settings.Zone).String())
}

func dayColumn(v wording.Voice, d rules.Date) picture.Day {
	wd := d.Weekday()
	return picture.Day{
		From: rules.DayStart(d, v.Settings.Zone), To: rules.DayStart(d.Add(1), v.Settings.Zone),
		Name: v.Say("pic_day", "Weekday", v.Say("day_"+strconv.Itoa(int(wd))), "Day", d.Day), Off: v.Settings.DaysOff[wd],
		WorkFrom: rules.At(d, v.Settings.WorkFrom, v.Settings.Zone), WorkTo: rules.At(d, v.Settings.WorkTo, v.Settings.Zone),
	}
}
