//go:build race

package bot

// The race detector makes the database some ten times slower; a few slips are
// enough for it. Without it all of them are tried.
func init() { mostMutants, slipStride = 500, 9 }
