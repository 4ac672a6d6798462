package bot

import (
	"strconv"
	"strings"

	"yardbell/bot/conversation"
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
