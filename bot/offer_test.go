package bot

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	bareNumber = regexp.MustCompile(`(?:^|[\s,;(/])#?(\d+)(?:$|[\s,;.)!?/])`)
	saysTime   = regexp.MustCompile(`(?i)\b(at|ago|min|mins|hours?|hrs?|h|am|pm|days?|hace|las|minutos|horas?|dias?|días?|on|el|may|mayo|april|abril|past|half|quarter|media|cuarto)\b|\d:\d\d|\d/\d`)
)

// Of the labelled lines, and of each with a number too many, none is offered to be logged
// without a number that stands in it.
func TestOffersHoldEveryNumber(t *testing.T) {
	g := newStage(t)
	offers, refused := 0, 0
	for i, u := range corpora(t) {
		if i%6 != 0 || saysTime.MatchString(u.text) {
			continue // an hour is shown in another form
		}
		s, reply := g.scene(u)
		for _, text := range []string{u.text, u.text + " in row 93", u.text + ", zzyx 93", "zzyx 93 " + u.text} {
			o, err := s.try(u.who, text, reply)
			require.NoError(t, err, text)
			if !o.offers {
				if o.kind == "ask" {
					refused++
				}
				continue
			}
			offers++
			shown := " " + strings.Join(regexp.MustCompile(`\d+`).FindAllString(o.text, -1), " ") + " "
			for _, m := range bareNumber.FindAllStringSubmatch(text, -1) {
				assert.Contains(t, shown, " "+m[1]+" ", "%q is offered as %q", text, o.text)
			}
		}
	}
	require.Greater(t, offers, 10)
	t.Logf("%d offers hold every number; %d asked without one", offers, refused)
}

// What a reading keeps is not left out, however it was typed; what it does not keep is.
func TestLeftOut(t *testing.T) {
	for text, want := range map[string]string{
		"grafted about 45 from 7 into B1 at 9:30, 20 h old": "",
		"fed B1 2 l": "", "fed B1 half a gallon": "", "fed B1 500 ml": "", "moved 34/38 to North": "", "capped 36 of 38": "",
		"moved 34 to North 2 hours ago": "", "moved 34 to North at 4 pm": "", "accepted 38 on 5 May": "", "graft 45 from #7": "",
		"moved 34 to North in row 6":                     "6",
		"grafted 45 from 7 into B1 under lamp 3":         "3",
		"grafted 45 from 7 into B1 with three wobbly ox": "three",
		"injerté 45 de la 7 en B1 turno 2":               "2",
	} {
		assert.Equal(t, want, strings.Join(read(text, crewNames).leftOut(), " "), text)
	}
}

// What says no more than that a ping was read.
func TestAcknowledges(t *testing.T) {
	for _, text := range []string{"ok", "OK!", "okay", "K", "got it", "Got it 👍", "ok got it", "copy that", "roger", "yes", "Yep.", "noted", "all right", "will do", "vale", "va", "dale", "sí", "de acuerdo", "entendido", "enterada", "copiado", "órale", "ok, perfecto", "sale pues"} {
		assert.True(t, acknowledges(text), text)
	}
	for _, text := range []string{"", "👍", "done", "ok done", "listo", "hecho", "ok 34", "got 34", "yes all", "on it", "mine", "ok not yet", "ok thanks", "gracias", "seen", "visto", "all good", "no", "good", "ok later", "ya voy", "va a llover"} {
		assert.False(t, acknowledges(text), text)
	}
}
