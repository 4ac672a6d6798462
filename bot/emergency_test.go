package bot

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/store"
)

// Words of an allergic emergency, as they are typed in a hurry, with what the message
// says beside them.
func TestEmergency(t *testing.T) {
	for _, c := range []struct{ lang, text, rest string }{
		{"en", "rosa cant breathe", ""},
		{"en", "ROSA CAN'T BREATHE!!!", ""},
		{"en", "he cannot breath", ""},
		{"en", "she can not breathe right", ""},
		{"en", "hes not breathing", ""},
		{"en", "trouble breathing after the sting", ""},
		{"en", "having a hard time breathing", ""},
		{"en", "struggling to breathe", ""},
		{"en", "Tom is short of breath and wheezing", ""},
		{"en", "anaphylaxis", ""},
		{"en", "anaphilactic shock I think", ""},
		{"en", "anafilaxis?", ""},
		{"en", "WHERE IS THE EPIPEN", ""},
		{"en", "where's the epi-pen", ""},
		{"en", "need the epi pen now", ""},
		{"en", "anyone got an auto-injector", ""},
		{"en", "adrenaline quick", ""},
		{"en", "allergic reaction at North", ""},
		{"en", "alergic reaction", ""},
		{"en", "allergicc reacton", ""},
		{"en", "Odile is allergic and got stung", ""},
		{"en", "she's allergic to bees", ""},
		{"en", "i'm allergic to stings, got two in the neck", ""},
		{"en", "is he allergic?", ""},
		{"en", "her throat is closing up", ""},
		{"en", "throat tight", ""},
		{"en", "swollen tongue", ""},
		{"en", "his face is swelling up fast", ""},
		{"en", "lips are swelling", ""},
		{"en", "Ash passed out", ""},
		{"en", "Wren fainted behind the truck", ""},
		{"en", "she is unconscious", ""},
		{"en", "he just collapsed", ""},
		{"en", "call an ambulance", ""},
		{"en", "ambulence!!", ""},
		{"en", "call 911", ""},
		{"en", "ring 112 now", ""},
		{"en", "Ash got stung and feels dizzy", ""},
		{"en", "stung, now vomiting", ""},
		{"en", "stung in the mouth", ""},
		{"en", "stung 3 times and swelling up fast", ""},
		{"en", "hives all over his arms", ""},
		{"en", "he broke out in hives", ""},
		{"en", "bad reaction to a sting", ""},
		{"en", "stung all over, hundreds of stings", ""},
		{"en", "moved 34 to North, rosa can't breathe", "moved 34 to North,"},
		{"en", "rosa can't breathe. moved 34 to North", "moved 34 to North"},
		{"en", "accepted 38 and Tom passed out", "accepted 38"},
		{"en", "fed B2 1.5 l. help, Ash was stung, throat swelling", "fed B2 1.5 l."},
		{"en", "week, rosa fainted", "week,"},
		{"es", "no puede respirar", ""},
		{"es", "Rosa NO PUEDE RESPIRAR!!", ""},
		{"es", "no respira", ""},
		{"es", "no está respirando bien", ""},
		{"es", "le cuesta respirar", ""},
		{"es", "me cuesta mucho respirar", ""},
		{"es", "le falta el aire", ""},
		{"es", "me falta aire", ""},
		{"es", "se está ahogando", ""},
		{"es", "se ahoga", ""},
		{"es", "anafilaxia", ""},
		{"es", "choque anafiláctico", ""},
		{"es", "reacción alérgica en Norte", ""},
		{"es", "reaccion alergica", ""},
		{"es", "es alérgica y la picaron", ""},
		{"es", "Tomás es alérgico a las abejas", ""},
		{"es", "soy alérgica a las picaduras", ""},
		{"es", "¿es alérgico?", ""},
		{"es", "dónde está el autoinyector", ""},
		{"es", "traigan la adrenalina", ""},
		{"es", "se le cierra la garganta", ""},
		{"es", "se le está cerrando la garganta", ""},
		{"es", "tiene la garganta hinchada", ""},
		{"es", "se le hinchó la cara", ""},
		{"es", "la lengua hinchada", ""},
		{"es", "se desmayó la Rosa", ""},
		{"es", "está desmayado", ""},
		{"es", "quedó inconsciente", ""},
		{"es", "perdió el conocimiento", ""},
		{"es", "se desplomó junto a la camioneta", ""},
		{"es", "llamen una ambulancia", ""},
		{"es", "llamen al 911", ""},
		{"es", "marca el 112", ""},
		{"es", "lo picó una abeja y está mareado", ""},
		{"es", "la picaron y está vomitando", ""},
		{"es", "lo picaron en la boca", ""},
		{"es", "le salieron ronchas", ""},
		{"es", "picaduras por todo el cuerpo", ""},
		{"es", "pasé 34 a Norte, la Rosa no puede respirar", "pasé 34 a Norte,"},
		{"es", "aceptadas 38 y se desmayó Tomás", "aceptadas 38"},
	} {
		a := emergency(c.text)
		if assert.NotEmpty(t, a.langs, c.text) {
			ok := a.langs[0] == c.lang || a.langs[0] == "any"
			assert.True(t, ok && len(a.langs) < 3, "%s: %v", c.text, a.langs)
		}
		assert.Equal(t, c.rest, a.rest, c.text)
	}
}

// A report that cannot be told from the words of an emergency is said not to be logged.
func TestEmergencyLost(t *testing.T) {
	a := emergency("moved 34 to North rosa cant breathe, fed B2")
	assert.Equal(t, "moved 34 to North rosa cant breathe,", a.lost)
	assert.Equal(t, "fed B2", a.rest)
	assert.Empty(t, emergency("call 911, she fainted").lost)
}

// Talk that has such words in it, and words of the trade that sound like them.
func TestNoEmergency(t *testing.T) {
	for _, text := range []string{
		"i'm allergic to work", "allergic to mondays", "Ash is allergic to paperwork", "allergy season again", "my allergies are killing me",
		"what an adrenaline rush", "adrenaline junkie", "the colony collapsed", "two hives collapsed over winter", "the stand collapsed",
		"collapsed comb in B2", "colony collapse", "we passed out the veils", "passed out 30 cages", "the truck is wheezing",
		"hives all over the valley", "200 hives on the hill", "found emergency cells in B1", "emergency queens in nuc 3",
		"got stung three times today", "stung again lol", "bees can't breathe in there, open the screens", "give them room to breathe",
		"moved 112 to North", "grafted 911", "call Ash about the 112 cells", "a breath of fresh air", "take a breather", "that took my breath away",
		"the flow is fainter", "a faint smell of foulbrood", "B2 throat of the entrance", "sealed 36", "swelling river by North", "swollen river",
		"can't do the move", "can't find 7", "not laying", "stop feeding", "nobody reacts to my pings", "list", "salt", "echo", "shock of the price",
		"soy alérgico al trabajo", "alérgica a los lunes", "alergia al papeleo", "las alergias me tienen loco", "qué alegría", "alegría alegría",
		"pura adrenalina", "se desplomó el techo", "la colonia colapsó", "colapsaron las colmenas", "se ahogaron las abejas en el jarabe", "larvas ahogadas",
		"se ahoga el motor", "la camioneta se ahoga", "hay celdas de emergencia en B1", "reinas de emergencia", "me picaron tres hoy", "me picó otra vez, jaja",
		"al núcleo le falta aire", "falta aire en la llanta", "34 y pico", "pico de flujo", "pasé 112 a Norte", "no responde Ash", "la cara norte", "garganta del monte",
		"las abejas no pueden respirar con esa malla", "no puedo ir", "no puse la 7", "respira hondo", "qué respiro", "injerté 45 de la 7", "se cerró el portón",
	} {
		assert.Empty(t, emergency(text).langs, text)
		assert.Equal(t, text, emergency(text).rest, text)
	}
}

// No line of the labelled utterances and of the conversations sounds like one, but where
// it is meant to.
func TestNoEmergencyInTheCorpora(t *testing.T) {
	n := 0
	for _, u := range corpora(t) {
		n++
		assert.Empty(t, emergency(u.text).langs, "%s:%d: %s", u.file, u.line, u.text)
	}
	for _, dir := range []string{"", "es"} {
		files, err := filepath.Glob(filepath.Join("../testdata/conversations", dir, "*.txt"))
		require.NoError(t, err)
		require.NotEmpty(t, files)
		for _, path := range files {
			if strings.HasPrefix(filepath.Base(path), "emergency") {
				continue
			}
			b, err := os.ReadFile(path)
			require.NoError(t, err)
			for _, line := range strings.Split(string(b), "\n") {
				if _, said, ok := strings.Cut(line, ": "); ok && line[0] != '#' {
					n++
					assert.Empty(t, emergency(said).langs, "%s: %s", path, line)
				}
			}
		}
	}
	t.Logf("%d lines", n)
}

// What to do is said in words, before all else: no sign stands in its place, and replies to
// it are people's talk.
func TestEmergencyIsSaid(t *testing.T) {
	s := playScene(t, filepath.Join(utterances, "contexts", "ripe.txt"))
	ctx := context.Background()
	queued := func(who, text string, reply int64) (list []store.Message) {
		in := s.incoming(who, text)
		in.ReplyTo, s.last = reply, in.UpdateID
		require.NoError(t, s.bot.Handle(ctx, s.now, in))
		require.NoError(t, s.db.View(ctx, s.now, func(tx *store.Tx) error {
			all, err := tx.Outbox(s.crew.ID)
			for _, m := range all {
				if m.State == "queued" && m.Update != 0 {
					list = append(list, m)
				}
			}
			return err
		}))
		return list
	}
	list := queued("Wren", "Odile can't breathe", 0)
	require.Len(t, list, 1)
	assert.Equal(t, store.Emergency, list[0].Priority)
	assert.Equal(t, "reply", list[0].Kind)
	assert.Contains(t, list[0].Text, "Call your emergency number now")
	require.NoError(t, s.db.Update(ctx, s.now, func(tx *store.Tx) error {
		claimed, err := tx.Claim([]int64{list[0].ID})
		require.Len(t, claimed, 1)
		_, err2 := tx.MarkSent(claimed[0], 4711, list[0].Text, nil, "")
		return errors.Join(err, err2)
	}))
	assert.Empty(t, queued("Ash", "on my way", 4711))
	for _, m := range queued("Ash", "34", 4711) {
		assert.Equal(t, "ask", m.Kind, "no count of anything: %s", m.Text)
	}
	list = queued("Ash", "moved 34 to North, she passed out", 0)
	list = slices.DeleteFunc(list, func(m store.Message) bool { return m.Kind == "ask" })
	require.Len(t, list, 2)
	assert.Equal(t, store.Emergency, list[0].Priority)
	assert.Contains(t, list[1].Text, "34 moved to North")
}
