package store

import (
	"bytes"
	"crypto/rand"
	"crypto/sha256"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"time"
)

// This file chains the logbook: each line carries a hash of the one before it in the
// file and of its own columns, so that a line that was changed, removed, put in by
// hand or moved is noticed. One chain runs through the file, all crews in it, so that
// a line moved from crew to crew is noticed as well and the newest hash is one seek.
//
// A chain without a key shows damage and careless edits. Whoever rewrites the file
// with this program in hand can chain it anew: against that, keep the newest hash,
// which `check` and `backup` print, in another place.
//
// No personal data is in the chain in clear: of who wrote a line the number of their
// row, of what they wrote a salted hash, which says nothing once the salt is gone.

// chainMark begins what is hashed for a line; another form of line has another mark.
const chainMark = "yardbell line 1\x00"

// chained are the columns that the chain covers, in the order in which they are
// hashed; words_hash stands for raw and for the reason in detail.
const chained = `id, crew_id, update_row, member_id, said_at, happened_at, action, step, subject_kind, subject_key,
	count, of, from_breeder, into_place, mark, detail, ref, message_id, words_hash`

// detailAt is the place of detail among them.
const detailAt = 15

// sum hashes values so that no two lists of values give the same bytes: each has its
// type and its length before it. A type that SQLite never gives is a bug.
func sum(mark string, values ...any) []byte {
	b := append(make([]byte, 0, 512), mark...)
	put := func(kind byte, data []byte) {
		b = append(b, kind)
		b = binary.BigEndian.AppendUint64(b, uint64(len(data)))
		b = append(b, data...)
	}
	for _, v := range values {
		switch v := v.(type) {
		case nil:
			put('n', nil)
		case int64:
			put('i', binary.BigEndian.AppendUint64(nil, uint64(v)))
		case float64:
			put('r', binary.BigEndian.AppendUint64(nil, math.Float64bits(v)))
		case string:
			put('t', []byte(v))
		case []byte:
			put('b', v)
		default:
			panic(fmt.Sprintf("a column of type %T", v))
		}
	}
	h := sha256.Sum256(b)
	return h[:]
}

func wordsHash(salt []byte, raw, reason string) []byte {
	return sum("yardbell words 1\x00", salt, raw, reason)
}

func newSalt() ([]byte, error) {
	salt := make([]byte, 16)
	_, err := rand.Read(salt)
	return salt, err
}

// splitReason takes the reason, which are somebody's words, out of a line's detail.
// What is not written as this program writes it is left whole.
func splitReason(detail string) (rest, reason string) {
	if !strings.Contains(detail, `"reason":`) {
		return detail, "" // nearly all lines
	}
	var d struct {
		Reason string `json:"reason"`
	}
	if json.Unmarshal([]byte(detail), &d) != nil || d.Reason == "" {
		return detail, ""
	}
	field := `"reason":` + toJSON(d.Reason)
	for _, form := range []string{"," + field, field + ",", field} {
		if before, after, found := strings.Cut(detail, form); found {
			return before + after, d.Reason
		}
	}
	return detail, ""
}

// link is the hash of a line: values are the chained columns as stored.
func link(before []byte, values []any) []byte {
	values = append([]any{before}, values...)
	if detail, ok := values[detailAt+1].(string); ok {
		values[detailAt+1], _ = splitReason(detail)
	}
	return sum(chainMark, values...)
}

// newestLine is the highest number a line ever had and the hash of the newest.
func (t *Tx) newestLine() (id int64, hash []byte, err error) {
	_, err = t.one(`SELECT coalesce((SELECT seq FROM sqlite_sequence WHERE name = 'entries'), 0),
		coalesce((SELECT hash FROM entries ORDER BY id DESC LIMIT 1), x'')`, nil, &id, &hash)
	return id, hash, err
}

// Chain is what a walk along the logbook's chain found.
type Chain struct {
	Lines  int       // in the file
	Newest time.Time // when the newest of them was said
	Head   string    // the newest hash, in hex; empty where there is no line
	Blank  int       // lines whose words were dropped on purpose
	Broken []Break   // in the order of the file
}

// Break is a place at which the logbook is not as it was written.
type Break struct {
	Line int64     // its number
	Last int64     // of several that are missing, the last
	Why  string    // what is wrong with it
	Said time.Time // zero where it is missing or its time is not one
	By   string    // who wrote it, empty where that is not known
}

// String names the line, when it was said, by whom, and what is wrong.
func (b Break) String() string {
	s := fmt.Sprintf("line %d", b.Line)
	if b.Last > b.Line {
		s = fmt.Sprintf("lines %d to %d", b.Line, b.Last)
	}
	if !b.Said.IsZero() {
		s += " of " + b.Said.Format("2006-01-02 15:04 MST")
	}
	if b.By != "" {
		s += " by " + b.By
	}
	return s + " " + b.Why
}

const (
	notFollowing = "does not follow from the line before: one of the two was changed, moved or put in by hand"
	notItsWords  = "has other words than were written"
	notThere     = "not there any more"
	noHash       = "was put in by hand: it carries no hash"
)

// VerifyChain walks along the whole logbook and finds where it is not as written.
func (t *Tx) VerifyChain() (c Chain, err error) {
	rows, err := t.query(`SELECT `+qualified(chained)+`, e.hash, e.salt, e.raw, coalesce(m.name, ''), d.entry IS NOT NULL
		FROM entries e LEFT JOIN members m ON m.id = e.member_id LEFT JOIN dropped_words d ON d.entry = e.id ORDER BY e.id`, nil)
	if err != nil {
		return c, t.wrap(err)
	}
	defer func() { _ = rows.Close() }()
	before, last := []byte{}, int64(0)
	for rows.Next() {
		v := make([]any, strings.Count(chained, ",")+1+5)
		into := make([]any, len(v))
		for i := range v {
			into[i] = &v[i]
		}
		if err := rows.Scan(into...); err != nil {
			return c, fmt.Errorf("scan: %w", err)
		}
		n := len(v) - 5
		hash, salt, raw := asBytes(v[n]), asBytes(v[n+1]), v[n+2]
		b := Break{}
		b.Line, _ = v[0].(int64)
		b.By, _ = v[n+3].(string)
		if ms, ok := v[4].(int64); ok {
			b.Said = fromMS(ms)
		}
		gap := b.Line > last+1
		if gap {
			c.Broken = append(c.Broken, Break{Line: last + 1, Last: b.Line - 1, Why: plural(b.Line-last-1, "is ", "are ") + notThere})
		}
		c.Lines, c.Newest, c.Head = c.Lines+1, b.Said, fmt.Sprintf("%x", hash)
		dropped := v[n+4] == int64(1) && raw == "" && len(salt) == 0
		detail, _ := v[detailAt].(string)
		_, reason := splitReason(detail)
		words, _ := raw.(string)
		switch {
		case len(hash) == 0:
			b.Why = noHash
		case !gap && !bytes.Equal(hash, link(before, v[:n])):
			b.Why = notFollowing
		case dropped && reason == "":
			c.Blank++
		case !bytes.Equal(asBytes(v[n-1]), wordsHash(salt, words, reason)):
			b.Why = notItsWords
		}
		if b.Why != "" {
			c.Broken = append(c.Broken, b)
		}
		before, last = hash, b.Line
	}
	if err := rows.Err(); err != nil {
		return c, t.wrap(err)
	}
	if err := rows.Close(); err != nil {
		return c, t.wrap(err)
	}
	ever, _, err := t.newestLine()
	if err == nil && ever > last {
		c.Broken = append(c.Broken, Break{Line: last + 1, Last: ever, Why: plural(ever-last, "is ", "are ") + notThere})
	}
	return c, err
}

func plural(n int64, one, more string) string {
	if n == 1 {
		return one
	}
	return more
}

func asBytes(v any) []byte {
	b, _ := v.([]byte)
	return b
}

func qualified(columns string) string {
	list := strings.Split(columns, ",")
	for i, c := range list {
		list[i] = "e." + strings.TrimSpace(c)
	}
	return strings.Join(list, ", ")
}
