package group

import (
	"context"
	"fmt"
	"strings"
	"time"

	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// Facts are what a daily check says of the whole file.
type Facts struct {
	Good    bool      // the logbook is as it was written
	Backups bool      // they are made
	Backup  time.Time // when the newest was, zero for none
	Bytes   int64     // of the database
}

// checkTo is a lead who is to be told of a day's check.
type checkTo struct {
	crew store.Crew
	s    *rules.Settings
	lead store.Member
	key  string // of the message
}

// checksDue lists who is to be told now. An hour that passed while the service was away,
// or before the check was asked for, is made up for on the same day.
func checksDue(tx *store.Tx) (list []checkTo, err error) {
	crews, err := tx.CrewsThatSet(rules.CheckSetting)
	if err != nil {
		return nil, err
	}
	for _, c := range crews {
		s, err := tx.Settings(c.ID)
		if err != nil {
			return nil, err
		}
		day := rules.DateOf(tx.Now, s.Zone)
		if !s.Checks || tx.Now.Before(rules.At(day, s.CheckAt, s.Zone)) {
			continue
		}
		members, err := tx.Members(c.ID)
		if err != nil {
			return nil, err
		}
		for _, m := range members {
			key := fmt.Sprintf("check/%s/%d", day, m.ID)
			if !m.Lead || m.Private == 0 {
				continue
			}
			if had, err := tx.HasMessage(c.ID, key); err != nil {
				return nil, err
			} else if !had {
				list = append(list, checkTo{c, s, m, key})
			}
		}
	}
	return list, nil
}

// CheckDue reports whether anybody is to be told of a daily check now.
func (g *Group) CheckDue(ctx context.Context, now time.Time) (due bool, err error) {
	err = g.db.View(ctx, now, func(tx *store.Tx) error {
		list, err := checksDue(tx)
		due = len(list) > 0
		return err
	})
	return due, err
}

// Check tells the leads who asked for it, in private and in their own language, how
// things stand; each once a day.
func (g *Group) Check(ctx context.Context, now time.Time, f Facts) error {
	defer g.wake()
	return g.db.Update(ctx, now, func(tx *store.Tx) error {
		list, err := checksDue(tx)
		if err != nil {
			return err
		}
		for _, to := range list {
			v := wording.New(to.s, now)
			if own := to.s.Own[to.lead.ID]; own != "" {
				v = wording.In(own, to.s, now)
			}
			text, err := check(v, tx, to.crew, f)
			if err != nil {
				return err
			}
			if err := tx.Queue(store.Message{Crew: to.crew.ID, Key: to.key, Kind: "reply", Text: text, Chat: to.lead.Private}); err != nil {
				return err
			}
		}
		return nil
	})
}

// check is the line of a crew.
func check(v wording.Voice, tx *store.Tx, c store.Crew, f Facts) (string, error) {
	lines, err := tx.CountLines(c.ID)
	if err != nil {
		return "", err
	}
	traffic, err := tx.Traffic(c.ID, tx.Now.Add(-24*time.Hour))
	if err != nil {
		return "", err
	}
	chain, backup := v.Say("check_chain"), v.Say("check_backup_off")
	if !f.Good {
		chain = v.Say("check_broken")
	}
	switch {
	case f.Backups && f.Backup.IsZero():
		backup = v.Say("check_backup_none")
	case f.Backups:
		backup = v.Say("check_backup", "When", f.Backup)
	}
	parts := []string{
		v.Say("check_lines", "Count", lines), chain, backup, v.Say("check_parked", "Count", traffic.Parked), v.Say("check_waiting", "Count", traffic.Waiting),
		v.Say("check_late", "Count", traffic.Late), v.Say("check_size", "Megabytes", v.Number(float64(f.Bytes)/1e6, 1)),
	}
	return v.Say("check", "List", strings.Join(parts, ", ")), nil
}
