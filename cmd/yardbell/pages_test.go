package main

import (
	"io/fs"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pages are all pages of the project, by their path from the root.
func pages(t *testing.T) map[string]string {
	t.Helper()
	out := map[string]string{}
	for name := range files(t) {
		if strings.HasSuffix(name, ".md") {
			out[name] = read(t, "../../"+name)
		}
	}
	require.Greater(t, len(out), 10)
	return out
}

// files are the names of all files of the project, from the root; what npm fetched and
// what git keeps are none.
func files(t *testing.T) map[string]bool {
	t.Helper()
	out := map[string]bool{}
	require.NoError(t, filepath.WalkDir("../..", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (d.Name() == ".git" || d.Name() == "node_modules"):
			return fs.SkipDir
		case !d.IsDir():
			out[filepath.ToSlash(strings.TrimPrefix(name, "../../"))] = true
		}
		return nil
	}))
	return out
}

// A stranger reads the first page whole, and a developer the second.
func TestPagesAreShort(t *testing.T) {
	assert.LessOrEqual(t, utf8.RuneCountInString(read(t, "../../README.md")), 5500, "the rest belongs on the page of who needs it")
	assert.Less(t, utf8.RuneCountInString(read(t, "../../DEVELOPERS.md")), 8000, "the rest belongs on the page of its package")
}

var (
	fenced   = regexp.MustCompile("(?ms)^ *```.*?^ *```$")
	linked   = regexp.MustCompile(`\]\(([^()\s]+)\)`)
	codeSpan = regexp.MustCompile("`([^`\n]+)`")
)

// anchors are the names under which the headings of a page can be linked to.
func anchors(page string) (out []string) {
	for _, l := range strings.Split(fenced.ReplaceAllString(page, ""), "\n") {
		title, ok := strings.CutPrefix(strings.TrimLeft(l, "#"), " ")
		if !ok || !strings.HasPrefix(l, "#") {
			continue
		}
		out = append(out, strings.Map(func(r rune) rune {
			switch {
			case r == ' ':
				return '-'
			case r == '-' || r == '_' || unicode.IsLetter(r) || unicode.IsDigit(r):
				return unicode.ToLower(r)
			}
			return -1
		}, title))
	}
	return out
}

// A link between pages leads to a file that is there, and to a heading that is on it.
func TestPagesLinkToWhatIsThere(t *testing.T) {
	all, n := pages(t), 0
	for name, text := range all {
		text = codeSpan.ReplaceAllString(fenced.ReplaceAllString(text, ""), "")
		for _, m := range linked.FindAllStringSubmatch(text, -1) {
			u, err := url.Parse(m[1])
			if !assert.NoError(t, err, "%s: %s", name, m[1]) || u.Scheme != "" {
				continue
			}
			n++
			target := name
			if u.Path != "" {
				target = path.Join(path.Dir(name), u.Path)
				_, err = os.Stat("../../" + target)
				assert.NoError(t, err, "%s links to %s", name, m[1])
				assert.False(t, strings.HasPrefix(target, ".."), "%s links out of the project: %s", name, m[1])
			}
			if u.Fragment != "" {
				assert.Contains(t, anchors(all[target]), u.Fragment, "%s links to %s", name, m[1])
			}
		}
	}
	assert.Greater(t, n, 150)
	assert.Equal(t, []string{"a-page-of-its-own", "steps_csv"}, anchors("# A page, of its own\n```sh\n# no heading\n```\n## `steps_csv`\n"))
}

// Whoever reads one page finds all others from it.
func TestPagesAreFoundFromTheFirst(t *testing.T) {
	all, seen, next := pages(t), map[string]bool{}, []string{"README.md"}
	for len(next) > 0 {
		name := next[0]
		next = next[1:]
		if seen[name] {
			continue
		}
		seen[name] = true
		for _, m := range linked.FindAllStringSubmatch(all[name], -1) {
			target, _, _ := strings.Cut(m[1], "#")
			if target = path.Join(path.Dir(name), target); all[target] != "" {
				next = append(next, target)
			}
		}
	}
	for name := range all {
		assert.True(t, seen[name], "no page leads to %s", name)
	}
}

// Each path that a page names is there: from the root, from the page's folder or, for a
// name alone, in whichever folder is spoken of.
func TestPagesNameFilesThatAreThere(t *testing.T) {
	form := regexp.MustCompile(`^(?:(?:rules|store|scheduler|bot|cmd|deploy|testdata|\.ci)(?:/[A-Za-z0-9_.*-]+)+/?|[A-Za-z0-9_-]+\.(?:md|go|toml|csv|tsv|txt|lex))$`)
	all, n := files(t), 0
	// What a page tells people to make, and what is handed over for others' lines.
	made := []string{"log.csv"}
	for name, text := range pages(t) {
		for _, m := range codeSpan.FindAllStringSubmatch(text, -1) {
			if !form.MatchString(m[1]) || slices.Contains(made, m[1]) {
				continue
			}
			n++
			want := strings.ReplaceAll(strings.TrimSuffix(m[1], "/"), "LANG", "*")
			found := false
			for have := range all {
				for dir := have; dir != "." && !found; dir = path.Dir(dir) {
					whole, _ := path.Match(want, dir)
					beside, _ := path.Match(path.Join(path.Dir(name), want), dir)
					alone, _ := path.Match(want, path.Base(dir))
					found = whole || beside || alone && !strings.Contains(want, "/")
				}
			}
			assert.True(t, found, "%s names %s", name, m[1])
		}
	}
	assert.Greater(t, n, 20)
}

// commandLines are what a page tells people to run, a line or a code span each.
func commandLines(text string) (out []string) {
	for _, block := range fenced.FindAllString(text, -1) {
		block = strings.ReplaceAll(block, "\\\n", " ")
		out = append(out, strings.Split(block, "\n")...)
	}
	for _, m := range codeSpan.FindAllStringSubmatch(fenced.ReplaceAllString(text, ""), -1) {
		out = append(out, m[1])
	}
	return out
}

// Each command of the program that a page shows is one, and has the flags it is shown with.
func TestPagesShowCommandsAsTheyAre(t *testing.T) {
	form := regexp.MustCompile(`(?:^|[ /])yardbell ([a-z]+)\b([^|#]*)`)
	flag := regexp.MustCompile(`(?:^|[ (])--([a-z-]+)`)
	n := 0
	for name, text := range pages(t) {
		for _, l := range commandLines(text) {
			m := form.FindStringSubmatch(l)
			if m == nil || strings.Contains(l, "go test") {
				continue
			}
			c, _, err := command(env{}).Find([]string{m[1]})
			if m[1] == "completion" {
				continue // made when it is run
			}
			if !assert.NoError(t, err, "%s: %s", name, l) {
				continue
			}
			n++
			for _, f := range flag.FindAllStringSubmatch(m[2], -1) {
				assert.NotNil(t, c.Flags().Lookup(f[1]), "%s: %s has no --%s", name, c.Name(), f[1])
			}
		}
		// A flag that is spoken of alone is one of some command, or of a program named beside it.
		if strings.HasPrefix(name, "deploy/") {
			for _, m := range codeSpan.FindAllStringSubmatch(fenced.ReplaceAllString(text, ""), -1) {
				if f := regexp.MustCompile(`^--([a-z-]+)`).FindStringSubmatch(m[1]); f != nil {
					found := false
					for _, c := range command(env{}).Commands() {
						found = found || c.Flags().Lookup(f[1]) != nil
					}
					assert.True(t, found, "%s: no command has --%s", name, f[1])
				}
			}
		}
	}
	assert.Greater(t, n, 15)
}

// Each test that a page names or tells people to run is there, in the package it is run in.
func TestPagesNameTestsThatAreThere(t *testing.T) {
	funcs := map[string][]string{} // by folder
	form := regexp.MustCompile(`(?m)^func ((?:Test|Fuzz|Benchmark)[A-Za-z0-9]*)\(`)
	for name := range files(t) {
		if strings.HasSuffix(name, "_test.go") {
			for _, m := range form.FindAllStringSubmatch(read(t, "../../"+name), -1) {
				funcs[path.Dir(name)] = append(funcs[path.Dir(name)], m[1])
			}
		}
	}
	var everywhere []string
	for _, f := range funcs {
		everywhere = append(everywhere, f...)
	}
	run := regexp.MustCompile(`(?:cd (testdata/bench) && )?go test (?:-[a-z]+ )*(\./[a-z/]+)?.*?-(run|bench|fuzz) ('[^']+'|[A-Za-z^$|]+)(?: -bench ('[^']+'|[A-Za-z|]+))?`)
	n := 0
	for name, text := range pages(t) {
		for _, l := range commandLines(text) {
			if regexp.MustCompile(`^(?:Test|Fuzz)[A-Z][A-Za-z]+$`).MatchString(l) {
				n++
				assert.Contains(t, everywhere, l, name)
			}
			m := run.FindStringSubmatch(l)
			if m == nil || m[1]+m[2] == "" {
				continue
			}
			n++
			dir, expr := path.Clean(m[1]+m[2]), m[4]
			if expr == "xxx" {
				expr = m[5]
			}
			for _, one := range strings.Split(strings.Trim(expr, "'"), "|") {
				one, _, _ = strings.Cut(one, "/")
				assert.True(t, slices.ContainsFunc(funcs[dir], regexp.MustCompile(one).MatchString), "%s: %s has no test %s", name, dir, one)
			}
		}
	}
	assert.Greater(t, n, 30)
}

// Each variable of the environment that a page names is read somewhere, and each that the
// program reads is on a page; so are its metrics.
func TestPagesNameVariablesAsTheyAre(t *testing.T) {
	variable := regexp.MustCompile(`\bYARDBELL_[A-Z_]*[A-Z]\b`)
	metric := regexp.MustCompile(`\byardbell_[a-z_]+[a-z]\b`)
	meter := read(t, "meter.go")
	var code, told strings.Builder
	for name := range files(t) {
		if strings.HasSuffix(name, ".go") && name != "cmd/yardbell/pages_test.go" {
			code.WriteString(read(t, "../../"+name))
		}
	}
	for name, text := range pages(t) {
		told.WriteString(text)
		for _, v := range variable.FindAllString(text, -1) {
			assert.True(t, strings.Contains(code.String(), `"`+v), "%s names %s", name, v)
		}
		for _, v := range metric.FindAllString(text, -1) {
			assert.True(t, strings.Contains(meter, `"`+strings.TrimPrefix(v, "yardbell_")+`"`), "%s names %s", name, v)
		}
	}
	for name, text := range sources(t) {
		for _, v := range variable.FindAllString(text, -1) {
			assert.True(t, strings.Contains(told.String(), v), "%s reads %s, and no page says so", name, v)
		}
	}
}
