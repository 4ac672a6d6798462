//go:build race

package main

// The race detector makes the database some ten times slower; a few random
// conversations are enough for it.
func init() { *sequences = 6 }
