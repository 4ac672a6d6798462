package bot

import (
	"fmt"
	"strconv"
	"strings"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/store"
)

// This file is about somebody who is on several crews and writes in private, where no
// group says which of them is meant. It is asked, and each answer says whose it is: the
// tasks of one crew, taken for those of the other, would be a move that nobody makes.

// crewDo spells the button that says which crew a message was about.
const crewDo = "crew|"

// choose settles which crew an update in private is about: that of the message replied to
// or pressed under, or the one that a button names. Where nothing says it, which is set.
func (sc *Scene) choose(in Incoming, crews []store.Crew) error {
	sc.crews, sc.which = crews, true
	number := in.ReplyTo
	if in.Kind == "press" {
		number = in.Message
	}
	if number == 0 {
		return nil
	}
	for _, c := range crews {
		m, found, err := sc.tx.SentIn(c.ID, in.Chat, number)
		if err != nil {
			return err
		}
		if !found {
			continue
		}
		asked := len(m.Buttons) > 0 && strings.HasPrefix(m.Buttons[0].Do, crewDo)
		if !asked {
			sc.crew, sc.which = c, false
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
		return sc.pick(b.Do)
	}
	return nil
}

// pick follows a button that names the crew.
func (sc *Scene) pick(do string) error {
	id, about, _ := strings.Cut(strings.TrimPrefix(do, crewDo), "|")
	crew, _ := strconv.ParseInt(id, 10, 64)
	row, _ := strconv.ParseInt(about, 10, 64)
	for _, c := range sc.crews {
		if c.ID != crew {
			continue // somebody who has left that crew since learns nothing of it
		}
		u, found, err := sc.tx.UpdateRow(row)
		if err != nil || !found {
			return err
		}
		sc.crew, sc.which, sc.about = c, false, u.Text
	}
	return nil
}

// picked answers the message that the button was about, for the crew that it names. It may
// be pressed again, for another.
func (sc *Scene) picked() (Answer, error) {
	then := *sc
	then.origin.Text, then.origin.Kind, then.opt.rerun, then.replied = sc.about, "message", true, nil
	return Answer{of: &then}.then(then.message())
}

// whichCrew asks which crew is meant, where the answer depends on it.
func (sc *Scene) whichCrew(text string) (Answer, error) {
	var ans Answer
	var res rdg.Result
	ofSomebody := false
	for _, c := range sc.crews { // one of them may know what another has no name for
		there := *sc
		there.crew = c
		made, heard, err := there.made(text)
		if err != nil {
			return ans, err
		}
		sc = heard
		if !asksBot(res) {
			res = made
		}
		a, _, err := sc.personSaid(text)
		if err != nil {
			return ans, err
		}
		ofSomebody = ofSomebody || a.Kind != ""
	}
	ans.of = sc
	first := rdg.Act{}
	if res.Outcome == rdg.Log && len(res.Acts) > 0 {
		first = res.Acts[0]
	}
	switch {
	case first.Topic == rdg.AskHelp:
		_, err := ans.taken(sc.command(res))
		return ans, err
	case asksBot(res), first.Kind == rdg.Claim, first.Kind == rdg.Set, ofSomebody:
	default:
		ans.fail(sc.v, "g_private")
		return ans, nil
	}
	ans.ask(sc.v, "g_which_crew")
	for _, c := range sc.crews {
		ans.buttons = append(ans.buttons, wording.Button(sc.title(c), fmt.Sprintf("%s%d|%d", crewDo, c.ID, sc.update.ID)))
	}
	return ans, nil
}

// title is what a crew is called beside the others of the same person.
func (sc *Scene) title(c store.Crew) string {
	alone := c.Title != ""
	for _, k := range sc.crews {
		alone = alone && (k.ID == c.ID || k.Title != c.Title)
	}
	if alone {
		return c.Title
	}
	return strings.TrimSpace(c.Title + " " + sc.v.Say("g_crew_number", "Number", c.ID))
}

// groupTitle makes the title of a group safe to be shown, as a name is.
func groupTitle(s string) string {
	if strings.TrimSpace(s) == "" {
		return ""
	}
	return wording.Person(s, "")
}
