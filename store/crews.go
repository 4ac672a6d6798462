package store

import (
	"slices"
	"strings"
	"time"

	"yardbell/rules"
)

// Crew is one group chat.
type Crew struct {
	ID       int64
	Source   string // the transport
	Chat     int64
	Created  time.Time
	Standing string // what the chat lets the bot do: open, muted, gone
	Thread   int64  // topic of a forum in which the crew talks, 0 for none
	Rights   string // of the bot there: "" not known, "member", "admin" with "pin" and "delete" behind it
	Hears    string // what the crew was told last: "" nothing, "all", "some" of what is written
	Title    string // of the group, "" where it is not known
}

// Admin reports whether the bot is known to be an administrator of the group.
func (c Crew) Admin() bool { return c.may("admin") }

// MayPin reports whether the bot is known to be allowed to pin messages.
func (c Crew) MayPin() bool { return c.may("pin") }

// MayDelete reports whether the bot is known to be allowed to delete messages.
func (c Crew) MayDelete() bool { return c.may("delete") }

func (c Crew) may(right string) bool { return slices.Contains(strings.Fields(c.Rights), right) }

// Member is one person of a crew.
type Member struct {
	ID   int64
	Name string
	Lead bool // may change settings and take back the lines of others
	Gone bool // was taken off the crew

	Private int64 // chat with this person alone that is open, 0 for none
}

const memberColumns = `id, name, lead, gone, private_id`

func scanMember(s scanner) (m Member, err error) {
	err = s.Scan(&m.ID, &m.Name, &m.Lead, &m.Gone, &m.Private)
	return m, err
}

const crewColumns = `id, source, chat_id, created_at, standing, thread_id, rights, hears, title`

func scanCrew(s scanner) (c Crew, err error) {
	err = s.Scan(&c.ID, &c.Source, &c.Chat, instant{&c.Created}, &c.Standing, &c.Thread, &c.Rights, &c.Hears, &c.Title)
	return c, err
}

// Crew finds the crew of a chat.
func (t *Tx) Crew(source string, chat int64) (Crew, bool, error) {
	list, err := all(t, scanCrew, `SELECT `+crewColumns+` FROM crews WHERE source = ? AND chat_id = ?`, source, chat)
	if err != nil || len(list) == 0 {
		return Crew{}, false, err
	}
	return list[0], true, nil
}

// Crews lists all crews in the order they came.
func (t *Tx) Crews() ([]Crew, error) {
	return all(t, scanCrew, `SELECT `+crewColumns+` FROM crews ORDER BY id`)
}

// CrewByID reads one crew.
func (t *Tx) CrewByID(id int64) (Crew, error) {
	list, err := all(t, scanCrew, `SELECT `+crewColumns+` FROM crews WHERE id = ?`, id)
	if err != nil || len(list) == 0 {
		return Crew{}, err
	}
	return list[0], nil
}

// NewCrew starts a crew with its first settings, which are logged so that a
// rebuild comes to the same.
func (t *Tx) NewCrew(source string, chat int64, first map[string]string) (Crew, error) {
	id, err := t.insert(`INSERT INTO crews (source, chat_id, created_at) VALUES (?, ?, ?)`, source, chat, toMS(t.Now))
	if err != nil {
		return Crew{}, err
	}
	crew := Crew{ID: id, Source: source, Chat: chat, Created: t.Now, Standing: "open"}
	m, err := t.Member(crew, "", "Yardbell")
	if err != nil {
		return crew, err
	}
	var entries []rules.Entry
	for _, key := range rules.SettingNames {
		if v, ok := first[key]; ok {
			entries = append(entries, rules.Entry{Said: t.Now, Happened: t.Now, Action: rules.Set, Detail: rules.Detail{Key: key, Value: v}})
		}
	}
	// The first settings belong to an update of their own, numbered apart from the
	// transport's by its source.
	up, _, err := t.MarkUpdate(Update{Source: source + "/start", UpdateID: chat, Crew: id, Member: m.ID, Kind: "message", Said: t.Now})
	if err != nil {
		return crew, err
	}
	for _, e := range entries {
		if _, err := t.Append(crew.ID, up, m, 0, "", e); err != nil {
			return crew, err
		}
	}
	return crew, t.EnsureDigest(crew.ID)
}

// Member finds or adds the person a transport knows by key; the name follows
// what the transport says now.
func (t *Tx) Member(c Crew, key, name string) (m Member, err error) {
	name = strings.TrimSpace(name)
	list, err := all(t, scanMember, `SELECT `+memberColumns+` FROM members WHERE crew_id = 0 + ? AND user_key = ?`, c.ID, key)
	if err != nil {
		return m, err
	}
	if len(list) == 0 {
		m.Name = name
		res, err := t.execute(`INSERT INTO members (crew_id, user_key, name) VALUES (?, ?, ?)`, []any{c.ID, key, name})
		if err != nil {
			return m, t.wrap(err)
		}
		m.ID, err = res.LastInsertId()
		return m, err
	}
	if m = list[0]; m.Name != name {
		m.Name = name
		if _, err = t.exec(`UPDATE members SET name = ? WHERE id = ?`, name, m.ID); err == nil {
			err = t.replanClaims(c.ID, m.ID)
		}
	}
	return m, err
}

// replanClaims reads the crew's lines anew, each of which names who wrote it, and has what
// a member claimed planned again: who claimed a task stands in its row.
func (t *Tx) replanClaims(crew, member int64) error {
	m, err := t.refold(crew)
	if err != nil {
		return err
	}
	list, err := all(t, func(s scanner) (sub rules.Subject, err error) {
		err = s.Scan(&sub.Kind, &sub.Key)
		return sub, err
	}, `SELECT DISTINCT subject_kind, subject_key FROM entries WHERE crew_id = 0 + ? AND member_id = ? AND action = 'mine'`, crew, member)
	if err != nil {
		return err
	}
	for _, s := range list {
		m.Touch(s)
	}
	return t.Replan(crew)
}

// Settings of a crew, to be looked at only.
func (t *Tx) Settings(crew int64) (*rules.Settings, error) {
	m, err := t.atHand(crew)
	if err != nil {
		return nil, err
	}
	if m == nil {
		return t.settingsInFile(crew)
	}
	return m.Settings(), nil
}

// CrewsThatSet are the crews that ever set something, whatever it is now.
func (t *Tx) CrewsThatSet(key string) ([]Crew, error) {
	return all(t, scanCrew, `SELECT `+crewColumns+` FROM crews WHERE id IN (
		SELECT crew_id FROM entries WHERE subject_kind = '' AND action = 'set' AND json_extract(detail, '$.key') = ?) ORDER BY id`, key)
}

// MemberByID reads one member.
func (t *Tx) MemberByID(id int64) (m Member, err error) {
	list, err := all(t, scanMember, `SELECT `+memberColumns+` FROM members WHERE id = ?`, id)
	if err == nil && len(list) > 0 {
		m = list[0]
	}
	return m, err
}

// MemberKey finds the row of the person a transport knows by key.
func (t *Tx) MemberKey(crew int64, key string) (id int64, found bool, err error) {
	found, err = t.one(`SELECT id FROM members WHERE crew_id = 0 + ? AND user_key = ?`, []any{crew, key}, &id)
	return id, found, err
}
