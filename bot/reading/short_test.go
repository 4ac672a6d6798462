package reading

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

// What is answered in a word, and what is put right with the old value beside it.
func TestShortAnswers(t *testing.T) {
	r, err := Load(Data())
	require.NoError(t, err)
	now := time.Date(2031, 5, 6, 9, 0, 0, 0, time.UTC)
	count := 45
	base := Known{Now: now, Language: "en", Breeders: []int{7, 12}, Builders: []string{"B1", "B2"}, Yards: []string{"North", "Creek"},
		Open: []Expect{{Step: rules.Finish, Batch: 1, Builder: "B1", Had: 45, Ready: true}}}
	ping, question, line := base, base, base
	ping.Reply, ping.Addressed = &Ping{Step: rules.Finish, Batch: 1, Task: true}, true
	question.Reply, question.Addressed = &Ping{}, true
	line.Last = &Line{Act: Act{Kind: Did, Step: rules.Graft, Batch: 1, Breeder: 7, Builder: "B2", Count: &count}, At: now, Since: time.Minute}
	for _, c := range []struct {
		k    Known
		text string
		want string // the acts, or the outcome where nothing is done
	}{
		{base, "done", `{"kind":"done"}`},
		{base, "listo a las 8", `{"kind":"done","when":{"clock":480}}`},
		{base, "we did", "ask"},
		{base, "later 2h", `{"kind":"later","span":120}`},
		{base, "later", "ignore"},
		{base, "skip, rain", `{"kind":"skip","reason":"rain"}`},
		{base, "skip hands off", `{"kind":"skip","step":"handsoff"}`},
		{base, "ok", "ignore"},
		{base, "no", "ignore"},
		{ping, "no", `{"kind":"no"}`},
		{ping, "todavía no", `{"kind":"no"}`},
		{ping, "yes", "ask"},
		{ping, "gracias", `{"kind":"thanks"}`},
		{question, "sí", `{"kind":"yes"}`},
		{question, "nope", `{"kind":"no"}`},
		{line, "not 45, 54", `{"kind":"amend","count":54,"old":45}`},
		{line, "from 12 not 7", `{"kind":"amend","breeder":12,"old":7}`},
		{line, "en B1, no en B2", `{"kind":"amend","builder":"B1","was":{"kind":"","builder":"B2"}}`},
		{base, "no injertamos 45 de la 7", "ignore"},
		{line, "no injertamos 45 de la 7", "ignore"},
	} {
		res := r.Read(c.text, c.k)
		got := string(res.Outcome)
		if res.Outcome == Log {
			got = ""
			for _, a := range res.Acts {
				got += a.String()
			}
		}
		require.Equal(t, c.want, got, c.text)
	}
}
