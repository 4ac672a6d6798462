//go:build race

package main

// The race detector makes the database some ten times slower; a few random
// conversations and outages are enough for it. Without it all of them run.
func init() {
	*sequences, mostDowns, crewsAtOnce, everyScript = 4, 1, 40, 5
	underRace = true
}
