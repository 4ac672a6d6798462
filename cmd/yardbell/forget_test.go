package main

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/store"
)

// These conversations are no scripts in testdata: what a line was logged by changes
// under them, and scripts compare it at the end.

// Somebody is forgotten, in both languages: asked first, the counts stay, the name and
// the words go, and whoever writes again is new. What only sounds like it is left alone.
func TestForgetOnTheConsole(t *testing.T) {
	for _, c := range []struct {
		lang, script string
		sure, done   string
		first, again string
	}{
		{"en", `Ash: add breeder 7 and builder B2
Wren: graft 45 from 7 into B2
Wren: forget it
Ash: forget the mite count
Rowan: forget Wren
Rowan *: Leave it
Rowan: forget Wren
Rowan *: Forget
Rowan: log
@ +1d
Wren: accepted 38 of 45
Rowan: forget wren
Rowan *: Forget
Ash: log
`, "Forget Wren? What they logged stays", "stands under somebody 1 now", "somebody 1: batch 1, 45 grafted", "somebody 2: batch 1, 38 of 45 accepted"},
		{"es", `Ash: agregar madre 7
Ash: agregar criadora B2
Wren: injerté 45 de la 7 en B2
Wren: olvídalo
Ash: olvida el conteo de varroa
Rowan: olvida a Wren
Rowan *: Dejar así
Rowan: olvidar a Wren
Rowan *: Olvidar
Rowan: registro
@ +1d
Wren: aceptadas 38 de 45
Rowan: olvidar a wren
Rowan *: Olvidar
Ash: registro
`, "¿Olvidar a Wren? Lo que anotó se queda", "figura ahora como alguien 1", "alguien 1: lote 1", "alguien 2: lote 1"},
	} {
		db := filepath.Join(t.TempDir(), "crew.db")
		r := call(c.script, "console", "--db", db, "--zone", "America/Chicago", "--lang", c.lang, "--now", "2031-05-05 08:00")
		require.Zero(t, r.code, r.err)
		assert.Equal(t, 3, strings.Count(r.out, c.sure[:len(c.sure)-4]), "asked three times: %s", r.out)
		assert.Contains(t, r.out, c.done)
		assert.Contains(t, r.out, c.first)
		assert.Contains(t, r.out, c.again)
		_, after, _ := strings.Cut(r.out, c.again)
		assert.NotContains(t, after, "Wren")
		text := strings.ToLower(read(t, db))
		for _, gone := range []string{"wren", "45 from 7", "45 de la 7"} {
			assert.NotContains(t, text, gone, "the bytes of the file")
		}
		k := call("", "check", "--db", db)
		assert.Zero(t, k.code, k.out)
		assert.Contains(t, k.out, "of 2 of them the words were dropped")
		assert.Contains(t, call("", "rebuild", "--db", db).out, "everything as it was")
		assert.Contains(t, call("", "export", "--db", db).out, "45")
	}
}

// In a group only a lead may, by word and by press; the person is off the crew, and on
// it again as somebody new.
func TestServeForgets(t *testing.T) {
	w := grafted(t)
	w.says(w.odile, "fed 7")
	assert.Contains(t, w.says(w.ash, "forget Odile").Text, "Only the lead (")
	asked := w.says(w.wren, "forget Odile")
	assert.Contains(t, asked.Text, "Forget Odile?")
	press := func(who int64) string {
		return w.answer(w.group, func() { w.Press(w.group, who, asked.ID, "Forget") }).Text
	}
	assert.Contains(t, press(w.ash), "Only the lead (")
	w.look(func(tx *store.Tx) error {
		list, err := tx.Everybody(1)
		assert.Len(t, list, 3)
		return err
	})
	assert.Contains(t, press(w.wren), "stands under somebody 1 now")
	assert.Contains(t, press(w.wren), "out of date")
	assert.Equal(t, "did feed breeder 7 somebody 1", w.book()[len(w.book())-1])
	w.says(w.odile, "fed B2")
	assert.Equal(t, "did feed builder B2 Odile", w.book()[len(w.book())-1])
	assert.Contains(t, w.says(w.wren, "forget Wren").Text, "hand over first")
	assert.Empty(t, w.Violations())
}

// A customer is forgotten, in both languages, by the lead's word and a press: what they got
// stays under a number, the name goes out of every byte, and the chain holds.
func TestForgetCustomerOnTheConsole(t *testing.T) {
	for _, c := range []struct{ lang, script, sure, after string }{
		{"en", `Ash: add breeder 7
Ash: add yard North 40 nucs
Wren: graft 45 from 7
@ +39d
Wren: laying 24 of batch 1
Wren *: Log it anyway
Wren: caught 24 of batch 1
Wren *: Log it anyway
Wren: sold 6 to Brandine
Wren *: Add customer Brandine
Ash: what did Brandine get
Ash: forget customer Brandine
Ash *: Leave it
Ash: forget customer Brandine
Ash *: Forget
Ash: stock
`, "Forget the customer Brandine?", "With customers: customer 1 6"},
		{"es", `Ash: agregar madre 7
Ash: agregar apiario North 40 núcleos
Wren: injerté 45 de la 7
@ +39d
Wren: en postura 24 del lote 1
Wren *: Anotar igual
Wren: capturé 24 del lote 1
Wren *: Anotar igual
Wren: vendimos 6 a Brandine
Wren *: Agregar cliente Brandine
Ash: qué recibió Brandine
Ash: olvidar cliente Brandine
Ash *: Dejar así
Ash: olvidar cliente Brandine
Ash *: Olvidar
Ash: existencias
`, "¿Olvidar al cliente Brandine?", "Con clientes: cliente 1 6"},
	} {
		db := filepath.Join(t.TempDir(), "crew.db")
		r := call(c.script, "console", "--db", db, "--zone", "America/Chicago", "--lang", c.lang, "--now", "2031-05-05 08:00")
		require.Zero(t, r.code, r.err)
		assert.Equal(t, 2, strings.Count(r.out, c.sure), "asked twice: %s", r.out)
		_, after, found := strings.Cut(r.out, c.after)
		assert.True(t, found, r.out)
		assert.NotContains(t, after, "Brandine")
		assert.NotContains(t, strings.ToLower(read(t, db)), "brandine", "the bytes of the file")
		k := call("", "check", "--db", db)
		assert.Zero(t, k.code, k.out)
		assert.Contains(t, call("", "rebuild", "--db", db).out, "everything as it was")
		out := call("", "export", "--db", db).out
		assert.Contains(t, out, `"customer":1`)
		sheet := call("", "report", "--db", db, "--year", "2031", "--format", "csv", "--what", "stock").out
		assert.Contains(t, sheet, "1,")
		assert.NotContains(t, sheet, "Brandine")
	}
}
