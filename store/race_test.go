//go:build race

package store

import "flag"

// The race detector makes the database some ten times slower; fewer drawn
// logbooks are enough for it.
func init() {
	if err := flag.Set("rapid.checks", "12"); err != nil {
		panic(err)
	}
	headers = 15
}
