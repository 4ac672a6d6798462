package store

import (
	"bytes"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

// A customer who is forgotten stands nowhere in the file, not in a byte of it; what they got
// stays under their number, the chain proves, and the number is not given away again.
func TestForgetCustomer(t *testing.T) {
	d := newDiary(t, fresh(t))
	n := 6
	d.do(func(tx *Tx) error { return tx.AddCustomer(1, 1, "Haskett") })
	d.do(func(tx *Tx) error { return tx.AddCustomer(1, 2, "Anna") })
	hand := rules.Entry{Action: rules.Did, Step: rules.Handed, Subject: rules.StockSubject(), Count: &n, Detail: rules.Detail{Customer: 1}}
	d.by("70001", "Wren", "6 to haskett", hand)
	d.by("70001", "Wren", "skip, Haskett is ill", rules.Entry{Action: rules.Skip, Step: rules.Rogue, Subject: rules.BuilderSubject("B2"), Detail: rules.Detail{Reason: "Haskett is ill"}})
	d.by("70002", "Ash", "fed 7, Hasketts way", rules.Entry{Action: rules.Did, Step: rules.Feed, Subject: rules.BreederSubject(7)})
	d.do(func(tx *Tx) error {
		if err := tx.Queue(Message{Crew: 1, Key: "a", Kind: "reply", Text: "6 queens to Haskett.", Buttons: []Button{{Label: "Add Haskett", Do: `act|1||[{"customer":"Haskett"}]`}}}); err != nil {
			return err
		}
		return tx.SetAside("test", 900, `{"text":"12 to HASKETT"}`)
	})
	require.Contains(t, d.dump(), "Haskett")
	d.do(func(tx *Tx) error {
		list, err := tx.Customers(1)
		require.NoError(t, err)
		require.Equal(t, []Customer{{Number: 1, Name: "Haskett"}, {Number: 2, Name: "Anna"}}, list)
		return tx.ForgetCustomer(1, list[0], "customer 1")
	})
	c := d.chain()
	assert.Empty(t, c.Broken)
	assert.Equal(t, 2, c.Blank, "the words of the two lines that say the name")
	before := d.dump()
	d.rebuild()
	assert.Equal(t, before, d.dump())
	require.NoError(t, d.db.View(ctx, d.now, func(tx *Tx) error {
		list, err := tx.Customers(1)
		assert.Equal(t, []Customer{{1, "customer 1", true}, {2, "Anna", false}}, list)
		require.NoError(t, err)
		next, err := tx.NextCustomer(1)
		assert.Equal(t, 3, next)
		require.NoError(t, err)
		book, err := tx.Logbook(1)
		require.NoError(t, err)
		assert.Equal(t, 1, book[1].Detail.Customer)
		assert.Equal(t, 6, *book[1].Count)
		assert.Equal(t, "fed 7, Hasketts way", book[3].Raw, "another word that begins alike")
		m, err := tx.Model(1)
		require.NoError(t, err)
		assert.Equal(t, 6, m.Stock().Customer(1).Got)
		return nil
	}))
	for _, m := range d.outbox() {
		if m.Key == "a" {
			assert.Equal(t, "6 queens to customer 1.", m.Text)
		}
	}
	require.NoError(t, d.db.Check(ctx))
	for _, end := range []string{"", "-wal"} {
		b, err := os.ReadFile(d.db.path + end)
		require.NoError(t, err)
		b = bytes.ReplaceAll(bytes.ToLower(b), []byte("hasketts way"), nil)
		assert.False(t, bytes.Contains(b, []byte("haskett")), "in the file%s", end)
	}
}
