package conversation

import (
	"slices"

	"yardbell/bot/attach"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// showYard tells how the nucs of a yard stand, which of them to open and which to leave
// alone, and what is next there; the picture of it goes along.
func (sc *Scene) showYard(s rules.Subject) (Answer, error) {
	var ans Answer
	if !slices.Contains(sc.names().yards, s.Key) {
		ans.ask(sc.Voice, "r_not_known", "What", wording.Upper(sc.Voice.Named(s)), "Form", sc.Voice.Say("form_yard_add", "Key", s.Key))
		return ans, nil
	}
	ans.add(sc.nucsOf(s.Key))
	if toldOf(sc.model.Board(s.Key)) {
		ans.Attach = attach.Attachment{Kind: "board", Yard: s.Key}
	}
	var names []string
	for _, b := range sc.model.Batches() {
		if slices.Contains(b.Yards, s.Key) && !b.Ended {
			names = append(names, sc.Voice.Subject(rules.BatchSubject(b.Number)))
		}
	}
	if n := len(names); n > 0 {
		ans.say(sc.Voice, "s_yard_holds", "List", wording.JoinList(names[max(0, n-8):]))
	}
	return ans.then(sc.next(func(k rules.Task) bool {
		return inYard(wording.YardOf(k), s.Key) || inYard(k.Into, s.Key) || k.Subject == s
	}, 8))
}

// toldOf reports whether more is known of a yard's nucs than how many there are.
func toldOf(b rules.Board) bool { return b.Count(rules.NucUntold) < b.Standing()+b.Lost() }

// nucsOf tells how many nucs stand in a yard, which may be opened and which not.
func (sc *Scene) nucsOf(yard string) Answer {
	var ans Answer
	board := sc.model.Board(yard)
	if len(board.Lots) == 0 {
		ans.say(sc.Voice, "s_yard_none", "Yard", yard, "Form", sc.Voice.Say("form_yard_add", "Key", yard))
		return ans
	}
	lost := ""
	if list := sc.Voice.LostNucs(board, sc.Look.Now); list != "" {
		lost = sc.Voice.Say("s_yard_lost", "List", list)
	}
	ans.say(sc.Voice, "s_yard", "Yard", yard, "Count", board.Standing(), "Lost", lost)
	if toldOf(board) {
		ans.Lines = append(ans.Lines, sc.handling(yard, func(rules.Handling) bool { return true })...)
	}
	for _, b := range board.Unsplit {
		ans.say(sc.Voice, "s_yard_unsplit", "Batch", rules.BatchSubject(b), "Yard", yard)
	}
	return ans
}

// handling words which nucs of a yard to leave alone until when, and which may be opened.
func (sc *Scene) handling(yard string, take func(rules.Handling) bool) (lines []string) {
	for _, g := range rules.HandleGroups(sc.model.Handle(yard, sc.Look.Now)) {
		if !take(g[0]) {
			continue
		}
		list := sc.Voice.Handled(g)
		switch h := g[0]; {
		case h.Alone:
			lines = append(lines, sc.Voice.Say("s_nucs_alone", "Until", h.Until, "List", list))
		case h.Until.IsZero():
			lines = append(lines, sc.Voice.Say("s_nucs_open", "List", list))
		default:
			lines = append(lines, sc.Voice.Say("s_nucs_open_until", "Until", h.Until, "List", list))
		}
	}
	return lines
}

// askedNucs answers what is asked of nucs over the yard named, or all: which stand free,
// which may be opened, which are left alone.
func (sc *Scene) askedNucs(r *reading) (Answer, error) {
	var ans Answer
	yards := sc.names().yards
	if r.yard != "" {
		if !slices.Contains(yards, r.yard) {
			return sc.showYard(rules.YardSubject(r.yard))
		}
		yards = []string{r.yard}
	}
	for _, y := range yards {
		board := sc.model.Board(y)
		if len(board.Lots) == 0 {
			continue
		}
		if r.topic == nucsFree {
			ans.say(sc.Voice, "s_nucs_free", "Yard", y, "Count", board.Free(), "Board", sc.Voice.FreeBoard(board))
			continue
		}
		lines := sc.handling(y, func(h rules.Handling) bool { return r.topic == nucsOpen || h.Alone })
		if len(lines) == 0 {
			ans.say(sc.Voice, "s_nucs_none_alone", "Yard", y)
			continue
		}
		ans.say(sc.Voice, "group_yard", "Yard", y)
		ans.Lines = append(ans.Lines, lines...)
	}
	if len(ans.Lines) == 0 {
		if len(yards) == 1 {
			ans.add(sc.nucsOf(yards[0]))
			return ans, nil
		}
		ans.ask(sc.Voice, "s_nucs_unknown")
	}
	return ans, nil
}

// What is asked of nucs.
const (
	nucsFree  = "freenucs"
	nucsOpen  = "open"
	nucsAlone = "alone"
)

// nucsUsed says how a line found the nucs that it needs: which were caught out and have
// cells again, and of how many the log does not know that they stand free.
func (sc *Scene) nucsUsed(before rules.Board, e rules.Entry) Answer {
	var ans Answer
	board := sc.model.Board(e.Into)
	if e.Step == rules.Move {
		for _, r := range board.Recelled {
			n := r.N
			for _, was := range before.Recelled {
				if was.Line == r.Line {
					n -= was.N
				}
			}
			if n > 0 {
				ans.say(sc.Voice, "e_move_recells", "Count", n, "Batch", rules.BatchSubject(r.Batch))
			}
		}
		if n := board.ShortOf(e.ID); n > 0 {
			ans.say(sc.Voice, "w_cells_more", "Count", n, "Yard", e.Into)
		}
	}
	if e.Step == rules.Catch {
		ans.add(sc.covered(e.Into))
	}
	if n := board.ShortOf(e.ID); n > 0 && e.Step == rules.Nucs {
		ans.say(sc.Voice, "w_nucs_more", "Count", n, "Yard", e.Into)
	}
	return ans
}
