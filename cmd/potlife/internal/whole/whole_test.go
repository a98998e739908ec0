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

// TestReplaced: the new content, with the old permissions, also those that the mask takes from
// new files.
func TestReplaced(t *testing.T) {
	to := Target{Path: filepath.Join(t.TempDir(), "plan.svg"), Kind: Chart(".svg"), Force: true}
	for _, mode := range []os.FileMode{0o640, 0o666, 0o600} {
		if err := os.WriteFile(to.Path, []byte("old"), 0o600); err != nil {
			t.Fatal(err)
		}
		if err := os.Chmod(to.Path, mode); err != nil {
			t.Fatal(err)
		}
		if err := to.Write([]byte("new")); err != nil {
			t.Fatal(err)
		}
		got, err := os.ReadFile(to.Path)
		if err != nil || string(got) != string(to.Kind.mark([]byte("new"))) {
			t.Errorf("the file holds %q, %v", got, err)
		}
		if info, err := os.Stat(to.Path); err != nil || info.Mode().Perm() != mode {
			t.Errorf("its mode is %v, %v", info.Mode(), err)
		}
	}
}
