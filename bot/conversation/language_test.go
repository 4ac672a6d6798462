package conversation

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// Dates, numbers and values of settings as each language writes them.
func TestShownPerLanguage(t *testing.T) {
	s := rules.DefaultSettings()
	zone, err := time.LoadLocation("America/Chicago")
	require.NoError(t, err)
	s.Zone = zone
	now := time.Date(2031, 5, 7, 12, 0, 0, 0, zone)
	en, es := wording.In("en", s, now), wording.In("es", s, now)
	at := func(month time.Month, day, hour, minute int) time.Time {
		return time.Date(2031, month, day, hour, minute, 0, 0, zone)
	}
	for _, c := range []struct {
		show   func(wording.Voice) string
		en, es string
	}{
		{func(v wording.Voice) string { return v.At(at(5, 7, 10, 0)) }, "today 10:00", "hoy 10:00"},
		{func(v wording.Voice) string { return v.At(at(5, 8, 16, 5)) }, "tomorrow 16:05", "mañana 16:05"},
		{func(v wording.Voice) string { return v.At(at(5, 6, 0, 0)) }, "yesterday 00:00", "ayer 00:00"},
		{func(v wording.Voice) string { return v.At(at(5, 9, 9, 30)) }, "Fri 9 May 09:30", "vie 9 may 09:30"},
		{func(v wording.Voice) string { return v.At(at(9, 3, 23, 59)) }, "Wed 3 Sep 23:59", "mié 3 sep 23:59"},
		{func(v wording.Voice) string { return v.At(at(8, 23, 13, 0)) }, "Sat 23 Aug 13:00", "sáb 23 ago 13:00"},
		{func(v wording.Voice) string { return v.At(time.Date(2032, 1, 6, 8, 0, 0, 0, zone)) }, "Tue 6 Jan 2032 08:00", "mar 6 ene 2032 08:00"},
		{func(v wording.Voice) string { return v.Left(3*time.Hour + 30*time.Minute) }, "3 h 30 min", "3 h 30 min"},
		{func(v wording.Voice) string { return v.Number(34.5, 1) }, "34.5", "34,5"},
		{func(v wording.Voice) string { return v.Number(34.46, 1) }, "34.5", "34,5"},
		{func(v wording.Voice) string { return v.Number(34, 1) }, "34", "34"},
		{func(v wording.Voice) string { return v.Number(7.6, 0) }, "8", "8"},
		{func(v wording.Voice) string { return v.Setting("incubator", "34.5") }, "34.5", "34,5"},
		{func(v wording.Voice) string { return v.Setting("spread", "8/7.5") }, "8/7.5", "8/7,5"},
		{func(v wording.Voice) string { return v.Setting(rules.StepSetting+"accept", "18/24.5/48") }, "18/24.5/48", "18/24,5/48"},
		{func(v wording.Voice) string { return v.Setting("wake", "on") }, "on", "sí"},
		{func(v wording.Voice) string { return v.Setting("wake", "off") }, "off", "no"},
		{func(v wording.Voice) string { return v.Setting("move", "default") }, "default", "normal"},
		{func(v wording.Voice) string { return v.Setting("move", "9d20h") }, "9d20h", "9d20h"},
		{func(v wording.Voice) string { return v.Setting("days off", "none") }, "none", "ninguno"},
		{func(v wording.Voice) string { return v.Setting("days off", "Sunday, Saturday") }, "Sunday, Saturday", "domingo, sábado"},
		{func(v wording.Voice) string { return v.Setting("zone", "America/Chicago") }, "America/Chicago", "America/Chicago"},
		{func(v wording.Voice) string { return v.Key("days off") }, "days off", "días libres"},
		{func(v wording.Voice) string { return v.Key(rules.StepSetting + "accept") }, "step accept", "aceptadas"},
		{func(v wording.Voice) string { return v.Key(rules.OwnLanguage + "12") }, "my language", "mi idioma"},
		{func(v wording.Voice) string { return v.Mark("red") }, "red", "roja"},
		{func(v wording.Voice) string { return v.Mark("K7") }, "K7", "K7"},
		{func(v wording.Voice) string {
			return v.Line(rules.Entry{Action: rules.Did, Step: rules.Confine, Subject: rules.BreederSubject(7), Mark: "red"})
		},
			"confine breeder 7, red pin", "confinar madre 7, chinche roja"},
	} {
		assert.Equal(t, c.en, c.show(en))
		assert.Equal(t, c.es, c.show(es))
	}
}

// The hour that the clocks show twice says so in each language.
func TestClockAgainPerLanguage(t *testing.T) {
	s := rules.DefaultSettings()
	zone, err := time.LoadLocation("America/Chicago")
	require.NoError(t, err)
	s.Zone = zone
	twice := time.Date(2031, 11, 2, 7, 30, 0, 0, time.UTC) // 01:30 after the clocks went back
	assert.Equal(t, "today 01:30 (after the clock change)", wording.In("en", s, twice).At(twice))
	assert.Equal(t, "hoy 01:30 (tras el cambio de hora)", wording.In("es", s, twice).At(twice))
}

// A step is called by its word in the settings of each language.
func TestWordStep(t *testing.T) {
	v := wording.In("es", rules.DefaultSettings(), time.Time{})
	for _, s := range rules.Steps {
		got, ok := wording.WordStep(v.Say("word_" + string(s)))
		assert.True(t, ok, s)
		assert.Equal(t, s, got)
	}
	_, ok := wording.WordStep("colour")
	assert.False(t, ok)
}

// Values typed in either language are kept as one.
func TestStoredValues(t *testing.T) {
	for _, c := range []struct{ key, typed, want string }{
		{"wake", "sí", "on"}, {"wake", "si", "on"}, {"wake", "no", "off"}, {"wake", "on", "on"}, {"incubator", "no", "off"},
		{"move", "normal", "default"}, {"days off", "ninguno", "none"}, {"days off", "domingo", "Sunday"},
		{"days off", "sábado y domingo", "Saturday and Sunday"}, {"days off", "lun, mié", "Monday Wednesday"},
		{"days off", "saturday and sunday", "saturday and sunday"}, {"days off", "sun", "sun"}, {"days off", "domino", "domino"},
		{"evening", "19:00", "19:00"}, {"zone", "America/Chicago", "America/Chicago"},
	} {
		got := wording.Stored(c.key, c.typed)
		assert.Equal(t, c.want, got, c.typed)
		if got != "domino" {
			assert.NoError(t, rules.DefaultSettings().Apply(c.key, got, time.Time{}), c.typed)
		}
	}
}

// What a crew hears unasked is in each of its languages, the first one first, and
// once where it reads the same.
func TestEachLanguage(t *testing.T) {
	s := rules.DefaultSettings()
	for _, c := range []struct{ lang, want, label string }{
		{"en", "Done by Ash.", "Done"}, {"es", "Hecho por Ash.", "Hecho"},
		{"en+es", "Done by Ash.\n\nHecho por Ash.", "Done / Hecho"}, {"es+en", "Hecho por Ash.\n\nDone by Ash.", "Hecho / Done"},
	} {
		s.Lang = c.lang
		vs := wording.All(s, time.Time{})
		assert.Equal(t, c.want, wording.InEach(vs, func(v wording.Voice) string { return v.Say("edit_done", "Name", "Ash") }))
		assert.Equal(t, "B2", wording.InEach(vs, func(v wording.Voice) string { return v.Subject(rules.BuilderSubject("B2")) }))
		buttons := wording.TaskButtons(vs, "k")
		require.Len(t, buttons, 4)
		assert.Equal(t, c.label, buttons[0].Label)
	}
}

// A button is pressed by its label, by a part of it in one language, and by what
// it is called in another; not by the label of another button.
func TestSameLabel(t *testing.T) {
	for _, c := range []struct {
		label, words string
		same         bool
	}{
		{"Done / Hecho", "Done / Hecho", true}, {"Done / Hecho", "hecho", true}, {"Done / Hecho", "DONE", true}, {"Hecho", "done", true},
		{"Done / Hecho", "Voy yo", false}, {"Dejar así", "leave it", true}, {"Leave it", "dejar asi", true}, {"Leave it", "log it", false},
		{"Batch 4", "batch 4", true}, {"Batch 4", "batch 5", false}, {"Done", "", false}, {"Cambiar a 37", "cambiar a 3", false},
	} {
		assert.Equal(t, c.same, wording.SameLabel(c.label, wording.Fold(c.words)), "%s by %s", c.label, c.words)
	}
}

// Only a plain wish for a language of one's own is read as one.
func TestReadOwnLanguage(t *testing.T) {
	for text, want := range map[string]string{
		"my language es": "es", "My language is Spanish": "es", "mi idioma español": "es", "mi idioma es": "es", "mi idioma es inglés": "en",
		"/my language en": "en", "set my language off": "off", "mi idioma no": "off", "MI IDIOMA ESPAÑOL": "es",
	} {
		r, ok := asCommand(oneAct(t, text), false, text)
		require.True(t, ok, text)
		assert.Equal(t, doSet, r.verb, text)
		assert.Equal(t, ownKey, r.key, text)
		assert.Equal(t, want, r.value, text)
	}
	for _, text := range []string{"my language", "my language is bad today", "mi idioma", "mi idioma es el trabajo", "my language klingon", "is my language es?", "what language is it"} {
		res := Understand().Read(text, rdg.Known{})
		for _, a := range res.Acts {
			assert.False(t, res.Outcome == rdg.Log && a.Kind == rdg.Set && a.Setting == "own", text)
		}
	}
}

// oneAct is the one thing that a text asks for.
func oneAct(t *testing.T, text string) rdg.Act {
	t.Helper()
	res := Understand().Read(text, rdg.Known{})
	require.Equal(t, rdg.Log, res.Outcome, text)
	require.Len(t, res.Acts, 1, text)
	return res.Acts[0]
}
