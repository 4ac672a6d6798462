package bot

import (
	"context"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/conversation"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// signing is a scene on which messages are noticed, committed and looked at.
type signing struct {
	*scene
	t *testing.T
}

func newSigning(t *testing.T, context string) signing {
	return signing{playScene(t, filepath.Join(utterances, "contexts", context+".txt")), t}
}

// does takes in an update, acts on it in a way, and finishes it.
func (s signing) does(in Incoming, act func(*conversation.Scene) (conversation.Answer, error)) conversation.Answer {
	s.t.Helper()
	s.last = in.UpdateID
	var got conversation.Answer
	require.NoError(s.t, s.db.Update(context.Background(), s.now, func(tx *store.Tx) error {
		sc, fresh, err := s.bot.begin(tx, in)
		require.True(s.t, fresh)
		if err != nil {
			return err
		}
		if got, err = act(sc); err != nil {
			return err
		}
		got, err = finish(tx, sc, got)
		return err
	}))
	return got
}

func justNotice(*conversation.Scene) (ans conversation.Answer, err error) {
	ans.Notice()
	return ans, nil
}

// notices gives a message nothing but the sign.
func (s signing) notices(who, text string) (message int64, got conversation.Answer) {
	s.t.Helper()
	in := s.incoming(who, text)
	return in.Message, s.does(in, justNotice)
}

func (s signing) rows() (list []store.Message) {
	s.t.Helper()
	require.NoError(s.t, s.db.View(context.Background(), s.now, func(tx *store.Tx) (err error) {
		list, err = tx.Outbox(s.crew.ID)
		return err
	}))
	return list
}

// row is the newest row of a kind, to a message where that is given.
func (s signing) row(ping rules.PingKind, message int64) (m store.Message, found bool) {
	for _, r := range s.rows() {
		if r.Ping == ping && (message == 0 || r.Edits == message) {
			m, found = r, true
		}
	}
	return m, found
}

func (s signing) outcome(message int64) string {
	s.t.Helper()
	var u store.Update
	require.NoError(s.t, s.db.View(context.Background(), s.now, func(tx *store.Tx) (err error) {
		u, _, err = tx.LastOfMessage(s.crew.ID, message)
		return err
	}))
	return u.Outcome
}

// sent says that a row went out.
func (s signing) sent(m store.Message, number int64) {
	s.t.Helper()
	require.NoError(s.t, s.db.Update(context.Background(), s.now, func(tx *store.Tx) error {
		list, err := tx.Claim([]int64{m.ID})
		if err != nil {
			return err
		}
		_, err = tx.MarkSent(list[0], number, m.Text, m.Buttons, "due")
		return err
	}))
}

// The sign is all that a message gets: one row beside the conversation, behind every other,
// and the list of the evening.
func TestNotice(t *testing.T) {
	s := newSigning(t, "plain")
	before := len(s.rows())
	message, _ := s.notices("Wren", "the B1 thing is sorted")
	rows := s.rows()[before:]
	require.Len(t, rows, 2)
	assert.Equal(t, store.Notice, s.outcome(message))
	sign, found := s.row(store.Sign, message)
	require.True(t, found)
	assert.Equal(t, store.Mark, sign.Priority)
	assert.Empty(t, sign.Text)
	assert.True(t, sign.Aside())
	list, found := s.row(store.Seen, 0)
	require.True(t, found)
	assert.Equal(t, "seen/2031-05-05", list.Key)
	assert.Equal(t, time.Date(2031, 5, 5, 19, 0, 0, 0, s.zone).UTC(), list.Due.UTC())
	assert.Equal(t, "notice", wording.Render(store.Outgoing{Crew: s.crew, Settings: rules.DefaultSettings(), Messages: []store.Message{sign}, Now: s.now}).Kind)
	// A second one is listed together with the first; one after the list in that of the next day.
	s.notices("Rowan", "and B2 as well")
	s.now = time.Date(2031, 5, 5, 21, 0, 0, 0, s.zone)
	s.notices("Rowan", "one more with B2")
	keys := []string{}
	for _, m := range s.rows()[before:] {
		if m.Ping == store.Seen {
			keys = append(keys, m.Key)
		}
	}
	assert.Equal(t, []string{"seen/2031-05-05", "seen/2031-05-06"}, keys)
}

// What was said to the bot, and what carries no number of a message, is answered in words.
func TestNoticeInWords(t *testing.T) {
	s := newSigning(t, "plain")
	for _, with := range []func(*Incoming){
		func(in *Incoming) { in.Addressed = true },
		func(in *Incoming) { in.Message = 0 },
	} {
		in := s.incoming("Wren", "the B1 thing is sorted")
		with(&in)
		got := s.does(in, justNotice)
		assert.Equal(t, "error", got.Kind)
		assert.NotEmpty(t, got.Lines)
	}
	_, found := s.row(store.Sign, 0)
	assert.False(t, found)
}

// Where a critical window closes soon the sign would be overlooked: it is asked in words.
// No button stands there, since it would lose the count.
func TestNoticeWhereADeadlineHangs(t *testing.T) {
	s := newSigning(t, "ripe")
	message, got := s.notices("Rowan", "took them over, all good")
	assert.Equal(t, "ask", s.outcome(message))
	_, found := s.row(store.Sign, message)
	assert.False(t, found)
	text := strings.Join(got.Lines, "\n")
	assert.Contains(t, text, "Move cells, batch 1: due by today 10:00.")
	assert.Contains(t, text, "moved 34 to North")
	assert.Empty(t, got.Buttons)
	assert.Empty(t, got.Logged)
	// Twelve hours before the close it is enough, and so it is a day after.
	for _, h := range []time.Duration{-11 * time.Hour, 26 * time.Hour} {
		s := newSigning(t, "ripe")
		s.now = s.now.Add(h)
		message, _ := s.notices("Rowan", "took them over, all good")
		assert.Equal(t, store.Notice, s.outcome(message), "%s", h)
	}

}

// Logged later, by a change of the message, the sign goes: what has not gone yet is
// cancelled, what stands in the chat is taken away.
func TestSignGoesWhenLogged(t *testing.T) {
	for _, stands := range []bool{false, true} {
		s := newSigning(t, "plain")
		message, _ := s.notices("Wren", "7 is shut in")
		sign, _ := s.row(store.Sign, message)
		if stands {
			s.sent(sign, 0)
		}
		in := s.incoming("Wren", "confine 7 red")
		in.Kind, in.Message = "edit", message
		got := s.does(in, (*conversation.Scene).Run)
		require.Len(t, got.Logged, 1)
		assert.Equal(t, "logged", s.outcome(message))
		off, found := s.row(store.Unsign, message)
		assert.Equal(t, stands, found)
		if stands {
			assert.Equal(t, store.Mark, off.Priority)
		} else {
			sign, _ = s.row(store.Sign, message)
			assert.Equal(t, "cancelled", sign.State)
		}
		require.NoError(t, s.db.View(context.Background(), s.now, func(tx *store.Tx) error {
			left, err := tx.Unlogged(s.crew.ID, sign.Day)
			assert.Empty(t, left)
			return err
		}))
	}
}

// Changed and not read again, it is listed once, in its words of now; changed into talk it
// is listed no more.
func TestSignFollowsChanges(t *testing.T) {
	s := newSigning(t, "plain")
	message, _ := s.notices("Wren", "B1 thing sorted")
	edit := s.incoming("Wren", "B1 thing sorted out")
	edit.Kind, edit.Message = "edit", message
	s.does(edit, justNotice)
	listed := func() (texts []string) {
		require.NoError(t, s.db.View(context.Background(), s.now, func(tx *store.Tx) error {
			left, err := tx.Unlogged(s.crew.ID, "2031-05-05")
			for _, u := range left {
				texts = append(texts, u.Text)
			}
			return err
		}))
		return texts
	}
	assert.Equal(t, []string{"B1 thing sorted out"}, listed())
	edit = s.incoming("Wren", "what a day")
	edit.Kind, edit.Message = "edit", message
	s.does(edit, (*conversation.Scene).Run)
	assert.Empty(t, listed())
}

// Who replies to a message that carries the sign is told what was not read. A reply that
// says it by itself is logged, and the sign goes.
func TestReplyBeneathTheSign(t *testing.T) {
	s := newSigning(t, "plain")
	message, _ := s.notices("Wren", "flurb the B1 thing")
	sign, _ := s.row(store.Sign, message)
	s.sent(sign, 0)
	why := s.incoming("Ash", "why?")
	why.Beneath = message
	got := s.does(why, (*conversation.Scene).Run)
	require.NotEmpty(t, got.Lines)
	assert.Equal(t, `"flurb the B1 thing"`, got.Lines[0])
	assert.Contains(t, []string{"error", "ask"}, got.Kind)
	assert.Empty(t, got.Logged)
	assert.Equal(t, store.Notice, s.outcome(message), "it is still not logged")

	due := s.incoming("Ash", "due")
	due.Beneath, due.Addressed = message, true
	assert.Contains(t, s.does(due, (*conversation.Scene).Run).Lines[0], "Nothing", "a command is one wherever it stands")
	clear := s.incoming("Wren", "confine 7 red")
	clear.Beneath = message
	got = s.does(clear, (*conversation.Scene).Run)
	require.Len(t, got.Logged, 1)
	assert.Equal(t, "logged", s.outcome(message))
	_, found := s.row(store.Unsign, message)
	assert.True(t, found)
	// And a reply beneath anything else is nobody's question.
	other := s.incoming("Ash", "and then?")
	other.Beneath = clear.Message
	assert.True(t, s.does(other, (*conversation.Scene).Run).Silent)
}

// What the message is read as by now is offered, word for word, and logged only by the tap:
// by whom and when it was written.
func TestExplainOffersAndTheTapLogs(t *testing.T) {
	s := newSigning(t, "plain")
	message, _ := s.notices("Wren", "confine 7 red")
	sign, _ := s.row(store.Sign, message)
	s.sent(sign, 0)
	written := s.now
	s.now = s.now.Add(10 * time.Hour)
	why := s.incoming("Ash", "?")
	why.Beneath = message
	got := s.does(why, (*conversation.Scene).Run)
	assert.Empty(t, got.Logged)
	assert.Equal(t, "ask", got.Kind)
	assert.Contains(t, got.Lines[1], "Got: confine breeder 7, red pin. Log it?")
	assert.Equal(t, []string{"Log it", "Leave it"}, []string{got.Buttons[0].Label, got.Buttons[1].Label})
	answer := s.rows()[len(s.rows())-1]
	s.sent(answer, 900)
	press := s.incoming("Ash", "Log it")
	press.Kind, press.Message = "press", 900
	got = s.does(press, (*conversation.Scene).Run)
	require.Len(t, got.Logged, 1)
	assert.Equal(t, "Wren", got.Logged[0].By)
	assert.True(t, got.Logged[0].Happened.Equal(written), got.Logged[0].Happened)
	assert.Equal(t, "logged", s.outcome(message))
}

// The list of the evening: five at most, quoted short, a button for each, which logs
// nothing and may be pressed one after the other.
func TestUnloggedList(t *testing.T) {
	s := newSigning(t, "plain")
	for _, text := range []string{"confine 7 red", strings.Repeat("long words about B1 ", 8), "three", "four", "five", "six"} {
		s.notices("Wren", text)
	}
	var list []store.Unlogged
	require.NoError(t, s.db.View(context.Background(), s.now, func(tx *store.Tx) error {
		left, err := tx.Unlogged(s.crew.ID, "2031-05-05")
		for _, u := range left {
			list = append(list, store.Unlogged{Name: "Wren", Update: u})
		}
		return err
	}))
	m, _ := s.row(store.Seen, 0)
	settings := rules.DefaultSettings()
	settings.Zone = s.zone
	settings.Lang = "en+es"
	d := wording.Render(store.Outgoing{Crew: s.crew, Settings: settings, Messages: []store.Message{m}, Unlogged: list, Now: s.now})
	assert.Equal(t, "ask", d.Kind)
	assert.True(t, strings.HasPrefix(d.Text, "Seen, not logged:\n1. Wren today 10:00: \"confine 7 red\"\n2. "), d.Text)
	assert.Contains(t, d.Text, "… and 1 more.")
	assert.Contains(t, d.Text, "Visto, no anotado:")
	assert.NotContains(t, d.Text, "six")
	require.Len(t, d.Buttons, 5)
	m.Buttons = d.Buttons
	s.sent(m, 901)
	for i := range 2 {
		press := s.incoming("Ash", d.Buttons[i].Label)
		press.Kind, press.Message = "press", 901
		got := s.does(press, (*conversation.Scene).Run)
		assert.Empty(t, got.Logged)
		assert.Equal(t, `"`+wording.Quoted(list[i].Update.Text)+`"`, got.Lines[0])
	}
}

// A thumb on a ping says that it was read: it is asked who goes, once, and nothing is
// logged. On anything else it says nothing.
func TestThumbOnAPing(t *testing.T) {
	s := newSigning(t, "ripe")
	ping, found := s.target("move")
	require.True(t, found)
	thumb := func(who string, message int64) conversation.Answer {
		in := s.incoming(who, "")
		in.Kind, in.Message = "thumb", message
		return s.does(in, (*conversation.Scene).Run)
	}
	got := thumb("Wren", ping.Message)
	assert.Equal(t, "ask", got.Kind)
	assert.Empty(t, got.Logged)
	require.Len(t, got.Buttons, 2)
	assert.Equal(t, []string{"I'm on it", "Done"}, []string{got.Buttons[0].Label, got.Buttons[1].Label})
	assert.True(t, thumb("Rowan", ping.Message).Silent, "the question stands there already")
	for _, m := range s.out {
		if m.Ping == "" {
			assert.True(t, thumb("Rowan", m.Message).Silent)
			break
		}
	}
	assert.True(t, thumb("Rowan", 4711).Silent)
	answer := s.rows()[len(s.rows())-1]
	s.sent(answer, 902)
	press := s.incoming("Wren", "I'm on it")
	press.Kind, press.Message = "press", 902
	got = s.does(press, (*conversation.Scene).Run)
	require.Len(t, got.Logged, 1)
	assert.Equal(t, rules.Mine, got.Logged[0].Action)
}
