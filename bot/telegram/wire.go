package telegram

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf16"

	"yardbell/bot"
)

// The parts of an update that we read. The library's own types lack topics and
// newer fields, so these are ours; names are the Bot API's.

type user struct {
	ID       int64  `json:"id"`
	IsBot    bool   `json:"is_bot"`
	First    string `json:"first_name"`
	Last     string `json:"last_name"`
	Username string `json:"username"`
	Language string `json:"language_code"`
	ReadsAll bool   `json:"can_read_all_group_messages"`
}

func (u user) name() string {
	n := strings.TrimSpace(u.First + " " + u.Last)
	if n == "" {
		n = u.Username
	}
	if n == "" {
		n = fmt.Sprintf("user %d", u.ID)
	}
	return n
}

type chat struct {
	ID    int64  `json:"id"`
	Type  string `json:"type"`
	Title string `json:"title"`
}

func (c chat) group() bool { return c.Type == "group" || c.Type == "supergroup" }

type entity struct {
	Type   string `json:"type"`
	Offset int    `json:"offset"` // UTF-16 units
	Length int    `json:"length"`
}

type message struct {
	ID          int64    `json:"message_id"`
	Thread      int64    `json:"message_thread_id"`
	Topic       bool     `json:"is_topic_message"`
	From        *user    `json:"from"`
	SenderChat  *chat    `json:"sender_chat"` // a channel, or the group itself for an anonymous administrator
	Origin      any      `json:"forward_origin"`
	ForwardDate int64    `json:"forward_date"`         // servers of before forward_origin
	AutoForward bool     `json:"is_automatic_forward"` // of the channel that the group belongs to
	Chat        chat     `json:"chat"`
	Date        int64    `json:"date"`
	EditDate    int64    `json:"edit_date"`
	Text        string   `json:"text"`
	Caption     string   `json:"caption"`
	Entities    []entity `json:"entities"`
	Marks       []entity `json:"caption_entities"`
	Photo       []size   `json:"photo"`
	Album       string   `json:"media_group_id"`
	ReplyTo     *message `json:"reply_to_message"`
	Came        []user   `json:"new_chat_members"`
	Left        *user    `json:"left_chat_member"`
	MigrateTo   int64    `json:"migrate_to_chat_id"`
	MigrateFrom int64    `json:"migrate_from_chat_id"`
	Pinned      *struct {
		ID int64 `json:"message_id"`
	} `json:"pinned_message"`
}

// size is one of the sizes that the server has of a photo.
type size struct {
	File   string `json:"file_id"`
	Width  int64  `json:"width"`
	Height int64  `json:"height"`
}

// photo names the largest size of a message's photo, "" where it carries none.
func (m *message) photo() string {
	var best size
	for _, s := range m.Photo {
		if s.File != "" && (best.File == "" || s.Width*s.Height > best.Width*best.Height) {
			best = s
		}
	}
	return best.File
}

// forwarded reports whether somebody passes on what was written elsewhere.
func (m *message) forwarded() bool { return m.Origin != nil || m.ForwardDate != 0 }

// hidden reports whether it was written in the name of a group or a channel: who wrote it
// does not show, and its sender is a bot of the chat's own.
func (m *message) hidden() bool { return m.SenderChat != nil && m.Chat.group() && !m.AutoForward }

// words of a message: its text, or the caption of what it carries.
func (m *message) words() string {
	if m.Text != "" {
		return m.Text
	}
	return m.Caption
}

type callback struct {
	ID      string   `json:"id"`
	From    user     `json:"from"`
	Message *message `json:"message"`
	Data    string   `json:"data"`
}

type memberUpdate struct {
	Chat chat       `json:"chat"`
	From user       `json:"from"`
	Date int64      `json:"date"`
	New  chatMember `json:"new_chat_member"`
}

// chatMember says what somebody may do in a chat.
type chatMember struct {
	Status    string `json:"status"`
	CanSend   *bool  `json:"can_send_messages"`
	IsIn      *bool  `json:"is_member"`
	CanPin    bool   `json:"can_pin_messages"`
	CanDelete bool   `json:"can_delete_messages"`
	User      user   `json:"user"`
}

// standing is what a chat lets the bot do: "open", "muted", "gone".
func (m chatMember) standing() string {
	switch m.Status {
	case "left", "kicked":
		return "gone"
	case "restricted":
		if m.IsIn != nil && !*m.IsIn {
			return "gone"
		}
		if m.CanSend != nil && !*m.CanSend {
			return "muted"
		}
	}
	return "open"
}

// rights of the bot beyond writing, as the store has them. Only an administrator's
// count: what every member of a group may do nobody tells the bot.
func (m chatMember) rights() string {
	if m.Status != "administrator" {
		return "member"
	}
	r := "admin"
	if m.CanPin {
		r += " pin"
	}
	if m.CanDelete {
		r += " delete"
	}
	return r
}

type update struct {
	ID       int64         `json:"update_id"`
	Message  *message      `json:"message"`
	Edited   *message      `json:"edited_message"`
	Callback *callback     `json:"callback_query"`
	Member   *memberUpdate `json:"my_chat_member"`
	Reaction *reacted      `json:"message_reaction"`
}

// reacted tells that the reactions of one person on a message have changed. A bot gets it
// where it is an administrator. User is missing where the group itself reacts.
type reacted struct {
	Chat chat       `json:"chat"`
	ID   int64      `json:"message_id"`
	User *user      `json:"user"`
	Date int64      `json:"date"`
	Old  []reaction `json:"old_reaction"`
	New  []reaction `json:"new_reaction"`
}

type reaction struct {
	Type  string `json:"type"`
	Emoji string `json:"emoji"`
}

func (r reaction) thumb() bool { return r.Type == "emoji" && bot.ThumbsUp(r.Emoji) }

// thumb reports whether a thumb was put there now.
func (r *reacted) thumb() bool {
	return slices.ContainsFunc(r.New, reaction.thumb) && !slices.ContainsFunc(r.Old, reaction.thumb)
}

// plain reports whether an update is what somebody wrote, and nothing has to be asked of
// the server or told by itself before it is handled.
func (u update) plain() bool {
	switch m := u.Message; {
	case u.Callback != nil || u.Member != nil:
		return false
	case m == nil:
		return u.Edited != nil
	default:
		return m.Pinned == nil && m.MigrateTo == 0 && m.MigrateFrom == 0 && m.Left == nil && len(m.Came) == 0
	}
}

// decode reads one update alone. The id comes back even where the rest cannot be
// read, so that a bad one can be set aside and passed.
func decode(raw json.RawMessage) (u update, err error) {
	if err = json.Unmarshal(raw, &u); err == nil {
		if u.ID == 0 {
			return u, errors.New("update without a number")
		}
		return u, nil
	}
	var only struct {
		ID int64 `json:"update_id"`
	}
	_ = json.Unmarshal(raw, &only)
	return update{ID: only.ID}, err
}

// cut takes an entity out of a text by UTF-16 units, as the Bot API counts;
// "" where it lies outside.
func cut(text string, e entity) string {
	u := utf16.Encode([]rune(text))
	if e.Offset < 0 || e.Length < 0 || e.Offset > len(u) || e.Length > len(u)-e.Offset {
		return ""
	}
	return string(utf16.Decode(u[e.Offset : e.Offset+e.Length]))
}

// entities of the words: those of the text, or of the caption.
func (m *message) entities() []entity {
	if m.Text != "" {
		return m.Entities
	}
	return m.Marks
}

// forOther reports whether a message is a command meant for another bot.
func (m *message) forOther(me string) bool {
	for _, e := range m.entities() {
		if e.Type != "bot_command" || e.Offset != 0 {
			continue
		}
		if _, to, ok := strings.Cut(cut(m.words(), e), "@"); ok && !strings.EqualFold(to, me) {
			return true
		}
	}
	return false
}

// plain gives the words without the bot's own name in them, and whether it was
// there: "@yardbell_bot due" and "/due@yardbell_bot" both say "due".
func (m *message) plain(me string) (text string, named bool) {
	text = m.words()
	u := utf16.Encode([]rune(text))
	// From the back, so that what was cut does not move what is still to be cut.
	list := slices.Clone(m.entities())
	slices.SortFunc(list, func(a, b entity) int { return cmp.Compare(b.Offset, a.Offset) })
	end := len(u)
	for _, e := range list {
		said := cut(text, e)
		head, to, found := strings.Cut(said, "@")
		ours := e.Type == "mention" && head == "" || e.Type == "bot_command"
		if !ours || !found || !strings.EqualFold(to, me) || e.Offset+e.Length > end {
			continue
		}
		from := e.Offset + len(utf16.Encode([]rune(head)))
		u = slices.Concat(u[:from], []uint16{' '}, u[e.Offset+e.Length:])
		end, named = e.Offset, true
	}
	if named {
		text = strings.TrimSpace(string(utf16.Decode(u)))
	}
	return text, named
}
