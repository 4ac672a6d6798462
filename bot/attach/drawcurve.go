package attach

import (
	"strconv"
	"time"

	"yardbell/bot/attach/picture"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// drawEmergence shows how the chance of a first virgin rises in a batch.
func drawEmergence(v wording.Voice, tx *store.Tx, crew int64, a Attachment) ([]made, error) {
	b, found, err := tx.Batch(crew, a.Batch)
	if err != nil || !found {
		return nil, err
	}
	k, found, err := tx.Task(crew, rules.TaskKey(rules.BatchSubject(a.Batch), rules.Move, ""))
	if err != nil || !found {
		return nil, err
	}
	c := emergenceCurve(v, b, k)
	return []made{{name: "emergence-" + strconv.Itoa(a.Batch) + ".png", picture: true, draw: c.PNG}}, nil
}

func emergenceCurve(v wording.Voice, b rules.Batch, k rules.Task) picture.Curve {
	e := b.Emergence(v.Settings)
	one := e
	one.Cells = 1
	safe := b.SafeUntil(v.Settings)
	c := picture.Curve{
		Title: v.Say("pic_emergence", "Batch", v.Head(rules.BatchSubject(b.Number))), Now: v.Now, NowWord: v.Say("pic_now"), Windowed: v.Say("pic_window_move"),
		From: k.Earliest, To: e.Middle().Add(36 * time.Hour), Window: [2]time.Time{k.Earliest, k.Latest},
		Lines: []picture.Line{{Name: v.Say("pic_any"), At: e.AnyOut}, {Name: v.Say("pic_share"), At: one.AnyOut}},
		Marks: []picture.Tick{{At: k.Latest, Name: v.Say("pic_mark_close", "At", short(v, k.Latest))}, {At: safe, Name: v.Say("pic_mark_safe", "At", short(v, safe))}},
	}
	dayTicks(v, &c)
	return c
}

// drawLarvae shows how old the brood of a comb is, hour by hour.
func drawLarvae(v wording.Voice, tx *store.Tx, crew int64, a Attachment) ([]made, error) {
	combs, err := tx.Combs(crew, a.From)
	if err != nil {
		return nil, err
	}
	for _, comb := range combs {
		if comb.ID == a.Comb {
			c := larvaeCurve(v, comb)
			return []made{{name: "larvae-" + strconv.Itoa(a.From) + ".png", picture: true, draw: c.PNG}}, nil
		}
	}
	return nil, nil
}

func larvaeCurve(v wording.Voice, comb rules.Comb) picture.Curve {
	from, to := comb.Laying()
	opens, best, closes := rules.GraftWindow(comb, v.Settings.Table.Row(rules.Graft, ""))
	share := func(pick func(rules.Shares) float64) func(time.Time) float64 {
		return func(t time.Time) float64 { return pick(rules.SharesAt(from, to, t)) }
	}
	c := picture.Curve{
		Title: v.Say("pic_larvae", "Breeder", v.Head(rules.BreederSubject(comb.Breeder))), Now: v.Now, NowWord: v.Say("pic_now"), Windowed: v.Say("pic_window_graft"),
		From: opens.Add(-18 * time.Hour), To: closes.Add(24 * time.Hour), Window: [2]time.Time{opens, closes},
		Lines: []picture.Line{
			{Name: v.Say("pic_12_24"), At: share(func(s rules.Shares) float64 { return s.To24 })},
			{Name: v.Say("pic_under"), At: share(func(s rules.Shares) float64 { return s.Egg + s.To12 })},
			{Name: v.Say("pic_over"), At: share(func(s rules.Shares) float64 { return s.To36 + s.To48 + s.Over })},
		},
		Marks: []picture.Tick{{At: best, Name: v.Say("pic_mark_best", "At", short(v, best))}, {At: closes, Name: v.Say("pic_mark_close", "At", short(v, closes))}},
	}
	dayTicks(v, &c)
	return c
}

// namedNoons is how long a curve may be for its noons to have names: beyond, they would
// leave no room for those of the days.
const namedNoons = 84 * time.Hour

// dayTicks puts a name at each local midnight, and at each noon where there is room.
func dayTicks(v wording.Voice, c *picture.Curve) {
	for d := rules.DateOf(c.From, v.Settings.Zone); ; d = d.Add(1) {
		for _, clock := range []rules.Clock{0, 12 * 60} {
			at := rules.At(d, clock, v.Settings.Zone)
			if at.After(c.To) {
				return
			}
			if at.Before(c.From) {
				continue
			}
			name := v.Say("pic_day", "Weekday", v.Say("day_"+strconv.Itoa(int(d.Weekday()))), "Day", d.Day)
			if clock != 0 {
				name = clock.String()
				if c.To.Sub(c.From) > namedNoons {
					name = ""
				}
			}
			c.Ticks = append(c.Ticks, picture.Tick{At: at, Name: name})
		}
	}
}
