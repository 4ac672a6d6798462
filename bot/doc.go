// Package bot takes in updates: who wrote, in which crew, and what it does to the logbook.
//
// It sets the scene of an update, has bot/conversation answer it, and writes what the answer
// has written (finish.go), here and nowhere else. A message and its answer are one
// transaction; the answer leaves through the outbox like every ping.
//
// It never decides when something is due or sent, and never asks the clock.
package bot
