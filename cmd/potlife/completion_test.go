package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"potlife/resins/catalogue"
)

// completed asks the program as a shell's script does: the words of the line, the last of
// them begun.
func completed(t *testing.T, words ...string) (list []string, directive string) {
	t.Helper()
	var out, errOut bytes.Buffer
	if code := run(append([]string{cobra.ShellCompNoDescRequestCmd}, words...), &out, &errOut); code != exitDone {
		t.Fatalf("%q: exit %d: %s", words, code, errOut.String())
	}
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	return lines[:len(lines)-1], strings.TrimPrefix(lines[len(lines)-1], ":")
}

// TestCompletion: resins, sessions, events, cups, kinds of files and shells come from where
// the program has them, and files by the endings that a command reads.
func TestCompletion(t *testing.T) {
	desk := t.TempDir()
	t.Chdir(desk)
	for _, folder := range []string{"strut.session", "hall[2]/shell.session-2", "empty.session"} {
		if err := os.MkdirAll(folder, 0o755); err != nil {
			t.Fatal(err)
		}
		if folder != "empty.session" {
			write(t, filepath.Join(folder, "journal.jsonl"))
		}
	}
	write(t, "own.yaml")
	write(t, "notes.txt")
	for _, c := range []struct {
		line      string
		want      []string // all of these
		never     []string
		directive string // 4: no files, 6: and no blank behind the word, 8: files with these endings, 16: folders, 0: any file
	}{
		{"resins show |", append(catalogue.Systems(), "./own.yaml"), []string{"notes.txt"}, "4"},
		{"resins show ./|", []string{"yaml", "yml"}, nil, "8"},
		{"worktime --resin |", catalogue.Systems(), nil, "4"},
		{"worktime --mass |", nil, []string{"own.yaml"}, "4"},
		{"log |", []string{"mixed", "bath-temp", "flow-cup", "undo"}, []string{"start", "weighed"}, "4"},
		{"log flow-cup |", []string{"iso-4", "zahn-2"}, nil, "4"},
		{"log mixed --lot |", []string{"resin=", "hardener="}, nil, "6"},
		{"log mixed --resin |", nil, catalogue.Systems(), "4"},
		{"check --session |", []string{"strut.session"}, []string{"empty.session"}, "4"},
		{"check --session hall[2]/|", []string{"hall[2]/shell.session-2"}, []string{"strut.session"}, "4"},
		{"report |", []string{"strut.session"}, []string{"empty.session"}, "4"},
		{"session |", []string{"copy", "restore"}, nil, "4"},
		{"session copy |", []string{"strut.session"}, []string{"empty.session"}, "4"},
		{"session copy strut.session |", nil, []string{"strut.session"}, "16"},
		{"learn |", []string{"strut.session"}, nil, "4"},
		{"plan |", []string{"yaml", "yml"}, nil, "8"},
		{"plan own.yaml |", nil, []string{"yaml"}, "4"},
		{"plan own.yaml --chart |", []string{"svg", "png", "pdf"}, nil, "8"},
		{"resins fit own.yaml -o |", nil, nil, "0"},
		{"schema |", []string{"job", "statements", "resin", "cooling", "program", "lessons"}, nil, "4"},
		{"completion |", []string{"bash", "zsh", "fish", "powershell"}, nil, "4"},
		{"resins |", []string{"list", "show", "check", "new", "fit", "cooling"}, nil, "4"},
		{"|", []string{"plan", "log", "check", "resins", "schema", "completion"}, nil, "4"},
		{"check --|", []string{"--session", "--pause", "--at", "--watch", "--json"}, nil, "4"},
	} {
		words := strings.Split(strings.TrimSuffix(c.line, "|"), " ")
		list, directive := completed(t, words...)
		for _, word := range c.want {
			if !slices.Contains(list, word) {
				t.Errorf("%s: %s is missing in %q", c.line, word, list)
			}
		}
		for _, word := range c.never {
			if slices.Contains(list, word) {
				t.Errorf("%s: %s is offered", c.line, word)
			}
		}
		if directive != c.directive {
			t.Errorf("%s: directive %s, want %s", c.line, directive, c.directive)
		}
	}
}

func write(t *testing.T, path string) {
	t.Helper()
	if err := os.WriteFile(path, []byte("x\n"), 0o644); err != nil {
		t.Fatal(err)
	}
}

// TestCompletionTables: a row of the tables that no command or flag has any more is a
// misspelt one.
func TestCompletionTables(t *testing.T) {
	paths, flags := map[string]bool{}, map[string]bool{}
	var walk func(cmd *cobra.Command)
	walk = func(cmd *cobra.Command) {
		paths[cmd.CommandPath()] = true
		cmd.Flags().VisitAll(func(f *pflag.Flag) { flags[f.Name] = true })
		for _, below := range cmd.Commands() {
			walk(below)
		}
	}
	walk(newRoot())
	for path := range argumentWords {
		if !paths[path] {
			t.Errorf("there is no command %s", path)
		}
	}
	for name := range flagWords {
		if !flags[name] {
			t.Errorf("there is no flag --%s", name)
		}
	}
}

// TestCompletionScripts: each shell that is on this machine finds its script well formed.
func TestCompletionScripts(t *testing.T) {
	for _, shell := range shells {
		var out, errOut bytes.Buffer
		if code := run([]string{"completion", shell}, &out, &errOut); code != exitDone || out.Len() < 1000 {
			t.Fatalf("%s: exit %d, %d bytes: %s", shell, code, out.Len(), errOut.String())
		}
		if shell == "powershell" {
			continue
		}
		program, err := exec.LookPath(shell)
		if err != nil {
			t.Logf("no %s on this machine", shell)
			continue
		}
		script := filepath.Join(t.TempDir(), "script")
		if err := os.WriteFile(script, out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		if output, err := exec.Command(program, "-n", script).CombinedOutput(); err != nil {
			t.Errorf("%s does not read its script: %v\n%s", shell, err, output)
		}
	}
	refused(t, "completion", "sh")
	refused(t, "completion")
}
