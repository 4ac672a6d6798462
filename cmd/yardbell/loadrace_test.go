//go:build race

package main

// Making the crews takes minutes under the race detector; with fewer the senders run
// into each other just as well. Without it all 500 run.
func init() { loadCrews = 150 }
