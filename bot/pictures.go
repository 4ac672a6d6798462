package bot

import (
	"yardbell/bot/attach"
	"yardbell/rules"
)

// picture answers with the week or the season, drawn.
func (t *talk) picture(r *reading) {
	today := rules.DateOf(t.tx.Now, t.s.Zone)
	if r.topic == "season" {
		t.attach = attach.Attachment{Kind: "season", Day: today.String()}
		t.say("s_season", "Year", today.Year)
		return
	}
	t.attach = attach.Attachment{Kind: "week", Day: today.String(), Days: 7}
	t.say("s_week", "From", t.v.Date(today), "To", t.v.Date(today.Add(6)))
}

// larvae adds the age of the brood that a graft is waiting for.
func (t *talk) larvae(k rules.Task) error {
	combs, err := t.tx.Combs(t.crew.ID, k.Breeder)
	if err != nil {
		return err
	}
	for i := len(combs) - 1; i >= 0; i-- {
		if c := combs[i]; c.Mark == k.Mark && !c.Failed {
			t.attach = attach.Attachment{Kind: "larvae", From: k.Breeder, Comb: c.ID}
			return nil
		}
	}
	return nil
}
