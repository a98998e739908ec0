package main

import (
	"bytes"
	"html"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"potlife/resins/document/visible"
	"potlife/schedule/session"
)

// unseen is a text that would clear a screen, ring, turn the writing round and begin a line of
// its own.
const unseen = "tow\x1b[2J\a\u009b31m\u202e\u200b\r\nlogged: e9\u2066"

// startedStrut is a folder with the job of the strut and its session, which has begun.
func startedStrut(t *testing.T) (folder, job, at string) {
	t.Helper()
	setClock(t, afterAll)
	folder = t.TempDir()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "telescope-strut.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	job = filepath.Join(folder, "strut.yaml")
	if err := os.WriteFile(job, text, 0o644); err != nil {
		t.Fatal(err)
	}
	ran(t, "start", job, "--at", "2026-11-21T08:55:00Z")
	return folder, job, filepath.Join(folder, "strut.session")
}

// TestHiddenIsShown lets a journal and the copies beside it hold, as those of before may, what
// nobody sees: whatever shows them shows its numbers, and no terminal does what it says.
func TestHiddenIsShown(t *testing.T) {
	folder, path, at := startedStrut(t)
	job := readFile(t, path)
	ran(t, "log", "mixed", "240g", "--lot", "resin=R1", "--at", "2026-11-21T09:00:00Z", "--session", at)
	s, err := session.OpenFolder(at)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range []session.Event{
		{Kind: session.Note, Text: unseen},
		{Kind: session.Poured, Pot: 2},
		{Kind: session.Begin, Layer: 1},
		{Kind: session.Pause, Text: "=1+1" + unseen},
	} {
		e.At, e.Logged = time.Date(2026, 11, 21, 9, 10, 0, 0, time.UTC), clock()
		if _, err := s.Log(e); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	copied := filepath.Join(at, session.JobCopy)
	old := strings.Replace(string(job), "name: Telescope strut", `name: "Telescope\u202E strut`+"\u200b"+`" # `+"\u2066", 1)
	if old == string(job) {
		t.Fatal("the job has another name")
	}
	if err := os.WriteFile(copied, []byte(old), 0o644); err != nil {
		t.Fatal(err)
	}
	page, tables := filepath.Join(folder, "day.html"), filepath.Join(folder, "tables")
	shown := map[string]string{}
	for name, args := range map[string][]string{
		"log": {"log"}, "log in JSON": {"log", "--json"}, "check": {"check"}, "check in JSON": {"check", "--json"},
		"report": {"report", "-o", page}, "markdown": {"report", "-o", "-"}, "export": {"session", "export", "-o", tables},
		"sheet": {"replan", "--at", "2026-11-21T09:20:00Z", "--sheet", filepath.Join(folder, "rest.html"), "--ics", filepath.Join(folder, "rest.ics"), "--chart", filepath.Join(folder, "rest.svg"), "--csv", filepath.Join(folder, "rest")},
	} {
		var out, errOut bytes.Buffer
		if code := run(append(args, "--session", at), &out, &errOut); code == exitFailed || code == exitInput {
			t.Errorf("%s: exit %d: %s", name, code, errOut.String())
		}
		shown[name], shown[name+", stderr"] = out.String(), errOut.String()
	}
	files := []string{page, filepath.Join(folder, "rest.html"), filepath.Join(folder, "rest.ics"), filepath.Join(folder, "rest.svg")}
	for _, pattern := range []string{filepath.Join(tables, "*.csv"), filepath.Join(folder, "rest", "*.csv")} {
		found, err := filepath.Glob(pattern)
		if err != nil || found == nil {
			t.Fatal(pattern, err)
		}
		files = append(files, found...)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		shown[filepath.Base(file)] = html.UnescapeString(string(text))
	}
	for name, text := range shown {
		if strings.HasSuffix(name, ".csv") || strings.HasSuffix(name, ".ics") {
			text = strings.ReplaceAll(text, "\r\n", "\n")
		}
		if place, r := visible.Find(text, "\n\t"); place >= 0 {
			t.Errorf("%s holds %U at %d", name, r, place)
		}
		for _, line := range strings.Split(text, "\n") {
			if strings.HasPrefix(line, "logged: e9") {
				t.Errorf("%s has a line that nobody logged: %s", name, line)
			}
		}
	}
	for _, name := range []string{"log", "log in JSON", "day.html", "markdown", "events.csv"} {
		if !strings.Contains(shown[name], "«U+001B»") {
			t.Errorf("%s does not show the note as it is: %s", name, shown[name])
		}
	}
	if !strings.Contains(shown["rest.html"], "Telescope«U+202E» strut«U+200B»") {
		t.Error("the sheet does not show the name as it is")
	}
	if strings.Contains(shown["events.csv"], ",=") || strings.Contains(shown["events.csv"], ",\"=") || !strings.Contains(shown["events.csv"], "'=1+1") {
		t.Errorf("a spreadsheet runs %s", shown["events.csv"])
	}
}

// TestHiddenIsRefused: what nobody sees does not come in, as a note, a lot, a flag, the name of a
// file, or in a job.
func TestHiddenIsRefused(t *testing.T) {
	folder, path, at := startedStrut(t)
	job := readFile(t, path)
	before, err := os.ReadFile(filepath.Join(at, session.Name))
	if err != nil {
		t.Fatal(err)
	}
	for want, args := range map[string][]string{
		"an escape (U+001B) stands at character 4 of “tow«U+001B»[2J”": {"log", "note", "tow\x1b[2J"},
		"a line break (U+000A) stands at character":                    {"log", "note", "tow\nbroke"},
		"a tab (U+0009) stands at character":                           {"log", "pause", "tow\tbroke"},
		"writing forced to the left (U+202E)":                          {"log", "resume", "tow", "\u202ebroke"},
		"a space without width (U+200B)":                               {"log", "mixed", "240g", "--lot", "resin=R\u200b1"},
		"the bell (U+0007)":                                            {"log", "mixed", "240g", "--at", "09:00\a"},
		"a turn of the writing to the right (U+202A)":                  {"plan", "\u202a" + path},
		"an escape (U+009B)":                                           {"plan", path, "--sheet", "a\u009b.html"},
		"a mark of writing from the left (U+200E)":                     {"nonsense\u200e"},
	} {
		if args[0] == "log" {
			args = append(args, "--session", at)
		}
		var out, errOut bytes.Buffer
		code := run(args, &out, &errOut)
		if code != exitInput || !strings.Contains(errOut.String(), want) || !strings.Contains(errOut.String(), visible.Mend) || out.Len() > 0 {
			t.Errorf("%q: exit %d, %s, want %q", args, code, errOut.String(), want)
		}
		if place, r := visible.Find(errOut.String(), "\n"); place >= 0 {
			t.Errorf("%q: the refusal holds %U", args, r)
		}
	}
	if after, err := os.ReadFile(filepath.Join(at, session.Name)); err != nil || !bytes.Equal(before, after) {
		t.Errorf("the journal has grown to %q, %v", after, err)
	}
	hostile := filepath.Join(folder, "hostile.yaml")
	for _, name := range []string{"Strut\u2067", `"Strut\u202e"`, `"Strut\x9b"`, "Strut # \u200f"} {
		text := strings.Replace(string(job), "name: Telescope strut", "name: "+name, 1)
		if err := os.WriteFile(hostile, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		var out, errOut bytes.Buffer
		if code := run([]string{"plan", hostile}, &out, &errOut); code != exitInput || !strings.Contains(errOut.String(), "hostile.yaml:") || !strings.Contains(errOut.String(), "(U+") {
			t.Errorf("%q: exit %d, %s", name, code, errOut.String())
		}
	}
}
