package bot

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/conversation"
	"yardbell/store"
)

// No line of the labelled utterances and of the conversations sounds like one, but where
// it is meant to.
func TestNoEmergencyInTheCorpora(t *testing.T) {
	n := 0
	for _, u := range corpora(t) {
		n++
		assert.Empty(t, conversation.Emergency(u.text).Langs, "%s:%d: %s", u.file, u.line, u.text)
	}
	for _, dir := range []string{"", "es"} {
		files, err := filepath.Glob(filepath.Join("../testdata/conversations", dir, "*.txt"))
		require.NoError(t, err)
		require.NotEmpty(t, files)
		for _, path := range files {
			if strings.HasPrefix(filepath.Base(path), "emergency") {
				continue
			}
			b, err := os.ReadFile(path)
			require.NoError(t, err)
			for _, line := range strings.Split(string(b), "\n") {
				if _, said, ok := strings.Cut(line, ": "); ok && line[0] != '#' {
					n++
					assert.Empty(t, conversation.Emergency(said).Langs, "%s: %s", path, line)
				}
			}
		}
	}
	t.Logf("%d lines", n)
}

// What to do is said in words, before all else: no sign stands in its place, and replies to
// it are people's talk.
func TestEmergencyIsSaid(t *testing.T) {
	s := playScene(t, filepath.Join(utterances, "contexts", "ripe.txt"))
	ctx := context.Background()
	queued := func(who, text string, reply int64) (list []store.Message) {
		in := s.incoming(who, text)
		in.ReplyTo, s.last = reply, in.UpdateID
		require.NoError(t, s.bot.Handle(ctx, s.now, in))
		require.NoError(t, s.db.View(ctx, s.now, func(tx *store.Tx) error {
			all, err := tx.Outbox(s.crew.ID)
			for _, m := range all {
				if m.State == "queued" && m.Update != 0 {
					list = append(list, m)
				}
			}
			return err
		}))
		return list
	}
	list := queued("Wren", "Odile can't breathe", 0)
	require.Len(t, list, 1)
	assert.Equal(t, store.Emergency, list[0].Priority)
	assert.Equal(t, "reply", list[0].Kind)
	assert.Contains(t, list[0].Text, "Call your emergency number now")
	require.NoError(t, s.db.Update(ctx, s.now, func(tx *store.Tx) error {
		claimed, err := tx.Claim([]int64{list[0].ID})
		require.Len(t, claimed, 1)
		_, err2 := tx.MarkSent(claimed[0], 4711, list[0].Text, nil, "")
		return errors.Join(err, err2)
	}))
	assert.Empty(t, queued("Ash", "on my way", 4711))
	for _, m := range queued("Ash", "34", 4711) {
		assert.Equal(t, "ask", m.Kind, "no count of anything: %s", m.Text)
	}
	list = queued("Ash", "moved 34 to North, she passed out", 0)
	list = slices.DeleteFunc(list, func(m store.Message) bool { return m.Kind == "ask" })
	require.Len(t, list, 2)
	assert.Equal(t, store.Emergency, list[0].Priority)
	assert.Contains(t, list[1].Text, "34 moved to North")
}
