package session

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"
)

// draftIn makes a folder as a start does that is killed, with these files, that
// long ago.
func draftIn(t *testing.T, folder, name string, ago time.Duration, files ...string) string {
	t.Helper()
	draft := filepath.Join(folder, name)
	if err := os.Mkdir(draft, 0o700); err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		if err := os.WriteFile(filepath.Join(draft, file), []byte("name: strut\n"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	then := time.Now().Add(-ago)
	if err := os.Chtimes(draft, then, then); err != nil {
		t.Fatal(err)
	}
	return draft
}

// TestAbandonedDrafts: a start removes what killed ones have left, and nothing
// else: no young one, none in use, none that holds what a start does not write, and
// none that is only called like one.
func TestAbandonedDrafts(t *testing.T) {
	folder := t.TempDir()
	draftIn(t, folder, ".starting-1", time.Hour)
	draftIn(t, folder, ".starting-22", 11*time.Minute, JobCopy, ResinCopy, Name, lockName)
	draftIn(t, folder, ".starting-3-removed", time.Hour, JobCopy)
	stay := []string{
		draftIn(t, folder, ".starting-4", 9*time.Minute, JobCopy),
		draftIn(t, folder, ".starting-5", time.Hour, JobCopy, lockName),
		draftIn(t, folder, ".starting-6", time.Hour, JobCopy, "photo.jpg"),
		draftIn(t, folder, ".starting-notes", time.Hour, JobCopy),
		draftIn(t, folder, "strut.session-1.starting-7", time.Hour, JobCopy),
		filepath.Join(folder, ".starting-8"),
		filepath.Join(folder, "strut.session"),
	}
	if err := os.WriteFile(filepath.Join(folder, ".starting-8"), nil, 0o644); err != nil { // a file
		t.Fatal(err)
	}
	if err := os.Chtimes(filepath.Join(folder, ".starting-8"), time.Time{}, time.Now().Add(-time.Hour)); err != nil {
		t.Fatal(err)
	}
	release, err := takeLock(filepath.Join(folder, ".starting-5", lockName), patience)
	if err != nil {
		t.Fatal(err)
	}
	defer release()
	s, _, err := Start(fourLayers(filepath.Join(folder, "strut.yaml")), Copies{}, nine, nine)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	left, err := filepath.Glob(filepath.Join(folder, "*")) // finds names with a dot too
	if err != nil {
		t.Fatal(err)
	}
	slices.Sort(stay)
	slices.Sort(left)
	if !slices.Equal(left, stay) {
		t.Errorf("left\n%v, want\n%v", left, stay)
	}
	if held, err := filepath.Glob(filepath.Join(folder, ".starting-6", "*")); err != nil || len(held) != 2 {
		t.Errorf("the folder with a photo holds %v, %v", held, err)
	}
}
