package main

import (
	"bytes"
	"errors"
	"fmt"
	"log/slog"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/telegram/apidouble"
)

// What comes from elsewhere loses what it quotes, whatever marks it does it with.
func TestDiscreetLog(t *testing.T) {
	_, number := strconv.Atoi("Wren: 45 from 7")
	for name, c := range map[string]struct {
		key   string
		value any
		want  string
	}{
		"quotes":       {"err", errors.New(`Bad Request: can't parse entities: unsupported start tag "Wren" at byte 5`), `can't parse entities: unsupported start tag \"…\" at byte 5`},
		"single":       {"err", errors.New(`unexpected 'moved 34' here`), `unexpected \"…\"`},
		"backticks":    {"err", errors.New("near `moved 34`: no"), `near \"…\": no`},
		"never closed": {"err", errors.New(`near "moved 34`), `near \"…\"`},
		"escaped":      {"err", fmt.Errorf("x: %q", `a "moved" 34`), `x: \"…\"`},
		"a tag":        {"err", errors.New("near <Wren> and on"), `near \"…\" and on`},
		"typographic":  {"err", errors.New("near «Wren» “Ash”"), `near \"…\" \"…\"`},
		"of a parser":  {"err", number, `parsing \"…\": invalid syntax`},
		"line ends":    {"err", errors.New("one\ntime=2031 level=ERROR\x1b[2J"), `one time=2031 level=ERROR [2J`},
		"long":         {"err", errors.New(strings.Repeat("x", 5000)), strings.Repeat("x", mostLogged) + "…"},
		"panic text":   {panicKey, "Wren moved 34", `panic="a string"`},
		"panic error":  {panicKey, errors.New("Wren moved 34"), `panic=*errors.errorString`},
		"panic value":  {panicKey, struct{ name string }{"Wren"}, `panic="struct { name string }"`},
		"a direction":  {"file", "a\u202eb", `file="a b"`},
	} {
		t.Run(name, func(t *testing.T) {
			for _, format := range []string{"text", "json"} {
				var b bytes.Buffer
				log, err := logFlags{format, "warn"}.logger(&b, nil)
				require.NoError(t, err)
				log.Warn("it failed", c.key, c.value)
				for _, word := range []string{"Wren", "moved", "Ash"} {
					assert.NotContains(t, b.String(), word)
				}
				assert.NotRegexp(t, `[^\P{C}\n]`, b.String())
				assert.Equal(t, 1, strings.Count(b.String(), "\n"))
				if format == "text" {
					assert.Contains(t, b.String(), c.want)
				}
			}
		})
	}
}

// A panic says what kind it is and where, not what it held.
func TestDiscreetPanic(t *testing.T) {
	var b bytes.Buffer
	counted := map[slog.Level]int{}
	log, err := logFlags{"text", "warn"}.logger(&b, func(l slog.Level) { counted[l]++ })
	require.NoError(t, err)
	for _, trip := range []func(){func() { panic("Wren moved 34") }, func() { _ = []int{}[len(b.String())] }} {
		func() {
			defer func() { log.Error("it panicked", panicKey, recover()) }()
			trip()
		}()
	}
	assert.Contains(t, b.String(), `panic="a string"`)
	assert.Contains(t, b.String(), "index out of range")
	assert.Equal(t, 4, strings.Count(b.String(), "yardbell/cmd/yardbell.TestDiscreetPanic.func"), b.String())
	assert.NotContains(t, b.String(), "Wren")
	assert.Equal(t, 2, counted[slog.LevelError])
}

// The chat's server may repeat in its refusal what was sent; the log does not.
func TestServeLogsDiscreetly(t *testing.T) {
	w := newWorld(t, apidouble.Options{ReadsAll: true})
	w.join("--log", "json", "--log-level", "debug")
	w.says(w.wren, "add yard Larkspur 40 nucs")
	w.Script("sendMessage", apidouble.Refuse(400, `Bad Request: can't parse entities: Unsupported start tag "Larkspur" in "Nothing is open"`), apidouble.Refuse(400, "Bad Request: 'Larkspur'"))
	w.Say(w.group, w.wren, "due")
	w.await("the faults", func() bool { return w.FaultsLeft("sendMessage") == 0 })
	w.clock.Advance(time.Minute)
	w.says(w.ash, "nucs 40 ready at Larkspur")
	w.quit()
	log := w.err.String()
	assert.Contains(t, log, "message refused for good")
	assert.Contains(t, log, `"msg":"stopped"`)
	for _, word := range []string{"Larkspur", "Wren", "Ash", "Nothing is open", "ready", secretWord, "Yard"} {
		assert.NotContains(t, strings.ReplaceAll(log, "yardbell", ""), word)
	}
	for _, l := range strings.Split(strings.TrimSpace(log), "\n") {
		assert.True(t, strings.HasPrefix(l, `{"time":"`), l)
	}
}
