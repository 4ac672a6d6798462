package store

import (
	"regexp"
	"strconv"
	"strings"
)

// This file lets a person be forgotten: what they logged stays, with its counts and
// times, under a word that is nobody's name; their words go, and their name wherever it
// stands. The logbook's chain holds, since of words it has salted hashes alone.
//
// What the chat itself shows is not ours to take back, and backups made before hold the
// name until they are pruned.

// Everybody is whoever is or was on a crew and was not forgotten; the bot itself is none.
func (t *Tx) Everybody(crew int64) ([]Member, error) {
	return all(t, scanMember, `SELECT `+memberColumns+` FROM members WHERE crew_id = 0 + ? AND user_key <> '' AND forgotten = 0 ORDER BY id`, crew)
}

// Forgotten is how many people of a crew were forgotten, and whether one of them is the
// member given.
func (t *Tx) Forgotten(crew, member int64) (count int, one bool, err error) {
	_, err = t.one(`SELECT count(*), coalesce(max(id = ?), 0) FROM members WHERE crew_id = 0 + ? AND forgotten = 1`, []any{member, crew}, &count, &one)
	return count, one, err
}

// Forget drops a member's name for the word called, and their words, and takes them off
// the crew. Whoever writes with the same account later is a new member.
func (t *Tx) Forget(crew int64, m Member, called string) error {
	t.scrub = true
	key := ""
	if _, err := t.one(`SELECT user_key FROM members WHERE id = ?`, []any{m.ID}, &key); err != nil {
		return err
	}
	own := t.nameOf(crew, m)
	for _, do := range []func() error{
		func() error { return t.dropWords(crew, m.ID, own) },
		func() error { return t.dropTexts(crew, m, key) },
		func() error { return t.rename(crew, own, called) },
		func() error { return t.dropAside(append(own, spell(key)...)) },
	} {
		if err := do(); err != nil {
			return err
		}
	}
	if _, err := t.exec(`UPDATE members SET name = ?, user_key = ?, gone = 1, lead = 0, private_id = 0, forgotten = 1 WHERE id = ?`,
		called, "forgotten/"+strconv.FormatInt(m.ID, 10), m.ID); err != nil {
		return err
	}
	return t.replanAll(crew) // who claimed a task stands in its row
}

// spelled finds a name as a word of its own, in whatever case.
type spelled []*regexp.Regexp

// nameOf is how a member is called: by the whole name, and by the first of it where
// nobody else is.
func (t *Tx) nameOf(crew int64, m Member) (out spelled) {
	forms := []string{m.Name}
	if first, _, more := strings.Cut(m.Name, " "); more {
		others, err := t.Everybody(crew)
		alone := err == nil
		for _, o := range others {
			f, _, _ := strings.Cut(o.Name, " ")
			alone = alone && (o.ID == m.ID || !strings.EqualFold(f, first))
		}
		if alone {
			forms = append(forms, first)
		}
	}
	return spell(forms...)
}

// spell finds names, those that are empty left out.
func spell(names ...string) (out spelled) {
	for _, f := range names {
		if f != "" {
			out = append(out, regexp.MustCompile(`(?i)(^|[^\pL\pN])`+regexp.QuoteMeta(f)+`($|[^\pL\pN])`))
		}
	}
	return out
}

func (s spelled) in(text string) bool {
	for _, re := range s {
		if re.MatchString(text) {
			return true
		}
	}
	return false
}

func (s spelled) replace(text, called string) string {
	with := "${1}" + strings.ReplaceAll(called, "$", "$$") + "${2}"
	for _, re := range s {
		// Twice: of two names beside each other the first match takes the space between.
		text = re.ReplaceAllString(re.ReplaceAllString(text, with), with)
	}
	return text
}

// row is a number and a text of it.
type row struct {
	id         int64
	text, more string
}

func scanRow(s scanner) (r row, err error) {
	err = s.Scan(&r.id, &r.text, &r.more)
	return r, err
}

// dropWords empties the words of the member's lines, and of those of others that say
// the name. dropped_words says beforehand that it was meant, or the trigger refuses.
func (t *Tx) dropWords(crew, member int64, own spelled) error {
	mine, err := all(t, scanRow, `SELECT id, '', '' FROM entries WHERE crew_id = 0 + ? AND member_id = ?`, crew, member)
	if err != nil {
		return err
	}
	others, err := all(t, scanRow, `SELECT id, raw, detail FROM entries WHERE crew_id = 0 + ? AND member_id <> ? AND (raw <> '' OR detail LIKE '%"reason"%')`, crew, member)
	if err != nil {
		return err
	}
	for _, o := range others {
		_, reason := splitReason(o.more)
		if own.in(o.text) || own.in(reason) {
			mine = append(mine, o)
		}
	}
	for _, l := range mine {
		if _, err := t.exec(`INSERT INTO dropped_words (entry, dropped_at) VALUES (?, ?) ON CONFLICT DO NOTHING`, l.id, toMS(t.Now)); err != nil {
			return err
		}
		if _, err := t.exec(`UPDATE entries SET raw = '', salt = x'',
			detail = CASE WHEN json_valid(detail) THEN json_remove(detail, '$.reason') ELSE detail END WHERE id = ?`, l.id); err != nil {
			return err
		}
	}
	return nil
}

// dropTexts empties what the member wrote and what the bot wrote to them alone. The
// number of a private chat is that of the person.
func (t *Tx) dropTexts(crew int64, m Member, key string) error {
	if _, err := t.exec(`UPDATE updates SET text = '' WHERE crew_id = 0 + ? AND member_id = ?`, crew, m.ID); err != nil {
		return err
	}
	account, err := strconv.ParseInt(key, 10, 64)
	if err != nil {
		account = m.Private
	}
	_, err = t.exec(`UPDATE outbox SET text = '', buttons = '[]', chat_id = -1,
		state = CASE WHEN state IN ('queued', 'claimed') THEN 'dropped' ELSE state END
		WHERE crew_id = 0 + ? AND chat_id <> 0 AND chat_id IN (?, ?)`, crew, m.Private, account)
	return err
}

// rename puts the other word wherever the name stands in what others wrote and in what
// the bot said.
func (t *Tx) rename(crew int64, own spelled, called string) error {
	for _, c := range []struct{ find, put string }{
		{`SELECT id, text, '' FROM updates WHERE crew_id = 0 + ? AND text <> ''`, `UPDATE updates SET text = ?1 WHERE id = ?3`},
		{`SELECT id, text, buttons FROM outbox WHERE crew_id = 0 + ?`, `UPDATE outbox SET text = ?1, buttons = ?2 WHERE id = ?3`},
		{`SELECT id, what, '' FROM notes WHERE crew_id = 0 + ?`, `UPDATE notes SET what = ?1 WHERE id = ?3`},
	} {
		list, err := all(t, scanRow, c.find, crew)
		if err != nil {
			return err
		}
		for _, r := range list {
			if !own.in(r.text) && !own.in(r.more) {
				continue
			}
			if _, err := t.exec(c.put, own.replace(r.text, called), own.replace(r.more, called), r.id); err != nil {
				return err
			}
		}
	}
	events, err := all(t, scanCalendar, `SELECT `+calendarColumns+` FROM calendar_events WHERE crew_id = 0 + ?`, crew)
	if err != nil {
		return err
	}
	for _, e := range events {
		if own.in(e.Body) {
			if _, err := t.exec(`UPDATE calendar_events SET body = ? WHERE crew_id = 0 + ? AND key = ?`, own.replace(e.Body, called), crew, e.Key); err != nil {
				return err
			}
		}
	}
	return nil
}

// dropAside removes the updates set aside in which the person stands, by name or account.
func (t *Tx) dropAside(own spelled) error {
	list, err := all(t, scanRow, `SELECT rowid, raw, '' FROM set_aside`)
	if err != nil {
		return err
	}
	for _, r := range list {
		if own.in(r.text) {
			if _, err := t.exec(`DELETE FROM set_aside WHERE rowid = ?`, r.id); err != nil {
				return err
			}
		}
	}
	return nil
}
