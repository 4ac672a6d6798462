package bot

import (
	"yardbell/bot/conversation"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// captioned keeps a photo whose caption logged something, or will once a question is
// answered. The photos of talk are not kept.
func (t turn) captioned(ans conversation.Answer) error {
	if t.Photo == "" || t.Chat != 0 || wording.Clean(t.Update.Text) == "" || t.Update.Kind != "message" || len(ans.Logged) == 0 && ans.Kind != "ask" {
		return nil
	}
	var lines []int64
	for _, e := range ans.Logged {
		if e.Action == rules.Did {
			lines = append(lines, e.ID)
		}
	}
	return t.KeepPhoto(t.tx, t.Update.Message, lines...)
}

// photosFollow brings photos to the lines that were just logged: those of their message, and
// those of the line that was taken back for one.
func (t turn) photosFollow(logged []rules.Entry) error {
	for i, e := range logged {
		if e.Action != rules.Did {
			continue
		}
		if err := t.tx.PhotosJoin(t.Crew.ID, t.Origin.Message, e.ID); err != nil {
			return err
		}
		for _, gone := range logged[:i] {
			if gone.Action == rules.Void && gone.Step == e.Step {
				if err := t.tx.PhotosFollow(gone.Ref, e.ID); err != nil {
					return err
				}
			}
		}
	}
	return nil
}
