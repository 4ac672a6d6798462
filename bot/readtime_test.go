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
		{"moved 34 at midnight", "08:15", "2031-05-08 00:00", true},
		{"moví 34", "18:00", "2031-05-08 18:00", true},
		{"moví 34 a las 7:30", "18:00", "2031-05-08 07:30", true},
		{"moví 34 a las 4", "17:00", "2031-05-08 16:00", true},
		{"moví 34 a las cuatro", "17:00", "2031-05-08 16:00", true},
		{"moví 34 a las 4 y media", "17:00", "2031-05-08 16:30", true},
		{"moví 34 a las cuatro y cuarto", "17:00", "2031-05-08 16:15", true},
		{"moví 34 a las 5 menos cuarto", "17:00", "2031-05-08 16:45", true},
		{"moví 34 a las 4 de la madrugada", "17:00", "2031-05-08 04:00", true},
		{"moví 34 a la una", "17:00", "2031-05-08 13:00", true},
		{"moví 34 a la una y media de la tarde", "17:00", "2031-05-08 13:30", true},
		{"moví 34 a las 16:30", "17:00", "2031-05-08 16:30", true},
		{"moví 34 a las 16 horas", "17:00", "2031-05-08 16:00", true},
		{"moví 34 ayer a las 4 pm", "17:00", "2031-05-07 16:00", true},
		{"moví 34 ayer a las 4", "09:00", "2031-05-07 16:00", true},
		{"moví 34 a las 4 de la tarde", "18:00", "2031-05-08 16:00", true},
		{"moví 34 a las 12 de la noche", "08:15", "2031-05-08 00:00", true},
		{"moví 34 a medianoche", "08:15", "2031-05-08 00:00", true},
		{"moví 34 al mediodía", "18:00", "2031-05-08 12:00", true},
		{"moví 34 hace 2 horas", "18:00", "2031-05-08 16:00", true},
		{"moví 34 hace dos horas", "18:00", "2031-05-08 16:00", true},
		{"moví 34 hace una hora", "18:00", "2031-05-08 17:00", true},
		{"moví 34 hace hora y media", "18:00", "2031-05-08 16:30", true},
		{"moví 34 hace media hora", "18:00", "2031-05-08 17:30", true},
		{"moví 34 el lunes a las 9", "18:00", "2031-05-05 09:00", true},
		{"moví 34 el lunes pasado a las 9", "18:00", "2031-05-05 09:00", true},
		{"moví 34 el 8 de mayo a las 10:00", "18:00", "2031-05-08 10:00", true},
		{"moví 34 esta mañana", "18:00", "2031-05-08 09:00", false},
		{"moví 34 en la mañana", "08:15", "2031-05-08 08:15", false},
		{"moví 34 ayer por la tarde", "08:15", "2031-05-07 15:00", false},
		{"moví 34 ayer", "18:00", "2031-05-07 12:00", false},
		{"moví 34 hoy", "18:00", "2031-05-08 18:00", true},
		{"moví 34 antier", "18:00", "2031-05-06 12:00", false},
		{"moví 34 anteayer a las 9:00", "18:00", "2031-05-06 09:00", true},
		{"moví 34 hace 2 días", "18:00", "2031-05-06 12:00", false},
		{"moví 34 anoche", "08:15", "2031-05-07 21:00", false},
		{"moví 34 anoche a las 8", "09:00", "2031-05-07 20:00", true},
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
		"limpia": "step=rogue", "luego": "later", "yo voy": "mine", "yo lo hago": "mine", "me toca": "mine", "ninguna": "count count=0", "en dos horas": "later span=2h",
		"deberían ser 54": "fix count=54", "saltar el almuerzo": "skip reason=el_almuerzo", "me equivoqué": "undo", "en postura": "step=laying",
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
	for _, text := range []string{"not yet", "didn't", "will move them tomorrow", "moved?", "not done",
		"todavía no", "aún no", "no se hizo", "no las moví", "mañana las movemos", "voy a moverlas", "¿ya?", "¿movieron?", "nadie las movió", "sin hacer"} {
		if r := read(text, reply); acted(r) {
			t.Errorf("%q in a reply is acted on: %s", text, shown(r))
		}
	}
}
