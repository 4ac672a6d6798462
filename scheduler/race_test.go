//go:build race

package scheduler

// The race detector makes the database some ten times slower; fewer walks are
// enough for it.
func init() { walks = 2 }
