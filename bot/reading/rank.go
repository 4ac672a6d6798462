package reading

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io/fs"
	"math"
	"slices"
	"sort"
	"strconv"
	"strings"
	"time"

	"yardbell/rules"
)

const weightsFile = "weights.txt"

// The classes of the ranker that are no steps.
const (
	classMine  = "mine"
	classLater = "later"
	classSkip  = "skip"
	classVoid  = "void"
	classAmend = "amend"
	classQuery = "query"
	classOther = "other"
	classTalk  = "talk"
)

var intentClasses = []string{classMine, classLater, classSkip, classVoid, classAmend, classQuery, classOther, classTalk}

// classes are the names of all classes: the steps in the order of frames.txt, then the
// intents.
func (r *Reader) classes() []string {
	var out []string
	for _, f := range r.frames.list {
		out = append(out, string(f.step))
	}
	return append(out, intentClasses...)
}

// model is what was learnt: a weight for each feature and class, and one for each kind of
// fit that all steps share.
type model struct {
	classes []string
	weights map[string][]float32
	shared  []float64
	seen    map[string][2]int // words of the labelled lines: how often in reports, in talk
	head    fitHead
}

// fitHead says how the weights came to be, so that CI can fit them again and compare.
type fitHead struct {
	Seed    int64     `json:"seed"`
	Input   string    `json:"input"` // hash of the labelled lines and the data they were read with
	Rows    int       `json:"rows"`
	Classes []string  `json:"classes"`
	Shared  []float64 `json:"shared"`
	Judge   []float64 `json:"judge,omitempty"`
}

// loadModel reads weights.txt for the classes that there are now, which it knows by their
// names: a step that was added since then has no weights of its own. The file is
// a line of JSON, then a line for each feature with the
// class and weight (in thousandths) of each that is not nothing, then the words seen.
func loadModel(fsys fs.FS, file string, classes []string) (*model, error) {
	f, err := fsys.Open(file)
	if err != nil {
		return nil, err
	}
	defer func() { _ = f.Close() }()
	s := bufio.NewScanner(f)
	s.Buffer(nil, 1<<22)
	m := &model{classes: classes, weights: map[string][]float32{}, seen: map[string][2]int{}}
	var now []int // of each class of the file, which it is now; -1 for one that is gone
	for n := 1; s.Scan(); n++ {
		line := s.Text()
		if n == 1 {
			if err := json.Unmarshal([]byte(line), &m.head); err != nil {
				return nil, fault(file, n, "%v", err)
			}
			m.shared = m.head.Shared
			for _, c := range m.head.Classes {
				now = append(now, slices.Index(classes, c))
			}
			continue
		}
		parts := strings.Split(line, "\t")
		if parts[0] == "seen" && len(parts) == 4 {
			a, _ := strconv.Atoi(parts[2])
			b, _ := strconv.Atoi(parts[3])
			m.seen[parts[1]] = [2]int{a, b}
			continue
		}
		row := make([]float32, len(classes))
		for _, p := range parts[1:] {
			i, w, ok := strings.Cut(p, ":")
			k, err1 := strconv.Atoi(i)
			v, err2 := strconv.Atoi(w)
			if !ok || err1 != nil || err2 != nil || k < 0 || k >= len(now) {
				return nil, fault(file, n, "%q is no class and weight", p)
			}
			if now[k] >= 0 {
				row[now[k]] = float32(v) / 1000
			}
		}
		m.weights[parts[0]] = row
	}
	return m, s.Err()
}

// sharedNames are the kinds of fit between a message and a step. Their weights are the
// same for all steps, so that a step without labelled lines is ranked as well.
var sharedNames = []string{"licence", "exact", "only", "open", "ready", "opennolicence", "reply", "replyother", "ratio", "equal", "fewer", "more", "builder", "yard", "batch",
	"doubt", "doubts", "nocount", "newbreeder", "whichbreeder", "place", "unread"}

// fitOf are the shared features of a step for some items.
func (l *lattice) fitOf(step int, items []item, ev evidence, f filled) []float64 {
	v := make([]float64, len(sharedNames))
	set := func(name string, x float64) {
		for i, n := range sharedNames {
			if n == name {
				v[i] = x
				return
			}
		}
	}
	fr := l.r.frames.list[step]
	w := ev.weight[fr.step]
	if w > 0 {
		set("licence", math.Min(w, 1.1))
		if w >= 1 {
			set("exact", 1)
		}
		if len(ev.weight) == 1 {
			set("only", 1)
		}
	}
	if p := l.known.Reply; p != nil && p.Step != "" {
		if p.Step == fr.step {
			set("reply", 1)
		} else {
			set("replyother", 1)
		}
	}
	open, ready := false, false
	for _, o := range l.known.Open {
		if o.Step == fr.step {
			open, ready = true, ready || o.Ready
		}
	}
	if open {
		set("open", 1)
	}
	if ready {
		set("ready", 1)
	}
	if open && len(ev.weight) == 0 {
		set("opennolicence", 1)
	}
	a := f.act
	es := entitiesOf(items)
	for _, o := range f.choices {
		if o.Had == 0 {
			continue
		}
		for _, it := range es[eRatio] {
			if it.entity.of == o.Had {
				set("ratio", 1)
			}
		}
		if a.Count != nil {
			switch n := *a.Count; {
			case n == o.Had:
				set("equal", 1)
			case n < o.Had && n*3 >= o.Had:
				set("fewer", 1)
			case n > o.Had:
				set("more", 1)
			}
		}
		if a.Builder != "" && a.Builder == o.Builder {
			set("builder", 1)
		}
		if a.Yard != "" && fr.slots["yard"] {
			set("yard", 1)
		}
		if a.Batch != 0 && a.Batch == o.Batch && len(es[eBatch]) > 0 {
			set("batch", 1)
		}
	}
	doubts := 0
	for _, x := range f.flags {
		if !gaps[x] {
			doubts++
		}
	}
	if doubts > 0 {
		set("doubt", 1)
		set("doubts", math.Min(float64(doubts), 3)/3)
	}
	if f.has(fNoCount) {
		set("nocount", 1)
	}
	if f.has(fNewBreeder) {
		set("newbreeder", 1)
	}
	if f.has(fWhichBreeder) {
		set("whichbreeder", 1)
	}
	if f.has(fPlace) {
		set("place", 1)
	}
	if w > 0 || open {
		danger, _ := l.unexplained(items, map[rules.Step]bool{fr.step: true})
		set("unread", math.Min(float64(len(danger)), 3)/3)
	}
	return v
}

// words are the features of the items alone. What stands in drop counts as words nobody
// knows: so the ranker learns to go by the rest of the message as well.
func (l *lattice) words(items []item, drop map[string]bool) map[string]float64 {
	l.work += len(items)
	f := map[string]float64{"bias": 1}
	var seq []string
	unknown, entities := 0, 0
	for i := range items {
		it := &items[i]
		switch {
		case it.bound:
			s := ","
			if it.text == "?" || it.text == "¿" {
				s = "?"
			} else if it.text == "!" {
				s = "!"
			}
			seq = append(seq, s)
			f["s:"+s] = 1
		case it.entity != nil:
			entities++
			k := string(it.entity.kind)
			f["e:"+k] = 1
			if it.entity.from {
				f["e:from"] = 1
			}
			if w := it.entity.when; it.entity.kind == eTime && w.Day != nil && *w.Day > 0 {
				f["e:ahead"] = 1
			}
			seq = append(seq, "#"+k)
		case drop[it.text]:
			unknown++
			seq = append(seq, "~")
		default:
			w := 1.0
			if it.slip {
				w = 0.7
			}
			for _, s := range it.senses {
				name := l.r.lex.names[s.concept]
				f["c:"+name] = math.Max(f["c:"+name], w)
				if form := s.form; form != anyForm {
					if form == formInfinitive {
						form = formPlan // the ranker knows but that it lies ahead
					}
					k := "c:" + name + "." + strconv.Itoa(int(form))
					f[k] = math.Max(f[k], w)
				}
			}
			if len(it.senses) == 0 {
				unknown++
			}
			seq = append(seq, strings.Fields(it.text)...)
		}
	}
	for _, w := range seq {
		f["w:"+w] = 1
		if w[0] != '#' && w[0] != '~' && len(w) >= 4 {
			x := "_" + w + "_"
			for _, n := range []int{4, 5} {
				for i := 0; i+n <= len(x); i++ {
					f["g:"+x[i:i+n]] = 0.5
				}
			}
		}
	}
	prev := "^"
	for _, w := range append(seq, "$") {
		f["b:"+prev+" "+w] = 1
		prev = w
	}
	f["length"] = math.Min(float64(len(seq)), 20) / 10
	f["unknown"] = math.Min(float64(unknown), 5) / 3
	if entities == 0 {
		f["noentity"] = 1
	}
	k := l.known
	if k.Reply != nil {
		f["reply"] = 1
		f["reply:"+string(k.Reply.Step)] = 1
	}
	if k.Addressed {
		f["addressed"] = 1
	}
	if k.Last != nil && k.Last.Since < 2*time.Hour {
		f["last"] = 1
	}
	if k.Asked != nil {
		f["asked:"+k.Asked.Need] = 1
	}
	return f
}

// ranking is what the ranker gives for some items.
type ranking struct {
	p     []float64 // of each class
	fills []filled  // of each step
	ev    evidence
}

// rank gives the chance of each class.
func (l *lattice) rank(items []item) ranking {
	l.work += len(items)
	ev := l.r.licences(items, l.known)
	out := ranking{ev: ev}
	n := len(l.r.frames.list)
	z := make([]float64, n+len(intentClasses))
	m := l.r.model
	f := l.words(items, nil)
	l.meet(f, ev, items)
	if m != nil {
		names := make([]string, 0, len(f))
		for name := range f {
			if m.weights[name] != nil {
				names = append(names, name)
			}
		}
		sort.Strings(names) // a sum of floats goes by its order
		for _, name := range names {
			v := f[name]
			for i, w := range m.weights[name] {
				z[i] += v * float64(w)
			}
		}
	}
	for i, fr := range l.r.frames.list {
		fill := l.fill(fr.step, items)
		out.fills = append(out.fills, fill)
		shared := l.fitOf(i, items, ev, fill)
		if m != nil {
			for k, v := range shared {
				z[i] += v * m.shared[k]
			}
		} else {
			z[i] = 4*shared[0] + shared[3] - 2*shared[16]
		}
	}
	out.p = softmax(z)
	return out
}

// meet adds what the message as a whole has of licences and fits.
func (l *lattice) meet(f map[string]float64, ev evidence, items []item) {
	if len(ev.weight) == 0 {
		f["nolicence"] = 1
	}
	for _, it := range entitiesOf(items)[eRatio] {
		for _, o := range l.known.Open {
			if o.Had > 0 && o.Had == it.entity.of {
				f["anyratio"] = 1
			}
		}
	}
}

func softmax(z []float64) []float64 {
	top := z[0]
	for _, v := range z {
		top = math.Max(top, v)
	}
	sum := 0.0
	out := make([]float64, len(z))
	for i, v := range z {
		out[i] = math.Exp(v - top)
		sum += out[i]
	}
	for i := range out {
		out[i] /= sum
	}
	return out
}

func (r *Reader) classOf(name string) int {
	if i, ok := r.frames.byStep[rules.Step(name)]; ok {
		return i
	}
	for i, c := range intentClasses {
		if c == name {
			return len(r.frames.list) + i
		}
	}
	panic(fmt.Sprintf("no class is called %q", name))
}
