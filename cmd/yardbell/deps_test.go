package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	gotoken "go/token"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ours are the packages and what each may import of the others.
var ours = map[string]struct {
	may []string
	why string
}{
	"yardbell/rules":               {nil, "rules decide from values; they know of no row and no chat"},
	"yardbell/store":               {[]string{"yardbell/rules"}, "the store keeps what rules decide and knows nobody above it"},
	"yardbell/scheduler":           {[]string{"yardbell/rules", "yardbell/store"}, "the scheduler speaks through its own Sender; rows are how it and the bot meet"},
	"yardbell/bot":                 {[]string{"yardbell/rules", "yardbell/store", "yardbell/bot/attach", "yardbell/bot/conversation", "yardbell/bot/group", "yardbell/bot/reading", "yardbell/bot/wording"}, "the bot answers by queueing; it never sends"},
	"yardbell/bot/conversation":    {[]string{"yardbell/rules", "yardbell/store", "yardbell/bot/attach", "yardbell/bot/planning", "yardbell/bot/reading", "yardbell/bot/wording"}, "it answers a scene and knows nobody who hands it one"},
	"yardbell/bot/group":           {[]string{"yardbell/rules", "yardbell/store", "yardbell/bot/wording"}, "it follows the chat and reads no message"},
	"yardbell/bot/reading":         {[]string{"yardbell/rules"}, "it reads what it is given, and knows no row"},
	"yardbell/bot/wording":         {[]string{"yardbell/rules", "yardbell/store"}, "it says what it is given"},
	"yardbell/bot/planning":        {[]string{"yardbell/rules", "yardbell/store", "yardbell/bot/wording"}, "it plans on the model and says so"},
	"yardbell/bot/attach":          {[]string{"yardbell/rules", "yardbell/store", "yardbell/bot/attach/calendar", "yardbell/bot/attach/picture", "yardbell/bot/planning", "yardbell/bot/wording"}, "it makes files of the model"},
	"yardbell/bot/attach/calendar": {nil, "it writes what it is given"},
	"yardbell/bot/attach/picture":  {nil, "it draws what it is given"},
	"yardbell/bot/console":         {[]string{"yardbell/rules", "yardbell/store", "yardbell/bot/wording"}, "a transport shows what was worded"},
	"yardbell/cmd/yardbell":        {[]string{"yardbell/rules", "yardbell/store", "yardbell/scheduler", "yardbell/bot", "yardbell/bot/attach", "yardbell/bot/group", "yardbell/bot/console", "yardbell/bot/telegram", "yardbell/bot/wording", "yardbell/cmd/yardbell/early"}, "it wires"},
	"yardbell/cmd/yardbell/early":  {nil, "it is set up before all others"},
}

// listed is what go list says of a package.
type listed struct {
	ImportPath, Doc string
	Standard        bool
	Imports, Deps   []string
}

// golist asks go list of our packages and all they need, once.
var golist = sync.OnceValues(func() (map[string]listed, error) {
	c := exec.Command("go", "list", "-deps", "-json=ImportPath,Doc,Standard,Imports,Deps", "./...")
	c.Dir = "../.."
	out, err := c.Output()
	if err != nil {
		return nil, err
	}
	list := map[string]listed{}
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			return list, nil
		} else if err != nil {
			return nil, err
		}
		list[p.ImportPath] = p
	}
})

func TestImportDiamond(t *testing.T) {
	list, err := golist()
	require.NoError(t, err)
	for pkg, rule := range ours {
		require.Contains(t, list, pkg)
		for _, p := range list[pkg].Imports {
			if strings.HasPrefix(p, "yardbell/") {
				assert.Contains(t, rule.may, p, "%s imports %s: %s", pkg, p, rule.why)
			}
		}
	}
	for _, p := range list["yardbell/rules"].Deps {
		assert.True(t, list[p].Standard || strings.HasPrefix(p, "gonum.org/v1/gonum/"), "rules reach %s: only the standard library and gonum", p)
	}
	assert.NotContains(t, list["yardbell/bot"].Deps, "yardbell/scheduler")
	assert.NotContains(t, list["yardbell/scheduler"].Deps, "yardbell/bot")
	for path, p := range list {
		if !strings.HasPrefix(path, "yardbell/") {
			continue
		}
		// The server that stands in for the chat's is for tests alone.
		if !strings.HasPrefix(path, "yardbell/bot/telegram/apidouble") {
			assert.NotContains(t, p.Imports, "yardbell/bot/telegram/apidouble", path)
		}
		// Only the command knows both sides.
		if slices.Contains(p.Imports, "yardbell/scheduler") {
			assert.True(t, path == "yardbell/cmd/yardbell" || strings.HasPrefix(path, "yardbell/bot/"), "%s imports the scheduler", path)
		}
	}
}

// sources are the program's own files, by their path from the root.
func sources(t *testing.T) map[string]string {
	t.Helper()
	out := map[string]string{}
	for _, dir := range []string{"rules", "store", "scheduler", "bot", "cmd"} {
		require.NoError(t, filepath.WalkDir("../../"+dir, func(path string, d fs.DirEntry, err error) error {
			if err == nil && !d.IsDir() && strings.HasSuffix(path, ".go") && !strings.HasSuffix(path, "_test.go") {
				out[filepath.ToSlash(strings.TrimPrefix(path, "../../"))] = read(t, path)
			}
			return err
		}))
	}
	require.Greater(t, len(out), 40)
	return out
}

// places finds what matches in the program's files.
func places(t *testing.T, expr string, in func(path string) bool) (found []string) {
	t.Helper()
	re := regexp.MustCompile(expr)
	for path, text := range sources(t) {
		if !in(path) {
			continue
		}
		for range re.FindAllString(text, -1) {
			found = append(found, path)
		}
	}
	return found
}

func under(dirs ...string) func(string) bool {
	return func(path string) bool {
		return slices.ContainsFunc(dirs, func(d string) bool { return strings.HasPrefix(path, d+"/") })
	}
}

// A scene that a handler wrote would be another handler's, and a message of two parts would
// mean something else than its parts. What changes is changed in a copy.
func TestNobodyWritesAScene(t *testing.T) {
	assert.Empty(t, places(t, `(?m)^\s*(?:[\w.]+, )*sc\.\w[\w.]*(?:, [\w.]+)* =`, under("bot/conversation")))
}

func TestTimeComesInAsAnArgument(t *testing.T) {
	// What answers for a chat's server in tests runs on its own clock.
	core := func(path string) bool {
		return under("rules", "store", "scheduler", "bot")(path) && !strings.HasPrefix(path, "bot/telegram/apidouble/")
	}
	assert.Empty(t, places(t, `\btime\.(Now|Since|Until)\b`, core), "the clock is read in cmd only")
	assert.Empty(t, places(t, `(?i)current_timestamp|datetime\('now|unixepoch\(`, under("store")), "SQL never asks the time")
	for _, path := range []string{"00001_logbook.sql", "00002_chat.sql"} {
		if _, err := os.Stat("../../store/migrations/" + path); err == nil {
			assert.NotRegexp(t, `(?i)current_timestamp|datetime\('now|unixepoch\(`, read(t, "../../store/migrations/"+path))
		}
	}
}

func TestOneWayOut(t *testing.T) {
	assert.Equal(t, []string{"cmd/yardbell/main.go"}, places(t, `\bos\.Exit\(`, under("rules", "store", "scheduler", "bot", "cmd")))
	assert.Empty(t, places(t, `\bos\.Getenv\b`, under("rules", "store", "scheduler", "bot")), "the environment belongs to cmd")
	assert.Equal(t, []string{"scheduler/deliver.go"}, places(t, `\.to\.Send\(`, under("rules", "store", "scheduler", "bot", "cmd")), "Sender.Send has one call site")
}

// The first words of a package say its one job.
func TestPackageComments(t *testing.T) {
	list, err := golist()
	require.NoError(t, err)
	for pkg := range ours {
		assert.NotEmpty(t, list[pkg].Doc, "%s has no comment", pkg)
	}
}

// Interfaces are few, and each stands with whoever calls it.
func TestFewInterfaces(t *testing.T) {
	var found []string
	for path, text := range sources(t) {
		if strings.HasPrefix(path, "bot/telegram/apidouble/") {
			continue
		}
		f, err := parser.ParseFile(gotoken.NewFileSet(), path, text, 0)
		require.NoError(t, err)
		ast.Inspect(f, func(n ast.Node) bool {
			if s, ok := n.(*ast.TypeSpec); ok {
				if i, ok := s.Type.(*ast.InterfaceType); ok && i.Methods.NumFields() > 0 {
					found = append(found, path+" "+s.Name.Name)
				}
			}
			return true
		})
	}
	assert.LessOrEqual(t, len(found), 3, "%v", found)
}

func TestFilesAreShort(t *testing.T) {
	for path, text := range sources(t) {
		assert.LessOrEqual(t, strings.Count(text, "\n"), 460, "%s does more than one job", path)
	}
}

// A plain `go build` makes what is safe to serve: go.mod names the release, and whatever
// else builds names the same one or none. Raised in one place only, the image would go on
// with known faults.
func TestOneReleaseBuildsIt(t *testing.T) {
	line := regexp.MustCompile(`(?m)^toolchain go(1\.\d+\.\d+)$`)
	named := line.FindStringSubmatch(read(t, "../../go.mod"))
	require.NotNil(t, named, "go.mod names no release to build with")
	assert.Equal(t, named, line.FindStringSubmatch(read(t, "../../testdata/bench/go.mod")))
	assert.Contains(t, read(t, "../../Dockerfile"), "/golang:"+named[1]+"-")
	named = []string{".ci/run", "deploy/image.sh", "deploy/compose.yaml"}
	for path := range pages(t) {
		named = append(named, path)
	}
	for _, path := range named {
		assert.NotRegexp(t, `\bgo1\.\d+\.\d+`, read(t, "../../"+path), "%s names a release of its own", path)
	}
}
