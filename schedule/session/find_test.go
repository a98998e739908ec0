package session

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// twoDays is a finished session and an open one of the same job.
func twoDays(t *testing.T) (first, second *Session) {
	t.Helper()
	job := fourLayers(filepath.Join(t.TempDir(), "strut.yaml"))
	first, _, err := Start(job, Copies{}, nine, nine)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = first.Close() })
	if _, err := say(first, Finish, 5, nil); err != nil {
		t.Fatal(err)
	}
	second, _, err = Start(job, Copies{}, after(10), after(10))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = second.Close() })
	return first, second
}

// TestFinishUndoneBesideAnOpenOne: two sessions of one job are never open at once;
// after the finish of the other it may be. What is no finish may always be undone.
func TestFinishUndoneBesideAnOpenOne(t *testing.T) {
	first, second := twoDays(t)
	for name, of := range map[string]int{"the last": 0, "by its number": 2} {
		_, err := say(first, Undo, 20, func(e *Event) { e.Of = of })
		var refusal *Refusal
		if !errors.As(err, &refusal) || !strings.Contains(refusal.Mend, "potlife log finish --session "+second.Folder) {
			t.Errorf("%s: %v", name, err)
		}
	}
	note, err := say(first, Note, 21, nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := say(first, Undo, 22, func(e *Event) { e.Of = note.Seq }); err != nil {
		t.Errorf("the note: %v", err)
	}
	if _, err := say(second, Finish, 23, nil); err != nil {
		t.Fatal(err)
	}
	if _, err := say(first, Undo, 24, nil); err != nil {
		t.Errorf("after the finish of the other: %v", err)
	}
	// Now the first is open, and the second stays finished.
	if _, err := say(second, Undo, 25, nil); err == nil || !strings.Contains(err.Error(), first.Folder) {
		t.Errorf("the other way round: %v", err)
	}
}

// TestFinishUndoneFromWithin: the folder may be named by a dot.
func TestFinishUndoneFromWithin(t *testing.T) {
	first, _ := twoDays(t)
	t.Chdir(first.Folder)
	s, err := OpenFolder(".")
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	sibling := filepath.Join("..", "strut.session-2")
	if _, err := say(s, Undo, 20, nil); err == nil || !strings.Contains(err.Error(), sibling) {
		t.Errorf("got %v, want a refusal with %s", err, sibling)
	}
}

// TestFinishUndoneBesideOthers: an open session of another job is no matter.
func TestFinishUndoneBesideOthers(t *testing.T) {
	first, second := twoDays(t)
	if err := os.Rename(second.Folder, filepath.Join(filepath.Dir(second.Folder), "other.session-2")); err != nil {
		t.Fatal(err)
	}
	if _, err := say(first, Undo, 20, nil); err != nil {
		t.Error(err)
	}
}

// TestFindFinished: the last comes first, and the number is that of its finish.
func TestFindFinished(t *testing.T) {
	first, second := twoDays(t)
	folder := filepath.Dir(first.Folder)
	expect := func(want ...string) {
		t.Helper()
		past, err := FindFinished(folder)
		if err != nil || len(past) != len(want) {
			t.Fatalf("%+v, %v", past, err)
		}
		for i, p := range past {
			if filepath.Base(p.Folder) != want[i] || p.Finish.Seq != 2 {
				t.Errorf("%d is %s with finish %d, want %s with 2", i, p.Folder, p.Finish.Seq, want[i])
			}
		}
	}
	expect("strut.session")
	if _, err := say(first, Note, 12, nil); err != nil { // a later line, and no later finish
		t.Fatal(err)
	}
	if _, err := say(second, Finish, 15, nil); err != nil {
		t.Fatal(err)
	}
	expect("strut.session-2", "strut.session")
}

// TestFilesInTheWay: what is called like a session and is none is refused with the
// mend, by a start and where it is named.
func TestFilesInTheWay(t *testing.T) {
	for name, put := range map[string]func(path string) error{
		"a file":   func(path string) error { return os.WriteFile(path, []byte("x"), 0o644) },
		"a folder": func(path string) error { return os.Mkdir(path, 0o755) },
		"a folder for a journal": func(path string) error {
			return os.MkdirAll(filepath.Join(path, Name), 0o755)
		},
	} {
		folder := t.TempDir()
		path := filepath.Join(folder, "strut.session")
		if err := put(path); err != nil {
			t.Fatal(err)
		}
		var refusal *Refusal
		if _, _, err := Start(fourLayers(filepath.Join(folder, "strut.yaml")), Copies{}, nine, nine); !errors.As(err, &refusal) || !strings.Contains(err.Error(), path) || !strings.Contains(refusal.Mend, "move it away") {
			t.Errorf("%s: start gives %v", name, err)
		}
		_, err := OpenFolder(path)
		if !errors.As(err, &refusal) && !errors.Is(err, os.ErrNotExist) || !strings.Contains(err.Error(), path) {
			t.Errorf("%s: named, it gives %v", name, err)
		}
		if left, err := os.ReadDir(folder); err != nil || len(left) != 1 {
			t.Errorf("%s: left %v, %v", name, left, err)
		}
	}
}
