// Package bot is the conversation: text in, logbook entries and answers out.
//
// It reads what the crew types (read.go and beside), finds what is meant from the
// context of the chat (resolve.go), asks where there are two readings, logs where
// there is one, and words every message (render.go and the catalogue in words/).
// A message and its answer are one transaction; the answer leaves through the
// outbox like every ping.
//
// It never decides when something is due or sent, never asks the clock, and never
// logs what it did not understand in full.
package bot
