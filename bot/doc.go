// Package bot takes in updates: who wrote, in which crew, and what it does to the logbook.
//
// What a message says is read in bot/reading; package bot finds what is meant from the
// context of the chat (context.go), asks where there are two readings, logs where there is
// one, and answers in the sentences of bot/wording. A message and its answer are one
// transaction; the answer leaves through the outbox like every ping.
//
// It never decides when something is due or sent, never asks the clock, and never
// logs what it did not understand in full.
package bot
