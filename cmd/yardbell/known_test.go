package main

import (
	"context"
	"encoding/json"
	"flag"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"yardbell/bot"
	"yardbell/bot/reading"
	"yardbell/store"
)

var updateKnown = flag.Bool("update-known", false, "write the situations of the labelled lines anew")

const knownFile = "../../bot/reading/testdata/known-situations.json"

// TestKnownSituations holds what the reader is told in each situation, in answer to each
// ping and to none, against what it learns from.
func TestKnownSituations(t *testing.T) {
	inSequence(t)
	dir := t.TempDir()
	list := readSituations(t, filepath.Join(situations, "contexts.txt"))
	var names []string
	for n := range list {
		names = append(names, n)
	}
	sort.Strings(names)
	got := map[string]reading.Known{}
	quiet := slog.New(slog.NewTextHandler(io.Discard, nil))
	zone, err := time.LoadLocation(situationZone)
	require.NoError(t, err)
	for _, name := range names {
		s := list[name]
		require.NoError(t, s.build(dir, "en"))
		db, err := store.Open(context.Background(), s.db, store.Options{})
		require.NoError(t, err)
		now, err := time.ParseInLocation("2006-01-02 15:04", s.now, zone)
		require.NoError(t, err)
		b := bot.New(db, func() {}, quiet, nil)
		to := map[string]int64{"": 0}
		for _, m := range s.pings {
			to[" >"+m.Step] = m.N
		}
		for at, n := range to {
			for _, who := range []string{"Ana", "Lead", "Ash"} {
				in := bot.Incoming{Source: consoleSource, UpdateID: 1 << 40, Chat: consoleChat, UserKey: strings.ToLower(who), UserName: who, Said: now, Kind: "message", Message: -1 << 40, ReplyTo: n, Text: "x"}
				k, err := b.Known(context.Background(), now, in)
				require.NoError(t, err, name)
				require.False(t, k.Now.IsZero(), name)
				got[name+at+" @"+who] = k
			}
		}
		require.NoError(t, db.Close())
	}
	out, err := json.MarshalIndent(got, "", " ")
	require.NoError(t, err)
	if *updateKnown {
		require.NoError(t, os.WriteFile(knownFile, append(out, '\n'), 0o644))
	}
	want, err := os.ReadFile(knownFile)
	require.NoError(t, err)
	require.JSONEq(t, string(want), string(out))
}
