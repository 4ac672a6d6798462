package main

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"yardbell/bot/apidouble"
)

// Strangers in groups of their own put the bot in and out and type codes without end. It
// costs no call to the chat's server, which a crew's answer would have to wait behind.
func TestServeWrongCodesCostNoCall(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.join()
	w.settled()
	calls := func() int { return len(w.Requests("getChatMember", "getMe")) }
	before := calls()
	for g := range 10 {
		elsewhere := w.NewSupergroup(fmt.Sprintf("Elsewhere %d", g), w.stranger)
		w.AddBot(elsewhere, w.stranger)
		for n := range 30 {
			w.Say(elsewhere, w.stranger, fmt.Sprintf("/join AAAA-%04d", n))
		}
	}
	for range 5 {
		w.Say(w.group, w.ash, "/join AAAA-AAAA") // in the crew's own group it is no claim
	}
	w.says(w.wren, "due")
	assert.Zero(t, calls()-before)
}

// Ten wrong codes, and an account is not heard for ten minutes, with the right one
// neither; others are.
func TestServeWrongCodesHaveAnEnd(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.serve()
	code := strings.TrimSpace(w.out.await(t, "join code: "))
	elsewhere := w.NewSupergroup("Elsewhere", w.stranger)
	w.AddBot(elsewhere, w.stranger)
	for range 10 {
		w.Say(elsewhere, w.stranger, "/join AAAA-AAAA")
	}
	w.Say(elsewhere, w.stranger, "/join "+code)
	w.settled()
	assert.Empty(t, w.Sent(elsewhere))
	assert.Contains(t, w.says(w.wren, "/join "+code).Text, "Wren leads")
	w.quit()
	assert.Empty(t, w.err.String())
}

// Privacy mode that was switched while a stranger's group was none of the bot's business
// is known when a group is claimed.
func TestServeHearsAtTheClaim(t *testing.T) {
	w := newWorld(t, apidouble.Options{})
	w.serve()
	code := strings.TrimSpace(w.out.await(t, "join code: "))
	w.settled()
	w.SetPrivacy(false)
	other := w.NewSupergroup("South", w.odile)
	w.AddBot(other, w.odile)
	w.settled()
	assert.Contains(t, w.answer(other, func() { w.Say(other, w.odile, "/join@yardbell_bot "+code) }).Text, "I hear every message here")
}
