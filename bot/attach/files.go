package attach

import (
	"context"
	"encoding/json"
	"fmt"

	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// Attachment asks for a file in the outbox. The file is made when the message goes,
// outside of any transaction: drawing takes longer than a database may be held, and
// what goes late shows how things stand then.
type Attachment struct {
	Kind  string `json:"kind"`           // one of makers
	Lang  string `json:"lang,omitempty"` // what the words on it are in
	Day   string `json:"day,omitempty"`
	Days  int    `json:"days,omitempty"`
	Year  int    `json:"year,omitempty"`
	Yard  string `json:"yard,omitempty"`
	Batch int    `json:"batch,omitempty"`
	Comb  int64  `json:"comb,omitempty"`
	From  int    `json:"from,omitempty"` // the comb's breeder

	Photos []int64 `json:"photos,omitempty"` // which of those kept
}

func (a Attachment) String() string {
	b, err := json.Marshal(a)
	if err != nil {
		return ""
	}
	return string(b)
}

// makers make the files, by the kind of attachment.
var makers = map[string]func(v wording.Voice, tx *store.Tx, crew int64, a Attachment) ([]made, error){
	"week": drawWeek, "season": drawSeason, "larvae": drawLarvae, "emergence": drawEmergence, "board": drawBoard,
	"report": makeReport, "sheets": makeSheets, "calendar": makeCalendar,
	"photos": findPhotos,
}

// made is a file that was read from the database but not drawn yet.
type made struct {
	name    string
	picture bool
	draw    func() ([]byte, error)
	kept    string // the chat's name for it, where nothing is to be drawn
}

// Files makes what a message carries.
func Files(ctx context.Context, db *store.DB, out store.Outgoing) ([]wording.File, error) {
	row := out.Messages[0]
	if row.Attach == "" {
		return nil, nil
	}
	var a Attachment
	if err := json.Unmarshal([]byte(row.Attach), &a); err != nil {
		return nil, fmt.Errorf("attachment of message %d: %w", row.ID, err)
	}
	maker := makers[a.Kind]
	if maker == nil || db == nil {
		return nil, fmt.Errorf("attachment of message %d: no maker of %q", row.ID, a.Kind)
	}
	var list []made
	read := db.View
	if a.Kind == "calendar" {
		read = db.Update // it keeps count of what it showed
	}
	err := read(ctx, out.Now, func(tx *store.Tx) (err error) {
		list, err = maker(wording.In(a.Lang, out.Settings, out.Now), tx, out.Crew.ID, a)
		return err
	})
	if err != nil {
		return nil, err
	}
	var files []wording.File
	for _, m := range list {
		f := wording.File{Name: m.name, Picture: m.picture, Kept: m.kept}
		if f.Kept == "" {
			if f.Data, err = m.draw(); err != nil {
				return nil, err
			}
		}
		files = append(files, f)
	}
	return files, nil
}

// dayOf reads the day of an attachment, today where it has none.
func (a Attachment) dayOf(v wording.Voice) rules.Date {
	if d, err := rules.ParseDate(a.Day); err == nil {
		return d
	}
	return rules.DateOf(v.Now, v.Settings.Zone)
}

func findPhotos(_ wording.Voice, tx *store.Tx, crew int64, a Attachment) (out []made, err error) {
	list, err := tx.Photos(crew)
	if err != nil {
		return nil, err
	}
	by := map[int64]store.Photo{}
	for _, p := range list {
		by[p.ID] = p
	}
	for _, id := range a.Photos {
		if p, ok := by[id]; ok {
			out = append(out, made{name: fmt.Sprintf("photo-%d", id), picture: true, kept: p.File})
		}
	}
	return out, nil
}
