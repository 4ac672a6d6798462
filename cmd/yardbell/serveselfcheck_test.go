package main

import (
	"database/sql"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/store"
)

// A lead who asked for it is told every day in private how things stand: once, at the
// hour, in their own language; nobody else is.
func TestServeDailyCheck(t *testing.T) {
	dir := t.TempDir()
	w := grafted(t)
	w.quit()
	w.serve("--backup", dir)
	w.settled()
	w.noted("a backup", func() bool { list, err := store.NamedBackups(w.db, dir); return err == nil && len(list) == 1 })
	assert.Contains(t, w.says(w.ash, "set daily check 06:00").Text, "Only the lead (Wren) can do that")
	w.inPrivate(w.wren)
	w.inPrivate(w.ash)
	// Asked for in private, at eight in the morning: today's comes within two minutes.
	n, ash, group := len(w.Sent(w.wren)), len(w.Sent(w.ash)), len(w.Sent(w.group))
	w.Say(w.wren, w.wren, "set daily check 06:00")
	w.pass(w.clock.Now().Add(2 * time.Minute))
	w.await("the answer and the check", func() bool { return len(w.Sent(w.wren)) == n+2 })
	assert.Contains(t, w.Sent(w.wren)[n].Text, "daily check 06:00 (was off)")
	assert.Regexp(t, `^Daily check: \d+ lines in the log, the chain holds, last backup today \d\d:\d\d, 0 messages refused by the chat, \d messages? waiting, 0 messages late in 24 h, file \d\.\d MB\.$`, w.Sent(w.wren)[n+1].Text)
	w.says(w.wren, "due")
	w.pass(w.clock.Now().Add(2 * time.Minute))
	require.Len(t, w.Sent(w.wren), n+2, "once a day")
	// The next day, in Spanish, and the chain does not hold.
	w.answer(w.wren, func() { w.Say(w.wren, w.wren, "mi idioma español") })
	n = len(w.Sent(w.wren))
	w.pass(chicago(25, 5, 59))
	require.Len(t, w.Sent(w.wren), n)
	w.quit()
	c, err := sql.Open("sqlite", w.db)
	require.NoError(t, err)
	for _, q := range []string{`DROP TRIGGER entries_no_update`, `UPDATE entries SET count = 46 WHERE count = 45`} {
		_, err := c.Exec(q)
		require.NoError(t, err)
	}
	require.NoError(t, c.Close())
	w.serve()
	w.pass(chicago(25, 6, 1))
	w.await("the check of the day", func() bool { return len(w.Sent(w.wren)) == n+1 })
	assert.Contains(t, w.Sent(w.wren)[n].Text, "Revisión diaria: ")
	assert.Contains(t, w.Sent(w.wren)[n].Text, "el registro no está como se escribió")
	assert.Contains(t, w.Sent(w.wren)[n].Text, "no se hacen copias")
	// Off, there is none.
	w.answer(w.wren, func() { w.Say(w.wren, w.wren, "ajustar revisión diaria no") })
	n = len(w.Sent(w.wren))
	w.pass(chicago(26, 7, 0))
	w.pass(chicago(26, 7, 2))
	assert.Len(t, w.Sent(w.wren), n)
	assert.Len(t, w.Sent(w.ash), ash, "nobody else")
	for _, m := range w.Sent(w.group)[group:] {
		assert.NotContains(t, m.Text, "aily check:")
	}
	assert.Empty(t, w.Violations())
}
