package store

import (
	"crypto/sha256"
	"database/sql"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"yardbell/rules"
)

func (d *diary) chain() (c Chain) {
	require.NoError(d.t, d.db.View(ctx, d.now, func(tx *Tx) (err error) {
		c, err = tx.VerifyChain()
		return err
	}))
	return c
}

// broken lists what is wrong as text.
func (d *diary) broken() (out []string) {
	for _, b := range d.chain().Broken {
		out = append(out, b.String())
	}
	return out
}

// logged makes a file with seven lines: the crew's first setting and six of Wren's.
func logged(t *testing.T) *diary {
	d := newDiary(t, fresh(t))
	d.log(rules.Entry{Step: rules.Add, Subject: rules.BreederSubject(7)})
	d.log(rules.Entry{Step: rules.Confine, Subject: rules.BreederSubject(7)})
	graft := d.graft(7, 45, "B2", 1)
	d.log(rules.Entry{Action: rules.Skip, Step: rules.Accept, Subject: rules.BatchSubject(1), Detail: rules.Detail{Reason: "too wet, \"said\" <Ash>"}})
	n := 54
	d.log(rules.Entry{Action: rules.Amend, Step: rules.Graft, Subject: rules.BatchSubject(1), Count: &n, From: 7, Into: "B2", Ref: graft})
	d.set("evening", "18:30")
	return d
}

// spoil changes the file past the program, as whoever has it open in another could.
func (d *diary) spoil(queries ...string) {
	db, err := sql.Open("sqlite", "file:"+d.db.path+"?_pragma=busy_timeout(5000)")
	require.NoError(d.t, err)
	db.SetMaxOpenConns(1)
	for _, q := range append([]string{`DROP TRIGGER entries_no_update`, `DROP TRIGGER entries_no_delete`}, queries...) {
		_, err := db.Exec(q)
		require.NoError(d.t, err, q)
	}
	require.NoError(d.t, db.Close())
}

func TestChainOfAnUntouchedFile(t *testing.T) {
	d := logged(t)
	c := d.chain()
	assert.Empty(t, c.Broken)
	assert.Equal(t, 7, c.Lines)
	assert.Equal(t, start, c.Newest)
	assert.Len(t, c.Head, 64)
}

// The first link, worked out by hand from the bytes that the comment describes.
func TestChainLinkByHand(t *testing.T) {
	d := newDiary(t, fresh(t))
	var b []byte
	put := func(kind byte, data []byte) {
		b = append(append(b, kind), binary.BigEndian.AppendUint64(nil, uint64(len(data)))...)
		b = append(b, data...)
	}
	number := func(n int64) { put('i', binary.BigEndian.AppendUint64(nil, uint64(n))) }
	var salt, words []byte
	require.NoError(t, d.db.r.QueryRowContext(ctx, `SELECT salt, words_hash FROM entries WHERE id = 1`).Scan(&salt, &words))
	b = append(b, "yardbell words 1\x00"...)
	put('b', salt)
	put('t', nil)
	put('t', nil)
	assert.Equal(t, fmt.Sprintf("%x", sha256.Sum256(b)), hex.EncodeToString(words))
	b = append([]byte{}, "yardbell line 1\x00"...)
	put('b', nil) // there is no line before
	for _, n := range []int64{1, 1, 1, 1, start.UnixMilli(), start.UnixMilli()} {
		number(n)
	}
	for _, s := range []string{"set", "", "", ""} {
		put('t', []byte(s))
	}
	put('n', nil)
	put('n', nil)
	number(0)
	for _, s := range []string{"", "", `{"key":"zone","value":"America/Chicago"}`} {
		put('t', []byte(s))
	}
	put('n', nil)
	number(0)
	put('b', words)
	assert.Equal(t, fmt.Sprintf("%x", sha256.Sum256(b)), d.chain().Head)
}

// Whatever is done to a line past the program is noticed, and the line is named.
func TestChainNoticesAndNames(t *testing.T) {
	const at = " of 2031-04-24 13:00 UTC by Wren "
	for _, c := range []struct {
		name    string
		queries []string
		want    []string
	}{
		{"a count", []string{`UPDATE entries SET count = 54 WHERE id = 4`}, []string{"line 4" + at + notFollowing}},
		{"a count in another type", []string{`UPDATE entries SET count = 45.5 WHERE id = 4`}, []string{"line 4" + at + notFollowing}},
		{"a time", []string{`UPDATE entries SET happened_at = happened_at + 1 WHERE id = 3`}, []string{"line 3" + at + notFollowing}},
		{"who wrote it", []string{`INSERT INTO members (id, crew_id, user_key, name) VALUES (9, 1, 'ash', 'Ash')`, `UPDATE entries SET member_id = 9 WHERE id = 3`},
			[]string{"line 3 of 2031-04-24 13:00 UTC by Ash " + notFollowing}},
		{"its words", []string{`UPDATE entries SET raw = 'as never typed' WHERE id = 3`}, []string{"line 3" + at + notItsWords}},
		{"its words taken away", []string{`UPDATE entries SET raw = '', salt = x'' WHERE id = 3`}, []string{"line 3" + at + notItsWords}},
		{"its salt", []string{`UPDATE entries SET salt = x'00' WHERE id = 3`}, []string{"line 3" + at + notItsWords}},
		{"the reason in it", []string{`UPDATE entries SET detail = '{"reason":"too dry"}' WHERE id = 5`}, []string{"line 5" + at + notItsWords}},
		{"the rest of its detail", []string{`UPDATE entries SET detail = '{"all":true}' WHERE id = 4`}, []string{"line 4" + at + notFollowing}},
		{"detail that is no JSON", []string{`UPDATE entries SET detail = '{' WHERE id = 4`}, []string{"line 4" + at + notFollowing}},
		{"its hash", []string{`UPDATE entries SET hash = x'00' WHERE id = 4`}, []string{"line 4" + at + notFollowing, "line 5" + at + notFollowing}},
		{"changed and hashed anew, as a line of its own", []string{`UPDATE entries SET hash = (SELECT hash FROM entries WHERE id = 3) WHERE id = 4`},
			[]string{"line 4" + at + notFollowing, "line 5" + at + notFollowing}},
		{"removed", []string{`DELETE FROM entries WHERE id = 5`}, []string{"line 5 is not there any more"}},
		{"several removed", []string{`DELETE FROM entries WHERE id IN (2, 3)`}, []string{"lines 2 to 3 are not there any more"}},
		{"the newest removed", []string{`DELETE FROM entries WHERE id > 5`}, []string{"lines 6 to 7 are not there any more"}},
		{"all removed", []string{`DELETE FROM entries`}, []string{"lines 1 to 7 are not there any more"}},
		{"two in another order", []string{`UPDATE entries SET id = 100 WHERE id = 2`, `UPDATE entries SET id = 2 WHERE id = 3`, `UPDATE entries SET id = 3 WHERE id = 100`,
			`UPDATE sqlite_sequence SET seq = 7 WHERE name = 'entries'`},
			[]string{"line 2" + at + notFollowing, "line 3" + at + notFollowing, "line 4" + at + notFollowing}},
		{"put in by hand", []string{`INSERT INTO entries (crew_id, update_row, member_id, said_at, happened_at, action, step, subject_kind, subject_key, raw, message_id)
			VALUES (1, 1, 2, 1934802000000, 0, 'did', 'add', 'breeder', '9', '', 0)`}, []string{"line 8 of 2031-04-24 13:00 UTC by Wren " + noHash}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			d := logged(t)
			d.spoil(c.queries...)
			assert.Equal(t, c.want, d.broken())
		})
	}
}

// A line that was removed from the end stays missing when the crew logs on.
func TestChainAfterTheNewestWasRemoved(t *testing.T) {
	d := logged(t)
	d.spoil(`DELETE FROM entries WHERE id = 7`)
	d.log(rules.Entry{Step: rules.Add, Subject: rules.BreederSubject(9)})
	assert.Equal(t, []string{"line 7 is not there any more"}, d.broken())
}

// Words go only where it was decided that they go, and nothing else of the line does.
func TestOnlyDroppedWordsGo(t *testing.T) {
	d := logged(t)
	refused := func(q string) {
		t.Helper()
		assert.ErrorContains(t, d.db.Update(ctx, d.now, func(tx *Tx) error { _, err := tx.exec(q); return err }), "append-only", q)
	}
	drop := `UPDATE entries SET raw = '', salt = x'', detail = json_remove(detail, '$.reason') WHERE id = `
	refused(drop + `5`)
	d.do(func(tx *Tx) error {
		_, err := tx.exec(`INSERT INTO dropped_words (entry, dropped_at) VALUES (5, 1)`)
		return err
	})
	refused(drop + `4`)
	refused(`UPDATE entries SET raw = 'other', salt = x'' WHERE id = 5`)
	refused(`UPDATE entries SET raw = '' WHERE id = 5`)
	refused(`UPDATE entries SET raw = '', salt = x'' WHERE id = 5`) // the reason stays
	for _, column := range []string{"crew_id", "update_row", "member_id", "said_at", "happened_at", "subject_key", "count", "of", "from_breeder", "into_place", "mark", "ref", "message_id", "words_hash", "hash"} {
		refused(`UPDATE entries SET raw = '', salt = x'', detail = json_remove(detail, '$.reason'), ` + column + ` = 3 WHERE id = 5`)
	}
	refused(`DELETE FROM entries WHERE id = 5`)
	refused(`DELETE FROM dropped_words`)
	refused(`UPDATE dropped_words SET entry = 4`)
	d.do(func(tx *Tx) error { n, err := tx.exec(drop + `5`); assert.EqualValues(t, 1, n); return err })
	c := d.chain()
	assert.Empty(t, c.Broken)
	assert.Equal(t, 1, c.Blank)
	d.spoil(`UPDATE entries SET raw = 'put back otherwise' WHERE id = 5`)
	assert.Equal(t, []string{"line 5 of 2031-04-24 13:00 UTC by Wren " + notItsWords}, d.broken())
}

// Taking the reason out comes to the same in the program and in the database, whatever
// stands in it: the one hashes, the other drops.
func TestReasonIsSplitAsTheDatabaseDoes(t *testing.T) {
	db, err := sql.Open("sqlite", "file:"+filepath.Join(t.TempDir(), "x.db"))
	require.NoError(t, err)
	defer func() { require.NoError(t, db.Close()) }()
	rapid.Check(t, func(rt *rapid.T) {
		d := rules.Detail{Reason: rapid.String().Draw(rt, "reason"), Occ: rapid.String().Draw(rt, "occ"), Until: rapid.Int64().Draw(rt, "until"),
			Value: rapid.String().Draw(rt, "value"), All: rapid.Bool().Draw(rt, "all")}
		if rapid.Bool().Draw(rt, "aged") {
			age := rapid.Float64Range(0, 99).Draw(rt, "age")
			d.AgeLo = &age
		}
		detail := toJSON(d)
		rest, reason := splitReason(detail)
		without := d
		without.Reason = ""
		require.Equal(rt, toJSON(without), rest)
		if d.Reason != "" {
			require.NotEmpty(rt, reason)
		}
		var got string
		require.NoError(rt, db.QueryRow(`SELECT json_remove(?, '$.reason')`, detail).Scan(&got))
		require.Equal(rt, rest, got)
	})
}
