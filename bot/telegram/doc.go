// Package telegram carries the conversation into a real group over the Bot API.
//
// Updates are read by a poll loop of our own (poll.go): each is decoded alone,
// handled in one transaction and only then confirmed. Messages go out through
// Deliver (send.go), inside the limits that limit.go keeps ahead of time. The
// library go-telegram-bot-api is the layer of requests and answers below.
//
// It never lets the token out: above the innermost transport there is only a
// placeholder, so that no error, log line or dump can carry it (client.go). It
// never decides what a message means.
package telegram
