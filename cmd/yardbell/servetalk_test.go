package main

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
	"yardbell/store"
)

// hearing is a world whose group is claimed and heard in full.
func hearing(t *testing.T) *world {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.join()
	w.says(w.wren, "set zone America/Chicago")
	return w
}

// grafted is hearing with a batch on its way.
func grafted(t *testing.T) *world {
	w := hearing(t)
	for _, text := range []string{"add breeder 7", "add builder B2", "add yard North 40 nucs", "graft 45 from 7 into B2"} {
		w.says(w.wren, text)
	}
	return w
}

// chicago is a time in the month in which the clock of the double stands, in the zone of the crew.
func chicago(day, hour, minute int) time.Time {
	zone, err := time.LoadLocation("America/Chicago")
	if err != nil {
		panic(err)
	}
	return time.Date(2031, time.April, day, hour, minute, 0, 0, zone)
}

func TestServeLogs(t *testing.T) {
	w := hearing(t)
	w.says(w.wren, "add breeder 7")
	w.says(w.ash, "add builder B2")
	got := w.says(w.ash, "graft 45 from 7 into B2 at 7:00")
	assert.Contains(t, got.Text, "Batch 1: 45 grafted from breeder 7 into B2")
	assert.Equal(t, []string{"did add breeder 7 Wren", "did add builder B2 Ash", "did graft batch 1 45 Ash"}, w.book())
	// The answer hangs on what it answers.
	asked := 0
	got = w.answer(w.group, func() { asked = w.Say(w.group, w.odile, "due tomorrow") })
	assert.Equal(t, asked, got.ReplyTo)
	assert.Empty(t, w.Violations())
	assert.Empty(t, w.TooFast())
}

// What a message says happened when it was written, not when it was read.
func TestServeEventTime(t *testing.T) {
	w := hearing(t)
	w.says(w.wren, "add breeder 7")
	w.quit()
	said := w.clock.Now().Truncate(time.Second)
	w.Say(w.group, w.wren, "confine 7")
	w.clock.Advance(5 * time.Hour)
	n := len(w.Sent(w.group))
	w.serve()
	w.await("the answer", func() bool { return len(w.Sent(w.group)) > n })
	w.look(func(tx *store.Tx) error {
		crews, err := tx.Crews()
		require.NoError(t, err)
		book, err := tx.Logbook(crews[0].ID)
		last := book[len(book)-1]
		assert.True(t, last.Happened.Equal(said), "%s is not %s", last.Happened, said)
		return err
	})
}

// A ping is answered by its button; a second press does no harm; a press of a
// button that is not there changes nothing.
func TestServePressDone(t *testing.T) {
	w := grafted(t)
	n := len(w.Sent(w.group))
	w.pass(chicago(24, 19, 1))
	w.await("the evening ping", func() bool { return len(w.Sent(w.group)) > n })
	ping := w.Sent(w.group)[n]
	require.Contains(t, ping.Text, "Tomorrow: ")
	require.Equal(t, []string{"Done", "Mine", "Later", "Skip"}, ping.Labels())
	w.recorded(ping.ID)
	mine := w.answer(w.group, func() { w.Press(w.group, w.ash, ping.ID, "Mine") })
	assert.Contains(t, mine.Text, "Ash")
	n = len(w.Sent(w.group))
	w.pass(chicago(25, 9, 0))
	w.await("the morning list", func() bool { return len(w.Sent(w.group)) > n }) // it goes before answers
	done := w.answer(w.group, func() { w.Press(w.group, w.odile, ping.ID, "Done") })
	assert.Equal(t, ping.ID, done.ReplyTo)
	book := w.book()
	assert.Contains(t, book[len(book)-1], "did ")
	assert.Contains(t, book[len(book)-1], " Odile")
	n = len(book)
	w.answer(w.group, func() { w.PressData(w.group, w.odile, ping.ID, "1:00000000") })
	assert.Contains(t, w.answer(w.group, func() { w.PressData(w.group, w.odile, 99999, "1:00000000") }).Text, "out of date")
	assert.Len(t, w.book(), n)
	assert.Empty(t, w.Violations())
}

// A reply to a ping names its subject by itself.
func TestServeReply(t *testing.T) {
	w := grafted(t)
	n := len(w.Sent(w.group))
	w.pass(chicago(24, 19, 1))
	w.await("the evening ping", func() bool { return len(w.Sent(w.group)) > n })
	ping := w.Sent(w.group)[n]
	w.recorded(ping.ID)
	got := w.says(w.odile, "mine", apidouble.ReplyTo(ping.ID))
	assert.Contains(t, got.Text, "Odile")
	assert.Contains(t, strings.Join(w.book(), "\n"), "mine ")
}

// Changing a message changes what it logged, and says so; a change that is none in
// the words, or of a message from before the bot came, is passed over.
func TestServeEdit(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	early := w.Say(w.group, w.wren, "graft 12 from 7")
	w.join()
	w.says(w.wren, "add breeder 7")
	w.says(w.wren, "add builder B2")
	n := 0
	w.answer(w.group, func() { n = w.Say(w.group, w.wren, "graft 45 from 7 into B2") })
	got := w.answer(w.group, func() { w.Edit(w.group, w.wren, n, "graft 54 from 7 into B2") })
	assert.Contains(t, got.Text, "45")
	assert.Contains(t, got.Text, "54")
	book := w.book()
	assert.Equal(t, "amend graft batch 1 54 Wren", book[len(book)-1])
	talk := w.Say(w.group, w.ash, "what a day")
	w.silence(func() {
		w.Touch(w.group, n)
		w.Edit(w.group, w.ash, talk, "what a night")
		w.Edit(w.group, w.wren, early, "graft 13 from 7")
	})
	assert.Len(t, w.book(), len(book))
}

// In a group of people who talk, the bot keeps out of what is not for it.
func TestServeSilence(t *testing.T) {
	w := hearing(t)
	other := w.NewOtherBot("other_bot")
	w.AddMember(w.group, w.wren, other)
	w.silence(func() {
		w.Say(w.group, w.ash, "did anybody see the game?")
		w.Say(w.group, w.ash, "/due@other_bot")
		w.Say(w.group, other, "due")
		w.Say(w.group, w.ash, "/due@other_bot", apidouble.WithPhoto())
		w.React(w.group, w.ash, w.Say(w.group, w.wren, "nice"), "👍")
	})
	channel := w.NewChannel("News", w.wren)
	w.AddBot(channel, w.wren)
	w.silence(func() { w.Say(channel, w.wren, "due") })
	assert.Empty(t, w.Sent(channel))
	assert.NotEmpty(t, w.says(w.ash, "@yardbell_bot due").Text)
	assert.NotEmpty(t, w.says(w.ash, "🐝🐝 @Yardbell_bot due").Text)
}

// In a forum the bot keeps to the topic in which it was claimed, and answers where
// it is asked.
func TestServeForum(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.group = w.NewForum("Yard", w.wren, w.ash)
	w.AddBot(w.group, w.wren)
	queens := w.NewTopic(w.group, w.wren, "Queens")
	talk := w.NewTopic(w.group, w.wren, "Talk")
	w.serve()
	code := strings.TrimSpace(w.out.await(t, "join code: "))
	welcome := w.says(w.wren, "/join "+code, apidouble.InTopic(queens))
	assert.Equal(t, queens, welcome.Thread)
	assert.Equal(t, queens, w.answer(w.group, func() { w.Press(w.group, w.wren, welcome.ID, "America/Chicago") }).Thread)
	assert.Equal(t, talk, w.says(w.ash, "due", apidouble.InTopic(talk)).Thread)
	assert.Zero(t, w.says(w.ash, "due").Thread, "asked in the general topic")
	for _, text := range []string{"add breeder 7", "add builder B2", "graft 45 from 7 into B2"} {
		w.says(w.wren, text)
	}
	n := len(w.Sent(w.group))
	w.pass(chicago(24, 19, 1))
	w.await("the evening ping", func() bool { return len(w.Sent(w.group)) > n })
	assert.Equal(t, queens, w.Sent(w.group)[n].Thread, "pings go to the topic of the crew")
	assert.Empty(t, w.Violations())
}

// What the server sends twice is logged and answered once.
func TestServeRedelivery(t *testing.T) {
	w := grafted(t)
	book := w.book()
	w.silence(func() { w.Redeliver(6) })
	assert.Equal(t, book, w.book())
	// A week of silence: the server begins to number anew, lower or higher.
	w.SetNextUpdateID(17)
	w.says(w.wren, "add breeder 8")
	w.SetNextUpdateID(1 << 29)
	w.says(w.wren, "add breeder 9")
	assert.Len(t, w.book(), len(book)+2)
}

// A bad update is set aside; what stands behind it is read.
func TestServePoison(t *testing.T) {
	w := hearing(t)
	w.settled()
	bad := w.Poison()
	w.says(w.wren, "add breeder 7")
	w.look(func(tx *store.Tx) error {
		n, err := tx.CountAside()
		assert.Equal(t, 1, n)
		return err
	})
	assert.Contains(t, w.err.String(), "set aside")
	assert.NotZero(t, bad)
	assert.Zero(t, w.Pending())
}

func TestServeLongText(t *testing.T) {
	w := hearing(t)
	// A list that is too long for one message comes in several, the buttons under the
	// last. Nothing the bot says by itself is that long, so it is put in its outbox.
	line := strings.Repeat("é", 90)
	text := strings.TrimSpace(strings.Repeat(line+"\n", 100))
	w.quit()
	db, err := store.Open(t.Context(), w.db, store.Options{})
	require.NoError(t, err)
	require.NoError(t, db.Update(t.Context(), w.clock.Now(), func(tx *store.Tx) error {
		return tx.Queue(store.Message{Crew: 1, Key: "test/long", Kind: "reply", Text: text, Buttons: []store.Button{{Label: "More", Do: "more"}}})
	}))
	require.NoError(t, db.Close())
	n := len(w.Sent(w.group))
	w.clock.Advance(time.Minute) // a new process does not know what the old one sent
	w.serve()
	w.await("three pieces", func() bool { return len(w.Sent(w.group)) == n+3 })
	sent := w.Sent(w.group)[n:]
	assert.Equal(t, text, sent[0].Text+"\n"+sent[1].Text+"\n"+sent[2].Text)
	assert.Empty(t, sent[0].Labels())
	assert.Equal(t, []string{"More"}, sent[2].Labels())
	w.recorded(sent[2].ID)
	assert.NotEmpty(t, w.answer(w.group, func() { w.Press(w.group, w.wren, sent[2].ID, "More") }).Text)
}
