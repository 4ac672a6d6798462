// Package apidouble is a stand-in for the Telegram Bot API, for tests only: real
// HTTP on the loopback interface, so that the client library, its transport and
// every error path above them run as they do in the field.
//
// It holds each request against the machine-readable description of the API in
// testdata/botapi/botapi-subset.json and refuses what that does not allow. It is
// stricter than the hosted service on purpose: a parameter the service would
// silently ignore is a violation here. See Double.Violations.
//
// It models what a bot can observe: chats and who is in them, what privacy mode
// lets through, offsets and redelivery, button presses, rate limits, the move of
// a group to a supergroup, and the refusals that follow each. Tests play the
// people (Say, Edit, Press, Kick, ...) and read what the bot made visible (Sent).
// Faults are scripted per method (Script).
//
// Identifiers are counted, never random, and time comes from the Clock given in
// Options: the same test sees the same numbers every time. A helper called with
// something impossible (a button that is not there, a person who is not in the
// chat) panics, because that is a mistake in the test and not in the bot.
//
// Where facts come from is said beside them: "docs" are Telegram's own pages,
// "spec" the description above, "server" the published server code
// (tdlib/telegram-bot-api, Client.cpp) and the queue below it (tdlib/td,
// TQueue.cpp), "assumed" nobody. The hosted service may differ from all of them.
package apidouble
