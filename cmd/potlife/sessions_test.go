package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"potlife/schedule/session"
)

// TestSessions makes each session of testdata/sessions again from its text, in a folder of
// its own, and compares it with the recorded one: every event but for when and by which version
// it was written, the copies and the files there are. With -update it is recorded anew.
//
// The text holds a line "day DATE", and then what was logged in the order in which it was
// told: a time of that day, and the words after potlife log, or start.
func TestSessions(t *testing.T) {
	texts, err := filepath.Glob(filepath.Join("..", "..", "testdata", "sessions", "*.txt"))
	if err != nil || len(texts) != 2 {
		t.Fatalf("%d sessions, want 2: %v", len(texts), err)
	}
	for _, text := range texts {
		name := strings.TrimSuffix(filepath.Base(text), ".txt")
		t.Run(name, func(t *testing.T) {
			recorded := strings.TrimSuffix(text, ".txt") + ".session"
			made := liveThrough(t, text)
			if *update {
				rerecord(t, made, recorded)
			}
			if diff := cmp.Diff(files(t, recorded), files(t, made)); diff != "" {
				t.Errorf("the recorded session is not what its text makes, - recorded, + made; go test ./cmd/potlife -run TestSessions -update records it anew\n%s", diff)
			}
		})
	}
}

// liveThrough runs the commands of a text on a copy of its job and returns the session's
// folder.
func liveThrough(t *testing.T, text string) string {
	t.Helper()
	setClock(t, afterAll)
	source, err := os.ReadFile(text)
	if err != nil {
		t.Fatal(err)
	}
	job, err := os.ReadFile(strings.TrimSuffix(text, ".txt") + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	stem := filepath.Join(t.TempDir(), "day")
	if err := os.WriteFile(stem+".yaml", job, 0o644); err != nil {
		t.Fatal(err)
	}
	day, folder := "", stem+".session"
	for line := range strings.SplitSeq(string(source), "\n") {
		line, _, _ = strings.Cut(line, "#")
		words := shellWords(line)
		switch {
		case len(words) < 2:
			continue
		case words[0] == "day":
			day = words[1]
			continue
		}
		args := append([]string{"log", "--session", folder}, words[1:]...)
		if words[1] == "start" {
			args = []string{"start", stem + ".yaml"}
		}
		var out, errOut bytes.Buffer
		if code := run(append(args, "--at", day+" "+words[0]), &out, &errOut); code != exitDone {
			t.Fatalf("%s\nexit %d: %s", line, code, errOut.String())
		}
	}
	return folder
}

// files are those of a session: the events without the moment at which they were written,
// and the others as they are.
func files(t *testing.T, folder string) map[string]any {
	t.Helper()
	s, err := session.OpenFolder(folder)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if s.Report.Cut > 0 {
		t.Errorf("%s: %+v", folder, s.Report.Warnings())
	}
	var events []map[string]any
	for _, entry := range s.Journal.Entries() {
		var event map[string]any
		if err := json.Unmarshal(entry.Payload, &event); err != nil {
			t.Fatal(err)
		}
		delete(event, "logged")
		delete(event, "program") // whichever records it
		events = append(events, event)
	}
	found := map[string]any{session.Name: events}
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, entry := range entries {
		if _, seen := found[entry.Name()]; seen {
			continue
		}
		content, err := os.ReadFile(filepath.Join(folder, entry.Name()))
		if err != nil {
			t.Fatal(err)
		}
		found[entry.Name()] = string(content)
	}
	return found
}

func rerecord(t *testing.T, made, recorded string) {
	t.Helper()
	if err := os.RemoveAll(recorded); err != nil {
		t.Fatal(err)
	}
	if err := os.CopyFS(recorded, os.DirFS(made)); err != nil {
		t.Fatal(err)
	}
}
