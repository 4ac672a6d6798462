package conversation

import (
	"testing"

	"github.com/stretchr/testify/assert"
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
		a := Emergency(c.text)
		if assert.NotEmpty(t, a.Langs, c.text) {
			ok := a.Langs[0] == c.lang || a.Langs[0] == "any"
			assert.True(t, ok && len(a.Langs) < 3, "%s: %v", c.text, a.Langs)
		}
		assert.Equal(t, c.rest, a.Rest, c.text)
	}
}

// A report that cannot be told from the words of an emergency is said not to be logged.
func TestEmergencyLost(t *testing.T) {
	a := Emergency("moved 34 to North rosa cant breathe, fed B2")
	assert.Equal(t, "moved 34 to North rosa cant breathe,", a.lost)
	assert.Equal(t, "fed B2", a.Rest)
	assert.Empty(t, Emergency("call 911, she fainted").lost)
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
		assert.Empty(t, Emergency(text).Langs, text)
		assert.Equal(t, text, Emergency(text).Rest, text)
	}
}
