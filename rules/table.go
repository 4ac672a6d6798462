package rules

import (
	_ "embed"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"sync"
	"time"
)

//go:embed steps.csv
var defaultTable string

// Row is one line of the step table. Hours are counted from the anchor.
type Row struct {
	Step     Step
	Variant  string
	Anchor   string
	Earliest float64
	Best     float64
	Latest   float64
	Weight   Weight
	Kind     string
	Stake    string
	Source   string
}

// Window is the row's window counted from anchor.
func (r Row) Window(anchor time.Time) (earliest, best, latest time.Time) {
	return anchor.Add(Hours(r.Earliest)), anchor.Add(Hours(r.Best)), anchor.Add(Hours(r.Latest))
}

// Table holds every step's row.
type Table struct {
	Rows []Row
}

// Row of a step; variant is "" for the main one. It panics on a name that the
// embedded table does not have, which only a programming error can ask for.
func (t *Table) Row(step Step, variant string) Row {
	for _, r := range t.Rows {
		if r.Step == step && r.Variant == variant {
			return r
		}
	}
	panic(fmt.Sprintf("rules: no row %s/%s in the step table", step, variant))
}

// DefaultTable is the embedded table, read once.
var DefaultTable = sync.OnceValue(func() *Table {
	t := &Table{}
	if errs := t.read(strings.NewReader(defaultTable), false); len(errs) > 0 {
		panic("rules: embedded step table: " + errs[0].Error())
	}
	return t
})

// LineError says what is wrong in one line of a rules file and what to put there.
type LineError struct {
	Line int
	What string // what stands there and why it cannot
	Put  string // what to put instead
}

func (e LineError) Error() string { return fmt.Sprintf("line %d: %s; put %s", e.Line, e.What, e.Put) }

// Override reads a crew's own rules file over a copy of the default table. The
// file has the columns step, variant, earliest, best, latest, weight (any others
// of steps.csv may stand there too and are ignored unless filled with another
// value); an empty cell keeps the default. All faults are reported, in line order.
func Override(r io.Reader) (*Table, []LineError) {
	def := DefaultTable()
	t := &Table{Rows: append([]Row(nil), def.Rows...)}
	errs := t.read(r, true)
	return t, errs
}

func (t *Table) read(r io.Reader, override bool) (errs []LineError) {
	cr := csv.NewReader(r)
	cr.Comment = '#'
	cr.FieldsPerRecord = -1
	cr.TrimLeadingSpace = true
	fail := func(line int, put, what string, args ...any) {
		errs = append(errs, LineError{line, fmt.Sprintf(what, args...), put})
	}
	var head []string
	seen := map[string]int{}
	for {
		rec, err := cr.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		var pe *csv.ParseError
		if errors.As(err, &pe) {
			fail(pe.Line, `a text with commas between double quotes`, "the line cannot be split into columns")
			return errs
		} else if err != nil {
			fail(0, "a file that can be read", "%v", err)
			return errs
		}
		line, _ := cr.FieldPos(0)
		if head == nil {
			head = rec
			if !has(head, "step") {
				fail(line, "step,variant,earliest,best,latest,weight", "the first line must name the columns, and has no column %q", "step")
				return errs
			}
			for _, h := range head {
				if !has([]string{"step", "variant", "anchor", "earliest", "best", "latest", "weight", "kind", "stake", "source"}, h) {
					fail(line, "only step, variant, earliest, best, latest, weight", "%q is not a column", h)
				}
			}
			continue
		}
		cell := func(name string) string {
			for i, h := range head {
				if h == name && i < len(rec) {
					return strings.TrimSpace(rec[i])
				}
			}
			return ""
		}
		if len(rec) > len(head) {
			fail(line, fmt.Sprintf("%d columns", len(head)), "the line has %d columns, the first line names %d", len(rec), len(head))
			continue
		}
		id := cell("step") + "/" + cell("variant")
		if prev, dup := seen[id]; dup {
			fail(line, "each step once", "%s stands here and in line %d", strings.TrimSuffix(id, "/"), prev)
			continue
		}
		seen[id] = line
		row := Row{Step: Step(cell("step")), Variant: cell("variant"), Anchor: cell("anchor"), Kind: cell("kind"), Stake: cell("stake"), Source: cell("source")}
		at := -1
		if override {
			for i, d := range t.Rows {
				if d.Step == row.Step && d.Variant == row.Variant {
					at, row = i, d
				}
			}
			if at < 0 {
				fail(line, nearestStep(t.Rows, cell("step"), cell("variant")), "there is no step %q", strings.TrimSuffix(id, "/"))
				continue
			}
			for _, fixed := range []struct{ name, is string }{{"anchor", row.Anchor}, {"kind", row.Kind}, {"stake", row.Stake}} {
				if v := cell(fixed.name); v != "" && v != fixed.is {
					fail(line, fixed.is+" or nothing", "%s of %s cannot be changed to %q", fixed.name, row.Step, v)
				}
			}
		}
		before := len(errs)
		for _, c := range []struct {
			name string
			to   *float64
		}{{"earliest", &row.Earliest}, {"best", &row.Best}, {"latest", &row.Latest}} {
			v := cell(c.name)
			if v == "" && override {
				continue
			}
			h, err := parseHours(v)
			if err != nil {
				fail(line, fmt.Sprintf("hours like %g or days and hours like 9d20h", *c.to), "%s %q of %s is not a number of hours", c.name, v, row.Step)
				continue
			}
			*c.to = h
		}
		if v := cell("weight"); v != "" || !override {
			w, err := ParseWeight(v)
			if err != nil {
				fail(line, "routine, important or critical", "weight %q of %s is not known", v, row.Step)
			}
			row.Weight = w
		}
		if len(errs) == before && (row.Earliest > row.Best || row.Best > row.Latest) {
			fail(line, "earliest ≤ best ≤ latest", "%s opens at %g h, is best at %g h and closes at %g h, out of order", row.Step, row.Earliest, row.Best, row.Latest)
		}
		if len(errs) > before {
			continue
		}
		if override {
			t.Rows[at] = row.owned(t.Rows[at], cell("source"))
		} else {
			t.Rows = append(t.Rows, row)
		}
	}
	if head == nil {
		fail(1, "step,variant,earliest,best,latest,weight", "the file is empty")
	}
	return errs
}

// owned marks a row whose hours the crew changed: the published source does not
// vouch for them any more.
func (r Row) owned(was Row, source string) Row {
	if r.Earliest == was.Earliest && r.Best == was.Best && r.Latest == was.Latest {
		return r
	}
	if r.Source = source; source == "" || source == was.Source {
		r.Source = OwnSource + strings.TrimPrefix(was.Source, OwnSource)
	}
	return r
}

// OwnSource leads the source of a row that the crew changed; that of the row it
// stands for follows.
const OwnSource = "the crew's own rules, instead of: "

// WithStep is the table with the crew's own hours for one step, "18/24/48" after
// its anchor. Hours out of order are refused.
func (t *Table) WithStep(step Step, value string) (*Table, error) {
	parts := strings.Split(strings.ReplaceAll(value, " ", ""), "/")
	if len(parts) != 3 {
		return nil, fmt.Errorf("%q is not three times like 18/24/48", value)
	}
	var h [3]float64
	for i, p := range parts {
		v, err := parseHours(p)
		if err != nil {
			return nil, err
		}
		h[i] = v
	}
	if h[0] > h[1] || h[1] > h[2] {
		return nil, fmt.Errorf("%q is out of order", value)
	}
	if step == Graft && h[2] > 48 {
		return nil, fmt.Errorf("larvae over 48 h old are not to be planned for")
	}
	out := &Table{Rows: append([]Row(nil), t.Rows...)}
	for i, r := range out.Rows {
		if r.Step == step && r.Variant == "" && (r.Kind == "task" || r.Kind == "guard") {
			own := r
			own.Earliest, own.Best, own.Latest = h[0], h[1], h[2]
			out.Rows[i] = own.owned(r, "")
			return out, nil
		}
	}
	return nil, fmt.Errorf("the hours of %q cannot be set", step)
}

// withRow is the table with one step's main row as another table has it.
func (t *Table) withRow(from *Table, step Step) (*Table, error) {
	out := &Table{Rows: append([]Row(nil), t.Rows...)}
	for i, r := range out.Rows {
		if r.Step == step && r.Variant == "" {
			out.Rows[i] = from.Row(step, "")
			return out, nil
		}
	}
	return nil, fmt.Errorf("there is no step %q", step)
}

func parseHours(s string) (float64, error) {
	if h, err := strconv.ParseFloat(s, 64); err == nil {
		if h < -2000 || h > 2000 || h != h {
			return 0, fmt.Errorf("%q is out of range", s)
		}
		return h, nil
	}
	neg := strings.HasPrefix(s, "-")
	d, err := ParseSpan(strings.TrimPrefix(s, "-"))
	if err != nil {
		return 0, err
	}
	if neg {
		d = -d
	}
	return d.Hours(), nil
}

func nearestStep(rows []Row, step, variant string) string {
	var same, all []string
	for _, r := range rows {
		name := string(r.Step)
		if r.Step == Step(step) {
			v := r.Variant
			if v == "" {
				v = "an empty cell"
			}
			same = append(same, v)
		}
		if !has(all, name) {
			all = append(all, name)
		}
	}
	if len(same) > 0 && variant != "" {
		return "one of the variants " + strings.Join(same, ", ")
	}
	if len(same) > 0 {
		return "one of its variants " + strings.Join(same, ", ")
	}
	return "one of " + strings.Join(all, ", ")
}

func has(list []string, s string) bool {
	for _, l := range list {
		if l == s {
			return true
		}
	}
	return false
}
