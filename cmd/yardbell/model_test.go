package main

import (
	"bytes"
	"context"
	"math/rand/v2"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// The model is the fold of the file with random talk as well: what is taken back, changed and refused in any order.
func TestRandomTalkKeepsTheModel(t *testing.T) {
	inSequence(t)
	t.Parallel()
	for n := range uint64(4) {
		playChecked(t, "America/Chicago", "2031-04-24 08:00", "en", func(p *player, check func(line string)) {
			g := &gossip{r: rand.New(rand.NewPCG(n, 77)), out: p.out.(*bytes.Buffer), left: 150}
			for i := range 150 {
				g.listen()
				l := g.line()
				if parsed, err := parseLine(l); err == nil {
					require.NoError(t, p.do(t.Context(), i+1, parsed))
					check(l)
				}
			}
		})
	}
}

func playChecked(t *testing.T, zone, now, lang string, play func(p *player, check func(line string))) {
	t.Helper()
	var out, errOut bytes.Buffer
	dir := t.TempDir()
	p := &player{e: testEnv("", &out, &errOut), path: filepath.Join(dir, "crew.db"), files: dir, first: map[string]string{"zone": zone, "language": lang}, out: &out, json: true}
	require.NoError(t, p.open(t.Context()))
	defer func() { require.NoError(t, p.close()) }()
	begin, err := parseNow(now, zoneOf(t, zone))
	require.NoError(t, err)
	require.NoError(t, p.begin(t.Context(), begin))
	play(p, func(line string) {
		require.NoError(t, p.db.CheckModels(context.Background(), p.now), "after %q", line)
	})
}
