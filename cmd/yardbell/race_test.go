//go:build race

package main

// The race detector makes the database some ten times slower; some crews and some of the
// scripts are enough for it. Without it all of them run.
func init() { crewsAtOnce, everyScript, underRace = 40, 10, true }
