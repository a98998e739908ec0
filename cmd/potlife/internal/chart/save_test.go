package chart

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rsc.io/pdf"
)

// saved saves over whatever file is there.
func saved(path string, c Course) error {
	to, err := Target(path, true)
	if err != nil {
		return err
	}
	return Save(to, c)
}

func TestSaveByEnding(t *testing.T) {
	for name, head := range map[string]string{"plan.svg": "<?xml", "PLAN.PNG": "\x89PNG", "plan.Pdf": "%PDF-", "two.dots.svg": "<?xml"} {
		path := filepath.Join(t.TempDir(), name)
		if err := saved(path, courses()["six layers"]); err != nil {
			t.Fatal(err)
		}
		got, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.HasPrefix(got, []byte(head)) {
			t.Errorf("%s starts with %q, want %q", name, got[:8], head)
		}
		if strings.HasSuffix(name, "Pdf") { // whole with its mark
			if read, err := pdf.NewReader(bytes.NewReader(got), int64(len(got))); err != nil || read.NumPage() != 1 {
				t.Errorf("the PDF is not read: %v", err)
			}
		}
		onlyFiles(t, filepath.Dir(path), name)
	}
}

// onlyFiles checks that a folder holds these names and nothing half made.
func onlyFiles(t *testing.T, folder string, want ...string) {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range entries {
		got = append(got, e.Name())
	}
	if strings.Join(got, " ") != strings.Join(want, " ") {
		t.Errorf("the folder holds %q, want %q", got, want)
	}
}

func TestSaveUnknownEnding(t *testing.T) {
	for _, name := range []string{"plan.bmp", "plan", "plan.", ".svg.gz", "svg"} {
		folder := t.TempDir()
		err := saved(filepath.Join(folder, name), courses()["six layers"])
		if err == nil || !strings.Contains(err.Error(), ".pdf, .png, .svg") || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: got %v, want the file and the endings", name, err)
		}
		onlyFiles(t, folder)
	}
}

func old(t *testing.T, path string) {
	t.Helper()
	if err := os.WriteFile(path, []byte("old"), 0o640); err != nil {
		t.Fatal(err)
	}
}

func stillOld(t *testing.T, path string) {
	t.Helper()
	if got, err := os.ReadFile(path); err != nil || string(got) != "old" {
		t.Errorf("the old file is now %q, %v", got, err)
	}
}

func TestSaveKeepsPermissions(t *testing.T) {
	path := filepath.Join(t.TempDir(), "plan.svg")
	old(t, path)
	if err := saved(path, courses()["one layer"]); err != nil {
		t.Fatal(err)
	}
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	if info.Size() < 1000 || info.Mode().Perm() != 0o640 {
		t.Errorf("replaced by %d bytes with mode %v, want a picture with mode 0640", info.Size(), info.Mode())
	}
}

func TestSaveBadCourse(t *testing.T) {
	path := filepath.Join(t.TempDir(), "plan.svg")
	old(t, path)
	if err := saved(path, Course{}); err == nil || !strings.Contains(err.Error(), path) {
		t.Errorf("got %v, want an error that names the file", err)
	}
	stillOld(t, path)
	onlyFiles(t, filepath.Dir(path), "plan.svg")
}

// TestSaveRenameFails has a folder in the way, which not even root can rename a file over.
func TestSaveRenameFails(t *testing.T) {
	folder := t.TempDir()
	if err := os.Mkdir(filepath.Join(folder, "plan.svg"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := saved(filepath.Join(folder, "plan.svg"), courses()["one layer"]); err == nil {
		t.Error("no error over a folder")
	}
	onlyFiles(t, folder, "plan.svg")
}

func TestSaveMissingFolder(t *testing.T) {
	err := saved(filepath.Join(t.TempDir(), "none", "plan.svg"), courses()["one layer"])
	if !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("got %v, want that the folder is not there", err)
	}
}

func TestSaveReadOnlyFolder(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "plan.svg")
	old(t, path)
	if err := os.Chmod(folder, 0o555); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := os.Chmod(folder, 0o755); err != nil {
			t.Error(err)
		}
	})
	if probe, err := os.CreateTemp(folder, "probe"); err == nil {
		_ = probe.Close()
		_ = os.Remove(probe.Name())
		t.Skip("this user may write into a read-only folder (root, or Windows)")
	}
	if err := saved(path, courses()["one layer"]); !errors.Is(err, fs.ErrPermission) {
		t.Errorf("got %v, want that it is not permitted", err)
	}
	stillOld(t, path)
	onlyFiles(t, folder, "plan.svg")
}
