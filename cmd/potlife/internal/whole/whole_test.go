package whole

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"
)

// TestHalfWritten: an error in the middle leaves the old file and nothing beside it.
func TestHalfWritten(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "plan.svg")
	if err := os.WriteFile(path, []byte("old"), 0o640); err != nil {
		t.Fatal(err)
	}
	full := errors.New("disk full")
	err := replace(path, func(w io.Writer) error {
		if _, err := io.WriteString(w, "half a pic"); err != nil {
			return err
		}
		return full
	})
	if !errors.Is(err, full) {
		t.Errorf("got %v, want %v", err, full)
	}
	if got, err := os.ReadFile(path); err != nil || string(got) != "old" {
		t.Errorf("the old file is now %q, %v", got, err)
	}
	if list, err := os.ReadDir(folder); err != nil || len(list) != 1 {
		t.Errorf("the folder holds %v, %v", list, err)
	}
}

// TestReplaced: the new content, with the old permissions.
func TestReplaced(t *testing.T) {
	path := filepath.Join(t.TempDir(), "plan.svg")
	if err := os.WriteFile(path, []byte("old"), 0o640); err != nil {
		t.Fatal(err)
	}
	if err := Write(path, []byte("new")); err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile(path)
	if err != nil || string(got) != "new" {
		t.Errorf("the file holds %q, %v", got, err)
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("its mode is %v, %v", info.Mode(), err)
	}
}
