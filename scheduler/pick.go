package scheduler

import (
	"cmp"
	"slices"
	"time"

	"yardbell/rules"
	"yardbell/store"
)

// lanesAtOnce is how many chats are worked on at the same time. One that has to wait
// for its own limit keeps its place for a second or so; beside those that are sent to,
// some wait for the disk.
const lanesAtOnce = 64

// claimLimit is how many pings of one chat are looked at together.
const claimLimit = 200

// pick chooses which chats are worked on next, and what goes to each: its pings, all that
// are due, since they may belong together; before them what to do in an emergency, alone; else
// its first answer alone, so that a ping
// that falls due meanwhile comes next. Chats whose first message is less urgent than that
// of another wait for a later choice. due is in the order in which messages go.
func pick(due []store.Due, busy map[store.Lane]time.Time, room int) (picked [][]store.Due) {
	at := map[store.Lane]int{}
	for _, d := range due {
		if _, ok := busy[d.Lane]; ok {
			continue
		}
		i, known := at[d.Lane]
		switch {
		case !known && len(picked) < room && (len(picked) == 0 || d.Priority == picked[0][0].Priority):
			at[d.Lane] = len(picked)
			picked = append(picked, []store.Due{d})
		case known && picked[i][0].Priority != store.Emergency && d.Priority <= store.DigestPing && len(picked[i]) < claimLimit:
			picked[i] = append(picked[i], d)
		}
	}
	return picked
}

// When so much of one member's waits for an answer, or for so long, it is answered
// together.
const (
	mostWaiting = 5
	longWaiting = 2 * time.Minute
)

// mostSummed is how many messages one summary covers.
const mostSummed = 5000

// backlog says what goes along with an answer where much of its member's waits: with an
// echo all other echoes, with an answer those to the same question asked again. kind says
// which of the two it is.
func backlog(tx *store.Tx, first store.Due, due []store.Due, now time.Time) (ids []int64, err error) {
	ids = []int64{first.ID}
	if first.Update == 0 || first.Priority != store.Echo && first.Priority != store.Answer {
		return ids, nil
	}
	var beside []store.Due
	var rows []int64
	for _, d := range due {
		if d.Lane == first.Lane && d.Update != 0 && (d.Priority == store.Echo || d.Priority == store.Answer) {
			beside, rows = append(beside, d), append(rows, d.Update)
		}
	}
	if len(beside) == 1 {
		return ids, nil
	}
	by, err := tx.WhoWrote(rows)
	if err != nil {
		return nil, err
	}
	own := by[first.Update]
	beside = slices.DeleteFunc(beside, func(d store.Due) bool { return by[d.Update].Member != own.Member })
	oldest := slices.MinFunc(beside, func(a, b store.Due) int { return a.Fire.Compare(b.Fire) }).Fire
	if len(beside) <= mostWaiting && (len(beside) < 2 || now.Sub(oldest) <= longWaiting) {
		return ids, nil
	}
	for _, d := range beside {
		same := d.Priority == store.Echo || by[d.Update].Text == own.Text
		if d.ID != first.ID && d.Priority == first.Priority && same && len(ids) < mostSummed {
			ids = append(ids, d.ID)
		}
	}
	return ids, nil
}

// together makes one message of several answers to a member: of echoes a summary, of
// answers to one question the newest. A question of the bot's own stands by itself.
func together(tx *store.Tx, base store.Outgoing, list []store.Message) (send []store.Outgoing, err error) {
	if list[0].Priority == store.Echo {
		out, err := summary(tx, base, list)
		return []store.Outgoing{out}, err
	}
	out := base
	for _, m := range list {
		if m.Kind == "reply" && len(m.Buttons) == 0 {
			out.Messages = append(out.Messages, m)
			continue
		}
		alone := base
		alone.Messages = []store.Message{m}
		send = append(send, alone)
	}
	if len(out.Messages) > 0 {
		slices.SortFunc(out.Messages, func(a, b store.Message) int { return cmp.Compare(b.ID, a.ID) })
		send = append(send, out)
	}
	return send, nil
}

// summary gathers what the messages logged that the answers are to, and the words of
// those that logged nothing.
func summary(tx *store.Tx, base store.Outgoing, list []store.Message) (store.Outgoing, error) {
	out := base
	out.Messages, out.Summary = list, &store.Summary{}
	rows := make([]int64, len(list))
	for i, m := range list {
		rows[i] = m.Update
	}
	by, err := tx.WhoWrote(rows)
	if err != nil {
		return out, err
	}
	who, err := tx.MemberByID(by[rows[0]].Member)
	if err != nil {
		return out, err
	}
	out.Summary.Name = who.Name
	lines, err := tx.UpdatesLines(rows)
	if err != nil {
		return out, err
	}
	byUpdate := map[int64][]rules.Entry{}
	for _, l := range lines {
		byUpdate[l.Update] = append(byUpdate[l.Update], l.Entry)
	}
	for _, m := range list {
		if m.Kind == "error" {
			out.Summary.Not = append(out.Summary.Not, by[m.Update].Text)
		} else {
			out.Summary.Logged = append(out.Summary.Logged, store.Told{Text: m.Text, Entries: byUpdate[m.Update]})
		}
	}
	return out, nil
}
