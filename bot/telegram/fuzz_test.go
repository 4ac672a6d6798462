package telegram

import (
	"encoding/json"
	"testing"
	"unicode/utf8"

	"yardbell/bot"
	"yardbell/store"
)

// Whatever the server sends, decoding and reading it neither panics nor invents a
// chat, a person or a number.
func FuzzUpdate(f *testing.F) {
	f.Add([]byte(`{"update_id":7,"message":{"message_id":12,` + place + `,"text":"confine 7"}}`))
	f.Add([]byte(`{"update_id":7,"edited_message":{"message_id":12,` + place + `,"text":"🐝 @yardbell_bot due","entities":[{"type":"mention","offset":3,"length":13}]}}`))
	f.Add([]byte(`{"update_id":7,"callback_query":{"id":"9",` + wren + `,"message":{"message_id":33,` + yard + `},"data":"1:deadbeef"}}`))
	f.Add([]byte(`{"update_id":7,"my_chat_member":{` + yard + `,` + wren + `,"date":1,"new_chat_member":{"status":"restricted","can_send_messages":false}}}`))
	f.Add([]byte(`{"update_id":7,"my_chat_member":{` + yard + `,` + wren + `,"date":1,"new_chat_member":{"status":"administrator","can_pin_messages":true,"can_delete_messages":false}}}`))
	f.Add([]byte(`{"update_id":7,"message":{"message_id":12,` + place + `,"pinned_message":{"message_id":11,` + yard + `,"date":0}}}`))
	f.Add([]byte(`{"update_id":7,"message":{"message_id":"seven"}}`))
	f.Fuzz(func(t *testing.T, raw []byte) {
		u, err := decode(raw)
		if err != nil {
			return
		}
		if u.ID == 0 {
			t.Fatal("an update without a number was taken")
		}
		if u.Member != nil {
			_, _ = u.Member.New.standing(), u.Member.New.rights()
		}
		in, ok := Read(u, me, now)
		if !ok {
			return
		}
		if in.UpdateID != u.ID || in.UserKey == "" || in.UserName == "" || in.Source != Source {
			t.Fatalf("%+v", in)
		}
		if json.Valid(raw) && !utf8.ValidString(in.Text) {
			t.Fatalf("text is no UTF-8: %q", in.Text)
		}
		switch in.Kind {
		case "message", "edit", "press":
		default:
			t.Fatalf("kind %q", in.Kind)
		}
	})
}

func button(label string) store.Button { return store.Button{Label: label, Do: "task|done|" + label} }

// Anybody can send any data. It names a button only where it is exactly what that
// button was given.
func FuzzCallbackData(f *testing.F) {
	f.Add("1:deadbeef", "Done", "task|done|x")
	f.Add("2:"+bot.ButtonData(1, button("Mine"))[2:], "Mine", "task|done|Mine")
	f.Add("-1:", "", "")
	f.Add("99999999999999999999:00", "a", "b")
	f.Add("01:"+bot.ButtonData(0, button("Done"))[2:], "Done", "task|done|Done")
	f.Fuzz(func(t *testing.T, data, label, do string) {
		buttons := []store.Button{{Label: label, Do: do}, button("Mine"), {Label: label, Do: do + "2"}}
		if b, ok := bot.ButtonOf(data, buttons); ok {
			match := false
			for i, k := range buttons {
				match = match || k == b && bot.ButtonData(i, k) == data
			}
			if !match {
				t.Fatalf("%q is taken for %+v", data, b)
			}
		}
		for i, k := range buttons {
			own := bot.ButtonData(i, k)
			if got, ok := bot.ButtonOf(own, buttons); !ok || got != k || len(own) > 64 {
				t.Fatalf("%q does not find its own button", own)
			}
		}
	})
}
