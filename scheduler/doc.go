// Package scheduler speaks: it takes what is due out of the outbox and gives it
// to the chat.
//
// A tick claims due messages, lets package rules decide on each (send, hold,
// drop), merges what belongs together and sends it, recording each message after
// the chat took it. What is due is a matter of rows in the database; cron only
// wakes the tick. The cost of a tick follows what is due, not what exists.
//
// It never plans anything, never words a message, and never sends inside a
// transaction. Delivery is at least once; store/outbox.go names the one window in
// which a message may go out twice.
package scheduler
