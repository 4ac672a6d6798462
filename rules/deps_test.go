package rules

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// forbidden is what the rules themselves must not import, each with its reason.
var forbidden = map[string]string{
	"os":           "a rule that reads a file or a variable depends on the machine",
	"net":          "rules decide from values, never by asking somebody",
	"net/http":     "rules decide from values, never by asking somebody",
	"database/sql": "rows belong to the store",
	"context":      "nothing here waits or is cancelled",
	"log":          "a decision carries its reason; whoever acts on it logs it",
	"log/slog":     "a decision carries its reason; whoever acts on it logs it",
	"math/rand":    "the same logbook gives the same plan",
	"math/rand/v2": "the same logbook gives the same plan",
}

func golist(t *testing.T, args ...string) []string {
	out, err := exec.Command("go", append([]string{"list"}, args...)...).Output()
	require.NoError(t, err)
	return strings.Fields(string(out))
}

func TestRulesArePure(t *testing.T) {
	direct := golist(t, "-f", `{{join .Imports "\n"}}`, ".")
	require.NotEmpty(t, direct)
	for _, p := range direct {
		why, no := forbidden[p]
		assert.False(t, no, "rules import %s: %s", p, why)
	}
	// Whatever is reached is the standard library, gonum or the rules themselves.
	reached := golist(t, "-deps", "-f", `{{if not .Standard}}{{.ImportPath}}{{end}}`, ".")
	require.Contains(t, reached, "yardbell/rules")
	for _, p := range reached {
		assert.True(t, p == "yardbell/rules" || strings.HasPrefix(p, "gonum.org/v1/gonum/"), "rules reach %s: only the standard library and gonum", p)
	}
	// gonum and fmt bring os and context with them; a database, the network and a
	// log must not come by any way.
	all := golist(t, "-deps", ".")
	for _, p := range all {
		switch p {
		case "net", "net/http", "database/sql", "log", "log/slog":
			assert.Fail(t, "rules reach "+p, forbidden[p])
		}
	}
}

func TestRulesReadNoClock(t *testing.T) {
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	clock := regexp.MustCompile(`\btime\.(Now|Since|Until|Sleep|After|AfterFunc|Tick|NewTimer|NewTicker|Local)\b`)
	looked := 0
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		looked++
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		assert.NotRegexp(t, clock, string(text), "%s: time comes in as an argument", name)
	}
	assert.Greater(t, looked, 10)
}
