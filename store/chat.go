package store

// This file holds what a real group chat needs beyond the conversation itself.

// SetStanding notes what a chat lets the bot do: "open", "muted" or "gone".
func (t *Tx) SetStanding(crew int64, state string) error {
	_, err := t.exec(`UPDATE crews SET standing = ? WHERE id = ?`, state, crew)
	return err
}

// SetRights notes what the bot may do in a group, as Crew.Rights says it.
func (t *Tx) SetRights(crew int64, rights string) error {
	_, err := t.exec(`UPDATE crews SET rights = ? WHERE id = ?`, rights, crew)
	return err
}

// SetHears notes what the crew was told of the bot's hearing.
func (t *Tx) SetHears(crew int64, hears string) error {
	_, err := t.exec(`UPDATE crews SET hears = ? WHERE id = ?`, hears, crew)
	return err
}

// SetTitle notes what a group is called.
func (t *Tx) SetTitle(crew int64, title string) error {
	_, err := t.exec(`UPDATE crews SET title = ? WHERE id = ?`, title, crew)
	return err
}

// SetPrivate notes the private chat with a person, on every crew they are on; 0 for
// one that is closed.
func (t *Tx) SetPrivate(source, key string, chat int64) error {
	_, err := t.exec(`UPDATE members SET private_id = ? WHERE user_key = ? AND private_id <> ? AND crew_id IN (SELECT id FROM crews WHERE source = ?)`, chat, key, chat, source)
	return err
}

// ShutPrivate notes that a private chat is closed to the bot.
func (t *Tx) ShutPrivate(source string, chat int64) error {
	_, err := t.exec(`UPDATE members SET private_id = 0 WHERE private_id = ? AND crew_id IN (SELECT id FROM crews WHERE source = ?)`, chat, source)
	return err
}

// SetThread notes the topic of a forum in which the crew talks.
func (t *Tx) SetThread(crew, thread int64) error {
	_, err := t.exec(`UPDATE crews SET thread_id = ? WHERE id = ?`, thread, crew)
	return err
}

// MoveChat follows a group that got another id. The numbers of its old messages
// mean nothing in the new chat, so they are forgotten.
func (t *Tx) MoveChat(source string, from, to int64) error {
	c, found, err := t.Crew(source, from)
	if err != nil || !found {
		return err
	}
	if _, taken, err := t.Crew(source, to); err != nil || taken {
		return err
	}
	if _, err := t.exec(`UPDATE crews SET chat_id = ?, standing = 'open' WHERE id = ?`, to, c.ID); err != nil {
		return err
	}
	for _, q := range []string{
		`UPDATE outbox SET message_id = 0, answers = 0, reply_to = 0 WHERE crew_id = 0 + ? AND chat_id = 0`,
		`UPDATE outbox SET state = 'dropped', reason = 'what it changes is in another chat' WHERE crew_id = 0 + ? AND edits <> 0 AND state IN ('queued', 'claimed')`,
		`UPDATE updates SET message_id = 0, reply_to = 0 WHERE crew_id = 0 + ?`,
		forgetAbout,
	} {
		if _, err := t.exec(q, c.ID); err != nil {
			return err
		}
	}
	return nil
}

// SetLead makes a member a lead or not.
func (t *Tx) SetLead(member int64, lead bool) error {
	_, err := t.exec(`UPDATE members SET lead = ? WHERE id = ?`, lead, member)
	return err
}

// SetGone takes a member off the crew, or back on.
func (t *Tx) SetGone(member int64, gone bool) error {
	_, err := t.exec(`UPDATE members SET gone = ?, lead = lead AND NOT ? WHERE id = ?`, gone, gone, member)
	return err
}

// Members of a crew who are on it, in the order they came; the bot itself is none.
func (t *Tx) Members(crew int64) ([]Member, error) {
	return all(t, scanMember, `SELECT `+memberColumns+` FROM members WHERE crew_id = 0 + ? AND user_key <> '' AND gone = 0 ORDER BY id`, crew)
}

// CrewsOf are the crews that a person, known by the transport's key, is on.
func (t *Tx) CrewsOf(source, key string) ([]Crew, error) {
	return all(t, scanCrew, `SELECT `+crewColumns+` FROM crews WHERE source = ? AND id IN (
		SELECT crew_id FROM members WHERE user_key = ? AND gone = 0) ORDER BY id`, source, key)
}

// NewJoinCode opens a code, given as its hash.
func (t *Tx) NewJoinCode(hash string) error {
	_, err := t.exec(`INSERT INTO join_codes (code_hash, made_at) VALUES (?, ?)`, hash, toMS(t.Now))
	return err
}

// JoinCodeOpen reports whether a code is open. Codes are compared as links of calendars
// are.
func (t *Tx) JoinCodeOpen(hash string) (found bool, err error) {
	open, err := all(t, func(s scanner) (h string, err error) {
		err = s.Scan(&h)
		return h, err
	}, `SELECT code_hash FROM join_codes WHERE used_at = 0`)
	if err != nil {
		return false, err
	}
	for _, h := range open {
		if sameSecret(h, hash) {
			found = true
		}
	}
	return found, nil
}

// UseJoinCode closes an open code; false where there is no such code.
func (t *Tx) UseJoinCode(hash string) (bool, error) {
	if found, err := t.JoinCodeOpen(hash); err != nil || !found {
		return false, err
	}
	n, err := t.exec(`UPDATE join_codes SET used_at = ? WHERE code_hash = ? AND used_at = 0`, toMS(t.Now), hash)
	return n > 0, err
}

// CloseJoinCodes makes every open code void: only the one printed last counts.
func (t *Tx) CloseJoinCodes() error {
	_, err := t.exec(`UPDATE join_codes SET used_at = ? WHERE used_at = 0`, toMS(t.Now))
	return err
}

// SetAside keeps an update that could not be read.
func (t *Tx) SetAside(source string, id int64, raw string) error {
	_, err := t.exec(`INSERT INTO set_aside (source, update_id, read_at, raw) VALUES (?, ?, ?, ?) ON CONFLICT DO NOTHING`, source, id, toMS(t.Now), raw)
	return err
}

// CountAside is how many updates were set aside.
func (t *Tx) CountAside() (n int, err error) {
	_, err = t.one(`SELECT count(*) FROM set_aside`, nil, &n)
	return n, err
}

// FailedMessages are those the chat refused for good, newest first.
func (t *Tx) FailedMessages(limit int) ([]Message, error) {
	return all(t, scanMessage, `SELECT `+messageColumns+` FROM outbox WHERE state = 'failed' ORDER BY id DESC LIMIT ?`, limit)
}
