package apidouble

import (
	"encoding/json"
	"time"
)

// The types here are answers and updates as they go over the wire; names and
// required fields as in the spec, which the tests of this package hold them against.

type wireUser struct {
	ID           int64  `json:"id"`
	IsBot        bool   `json:"is_bot"`
	FirstName    string `json:"first_name"`
	LastName     string `json:"last_name,omitempty"`
	Username     string `json:"username,omitempty"`
	LanguageCode string `json:"language_code,omitempty"`
}

type wireMe struct {
	wireUser
	CanJoinGroups           bool `json:"can_join_groups"`
	CanReadAllGroupMessages bool `json:"can_read_all_group_messages"`
	SupportsInlineQueries   bool `json:"supports_inline_queries"`
}

type wireChat struct {
	ID        int64  `json:"id"`
	Type      kind   `json:"type"`
	Title     string `json:"title,omitempty"`
	Username  string `json:"username,omitempty"`
	FirstName string `json:"first_name,omitempty"`
	LastName  string `json:"last_name,omitempty"`
	IsForum   bool   `json:"is_forum,omitempty"`
}

type wireMessage struct {
	MessageID       int             `json:"message_id"`
	MessageThreadID int             `json:"message_thread_id,omitempty"`
	From            *wireUser       `json:"from,omitempty"`
	SenderChat      *wireChat       `json:"sender_chat,omitempty"`
	ForwardOrigin   *wireOrigin     `json:"forward_origin,omitempty"`
	Date            int64           `json:"date"`
	Chat            wireChat        `json:"chat"`
	IsTopicMessage  bool            `json:"is_topic_message,omitempty"`
	ReplyToMessage  *wireMessage    `json:"reply_to_message,omitempty"`
	EditDate        int64           `json:"edit_date,omitempty"`
	MediaGroupID    string          `json:"media_group_id,omitempty"`
	Text            string          `json:"text,omitempty"`
	Entities        []Entity        `json:"entities,omitempty"`
	Photo           []wirePhoto     `json:"photo,omitempty"`
	Document        *wireDocument   `json:"document,omitempty"`
	Caption         string          `json:"caption,omitempty"`
	CaptionEntities []Entity        `json:"caption_entities,omitempty"`
	ReplyMarkup     json.RawMessage `json:"reply_markup,omitempty"`
	*service
}

// wireOrigin is a MessageOriginHiddenUser: where a forwarded message comes from is not told.
type wireOrigin struct {
	Type           string `json:"type"`
	Date           int64  `json:"date"`
	SenderUserName string `json:"sender_user_name"`
}

// service is the part that only service messages have.
type service struct {
	NewChatMembers     []wireUser    `json:"new_chat_members,omitempty"`
	LeftChatMember     *wireUser     `json:"left_chat_member,omitempty"`
	NewChatTitle       string        `json:"new_chat_title,omitempty"`
	GroupChatCreated   bool          `json:"group_chat_created,omitempty"`
	MigrateToChatID    int64         `json:"migrate_to_chat_id,omitempty"`
	MigrateFromChatID  int64         `json:"migrate_from_chat_id,omitempty"`
	PinnedMessage      *wireMessage  `json:"pinned_message,omitempty"`
	ForumTopicCreated  *topicCreated `json:"forum_topic_created,omitempty"`
	ForumTopicClosed   *struct{}     `json:"forum_topic_closed,omitempty"`
	ForumTopicReopened *struct{}     `json:"forum_topic_reopened,omitempty"`
}

type topicCreated struct {
	Name      string `json:"name"`
	IconColor int    `json:"icon_color"`
}

type wirePhoto struct {
	FileID       string `json:"file_id"`
	FileUniqueID string `json:"file_unique_id"`
	Width        int    `json:"width"`
	Height       int    `json:"height"`
	FileSize     int    `json:"file_size,omitempty"`
}

type wireDocument struct {
	FileID       string `json:"file_id"`
	FileUniqueID string `json:"file_unique_id"`
	FileName     string `json:"file_name,omitempty"`
	MimeType     string `json:"mime_type,omitempty"`
	FileSize     int    `json:"file_size,omitempty"`
}

type wireCallback struct {
	ID           string   `json:"id"`
	From         wireUser `json:"from"`
	Message      any      `json:"message,omitempty"`
	ChatInstance string   `json:"chat_instance"`
	Data         string   `json:"data,omitempty"`
}

// wireInaccessible is a message the server no longer shows; its date is always 0 (spec).
type wireInaccessible struct {
	Chat      wireChat `json:"chat"`
	MessageID int      `json:"message_id"`
	Date      int64    `json:"date"`
}

type wireMemberUpdate struct {
	Chat          wireChat       `json:"chat"`
	From          wireUser       `json:"from"`
	Date          int64          `json:"date"`
	OldChatMember map[string]any `json:"old_chat_member"`
	NewChatMember map[string]any `json:"new_chat_member"`
}

func (u *User) wire() wireUser {
	return wireUser{u.ID, u.Bot, u.FirstName, u.LastName, u.Username, u.Language}
}

func (c *chat) wire() wireChat {
	w := wireChat{ID: c.id, Type: c.kind, Title: c.title, IsForum: c.forum}
	if u := c.user; u != nil {
		w.FirstName, w.LastName, w.Username = u.FirstName, u.LastName, u.Username
	}
	return w
}

// wire is a message with the one it replies to, but not what that one replied to:
// the nesting is one deep (spec: Message.reply_to_message).
func (m *message) wire() *wireMessage {
	w := m.wireAlone()
	if m.replyTo != nil && !m.replyTo.deleted {
		w.ReplyToMessage = m.replyTo.wireAlone()
	}
	return w
}

func (m *message) wireAlone() *wireMessage {
	w := &wireMessage{
		MessageID: m.id, MessageThreadID: m.thread, IsTopicMessage: m.topic,
		Date: m.date.Unix(), Chat: m.chat.wire(), service: m.service,
	}
	if m.from != nil {
		from := m.from.wire()
		w.From = &from
	} else {
		sender := m.chat.wire()
		w.SenderChat = &sender
	}
	if m.as != nil {
		sender := m.as.wire()
		w.SenderChat = &sender
	}
	if m.passedOn {
		w.ForwardOrigin = &wireOrigin{"hidden_user", m.date.Add(-time.Hour).Unix(), "Somebody"}
	}
	if !m.edited.IsZero() {
		w.EditDate = m.edited.Unix()
	}
	if m.markup != "" {
		w.ReplyMarkup = json.RawMessage(m.markup)
	}
	switch f := m.file; {
	case f == nil:
		w.Text, w.Entities = m.text, m.entities
	case f.Photo:
		// The sizes come in no order that the spec states. A thumbnail is no file to send
		// again in its full size, so its id stands for nothing here.
		w.Photo = []wirePhoto{{f.ID, "u" + f.ID, f.Width, f.Height, len(f.Data)}, {f.ID + "thumb", "u" + f.ID + "thumb", f.Width / 8, f.Height / 8, 0}}
		w.MediaGroupID = m.album
		w.Caption, w.CaptionEntities = m.text, m.entities
	default:
		w.Document = &wireDocument{f.ID, "u" + f.ID, f.Name, f.Mime, len(f.Data)}
		w.Caption, w.CaptionEntities = m.text, m.entities
	}
	return w
}

// The rights that a ChatMemberAdministrator or ChatMemberRestricted must list (spec).
var (
	adminRights = []string{
		"can_be_edited", "can_manage_chat", "can_delete_messages", "can_manage_video_chats",
		"can_restrict_members", "can_promote_members", "can_change_info", "can_invite_users",
		"can_post_stories", "can_edit_stories", "can_delete_stories",
	}
	restrictedRights = []string{
		"can_send_messages", "can_send_audios", "can_send_documents", "can_send_photos",
		"can_send_videos", "can_send_video_notes", "can_send_voice_notes", "can_send_polls",
		"can_send_other_messages", "can_add_web_page_previews", "can_react_to_messages",
		"can_edit_tag", "can_change_info", "can_invite_users", "can_pin_messages", "can_manage_topics",
	}
)

// wire is a ChatMember: which fields depends on the status.
func (m *member) wire(u *User) map[string]any {
	w := map[string]any{"status": m.status, "user": u.wire()}
	switch m.status {
	case "creator":
		w["is_anonymous"] = false
	case "administrator":
		w["is_anonymous"] = false
		for _, r := range adminRights {
			w[r] = false
		}
		w["can_manage_chat"] = true
		for _, r := range m.rights {
			w[r] = true
		}
	case "restricted":
		w["is_member"], w["until_date"] = true, 0
		for _, r := range restrictedRights {
			w[r] = false
		}
	case "kicked":
		w["until_date"] = 0
	}
	return w
}
