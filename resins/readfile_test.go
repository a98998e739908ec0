package resins_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"potlife/resins"
)

// TestFilesAreReadWhole: a file is read to its last byte or refused with its size, never cut,
// and one that does not end is refused as well. The large ones are sparse: they take no room.
func TestFilesAreReadWhole(t *testing.T) {
	folder := t.TempDir()
	sparse := func(name string, bytes int64) string {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, nil, 0o644); err != nil {
			t.Fatal(err)
		}
		if err := os.Truncate(path, bytes); err != nil {
			t.Fatal(err)
		}
		return path
	}
	for _, bytes := range []int64{4<<20 + 1, resins.LargestFile} {
		got, err := resins.ReadFile(sparse("whole", bytes), "job file")
		if err != nil || int64(len(got)) != bytes {
			t.Errorf("%d bytes of %d, %v", len(got), bytes, err)
		}
	}
	for _, c := range []struct{ path, says string }{
		{sparse("large", resins.LargestFile+1<<20), "33.0 MiB"},
		{"/dev/zero", "more than 32 MiB"},
	} {
		got, err := resins.ReadFile(c.path, "job file")
		var large *resins.TooLarge
		if !errors.As(err, &large) || len(got) > 0 || !strings.Contains(err.Error(), c.says) || !strings.Contains(err.Error(), "right file") {
			t.Errorf("%d bytes, %v", len(got), err)
		}
	}
}
