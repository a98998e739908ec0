package replace

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestHalfWritten(t *testing.T) {
	path := filepath.Join(t.TempDir(), "page.html")
	if err := os.WriteFile(path, []byte("old"), 0o640); err != nil {
		t.Fatal(err)
	}
	full := errors.New("disk full")
	err := File(path, func(w io.Writer) error {
		if _, err := io.WriteString(w, "half a pa"); err != nil {
			return err
		}
		return full
	})
	if !errors.Is(err, full) {
		t.Errorf("got %v, want %v", err, full)
	}
	only(t, path, "old")
}

func TestWritten(t *testing.T) {
	path := filepath.Join(t.TempDir(), "page.html")
	for _, content := range []string{"first", "second"} {
		if err := File(path, func(w io.Writer) error {
			_, err := io.WriteString(w, content)
			return err
		}); err != nil {
			t.Fatal(err)
		}
		only(t, path, content)
	}
}

// only checks that a file is alone in its folder and has the content.
func only(t *testing.T, path, want string) {
	t.Helper()
	if got, err := os.ReadFile(path); err != nil || string(got) != want {
		t.Errorf("the file is %q, %v, want %q", got, err, want)
	}
	if entries, err := os.ReadDir(filepath.Dir(path)); err != nil || len(entries) != 1 {
		t.Errorf("the folder holds %v, %v", entries, err)
	}
}

func TestErrorNamesNoTemporaryFile(t *testing.T) {
	err := File(filepath.Join(t.TempDir(), "none", "page.html"), func(io.Writer) error { return nil })
	if !errors.Is(err, os.ErrNotExist) || strings.Contains(err.Error(), ".potlife-") {
		t.Errorf("got %v", err)
	}
}
