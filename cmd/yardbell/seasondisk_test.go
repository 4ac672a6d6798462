//go:build linux && !race

package main

import (
	"os"
	"path/filepath"
	"strconv"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// disk is where the file of a season lies: a file system of its own in memory, where
// this process may mount one, which can then be full or read-only in earnest.
type disk struct {
	dir     string
	mounted bool
}

const roomy = "size=1g"

func newDisk(t *testing.T) *disk {
	d := &disk{dir: filepath.Join(t.TempDir(), "disk")}
	require.NoError(t, os.Mkdir(d.dir, 0o700))
	d.mounted = syscall.Mount("tmpfs", d.dir, "tmpfs", 0, roomy) == nil
	t.Cleanup(func() {
		if d.mounted {
			_ = syscall.Unmount(d.dir, syscall.MNT_DETACH)
		}
	})
	return d
}

func (d *disk) path() string { return filepath.Join(d.dir, "crew.db") }

// fill leaves no room on the disk, room makes it again.
func (d *disk) fill() error {
	var st syscall.Statfs_t
	if err := syscall.Statfs(d.dir, &st); err != nil {
		return err
	}
	used := (st.Blocks - st.Bfree) * uint64(st.Bsize)
	return syscall.Mount("tmpfs", d.dir, "tmpfs", syscall.MS_REMOUNT, "size="+strconv.FormatUint(used, 10))
}

func (d *disk) room() error {
	return syscall.Mount("tmpfs", d.dir, "tmpfs", syscall.MS_REMOUNT, roomy)
}

// lock makes the disk read-only; nobody may have a file of it open for writing.
func (d *disk) lock() error {
	return syscall.Mount("tmpfs", d.dir, "tmpfs", syscall.MS_REMOUNT|syscall.MS_RDONLY, roomy)
}
