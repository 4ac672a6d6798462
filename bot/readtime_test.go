package bot

import (
	"testing"
	"time"

	"yardbell/rules"
)

// TestSettle turns times as said into instants: said on Thursday, 8 May 2031.
func TestSettle(t *testing.T) {
	zone, err := time.LoadLocation("America/Chicago")
	if err != nil {
		t.Fatal(err)
	}
	s := rules.DefaultSettings()
	s.Zone = zone
	for _, c := range []struct {
		text, said, want string
		exact            bool
	}{
		{"moved 34", "18:00", "2031-05-08 18:00", true},
		{"moved 34 at 7:30", "18:00", "2031-05-08 07:30", true},
		{"moved 34 at 4", "17:00", "2031-05-08 16:00", true}, // four in the afternoon: nobody works at four in the morning
		{"moved 34 at 4am", "17:00", "2031-05-08 04:00", true},
		{"moved 34 at 16:00", "17:00", "2031-05-08 16:00", true},
		{"moved 34 yesterday 4pm", "17:00", "2031-05-07 16:00", true},
		{"moved 34 yesterday at 4", "09:00", "2031-05-07 16:00", true},
		{"moved 34 at 4 this afternoon", "18:00", "2031-05-08 16:00", true},
		{"moved 34 at 7 in the morning", "18:00", "2031-05-08 07:00", true},
		{"moved 34 at 8 last night", "09:00", "2031-05-07 20:00", true},
		{"moved 34 2 hours ago", "18:00", "2031-05-08 16:00", true},
		{"moved 34 half an hour ago", "18:00", "2031-05-08 17:30", true},
		{"moved 34 on monday at 9", "18:00", "2031-05-05 09:00", true},
		{"moved 34 8 may 10:00", "18:00", "2031-05-08 10:00", true},
		{"moved 34 at noon", "18:00", "2031-05-08 12:00", true},
		{"moved 34 this morning", "18:00", "2031-05-08 09:00", false},
		{"moved 34 this morning", "08:15", "2031-05-08 08:15", false},
		{"moved 34 yesterday afternoon", "08:15", "2031-05-07 15:00", false},
		{"moved 34 yesterday", "18:00", "2031-05-07 12:00", false},
		{"moved 34 today", "18:00", "2031-05-08 18:00", true},
		{"moved 34 2 days ago", "18:00", "2031-05-06 12:00", false},
		{"moved 34 2 days ago at 9:00", "18:00", "2031-05-06 09:00", true},
		{"moved 34 last night", "08:15", "2031-05-07 21:00", false},
	} {
		said, err := time.ParseInLocation("2006-01-02 15:04", "2031-05-08 "+c.said, zone)
		if err != nil {
			t.Fatal(err)
		}
		r := read(c.text, crewNames)
		at, exact := r.when.settle(said, s)
		if got := at.In(zone).Format("2006-01-02 15:04"); !r.clear() || got != c.want || exact != c.exact {
			t.Errorf("%q said at %s: %s, exact %v, clear %v; want %s, exact %v", c.text, c.said, got, exact, r.clear(), c.want, c.exact)
		}
	}
}

// TestSpoken reads words that are left alone in a group, but not in a reply to the
// bot.
func TestSpoken(t *testing.T) {
	reply := crewNames
	reply.spoken = true
	for text, want := range map[string]string{
		"clear": "step=rogue", "fed": "step=feed", "move": "step=move", "later": "later", "on it": "mine", "i got it": "mine", "I'll do it": "mine",
		"we are done": "done", "it's done": "done", "none": "count count=0", "make it 54": "fix count=54", "should be 54": "fix count=54",
		"skip lunch": "skip reason=lunch", "take it back": "undo", "laying": "step=laying", "complete": "done",
	} {
		if got := fate(read(text, crewNames)); got != "silent" {
			t.Errorf("%q in a group: %s", text, got)
		}
		r := read(text, reply)
		if got := shown(r); got != want {
			t.Errorf("%q in a reply: %s, want %s", text, got, want)
		}
	}
	// What is not done is not done in a reply either.
	for _, text := range []string{"not yet", "didn't", "will move them tomorrow", "moved?", "not done"} {
		if r := read(text, reply); acted(r) {
			t.Errorf("%q in a reply is acted on: %s", text, shown(r))
		}
	}
}
