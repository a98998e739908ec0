package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"potlife/schedule/session"
)

// setVersion lets the program be of a version until the test ends.
func setVersion(t *testing.T, version string) {
	t.Helper()
	was := readBuild
	t.Cleanup(func() { readBuild = was })
	readBuild = func() (*debug.BuildInfo, bool) { return &debug.BuildInfo{Main: debug.Module{Version: version}}, true }
}

// TestOtherVersion: start keeps the version and the format; a session that was begun with
// another version is told so in one line by every command that answers from it. Two builds
// without a version are not told apart.
func TestOtherVersion(t *testing.T) {
	setClock(t, afterAll)
	folder := oldFolders(t)[0]
	t.Chdir(folder)
	for name, row := range map[string]struct{ begun, this, words string }{
		"the same":        {"v1.2.0", "v1.2.0", ""},
		"changed since":   {"v1.2.0", "v1.2.0+dirty", ""},
		"none":            {"(devel)", "", ""},
		"a later one":     {"v1.2.0", "v1.3.0", "tube.session: begun with potlife v1.2.0, this is potlife v1.3.0: figures may differ"},
		"one without":     {"v1.2.0", "(devel)", "begun with potlife v1.2.0, this is a potlife without a version"},
		"begun with none": {"(devel)", "v1.3.0", "begun with a potlife without a version, this is potlife v1.3.0"},
	} {
		t.Run(name, func(t *testing.T) {
			if err := os.RemoveAll("tube.session"); err != nil {
				t.Fatal(err)
			}
			setVersion(t, row.begun)
			var started struct{ Event session.Event }
			if err := json.Unmarshal([]byte(opens(t, "start tube.yaml --json")), &started); err != nil {
				t.Fatal(err)
			}
			if want := strings.ReplaceAll(row.begun, "(devel)", ""); started.Event.Format != session.Format || started.Event.Program != want {
				t.Errorf("started with %+v", started.Event)
			}
			setVersion(t, row.this)
			toldOfVersion(t, "log --session tube.session", row.words)
		})
	}
	// An event on which this version makes the rest of the plan anew.
	if err := os.RemoveAll("tube.session"); err != nil {
		t.Fatal(err)
	}
	setVersion(t, "v1.2.0")
	opens(t, "start tube.yaml --json")
	setVersion(t, "v1.3.0")
	toldOfVersion(t, "log note nothing_new --session tube.session", "")
	toldOfVersion(t, "log mixed 90g --session tube.session", "begun with potlife v1.2.0, this is potlife v1.3.0")
	// Every other command, on a day of the first format, which has no version.
	setVersion(t, "v1.3.0")
	const words = ": begun with a potlife without a version, this is potlife v1.3.0: figures may differ"
	for _, line := range []string{
		"check --session strut.session", "report strut.session", "cure --session strut.session", "weigh --session strut.session", "learn strut.session",
		"replan --session shell.session --at 2026-11-25T08:45",
	} {
		toldOfVersion(t, line, "session"+words)
	}
}

// toldOfVersion runs a command and looks for the words on stderr and among the warnings; empty:
// there must be none.
func toldOfVersion(t *testing.T, line, words string) {
	t.Helper()
	var out, errOut bytes.Buffer
	args := strings.Fields(line + " --json")
	for i := range args {
		args[i] = strings.ReplaceAll(args[i], "T08:", " 08:")
	}
	if code := run(args, &out, &errOut); code != exitDone {
		t.Errorf("%s: exit %d: %s", line, code, errOut.String())
		return
	}
	var answer struct {
		Warnings []string
		Codes    []string `json:"warning_codes"`
	}
	if err := json.Unmarshal(out.Bytes(), &answer); err != nil {
		t.Fatal(err)
	}
	at := slices.Index(answer.Codes, "other-program")
	switch {
	case words == "" && at >= 0:
		t.Errorf("%s warns: %s", line, answer.Warnings[at])
	case words == "":
	case at < 0 || !strings.Contains(answer.Warnings[at], words) || strings.Count(errOut.String(), words) != 1:
		t.Errorf("%s does not say %q: %q, %s", line, words, answer.Warnings, errOut.String())
	}
}

// TestNewerJournal: a journal that a later program wrote ends every command with its own exit
// code and the next step, and is left as it is.
func TestNewerJournal(t *testing.T) {
	folder := oldFolders(t)[0]
	t.Chdir(folder)
	setClock(t, afterAll)
	newer := func(name string, payload any) {
		j, _, err := session.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		defer j.Close()
		if _, err := j.Append(func([]session.Entry) (any, error) { return payload, nil }); err != nil {
			t.Fatal(err)
		}
	}
	newer("strut.session", map[string]any{"at": clock(), "logged": clock(), "kind": "spliced", "layers": []int{2}})
	newer("shell.session", map[string]any{"at": clock(), "logged": clock(), "kind": "note", "format": session.Format + 1})
	for _, name := range []string{"strut.session", "shell.session"} {
		before := readFile(t, filepath.Join(name, session.Name))
		for _, line := range []string{
			"log --session S", "log --session S note it_goes_on", "log --session S undo", "check --session S", "check --session S --watch", "replan --session S",
			"report S", "cure --session S", "weigh --session S", "weigh --session S --part 1kg --log", "learn S", "board --session S", "start STEM.yaml",
			"session export S -o S.tables", "session copy S S.copy", "session restore S S.back",
		} {
			line = strings.NewReplacer("STEM", strings.TrimSuffix(name, ".session"), "S", name).Replace(line)
			var out, errOut bytes.Buffer
			code := run(strings.Fields(line), &out, &errOut)
			if code != exitDamaged || out.Len() > 0 || !strings.Contains(errOut.String(), "written by a newer potlife") || !strings.Contains(errOut.String(), "update this program") {
				t.Errorf("%s: exit %d, %s%s", line, code, out.String(), errOut.String())
			}
		}
		if diff := cmp.Diff(string(before), string(readFile(t, filepath.Join(name, session.Name)))); diff != "" {
			t.Errorf("%s was changed: %s", name, diff)
		}
	}
}
