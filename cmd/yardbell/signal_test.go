package main

import (
	"context"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/store"
)

// The first signal lets a message that is on its way arrive; the second ends the process
// at once, so that one that hangs can be ended by hand.
func TestSecondSignalEnds(t *testing.T) {
	program, err := binary()
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "crew.db")
	db, err := store.Open(t.Context(), file, store.Options{})
	require.NoError(t, err)
	require.NoError(t, db.Update(t.Context(), time.Now(), func(tx *store.Tx) error {
		c, err := tx.NewCrew("telegram", -1, map[string]string{"zone": "UTC"})
		if err != nil {
			return err
		}
		return tx.Queue(store.Message{Crew: c.ID, Key: "one", Kind: "reply", Text: "one"})
	}))
	require.NoError(t, db.Close())
	sending, over := make(chan struct{}, 9), make(chan struct{})
	srv := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if path.Base(r.URL.Path) == "sendMessage" {
			sending <- struct{}{}
			<-over
		}
		quietChat(w, r)
	}))
	t.Cleanup(srv.Close)
	defer close(over)
	ctx, cancel := context.WithTimeout(t.Context(), bound)
	defer cancel()
	c := exec.CommandContext(ctx, program, "serve", "--db", file, "--api", srv.URL)
	c.Env = append(os.Environ(), "YARDBELL_TOKEN="+markerToken)
	require.NoError(t, c.Start())
	done := make(chan error, 1)
	go func() { done <- c.Wait() }()
	select {
	case <-sending:
	case err := <-done:
		require.FailNow(t, "ended", "%v", err)
	}
	require.NoError(t, c.Process.Signal(syscall.SIGINT))
	began := time.Now()
	select {
	case err := <-done:
		require.FailNow(t, "the message was cut off", "%v", err)
	case <-time.After(500 * time.Millisecond):
	}
	require.NoError(t, c.Process.Signal(syscall.SIGINT))
	<-done
	assert.Less(t, time.Since(began), 3*time.Second, "it would wait five for the message")
}
