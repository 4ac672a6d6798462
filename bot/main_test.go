package bot

import (
	"os"
	"runtime/debug"
	"testing"
)

// allTests runs all there is, as .ci/run does; without it the long tests take a part.
var allTests = os.Getenv("YARDBELL_TESTS") == "all"

// TestMain lets garbage lie longer: reading makes many short-lived things, and the
// lexicons beside them are large.
func TestMain(m *testing.M) {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400)
	}
	os.Exit(m.Run())
}
