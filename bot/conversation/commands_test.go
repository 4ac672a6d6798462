package conversation

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
)

func spellReading(r *reading) string {
	var f []string
	put := func(k string, v any) {
		if s := fmt.Sprint(v); s != "" && s != "0" && s != "false" {
			f = append(f, k+"="+s)
		}
	}
	f = append(f, string(r.verb))
	put("step", string(r.step))
	put("batch", r.batch)
	put("breeder", r.breeder)
	put("builder", r.builder)
	put("yard", r.yard)
	if r.count != nil {
		f = append(f, fmt.Sprintf("count=%d", *r.count))
	}
	put("key", r.key)
	put("value", r.value)
	put("days", r.days)
	put("topic", r.topic)
	if r.dueDay.set {
		put("dueday", spellWhenRaw(r.dueDay))
	}
	put("unit", string(r.plan.unit))
	if r.plan.day.set {
		put("day", spellWhenRaw(r.plan.day))
	}
	put("order", r.plan.order)
	if r.plan.shifts {
		put("shift", fmt.Sprint(r.plan.shift))
	}
	put("person", r.plan.person)
	put("by", string(r.plan.by))
	return strings.Join(f, " ")
}

func spellWhenRaw(w when) string {
	s := ""
	if w.hasDay {
		s += "d"
		if w.date {
			s += fmt.Sprintf("%d-%d-%d", w.year, w.month, w.day)
		} else if w.weekday != 0 {
			s += fmt.Sprintf("wd%d", w.weekday)
			if w.back < 0 {
				s += "+"
			}
		} else {
			s += fmt.Sprintf("%+d", -w.back)
		}
	}
	if w.hasTime {
		s += fmt.Sprintf("@%v", w.clock)
		if w.half {
			s += "!"
		}
	}
	return s
}

// fateOfSetting is what a setting comes to, however its value is written.
func fateOfSetting(r *reading) string {
	if r.verb != doSet || r.key == "" || r.key == ownKey {
		return ""
	}
	s := *rules.DefaultSettings()
	v := wording.Stored(r.key, r.value)
	if r.key == "spread" {
		v = strings.ReplaceAll(v, " of ", "/")
	}
	if err := s.Apply(r.key, v, time.Date(2031, 5, 5, 10, 0, 0, 0, time.UTC)); err != nil {
		return "refused"
	}
	return s.Value(r.key)
}

var updateCommands = flag.Bool("update-commands", false, "write testdata/commands.tsv anew from what is read now; read the diff")

const commandsFile = "testdata/commands.tsv"

// spellCommand is what a command comes to in the handlers, or what becomes of the line.
func spellCommand(l string, spoken bool) string {
	k := rdg.Known{Breeders: []int{7, 12, 3, 9, 11}, Builders: []string{"B1", "B2", "B3"}, Yards: []string{"North", "Creek"}, Members: []string{"Wren", "Ash"}, Language: "en", Addressed: spoken}
	res := Understand().Read(l, k)
	if res.Outcome != rdg.Log {
		return string(res.Outcome)
	}
	var out []string
	for _, a := range res.Acts {
		c, ok := asCommand(a, res.Addressed, l)
		if !ok {
			s := strings.TrimSpace(fmt.Sprintf("%s %s %s batch=%d breeder=%d person=%s", a.Kind, a.Topic, a.Step, a.Batch, a.Breeder, a.Person))
			if a.C != nil {
				s += fmt.Sprintf(" incubator=%s c=%g", a.Incubator, *a.C)
			}
			out = append(out, s)
			continue
		}
		s := spellReading(c)
		if f := fateOfSetting(c); f != "" {
			s += " = " + f
		}
		out = append(out, s)
	}
	return strings.Join(out, "; ")
}

// TestCommands holds what each line of testdata/commands.tsv comes to: all lines of the
// scripts, the corpora and the help that ask or tell the bot something. Lines that begin
// with ">" are said to the bot.
func TestCommands(t *testing.T) {
	b, err := os.ReadFile(commandsFile)
	require.NoError(t, err)
	var out []string
	n := 0
	for i, l := range strings.Split(strings.TrimRight(string(b), "\n"), "\n") {
		if strings.HasPrefix(l, "# ") {
			out = append(out, l)
			continue
		}
		text, want, ok := strings.Cut(l, "\t")
		require.True(t, ok, "%s:%d", commandsFile, i+1)
		plain := strings.TrimPrefix(text, ">")
		is := spellCommand(plain, plain != text)
		out = append(out, text+"\t"+is)
		n++
		if !*updateCommands {
			assert.Equal(t, want, is, "%s:%d: %s", commandsFile, i+1, text)
		}
	}
	require.Greater(t, n, 800)
	if *updateCommands {
		require.NoError(t, os.WriteFile(commandsFile, []byte(strings.Join(out, "\n")+"\n"), 0o644))
	}
}
