package reading

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const utterances = "../../testdata/utterances"

// labelled is a line with the situation it is said in and what the crew wants of it.
type labelled struct {
	at       string // file and line
	writer   string // who wrote it: lines of one writer are learnt from together
	text     string
	known    Known
	want     [][]want // any of these
	class    string   // for the ranker, empty where a line is of none
	talk     bool     // plain talk: to be left alone
	category string
}

// want is one thing a label asks for.
type want struct {
	action  string // did, amend, void, mine, later, skip; or ask, silent, nolog, nodid, noeggs, answer, order
	step    string
	subject string
	count   *int
	from    string
	into    string
	mark    string
	opt     bool
	unbuilt bool
}

func knownFiles(t testing.TB) map[string]Known {
	t.Helper()
	out := map[string]Known{}
	for prefix, f := range map[string]string{"c/": "testdata/known-contexts.json", "s/": "testdata/known-situations.json"} {
		b, err := os.ReadFile(f)
		require.NoError(t, err)
		m := map[string]Known{}
		require.NoError(t, json.Unmarshal(b, &m))
		for k, v := range m {
			out[prefix+k] = v
		}
	}
	return out
}

func eachRow(t testing.TB, path string, f func(n int, cols []string)) {
	t.Helper()
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	for i, l := range strings.Split(string(b), "\n") {
		if strings.TrimSpace(l) == "" || strings.HasPrefix(l, "# ") || l == "#" {
			continue
		}
		f(i+1, strings.Split(strings.TrimRight(l, "\r"), "\t"))
	}
}

var saidTo = regexp.MustCompile(`^>([a-z]+)>(.*)$`)

// situationLines reads a file of lines said in the situations.
func situationLines(t testing.TB, path, writer string, known map[string]Known) (out []labelled) {
	eachRow(t, path, func(n int, c []string) {
		if len(c) < 4 {
			t.Fatalf("%s:%d: %d columns", path, n, len(c))
		}
		text, who, to := c[2], "Ana", ""
		for _, w := range []string{"Lead", "Ash"} {
			if s, ok := strings.CutPrefix(text, w+"|"); ok {
				text, who = s, w
			}
		}
		if s, ok := strings.CutPrefix(text, ">"); ok {
			text, to = s, " >move"
			if m := saidTo.FindStringSubmatch(">" + s); m != nil {
				text, to = m[2], " >"+m[1]
			}
		}
		k, ok := known["s/"+c[1]+to+" @"+who]
		if !ok && to != "" {
			k, ok = known["s/"+c[1]+" > @"+who]
		}
		if !ok {
			k = known["s/"+c[1]+" @"+who]
			if to != "" {
				k.Reply, k.Addressed = &Ping{}, true
			}
		}
		if k.Now.IsZero() {
			t.Fatalf("%s:%d: no situation %s", path, n, c[1]+to)
		}
		l := labelled{at: filepath.Base(path) + ":" + strconv.Itoa(n), writer: writer, text: text, known: k, want: parseSituationLabel(c[3])}
		if len(c) > 4 {
			l.category = c[4]
		}
		l.talk = l.category == "trap" && (l.want[0][0].action == "silent" || l.want[0][0].action == "nolog")
		l.class = classOfWant(l.want)
		if l.category == "trap" {
			l.class = classTalk
		}
		out = append(out, l)
	})
	return out
}

func parseSituationLabel(s string) (out [][]want) {
	for _, alt := range strings.Split(s, " || ") {
		var ws []want
		alt, unbuilt := strings.CutPrefix(strings.TrimSpace(alt), "new ")
		for _, part := range strings.Split(alt, ";") {
			w := strings.Fields(part)
			one := want{unbuilt: unbuilt}
			if w[0] == "opt" {
				one.opt, w = true, w[1:]
			}
			one.action = w[0]
			w = w[1:]
			switch one.action {
			case "did", "amend", "mine", "later", "skip", "void":
			default:
				ws = append(ws, one)
				continue
			}
			var rest []string
			for _, x := range w {
				k, v, ok := strings.Cut(x, "=")
				switch {
				case ok && k == "into":
					one.into = v
				case ok && k == "from":
					one.from = v
				case ok && k == "mark":
					one.mark = v
				case strings.ContainsAny(x, "=~"):
				default:
					rest = append(rest, x)
				}
			}
			if len(rest) > 0 {
				one.step, rest = rest[0], rest[1:]
			}
			if len(rest) > 1 {
				one.subject, rest = rest[0]+" "+rest[1], rest[2:]
			}
			if len(rest) > 0 {
				if n, err := strconv.Atoi(rest[0]); err == nil {
					one.count = &n
				}
			}
			ws = append(ws, one)
		}
		out = append(out, ws)
	}
	return out
}

// classOfWant is the class of the ranker that a label is an example of.
func classOfWant(alts [][]want) string {
	if len(alts) == 0 {
		return ""
	}
	var steps []string
	for _, w := range alts[0] {
		if !w.opt {
			steps = append(steps, w.action+" "+w.step)
		}
	}
	for _, s := range steps {
		if s != steps[0] {
			return ""
		}
	}
	switch w := alts[0][0]; w.action {
	case "did":
		if w.step == "add" || w.step == "order" {
			return classOther
		}
		return w.step
	case "amend", "void", "mine", "later", "skip":
		return w.action
	case "answer":
		return classQuery
	case "silent", "silence":
		return classTalk
	case "order", "set":
		return classOther
	}
	return ""
}

// contextLines reads a file of lines said in the contexts (FORMAT.md).
func contextLines(t testing.TB, path string, known map[string]Known) (out []labelled) {
	eachRow(t, path, func(n int, c []string) {
		ctx, who, to := c[1], "Wren", ""
		if a, b, ok := strings.Cut(ctx, "@"); ok {
			rest := ""
			if k := strings.IndexAny(b, " >"); k >= 0 {
				b, rest = b[:k], b[k:]
			}
			ctx, who = a+rest, strings.TrimSpace(b)
		}
		if a, b, ok := strings.Cut(ctx, ">"); ok {
			ctx, to = a, " >"+strings.TrimSpace(b)
		}
		k, ok := known["c/"+strings.TrimSpace(ctx)+to+" @"+who]
		if !ok {
			t.Fatalf("%s:%d: no situation %q", path, n, strings.TrimSpace(ctx)+to+" @"+who)
		}
		l := labelled{at: filepath.Base(path) + ":" + strconv.Itoa(n), writer: filepath.Base(path) + "/" + c[0], text: c[2], known: k}
		expected := strings.TrimSpace(c[3])
		var ws []want
		for _, part := range strings.Split(expected, " ; ") {
			w := strings.Fields(part)
			one := want{action: w[0]}
			switch {
			case w[0] == "silence":
				one.action = "silent"
				l.talk = true
			case len(w) == 1 || w[0] == "set":
			default:
				one.step = w[1]
				rest := w[2:]
				if len(rest) > 0 && rest[0] == "-" {
					rest = rest[1:]
				} else if len(rest) > 1 {
					i := 2
					for i < len(rest) && !strings.Contains(rest[i], "=") {
						i++
					}
					one.subject, rest = strings.Join(rest[:i], " "), rest[i:]
				}
				for i := 0; i < len(rest); i++ {
					key, v, _ := strings.Cut(rest[i], "=")
					for i+1 < len(rest) && !strings.Contains(rest[i+1], "=") {
						i++
						v += " " + rest[i]
					}
					switch key {
					case "count":
						if x, err := strconv.Atoi(v); err == nil {
							one.count = &x
						}
					case "from":
						one.from = v
					case "into":
						one.into = v
					case "mark":
						one.mark = v
					}
				}
			}
			ws = append(ws, one)
		}
		l.want = [][]want{ws}
		l.class = classOfWant(l.want)
		out = append(out, l)
	})
	return out
}

// coreLines reads the lines of a reader's own corpus, which have no situation.
func coreLines(t testing.TB, path string) (out []labelled) {
	empty := Known{Breeders: []int{7, 12}, Builders: []string{"B1", "B2"}, Yards: []string{"North", "Creek Side"}, Language: "en"}
	eachRow(t, path, func(n int, c []string) {
		if len(c) != 2 || strings.ContainsAny(c[1], ";?") {
			return
		}
		class := ""
		first := strings.Fields(c[1])[0]
		if s, ok := strings.CutPrefix(first, "step="); ok {
			class = s
		} else {
			class = map[string]string{"silent": classTalk, "mine": classMine, "later": classLater, "skip": classSkip, "undo": classVoid, "due": classQuery, "show": classQuery, "why": classQuery, "help": classQuery, "log": classQuery}[first]
		}
		if class == "" {
			return
		}
		k := empty
		out = append(out, labelled{at: filepath.Base(path) + ":" + strconv.Itoa(n), writer: filepath.Base(path), text: c[0], known: k, class: class})
	})
	return out
}
