package session

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// smallDisk mounts a file system in memory.
func smallDisk(t *testing.T, size string) string {
	t.Helper()
	disk := t.TempDir()
	if err := syscall.Mount("none", disk, "tmpfs", 0, "size="+size); err != nil {
		t.Skip("a small file system cannot be mounted here, which takes root:", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(disk, syscall.MNT_DETACH); err != nil {
			t.Error(err)
		}
	})
	return disk
}

// TestFullDisk logs until the disk is full, in the middle of a line: that append fails,
// all before it are there, and the same journal goes on when there is room again.
func TestFullDisk(t *testing.T) {
	disk := smallDisk(t, "64k")
	spare := filepath.Join(disk, "spare")
	if err := os.WriteFile(spare, make([]byte, 16<<10), 0o666); err != nil {
		t.Fatal(err)
	}
	j, err := Create(disk)
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	// No divisor of a page, so that some of the last line still finds room.
	text := strings.Repeat("x", 1500)
	n := 0
	for ; n < 100 && err == nil; n++ {
		_, err = j.Append(always(sample{N: n, Text: text}))
	}
	var failed *Failed
	if !errors.As(err, &failed) || failed.Unsure || !errors.Is(err, syscall.ENOSPC) || !strings.Contains(err.Error(), "free some space") {
		t.Fatalf("after %d appends: %v", n, err)
	}
	acknowledged := j.Entries()
	if len(acknowledged) != n-1 {
		t.Errorf("%d entries, %d were acknowledged", len(acknowledged), n-1)
	}
	full, report := reopen(t, disk)
	if report != (Report{}) {
		t.Errorf("on the full disk: report %+v", report)
	}
	sameEntries(t, acknowledged, full.Entries())
	if err := os.Remove(spare); err != nil {
		t.Fatal(err)
	}
	mustAppend(t, j, sample{N: n, Text: text})
	again, _ := reopen(t, disk)
	sameEntries(t, j.Entries(), again.Entries())
}

// TestReadOnlyDisk: a file system that is read-only by now, and one that was so from the
// start, with and without a file for the lock.
func TestReadOnlyDisk(t *testing.T) {
	disk := smallDisk(t, "64k")
	j, err := Create(disk)
	if err != nil {
		t.Fatal(err)
	}
	mustAppend(t, j, sample{N: 1})
	acknowledged, text := j.Entries(), contents(t, disk)
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
	turn := func(flags uintptr) {
		t.Helper()
		if err := syscall.Mount("none", disk, "tmpfs", syscall.MS_REMOUNT|flags, ""); err != nil {
			t.Fatal(err)
		}
	}
	for _, locked := range []bool{true, false} {
		if !locked {
			turn(0)
			if err := os.Remove(filepath.Join(disk, lockName)); err != nil {
				t.Fatal(err)
			}
		}
		turn(syscall.MS_RDONLY)
		readsOnly(t, disk, acknowledged, text)
	}
	if _, err := Create(disk); !errors.Is(err, syscall.EROFS) || !strings.Contains(err.Error(), "writable") {
		t.Errorf("Create on a read-only disk: %v", err)
	}
}
