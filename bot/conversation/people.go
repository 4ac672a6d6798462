package conversation

import (
	"fmt"
	"strings"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/store"
)

// firstZones are offered as buttons when a group is claimed; any other is typed.
var firstZones = []string{
	"America/New_York", "America/Chicago", "America/Denver", "America/Los_Angeles",
	"America/Mexico_City", "Europe/Madrid", "Europe/Berlin", "Australia/Sydney",
}

// Welcome asks what has to be known first.
func (sc *Scene) Welcome() Answer {
	var ans Answer
	ans.Kind = "ask"
	hears := "g_hears_some"
	if sc.HearsAll {
		hears = "g_hears_all"
	}
	ans.Lines = append(ans.Lines, wording.InEach(wording.All(sc.Settings, sc.Look.Now), func(v wording.Voice) string {
		return strings.Join([]string{
			v.Say("g_claimed", "Name", sc.By.Name), v.Say("g_zone", "Zone", sc.Settings.Zone.String()), v.Say("g_yard"), v.Say(hears), v.Say("g_safety"),
		}, "\n")
	}))
	for _, z := range firstZones {
		ans.Buttons = append(ans.Buttons, wording.Button(z, "set|zone|"+z))
	}
	var names []string
	for _, l := range wording.Languages {
		name := wording.In(l, sc.Settings, sc.Look.Now).Say("language_name")
		ans.Buttons = append(ans.Buttons, wording.Button(name, "set|language|"+l))
		names = append(names, name)
	}
	ans.Buttons = append(ans.Buttons, wording.Button(strings.Join(names, " + "), "set|language|"+strings.Join(wording.Languages, "+")))
	return ans
}

// onlyLead refuses what only a lead may do, naming who can.
func (sc *Scene) onlyLead() (ans Answer, refused bool, err error) {
	if sc.Lead {
		return ans, false, nil
	}
	list, err := sc.Look.Members(sc.Crew.ID)
	if err != nil {
		return ans, true, err
	}
	var leads []string
	for _, m := range list {
		if m.Lead {
			leads = append(leads, m.Name)
		}
	}
	ans.ask(sc.Voice, "g_lead_only", "List", wording.JoinList(leads))
	return ans, true, nil
}

// personSaid reads what is said of a person: take off the crew, hand the lead over,
// forget. It is empty for any other message, and where the name is nobody's.
func (sc *Scene) personSaid(text string) (a rdg.Act, lang string, err error) {
	list, err := sc.Look.Everybody(sc.Crew.ID)
	if err != nil {
		return a, "", err
	}
	k := rdg.Known{Language: sc.Settings.Lang}
	for _, m := range list {
		k.Members = append(k.Members, m.Name)
	}
	res, ok := Understand().Command(wording.Clean(text), k)
	if !ok {
		return a, "", nil
	}
	switch res.Acts[0].Kind {
	case rdg.Remove, rdg.Lead, rdg.Forget:
		return res.Acts[0], res.Language, nil
	}
	return a, "", nil
}

// people handles the handing over of the lead, taking somebody off the crew and forgetting
// somebody, which is asked first. A name that is nobody's is left to the rest of the reading.
func (sc *Scene) people(a rdg.Act) (ans Answer, handled bool, err error) {
	of := sc.Look.Members
	switch a.Kind {
	case rdg.Remove, rdg.Lead:
	case rdg.Forget:
		of = sc.Look.Everybody // also who left
	default:
		return ans, false, nil
	}
	name := a.Person
	list, err := of(sc.Crew.ID)
	if err != nil {
		return ans, false, err
	}
	who := Called(list, name)
	if len(who) == 0 {
		return ans, false, nil
	}
	if n := sc.customerCalled(name); a.Kind == rdg.Forget && n != 0 {
		if refused, err := ans.taken(sc.onlyLead()); refused || err != nil {
			return ans, true, err
		}
		ans.ask(sc.Voice, "g_forget_which", "Name", name)
		ans.offer(sc.Voice, "b_forget_member", forgetDo(who[0].ID), "Name", who[0].Name)
		ans.offer(sc.Voice, "b_customer", fmt.Sprintf("forgetcustomer|%d", n), "Name", name)
		ans.offer(sc.Voice, "b_no", "no")
		return ans, true, nil
	}
	if refused, err := ans.taken(sc.onlyLead()); refused || err != nil {
		return ans, true, err
	}
	switch {
	case len(who) > 1:
		ans.ask(sc.Voice, "g_two_names", "Name", name)
	case a.Kind == rdg.Lead:
		ans.write(func(tx *store.Tx) error {
			if err := tx.SetLead(sc.By.ID, false); err != nil {
				return err
			}
			return tx.SetLead(who[0].ID, true)
		})
		ans.Leads = true
		ans.say(sc.Voice, "g_lead_is", "Name", who[0].Name)
	case who[0].ID == sc.By.ID:
		ans.ask(sc.Voice, "g_not_self")
	case a.Kind == rdg.Forget:
		ans.ask(sc.Voice, "g_forget_sure", "Name", who[0].Name)
		ans.offer(sc.Voice, "b_forget", forgetDo(who[0].ID))
		ans.offer(sc.Voice, "b_no", "no")
	default:
		ans.write(func(tx *store.Tx) error { return tx.SetGone(who[0].ID, true) })
		ans.say(sc.Voice, "g_removed", "Name", who[0].Name)
	}
	return ans, true, nil
}

// Called are the members of that name, or where there are none those of that first
// name: people call each other so.
func Called(list []store.Member, name string) (who []store.Member) {
	for _, k := range list {
		if wording.Fold(k.Name) == wording.Fold(name) {
			who = append(who, k)
		}
	}
	if len(who) > 0 {
		return who
	}
	for _, k := range list {
		if first, _, _ := strings.Cut(k.Name, " "); wording.Fold(first) == wording.Fold(name) {
			who = append(who, k)
		}
	}
	return who
}
