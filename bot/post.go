package bot

import (
	"context"

	"yardbell/store"
)

// Transport carries worded messages to a chat. It returns the message's number
// there.
type Transport interface {
	Deliver(ctx context.Context, d Delivery) (number int64, err error)
}

// Post words what is due and gives it to a transport; the scheduler sends
// through it.
type Post struct {
	To Transport
}

// Send words and delivers one message.
func (p Post) Send(ctx context.Context, out store.Outgoing) (store.Receipt, error) {
	d := render(out)
	n, err := p.To.Deliver(ctx, d)
	if d.Edits != 0 {
		n = 0 // no message of its own
	}
	return store.Receipt{Number: n, Text: d.Text, Buttons: d.Buttons}, err
}
