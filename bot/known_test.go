package bot

import (
	"context"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	rdg "yardbell/bot/reading"
)

var updateKnown = flag.Bool("update-known", false, "write the situations of the labelled lines anew")

const knownFile = "reading/testdata/known-contexts.json"

// TestKnownSituations holds what the reader is told in each situation of the labelled
// lines against what it learns from: the two must not drift apart.
func TestKnownSituations(t *testing.T) {
	g := newStage(t)
	got := map[string]rdg.Known{}
	for _, u := range corpora(t) {
		key := u.key()
		if _, have := got[key]; have {
			continue
		}
		s, reply := g.scene(u)
		in := s.incoming(u.who, u.text)
		in.ReplyTo = reply
		k, err := s.bot.Known(context.Background(), s.now, in)
		require.NoError(t, err, key)
		got[key] = k
	}
	b, err := json.MarshalIndent(got, "", " ")
	require.NoError(t, err)
	if *updateKnown {
		require.NoError(t, os.MkdirAll(filepath.Dir(knownFile), 0o755))
		require.NoError(t, os.WriteFile(knownFile, append(b, '\n'), 0o644))
	}
	want, err := os.ReadFile(knownFile)
	require.NoError(t, err)
	require.JSONEq(t, string(want), string(b))
}

// key names the situation an utterance is said in.
func (u utterance) key() string {
	k := u.context
	if u.replies {
		k += " >" + u.to
	}
	return k + " @" + u.who
}
