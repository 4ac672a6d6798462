package conversation

import (
	"yardbell/bot/attach"
	"yardbell/rules"
)

// picture answers with the week or the season, drawn.
func (sc *Scene) picture(r *reading) Answer {
	var ans Answer
	today := rules.DateOf(sc.Look.Now, sc.Settings.Zone)
	if r.topic == "season" {
		ans.Attach = attach.Attachment{Kind: "season", Day: today.String()}
		ans.say(sc.Voice, "s_season", "Year", today.Year)
		return ans
	}
	ans.Attach = attach.Attachment{Kind: "week", Day: today.String(), Days: 7}
	ans.say(sc.Voice, "s_week", "From", sc.Voice.Date(today), "To", sc.Voice.Date(today.Add(6)))
	return ans
}

// larvae adds the age of the brood that a graft is waiting for.
func (sc *Scene) larvae(k rules.Task) (Answer, error) {
	var ans Answer
	combs := sc.model.Combs(k.Breeder)
	for i := len(combs) - 1; i >= 0; i-- {
		if c := combs[i]; c.Mark == k.Mark && !c.Failed {
			ans.Attach = attach.Attachment{Kind: "larvae", From: k.Breeder, Comb: c.ID}
			return ans, nil
		}
	}
	return ans, nil
}
