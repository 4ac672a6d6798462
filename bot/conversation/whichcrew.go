package conversation

import (
	"fmt"
	"strings"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/store"
)

// This file is about somebody who is on several crews and writes in private, where no
// group says which of them is meant. It is asked, and each answer says whose it is: the
// tasks of one crew, taken for those of the other, would be a move that nobody makes.

// CrewDo spells the button that says which crew a message was about.
const CrewDo = "crew|"

// picked answers the message that the button was about, for the crew that it names. It may
// be pressed again, for another.
func (sc *Scene) picked() (Answer, error) {
	then := *sc
	then.Origin.Text, then.Origin.Kind, then.opt.rerun, then.Replied = sc.About, "message", true, nil
	return Answer{of: &then}.then(then.message())
}

// whichCrew asks which crew is meant, where the answer depends on it.
func (sc *Scene) whichCrew(text string) (Answer, error) {
	var ans Answer
	var res rdg.Result
	ofSomebody := false
	for _, c := range sc.Crews { // one of them may know what another has no name for
		there := *sc
		there.Crew, there.model, there.buyers = c, nil, nil
		seen, err := there.Seeing(sc.Look)
		if err != nil {
			return ans, err
		}
		there.model = seen.model
		made, heard, err := there.Made(text)
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
		ans.Fail(sc.Voice, "g_private")
		return ans, nil
	}
	ans.ask(sc.Voice, "g_which_crew")
	for _, c := range sc.Crews {
		ans.Buttons = append(ans.Buttons, wording.Button(sc.Title(c), fmt.Sprintf("%s%d|%d", CrewDo, c.ID, sc.Update.ID)))
	}
	return ans, nil
}

// Title is what a crew is called beside the others of the same person.
func (sc *Scene) Title(c store.Crew) string {
	alone := c.Title != ""
	for _, k := range sc.Crews {
		alone = alone && (k.ID == c.ID || k.Title != c.Title)
	}
	if alone {
		return c.Title
	}
	return strings.TrimSpace(c.Title + " " + sc.Voice.Say("g_crew_number", "Number", c.ID))
}
