package bot

import (
	"context"
	"errors"
	"strings"
	"time"

	"yardbell/bot/conversation"
	rdg "yardbell/bot/reading"
	"yardbell/store"
)

// errPeek rolls a look back that must change nothing.
var errPeek = errors.New("only looked")

// Known is what the reader would be told of a message that came in now. Nothing is kept.
func (b *Bot) Known(ctx context.Context, now time.Time, in Incoming) (k rdg.Known, err error) {
	err = b.db.Update(ctx, now, func(tx *store.Tx) error {
		sc, fresh, err := b.begin(tx, in)
		if err != nil {
			return err
		}
		if fresh {
			if k, err = sc.Known(); err != nil {
				return err
			}
		}
		return errPeek
	})
	if errors.Is(err, errPeek) {
		err = nil
	}
	return k, err
}

// Explain reads a text as it would be read now and tells what is made of it, line by line:
// as the member's of a crew that is called who, or as somebody's who has said nothing before.
// Nothing is kept. Without a crew, which is the zero value, no name is known and nothing is
// open.
func Explain(tx *store.Tx, crew store.Crew, who, text string) ([]string, error) {
	k := rdg.Known{Now: tx.Now}
	if crew.ID != 0 {
		sc, err := (&conversation.Scene{Crew: crew, Origin: store.Update{Said: tx.Now}}).Seeing(tx)
		if err != nil {
			return nil, err
		}
		list, err := tx.Members(crew.ID)
		if err != nil {
			return nil, err
		}
		for _, m := range conversation.Called(list, who) {
			sc.Member, sc.By = m, m
		}
		if k, err = sc.Known(); err != nil {
			return nil, err
		}
	}
	res, out := conversation.Understand().Explain(conversation.Emergency(text).Rest, k)
	head := string(res.Outcome)
	list := append([][]rdg.Act{}, res.Others...)
	if res.Outcome == rdg.Log || len(list) == 0 && len(res.Acts) > 0 {
		list = [][]rdg.Act{res.Acts}
	}
	for _, acts := range list {
		for _, a := range acts {
			head += " " + a.String()
		}
		head += ";"
	}
	return append([]string{strings.TrimSuffix(head, ";")}, out...), nil
}
