package attach

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"time"

	"yardbell/bot/attach/calendar"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// slot is the longest a piece of work takes up in a calendar; its window is in its
// text. A window of days drawn as days would hide everything else.
const slot = time.Hour

// refresh is how often a phone should look for changes.
const refresh = time.Hour

// Calendar is the calendar of a crew as a file; what it shows is noted.
func Calendar(tx *store.Tx, crew store.Crew) ([]byte, error) {
	c, err := calendarOf(tx, crew)
	if err != nil {
		return nil, err
	}
	return c.Bytes()
}

func makeCalendar(v wording.Voice, tx *store.Tx, crew int64, _ Attachment) ([]made, error) {
	k, err := tx.CrewByID(crew)
	if err != nil {
		return nil, err
	}
	c, err := calendarOf(tx, k)
	if err != nil {
		return nil, err
	}
	return []made{{name: "yardbell.ics", draw: c.Bytes}}, nil
}

// calendarOf settles what the calendar of a crew shows.
func calendarOf(tx *store.Tx, crew store.Crew) (c calendar.Calendar, err error) {
	s, err := tx.Settings(crew.ID)
	if err != nil {
		return c, err
	}
	open, err := tx.OpenTasks(crew.ID)
	if err != nil {
		return c, err
	}
	model, err := tx.Model(crew.ID)
	if err != nil {
		return c, err
	}
	v := wording.New(s, tx.Now)
	v.Rounds = model.Rounds()
	open = rules.DueDays(open, rules.DateOf(tx.Now, s.Zone), allDays, s, tx.Now) // without what is over by itself
	var now []store.CalendarEvent
	keys := map[string]int{}
	for _, bars := range rules.Together(open, v.Rounds) {
		e := event(v, bars)
		body, err := json.Marshal(e)
		if err != nil {
			return c, err
		}
		now = append(now, store.CalendarEvent{Key: eventKey(v, bars, keys), End: e.End, Body: string(body)})
	}
	shown, err := tx.ShowCalendar(crew.ID, now)
	if err != nil {
		return c, err
	}
	c = calendar.Calendar{Name: v.Say("cal_name"), Zone: s.Zone, Refresh: refresh}
	for _, x := range shown {
		var e calendar.Event
		if err := json.Unmarshal([]byte(x.Body), &e); err != nil {
			return c, fmt.Errorf("calendar event %s: %w", x.Key, err)
		}
		e.UID, e.Sequence, e.Changed, e.Cancelled = eventUID(crew, x.Key), x.Sequence, x.Changed, x.Cancelled
		c.Events = append(c.Events, e)
	}
	return c, nil
}

// eventUID names a task's event the same for ever, and no other crew's likewise.
func eventUID(crew store.Crew, key string) string {
	sum := sha256.Sum256(fmt.Appendf(nil, "%d/%d/%s", crew.ID, crew.Created.UnixMilli(), key))
	return hex.EncodeToString(sum[:12]) + "@yardbell"
}

// eventKey names an event: the task's own key, and of the bars of a round that are done
// together one that stays when a bar of them is done.
func eventKey(v wording.Voice, bars []rules.Task, keys map[string]int) string {
	k := bars[0]
	r, found := rules.RoundWith(v.Rounds, k.Batch)
	if len(bars) == 1 || !found {
		return k.Key
	}
	occ := k.Occ
	if k.Step == rules.Rogue {
		occ = ""
	}
	key := rules.TaskKey(r.Subject(), k.Step, occ)
	if keys[key]++; keys[key] > 1 { // a later part of the round
		key += fmt.Sprintf("+%d", keys[key])
	}
	return key
}

// event words a task for the calendar, or all bars of a round that it is to be done on. It
// rings when the pings go out that ask for something to be done.
func event(v wording.Voice, bars []rules.Task) calendar.Event {
	k := bars[0]
	task, what := v.Several(bars)
	subject := k.Subject.String()
	if r, found := rules.RoundWith(v.Rounds, k.Batch); found && len(bars) > 1 {
		subject = r.Subject().String()
		k.Best = wording.BestOf(bars)
	}
	e := calendar.Event{Start: k.Best.UTC(), Summary: wording.Upper(task) + what, Place: wording.YardOf(k),
		Step: string(k.Step), Subject: subject, Earliest: k.Earliest.UTC(), Best: k.Best.UTC(), Latest: k.Latest.UTC()}
	open, close := fixed(v, k.Earliest), fixed(v, k.Latest)
	if k.Guard {
		e.Start, e.End = k.Earliest.UTC(), k.Latest.UTC()
		e.Text = v.Say("cal_guard", "Open", open, "Close", close) + "\n" + v.Say("stake_"+k.Stake)
		return e
	}
	e.End = e.Start.Add(slot)
	if k.Latest.After(k.Best) && k.Latest.Before(e.End) {
		e.End = k.Latest.UTC()
	}
	e.Text = v.Say("cal_window", "Open", open, "Best", fixed(v, k.Best), "Close", close) + "\n" + v.Say("stake_"+k.Stake)
	if k.ClaimedBy != "" {
		e.Text += "\n" + v.Say("p_mine", "Name", k.ClaimedBy)
	}
	for _, p := range rules.Pings(k, v.Settings) {
		if p.Kind == rules.Eve || p.Kind == rules.OpenPing || p.Kind == rules.Closing6 || p.Kind == rules.Closing2 {
			e.Alarms = append(e.Alarms, p.Fire)
		}
	}
	return e
}

// fixed words an instant with its whole date: what stands in a calendar is read on
// other days, too.
func fixed(v wording.Voice, t time.Time) string {
	return v.Say("at", "Date", v.Date(rules.DateOf(t, v.Settings.Zone)), "Clock", rules.ClockOf(t, v.Settings.Zone).String())
}

// allDays is as far ahead as anything can be planned: a hundred years.
const allDays = 36600
