package bot

import (
	"strconv"
	"strings"

	"yardbell/bot/conversation"
	"yardbell/bot/group"
	"yardbell/bot/wording"
	"yardbell/store"
)

// choose settles which crew an update in private is about: that of the message replied to
// or pressed under, or the one that a button names. Where nothing says it, which is set.
func choose(tx *store.Tx, sc *conversation.Scene, in Incoming, crews []store.Crew) error {
	sc.Crews, sc.Which = crews, true
	number := in.ReplyTo
	if in.Kind == "press" {
		number = in.Message
	}
	if number == 0 {
		return nil
	}
	for _, c := range crews {
		m, found, err := tx.SentIn(c.ID, in.Chat, number)
		if err != nil {
			return err
		}
		if !found {
			continue
		}
		asked := len(m.Buttons) > 0 && strings.HasPrefix(m.Buttons[0].Do, conversation.CrewDo)
		if !asked {
			sc.Crew, sc.Which = c, false
			return nil
		}
		b, pressed := ButtonOf(in.Data, m.Buttons)
		for _, k := range m.Buttons {
			if in.Kind != "press" && wording.SameLabel(k.Label, wording.Fold(wording.Clean(in.Text))) {
				b, pressed = k, true
			}
		}
		if !pressed {
			return nil
		}
		return pick(tx, sc, b.Do)
	}
	return nil
}

// pick follows a button that names the crew.
func pick(tx *store.Tx, sc *conversation.Scene, do string) error {
	id, about, _ := strings.Cut(strings.TrimPrefix(do, conversation.CrewDo), "|")
	crew, _ := strconv.ParseInt(id, 10, 64)
	row, _ := strconv.ParseInt(about, 10, 64)
	for _, c := range sc.Crews {
		if c.ID != crew {
			continue // somebody who has left that crew since learns nothing of it
		}
		u, found, err := tx.UpdateRow(row)
		if err != nil || !found {
			return err
		}
		sc.Crew, sc.Which, sc.About = c, false, u.Text
	}
	return nil
}

// groupTitle makes the title of a group safe to be shown, as a name is.
func groupTitle(s string) string {
	if strings.TrimSpace(s) == "" {
		return ""
	}
	return wording.Person(s, "")
}

// whose finds the crew and the member that an update belongs to. found is false
// for everybody else: strangers get no answer and learn nothing.
func (b *Bot) whose(tx *store.Tx, sc *conversation.Scene, in Incoming) (found bool, err error) {
	if in.Private {
		crews, err := tx.CrewsOf(in.Source, in.UserKey)
		if err != nil || len(crews) == 0 {
			return false, err
		}
		if err := group.OpenPrivate(tx, in.Source, in.UserKey, in.Chat); err != nil {
			return false, err
		}
		sc.Crew, sc.Chat = crews[len(crews)-1], in.Chat
		if len(crews) > 1 {
			if err := choose(tx, sc, in, crews); err != nil {
				return false, err
			}
		}
	} else {
		crew, known, err := tx.Crew(in.Source, in.Chat)
		if err != nil {
			return false, err
		}
		if !known && b.ByCode {
			if in.Kind != "message" || in.Shut {
				return false, nil
			}
			if claimed, err := group.Claim(tx, in.Text); err != nil || !claimed {
				return false, err
			}
			sc.Joined = true
		}
		if !known {
			if crew, err = tx.NewCrew(in.Source, in.Chat, b.first); err != nil {
				return false, err
			}
		}
		if title := groupTitle(in.Title); title != "" && title != crew.Title {
			if err := tx.SetTitle(crew.ID, title); err != nil {
				return false, err
			}
			crew.Title = title
		}
		sc.Crew = crew
	}
	if sc.Member, err = tx.Member(sc.Crew, in.UserKey, in.UserName); err != nil || sc.Member.Gone {
		return false, err
	}
	if sc.Joined {
		sc.Member.Lead = true
		if err := tx.SetLead(sc.Member.ID, true); err != nil {
			return false, err
		}
		if in.Rights != "" {
			if err := tx.SetRights(sc.Crew.ID, in.Rights); err != nil {
				return false, err
			}
			sc.Crew.Rights = in.Rights
		}
		if err := tx.SetHears(sc.Crew.ID, b.Heard(sc.Crew)); err != nil { // the welcome says it
			return false, err
		}
		if in.Thread != 0 {
			if err := tx.SetThread(sc.Crew.ID, in.Thread); err != nil {
				return false, err
			}
		}
	}
	if sc.Crew.Standing == "gone" && !in.Private {
		// Somebody writes there and the bot hears it: it is back. A muted bot hears as
		// well; that it may write again comes as an update of its own.
		if err := tx.SetStanding(sc.Crew.ID, "open"); err != nil {
			return false, err
		}
	}
	// Without join codes there is nobody who claimed the crew, and all may do all.
	sc.Lead = sc.Member.Lead || !b.ByCode
	return true, nil
}
