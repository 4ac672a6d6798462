package main

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
	"yardbell/store"
)

func TestServeLead(t *testing.T) {
	w := grafted(t)
	assert.Contains(t, w.says(w.ash, "set evening 20:00").Text, "Only the lead (Wren) can do that")
	w.says(w.odile, "due")
	assert.Contains(t, w.says(w.ash, "remove Odile").Text, "Only the lead (Wren) can do that")
	// One's own lines everybody takes back, those of others the lead.
	book := len(w.book())
	echo := w.says(w.ash, "add breeder 9")
	assert.Contains(t, w.says(w.odile, "undo", apidouble.ReplyTo(echo.ID)).Text, "Only the lead (")
	assert.Len(t, w.book(), book+1)
	w.says(w.wren, "undo", apidouble.ReplyTo(echo.ID))
	assert.Len(t, w.book(), book+2)
	// Handing over.
	assert.Contains(t, w.says(w.wren, "make Ash lead").Text, "Ash leads now")
	assert.Contains(t, w.says(w.wren, "set evening 20:00").Text, "Only the lead (Ash) can do that")
	assert.Contains(t, w.says(w.ash, "set evening 20:00").Text, "20:00")
	assert.Contains(t, w.says(w.ash, "remove Ash").Text, "hand over first")
}

// Who is taken off the crew is not heard any more, in the group or in private; who
// comes into the group anew is.
func TestServeRemove(t *testing.T) {
	w := grafted(t)
	w.says(w.ash, "add breeder 9")
	assert.NotEmpty(t, w.answer(w.ash, func() { w.Say(w.ash, w.ash, "due") }).Text)
	assert.Contains(t, w.says(w.wren, "remove Ash").Text, "Ash is off the crew")
	book := w.book()
	w.silence(func() {
		w.Say(w.group, w.ash, "capped 36")
		w.Say(w.group, w.ash, "/due@yardbell_bot")
		w.Say(w.ash, w.ash, "due")
	})
	assert.Equal(t, book, w.book(), "what was logged stays, nothing is added")
	w.RemoveMember(w.group, w.wren, w.ash)
	w.AddMember(w.group, w.wren, w.ash)
	w.settled()
	assert.NotEmpty(t, w.says(w.ash, "due").Text)
}

// Somebody who leaves the group is off the crew; where the lead goes, the next leads.
func TestServeLeaves(t *testing.T) {
	w := grafted(t)
	w.says(w.ash, "due")
	w.says(w.odile, "due")
	w.answer(w.odile, func() { w.Say(w.odile, w.odile, "due") })
	w.RemoveMember(w.group, w.odile, w.odile)
	w.silence(func() { w.Say(w.odile, w.odile, "due") })
	got := w.answer(w.group, func() { w.RemoveMember(w.group, w.wren, w.wren) })
	assert.Equal(t, "Ash leads now.", got.Text)
	assert.Contains(t, w.says(w.ash, "set evening 20:00").Text, "20:00")
}

// People are called by their first name, unless two have it.
func TestServeNames(t *testing.T) {
	w := hearing(t)
	lee := w.NewUserLike(apidouble.User{FirstName: "Ines", LastName: "Lee"})
	poe := w.NewUserLike(apidouble.User{FirstName: "Ines", LastName: "Poe"})
	w.AddMember(w.group, w.wren, lee)
	w.settled()
	w.says(lee, "due")
	assert.Contains(t, w.says(w.wren, "make Ines lead").Text, "Ines Lee leads now")
	w.AddMember(w.group, w.wren, poe)
	w.settled()
	w.says(poe, "due")
	assert.Contains(t, w.says(lee, "make Ines lead").Text, "Two people here are called Ines")
	assert.Contains(t, w.says(lee, "make Ines Poe lead").Text, "Ines Poe leads now")
}

// A message that is passed on is not the deed of who passes it on.
func TestServeForwarded(t *testing.T) {
	w := grafted(t)
	book := w.book()
	got := w.says(w.wren, "accepted 38", apidouble.Forwarded())
	assert.Contains(t, got.Text, "Forwarded, so not logged")
	w.silence(func() {
		w.Say(w.group, w.wren, "capped 36", apidouble.Forwarded())
		w.Say(w.group, w.wren, "lunch at noon?", apidouble.Forwarded())
	})
	assert.Equal(t, book, w.book())
	assert.Contains(t, w.answer(w.wren, func() { w.Say(w.wren, w.wren, "due", apidouble.Forwarded()) }).Text, "batch 1", "a question is a question")
	w.clock.Advance(time.Hour)
	assert.Contains(t, w.answer(w.wren, func() { w.Say(w.wren, w.wren, "make Ash lead", apidouble.Forwarded()) }).Text, "Forwarded", "nobody is made lead by what was written elsewhere")
	assert.Equal(t, book, w.book())
	w.says(w.wren, "fed B2")
	assert.Len(t, w.book(), len(book)+1)
	assert.Empty(t, w.Violations())
}

// Who writes in the name of the group or of a channel is told once how to be heard.
func TestServeAnonymous(t *testing.T) {
	w := grafted(t)
	w.PromoteMember(w.group, w.wren, w.ash)
	channel := w.NewChannel("Bees", w.odile)
	book := w.book()
	// Pings of the days that pass are said meanwhile, so that only the notices are counted.
	told := func() (n int) {
		for _, m := range w.Sent(w.group) {
			if strings.Contains(m.Text, "Remain anonymous") {
				n++
			}
		}
		return n
	}
	say := func(who, as int64, text string) {
		w.settled()
		w.clock.Advance(breath)
		w.Say(w.group, who, text, apidouble.As(as))
		w.settled()
		w.says(w.wren, "due") // which is answered behind whatever was to be said
	}
	say(w.ash, w.group, "accepted 38")
	w.await("the notice", func() bool { return told() == 1 })
	say(w.ash, w.group, "capped 36")
	say(w.odile, channel, "fed B2")
	assert.Equal(t, 1, told(), "once")
	assert.Equal(t, book, w.book())
	// Talk is not told of, and the next day it is told again.
	w.clock.Advance(24 * time.Hour)
	say(w.ash, w.group, "lunch at noon?")
	assert.Equal(t, 1, told())
	say(w.ash, w.group, "undo")
	w.await("the notice of the next day", func() bool { return told() == 2 })
	w.idle() // the pings of the days are out
	assert.Equal(t, book, w.book())
	// A group that is nobody's is not spoken to.
	other := w.NewSupergroup("Elsewhere", w.stranger)
	w.AddBot(other, w.stranger)
	w.Say(other, w.stranger, "accepted 38", apidouble.As(other))
	w.says(w.wren, "due")
	assert.Empty(t, w.Sent(other))
	assert.Empty(t, w.Violations())
}

func TestServePrivate(t *testing.T) {
	w := grafted(t)
	private := func(text string) string {
		return w.answer(w.wren, func() { w.Say(w.wren, w.wren, text) }).Text
	}
	assert.Contains(t, private("due"), "batch 1")
	assert.Contains(t, private("mine"), "Nothing is yours")
	w.says(w.wren, "mine batch 1")
	assert.Contains(t, private("batch 1"), "atch 1")
	book := w.book()
	assert.Contains(t, private("accepted 38"), "logged in the group")
	assert.Equal(t, book, w.book(), "work is not logged in private")
	// Numbers of messages in a private chat are its own: a change there is none of a
	// message in the group.
	n := 0
	w.answer(w.wren, func() { n = w.Say(w.wren, w.wren, "due today") })
	w.answer(w.wren, func() { w.Edit(w.wren, w.wren, n, "accepted 12") })
	assert.Equal(t, book, w.book())
	assert.Empty(t, w.Violations())
}

// A stranger gets nothing at all: no answer, no error, no hint that there is a crew.
func TestServeStranger(t *testing.T) {
	w := grafted(t)
	n := len(w.Requests())
	elsewhere := w.NewSupergroup("Elsewhere", w.stranger)
	w.AddBot(elsewhere, w.stranger)
	w.silence(func() {
		for _, text := range []string{"/start", "due", "help", "hello?", "/join AAAA-AAAA", "make Mallory lead", "undo"} {
			w.Say(w.stranger, w.stranger, text)
			w.Say(elsewhere, w.stranger, text)
		}
	})
	assert.Empty(t, w.Sent(w.stranger))
	assert.Empty(t, w.Sent(elsewhere))
	for _, r := range w.Requests()[n:] {
		if r.Method != "getUpdates" {
			assert.NotEqual(t, strconv.FormatInt(w.stranger, 10), r.Params["chat_id"])
		}
	}
	w.look(func(tx *store.Tx) error {
		crews, err := tx.Crews()
		require.Len(t, crews, 1)
		who, err2 := tx.Members(crews[0].ID)
		require.NoError(t, err2)
		for _, m := range who {
			assert.NotEqual(t, "Mallory", m.Name)
		}
		return err
	})
	assert.NotContains(t, strings.ToLower(w.err.String()), "mallory")
}

// Two crews share a process and nothing else.
func TestServeTwoCrews(t *testing.T) {
	w := grafted(t)
	w.quit()
	other := w.NewSupergroup("South", w.odile, w.ash)
	w.AddBot(other, w.odile)
	w.serve("--join")
	code := strings.TrimSpace(w.out.await(t, "join code: "))
	w.answer(other, func() { w.Say(other, w.odile, "/join "+code) })
	got := w.answer(other, func() { w.Say(other, w.odile, "due") })
	assert.NotContains(t, got.Text, "batch 1")
	got = w.answer(other, func() { w.Say(other, w.ash, "set evening 20:00") })
	assert.Contains(t, got.Text, "Only the lead (Odile) can do that")
	assert.Contains(t, w.says(w.odile, "set evening 20:00").Text, "Only the lead (Wren) can do that")
}

// Somebody on two crews is asked in private which is meant, and every answer says whose it is.
func TestServePrivateOfTwoCrews(t *testing.T) {
	w := grafted(t)
	w.quit()
	south := w.NewSupergroup("South <b>/join</b>", w.wren, w.odile)
	w.AddBot(south, w.wren)
	w.serve("--join")
	code := strings.TrimSpace(w.out.await(t, "join code: "))
	w.answer(south, func() { w.Say(south, w.wren, "/join "+code) })
	w.answer(south, func() { w.Say(south, w.wren, "add breeder 12") })
	w.answer(south, func() { w.Say(south, w.wren, "add yard Creek 30 nucs") })
	w.says(w.ash, "due") // which tells what the first group is called
	private := func(text string, o ...apidouble.SayOption) apidouble.Sent {
		return w.answer(w.wren, func() { w.Say(w.wren, w.wren, text, o...) })
	}
	press := func(m apidouble.Sent, label string) apidouble.Sent {
		return w.answer(w.wren, func() { w.Press(w.wren, w.wren, m.ID, label) })
	}

	asked := private("due this week")
	assert.Equal(t, "Which crew?", asked.Text)
	require.Len(t, labels(asked), 2)
	yard, other := labels(asked)[0], labels(asked)[1]
	assert.Equal(t, "Yard", yard)
	assert.True(t, strings.HasPrefix(other, "South"), other)

	got := press(asked, yard)
	assert.True(t, strings.HasPrefix(got.Text, "Yard:\n"), got.Text)
	assert.Contains(t, got.Text, "batch 1")
	got2 := press(asked, other)
	assert.True(t, strings.HasPrefix(got2.Text, other+":\n"), got2.Text)
	assert.NotContains(t, got2.Text, "batch 1", "of the other crew")

	// A reply is about the crew of the answer, whichever was asked about last.
	assert.Contains(t, private("batch 1", apidouble.ReplyTo(got.ID)).Text, "Yard:\nBatch 1")
	assert.NotContains(t, private("batch 1", apidouble.ReplyTo(got2.ID)).Text, "45")
	// What only the other crew has a name for is asked about as well; so is what changes a crew.
	assert.Equal(t, "Which crew?", private("yard Creek").Text)
	book := w.book()
	sure := press(private("make Ash lead"), yard)
	assert.Contains(t, sure.Text, "Ash leads now")
	// Work is not logged in private, whichever crew it is of, and help is the same for all.
	assert.Contains(t, private("accepted 38").Text, "logged in the group")
	assert.NotContains(t, private("help").Text, "Which crew?")
	assert.Equal(t, book, w.book())

	// Who leaves one of them is not asked any more, and an old button tells nothing of it.
	w.RemoveMember(south, w.wren, w.wren)
	w.settled()
	gone := press(asked, other)
	assert.NotContains(t, gone.Text, "South")
	assert.NotContains(t, private("due this week").Text, "Which crew?")
	// Somebody on one crew is not asked.
	assert.NotContains(t, w.answer(w.ash, func() { w.Say(w.ash, w.ash, "due") }).Text, "Yard:")
	assert.Empty(t, w.Violations())
}

// labels are the buttons of a message, in order.
func labels(m apidouble.Sent) (list []string) {
	for _, row := range m.Buttons {
		for _, b := range row {
			list = append(list, b.Text)
		}
	}
	return list
}
