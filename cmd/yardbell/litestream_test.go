package main

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/store"
)

// Litestream copies what is committed to another place while the program runs. It is a
// program of its own, built from its module; its path stands in replicator, without
// which the test is left out.
const replicator = "YARDBELL_LITESTREAM"

// mayLose is how long before the end something may have been acknowledged and yet be
// lost with the disk.
const mayLose = 2 * time.Second

// replicatedChild names the database of the console that is killed.
const replicatedChild = "YARDBELL_TEST_REPLICATED"

// TestReplicatedChild is the process that is killed: a console on the real clock.
func TestReplicatedChild(t *testing.T) {
	db := os.Getenv(replicatedChild)
	if db == "" {
		t.Skip("only as a child of TestLitestream")
	}
	e := env{in: os.Stdin, out: os.Stdout, errOut: os.Stderr, get: os.Getenv, clock: time.Now, tty: func(io.Writer) bool { return false }, sleep: time.Sleep}
	os.Exit(run(context.Background(), []string{"console", "--db", db, "--zone", "America/Chicago", "--json"}, e))
}

// The sample configuration, the machine lost at a moment nobody chose, its disk gone: on
// another machine all is there that was acknowledged more than two seconds before.
func TestLitestream(t *testing.T) {
	binary := os.Getenv(replicator)
	if binary == "" {
		t.Skip("needs Litestream; its path in " + replicator)
	}
	worst := time.Duration(0)
	for n, life := range []time.Duration{6300, 7100, 7900, 8700} {
		lost, said := loseTheDisk(t, binary, life*time.Millisecond)
		t.Logf("round %d: %d lines acknowledged in %s; lost what was acknowledged in the last %d ms", n+1, said, life*time.Millisecond, lost.Milliseconds())
		worst = max(worst, lost)
	}
	t.Logf("at worst lost: what was acknowledged in the last %d ms", worst.Milliseconds())
	assert.LessOrEqual(t, worst, mayLose)
}

// loseTheDisk lets a crew log for that long, loses the machine, restores on another, and
// gives how old the oldest acknowledged line was that is not there.
func loseTheDisk(t *testing.T, binary string, life time.Duration) (lost time.Duration, said int) {
	disk, other, replica := t.TempDir(), t.TempDir(), t.TempDir()
	db := filepath.Join(disk, "crew.db")
	conf := strings.NewReplacer("/var/lib/yardbell", disk, "/media/replica", replica).Replace(read(t, "../../deploy/litestream.yml"))
	require.Contains(t, conf, disk, "the sample names the database")
	require.Contains(t, conf, replica, "the sample names the replica")
	file := filepath.Join(replica, "litestream.yml")
	require.NoError(t, os.WriteFile(file, []byte(conf), 0o600))

	child := exec.Command(os.Args[0], "-test.run", "^TestReplicatedChild$")
	child.Env = append(os.Environ(), replicatedChild+"="+db)
	in, err := child.StdinPipe()
	require.NoError(t, err)
	out, err := child.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, child.Start())
	answered := make(chan time.Time, 1)
	go func() {
		for s := bufio.NewScanner(out); s.Scan(); {
			var m struct {
				Logged []json.RawMessage `json:"logged"`
			}
			if json.Unmarshal(s.Bytes(), &m) == nil && len(m.Logged) > 0 {
				answered <- time.Now()
			}
		}
		close(answered)
	}()
	var mu sync.Mutex
	var list []time.Time // when each line of the logbook was answered, in its order
	start := make(chan struct{})
	go func() {
		for line := "Wren: add builder B1"; ; line = "Wren: fed B1 1.5 l" {
			if _, err := fmt.Fprintln(in, line); err != nil {
				return
			}
			at, ok := <-answered
			if !ok {
				return
			}
			mu.Lock()
			list = append(list, at)
			first := len(list) == 1
			mu.Unlock()
			if first {
				close(start)
			}
		}
	}()
	<-start
	copier := exec.Command(binary, "replicate", "-config", file)
	log, err := os.Create(filepath.Join(other, "replicate.log"))
	require.NoError(t, err)
	defer func() { _ = log.Close() }()
	copier.Stdout, copier.Stderr = log, log
	require.NoError(t, copier.Start())
	<-time.After(life)

	// The machine is gone: nothing of either is flushed or closed.
	end := time.Now()
	require.NoError(t, copier.Process.Kill())
	require.NoError(t, child.Process.Kill())
	_, _ = copier.Process.Wait()
	_, _ = child.Process.Wait()
	require.NoError(t, os.RemoveAll(disk))
	mu.Lock()
	before := list
	mu.Unlock()
	require.NotEmpty(t, before)

	// On another machine.
	found := filepath.Join(other, "found.db")
	restored, err := exec.Command(binary, "restore", "-o", found, "file://"+filepath.Join(replica, "crew")).CombinedOutput()
	require.NoError(t, err, "%s\n%s", restored, read(t, log.Name()))
	back := filepath.Join(other, "crew.db")
	r := call("", "restore", "--from", found, "--db", back)
	require.Zero(t, r.code, r.err)
	there := 0
	d, err := store.Open(t.Context(), back, store.Options{})
	require.NoError(t, err)
	defer func() { require.NoError(t, d.Close()) }()
	require.NoError(t, d.View(t.Context(), end, func(tx *store.Tx) error {
		book, err := tx.Logbook(1)
		there = len(book)
		return err
	}))
	last := before[len(before)-1]
	require.Less(t, end.Sub(last), time.Second, "the crew logged until the end")
	if there < len(before) && before[there].Before(end) {
		lost = end.Sub(before[there])
	}
	return lost, len(before)
}
