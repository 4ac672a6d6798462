package attach

import (
	"slices"
	"strings"

	"yardbell/bot/attach/picture"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

func drawBoard(v wording.Voice, tx *store.Tx, crew int64, a Attachment) ([]made, error) {
	c, err := tx.Model(crew)
	if err != nil {
		return nil, err
	}
	b := boardPicture(v, c, a.Yard)
	name := strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>| `, r) {
			return '-'
		}
		return r
	}, a.Yard)
	return []made{{name: "nucs-" + name + ".png", picture: true, draw: b.PNG}}, nil
}

// hives are the squares of the states.
var hives = map[rules.NucState]picture.Hive{rules.NucFree: picture.Free, rules.NucCaught: picture.Emptied, rules.NucQueenless: picture.Failed,
	rules.NucCell: picture.WithCell, rules.NucVirgin: picture.WithVirgin, rules.NucLaying: picture.WithLayer, rules.NucUntold: picture.NotTold}

// boardPicture lays out the nucs of a yard: those to leave alone and until when, those that
// may be opened, those lost in the year that it is.
func boardPicture(v wording.Voice, c *rules.Crew, yard string) picture.Board {
	board := c.Board(yard)
	p := picture.Board{Title: v.Say("pic_board", "Yard", yard, "Date", v.Date(rules.DateOf(v.Now, v.Settings.Zone)), "Count", board.Standing())}
	for _, g := range rules.HandleGroups(c.Handle(yard, v.Now)) {
		lot := picture.Lot{Alone: g[0].Alone}
		switch h := g[0]; {
		case h.Alone:
			lot.Title = v.Say("pic_nucs_alone", "Until", v.At(h.Until))
		case h.Until.IsZero():
			lot.Title = v.Say("pic_nucs_open")
		default:
			lot.Title = v.Say("pic_nucs_open_until", "Until", v.At(h.Until))
		}
		lot.Nucs = nucsOf(v, wording.Stands(wording.BoardOf(g), v.Now, v.Settings.Zone))
		p.Lots = append(p.Lots, lot)
	}
	lost := slices.DeleteFunc(wording.Stands(board, v.Now, v.Settings.Zone), func(s wording.Stand) bool { return !s.State.Lost() })
	if len(lost) > 0 {
		p.Lots = append(p.Lots, picture.Lot{Title: v.Say("pic_nucs_lost"), Nucs: nucsOf(v, lost)})
	}
	return p
}

func nucsOf(v wording.Voice, list []wording.Stand) (out []picture.Nucs) {
	for _, s := range list {
		hive, standing := hives[s.State]
		if !standing {
			hive = picture.Gone
		}
		out = append(out, picture.Nucs{Text: v.Stand(s), Hive: hive, Count: s.N, Labels: s.Numbers})
	}
	return out
}
