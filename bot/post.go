package bot

import (
	"context"
	"log/slog"
	"slices"

	"yardbell/bot/attach"
	"yardbell/bot/wording"
	"yardbell/store"
)

// Transport carries worded messages to a chat. It returns the message's number
// there.
type Transport interface {
	Deliver(ctx context.Context, d wording.Delivery) (number int64, err error)
}

// Post words what is due and gives it to a transport; the scheduler sends
// through it.
type Post struct {
	To  Transport
	DB  *store.DB // for the files that go with a message
	Log *slog.Logger
}

// Send words and delivers one message.
func (p Post) Send(ctx context.Context, out store.Outgoing) (store.Receipt, error) {
	d := wording.Render(out)
	d.Text = wording.Visible(d.Text)
	d.Buttons = slices.Clone(d.Buttons)
	for i := range d.Buttons {
		d.Buttons[i].Label = wording.Visible(d.Buttons[i].Label)
	}
	files, err := attach.Files(ctx, p.DB, out)
	if err != nil && ctx.Err() != nil {
		return store.Receipt{}, err
	}
	if err != nil && p.Log != nil {
		p.Log.Error("a file could not be made, its message goes without", "row", d.Row.ID, "err", err)
	}
	d.Files = files
	n, err := p.To.Deliver(ctx, d)
	if d.Edits != 0 {
		n = 0 // no message of its own
	}
	return store.Receipt{Number: n, Text: d.Text, Buttons: d.Buttons}, err
}
