package main

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The demo runs through without a refused press, and the conversations that pages
// show of it are what it says.
func TestReadmeShowsTheDemo(t *testing.T) {
	var out, errOut bytes.Buffer
	require.Equal(t, 0, run(context.Background(), []string{"demo"}, testEnv("", &out, &errOut)), errOut.String())
	assert.NotContains(t, out.String(), "\x1b", "no colours in a pipe")
	assert.NotContains(t, out.String(), "There is no button")
	for _, page := range []string{"README.md", "bot/README.md"} {
		_, excerpt, ok := strings.Cut(read(t, "../../"+page), "<!-- excerpt")
		require.True(t, ok, page)
		_, excerpt, _ = strings.Cut(excerpt, "```\n")
		excerpt, _, ok = strings.Cut(excerpt, "```\n")
		require.True(t, ok, page)
		require.NotEmpty(t, strings.TrimSpace(excerpt), page)
		for _, part := range strings.Split(excerpt, "\n…\n") {
			assert.Contains(t, out.String(), strings.TrimSpace(part), page)
		}
	}
	// The two commands stand there as printed here.
	assert.Contains(t, read(t, "../../README.md"), "go run ./cmd/yardbell demo\ngo test ./...\n")
}
