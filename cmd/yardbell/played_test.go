package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sync/errgroup"

	"yardbell/bot/wording"
	"yardbell/store"
)

// played is what came of a script.
type played struct {
	marked string // as it is read, its sentences marked
	fields string // field by field, marked too
	model  error  // where the model in memory was not the fold of the file
	moved  error  // where the rows were others after a rebuild
}

// text is what is read, jsonl the same field by field.
func (p played) text() string  { return wording.Bare(p.marked) }
func (p played) jsonl() string { return wording.Bare(p.fields) }

// plays are the scripts that were played: each is played once for all that is tested of it.
var plays = map[string]played{}

// playAll plays those of some scripts that a run of tests is after and that were not
// played yet. Meanwhile all sentences are marked: no test that does this may run beside others.
func playAll(t testing.TB, list []conversation) map[string]played {
	t.Helper()
	_, only, _ := strings.Cut(flag.Lookup("test.run").Value.String(), "/")
	after, err := regexp.Compile(only)
	require.NoError(t, err)
	wording.Marked(true)
	defer wording.Marked(false)
	var g errgroup.Group
	var mu sync.Mutex
	g.SetLimit(runtime.GOMAXPROCS(0))
	for _, c := range list {
		if _, done := plays[c.name]; done || !after.MatchString(c.name) && !after.MatchString("es/"+c.name) {
			continue
		}
		g.Go(func() error {
			p, err := c.playOnce()
			if err != nil {
				return fmt.Errorf("%s: %w", c.name, err)
			}
			mu.Lock()
			defer mu.Unlock()
			plays[c.name] = p
			return nil
		})
	}
	require.NoError(t, g.Wait())
	return plays
}

// playOnce plays a script on a fresh database, with an eye on the model after each line,
// and derives everything anew in the end.
func (c conversation) playOnce() (got played, err error) {
	ctx := context.Background()
	dir, err := os.MkdirTemp("", "played-")
	if err != nil {
		return got, err
	}
	defer func() { _ = os.RemoveAll(dir) }()
	zoneName, start, err := headOf(c.text)
	if err != nil {
		return got, err
	}
	zone, err := loadZone(zoneName)
	if err != nil {
		return got, err
	}
	now, err := parseNow(start, zone)
	if err != nil {
		return got, err
	}
	var text, jsonl, errOut bytes.Buffer
	path := filepath.Join(dir, "crew.db")
	p := &player{e: testEnv("", &text, &errOut), path: path, files: dir, first: map[string]string{"zone": zoneName, "language": c.lang}, out: &output{w: &text}, echo: true}
	if err := p.open(ctx); err != nil {
		return got, err
	}
	p.con.Beside = &jsonl
	err = p.begin(ctx, now)
	for n, s := range strings.Split(c.text, "\n") {
		if err != nil {
			break
		}
		var l scriptLine
		if l, err = parseLine(trimEOL(s)); err == nil {
			err = p.do(ctx, n+1, l)
		}
		if got.model == nil && err == nil {
			if e := p.db.CheckModels(ctx, p.now); e != nil {
				got.model = fmt.Errorf("after line %d, %q: %w", n+1, s, e)
			}
		}
	}
	if e := p.close(); err == nil {
		err = e
	}
	if err != nil {
		return got, fmt.Errorf("%w; standard error: %s", err, errOut.String())
	}
	got.marked, got.fields = text.String(), jsonl.String()
	got.moved = sameAfterRebuild(ctx, path)
	return got, nil
}

// sameAfterRebuild derives everything anew from the logbook and finds it as it was.
func sameAfterRebuild(ctx context.Context, path string) (err error) {
	db, err := store.Open(ctx, path, store.Options{})
	if err != nil {
		return err
	}
	defer func() {
		if e := db.Close(); err == nil {
			err = e
		}
	}()
	var last time.Time
	err = db.View(ctx, time.Time{}, func(tx *store.Tx) error {
		crews, err := tx.Crews()
		if err != nil {
			return err
		}
		out, err := tx.Outbox(crews[0].ID)
		for _, m := range out {
			if m.Sent.After(last) {
				last = m.Sent
			}
		}
		return err
	})
	if err != nil {
		return err
	}
	var before, after string
	err = db.Update(ctx, last, func(tx *store.Tx) (err error) {
		if before, err = tx.Dump(); err != nil {
			return err
		}
		if _, err = tx.Rebuild(); err != nil {
			return err
		}
		after, err = tx.Dump()
		return err
	})
	if err == nil && before != after {
		err = fmt.Errorf("derived rows differ after a rebuild:\n%s\nwere\n%s", after, before)
	}
	return err
}

// stories are the conversations that keep their whole text in testdata, in each language: to
// be read by people. Of the others the ids of the sentences are kept with what they are filled
// in with, so that a change of a sentence changes little; each sentence stands once on the
// pages of bot/wording/testdata.
var stories = []string{
	"season", "story_confine", "story_done", "story_due", "story_evening", "corrections", "orders", "rescue", "whatif", "feeders", "settings", "talk",
}

// Every script says exactly what is written beside it: NAME.out to be read, NAME.jsonl field
// by field. A Spanish crew is told the same as an English one: what it is told stands by
// itself only where it is a story, or where the two differ.
func TestConversations(t *testing.T) {
	inSequence(t)
	all := playAll(t, scripts(t))
	for _, c := range scripts(t) {
		t.Run(c.name, func(t *testing.T) {
			got, base := all[c.name], filepath.Base(c.base)
			require.NoError(t, got.moved)
			switch {
			case slices.Contains(stories, base):
				expect(t, c.base+".out", got.text())
			case c.lang == "en" || !slices.Equal(toldIn(t, got), toldIn(t, all[base])):
				expect(t, c.base+".out", wording.IDs(got.marked))
			case *update:
				_ = os.Remove(c.base + ".out")
			default:
				assert.NoFileExists(t, c.base+".out", "both crews are told the same; -update removes it")
			}
			if c.lang == "en" {
				expect(t, c.base+".jsonl", fieldsOf(t, got))
			}
		})
	}
}

// typedForm is what a sentence quotes of what people typed, in their language.
var typedForm = regexp.MustCompile(`\b(Rest|Reason|Text|Label|Example)=[^=()]*`)

// toldIn is what each message says and has on its buttons, whatever the language.
func toldIn(t testing.TB, p played) (list []string) {
	t.Helper()
	for _, m := range parse(t, p.fields) {
		said := []string{typedForm.ReplaceAllString(wording.IDs(m["text"].(string)), "$1")}
		for _, label := range m["buttons"].([]any) {
			said = append(said, "["+strings.Join(wording.Sentences(label.(string)), " ")+"]")
		}
		list = append(list, strings.Join(said, "\n"))
	}
	return list
}

// fieldsOf are the fields of what was said, with the ids of its sentences and buttons in
// the place of their words.
func fieldsOf(t testing.TB, p played) string {
	t.Helper()
	var b strings.Builder
	for _, m := range parse(t, p.fields) {
		m["says"] = wording.Sentences(m["text"].(string))
		delete(m, "text")
		for i, label := range m["buttons"].([]any) {
			m["buttons"].([]any)[i] = strings.Join(wording.Sentences(label.(string)), " ")
		}
		line, err := json.Marshal(m)
		require.NoError(t, err)
		b.Write(append(line, '\n'))
	}
	return b.String()
}

// The model in memory is the fold of the file, and its tasks are their rows, at every step of every
// conversation.
func TestConversationsKeepTheModel(t *testing.T) {
	inSequence(t)
	for name, p := range playAll(t, scripts(t)) {
		require.NoError(t, p.model, name)
	}
}
