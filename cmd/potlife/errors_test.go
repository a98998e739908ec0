package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/report"
)

// errorsIn runs a command that fails and reads its last line on stderr, strictly.
func errorsIn(t *testing.T, exit int, args ...string) report.Errors {
	t.Helper()
	var out, errOut bytes.Buffer
	if code := run(args, &out, &errOut); code != exit {
		t.Fatalf("%q: exit %d, want %d: %s", args, code, exit, errOut.String())
	}
	if out.Len() > 0 {
		t.Errorf("%q: an answer all the same: %s", args, out.String())
	}
	lines := strings.Split(strings.TrimSuffix(errOut.String(), "\n"), "\n")
	var is report.Errors
	strict := json.NewDecoder(strings.NewReader(lines[len(lines)-1]))
	strict.DisallowUnknownFields()
	if err := strict.Decode(&is); err != nil {
		t.Fatalf("%q: %v: %s", args, err, errOut.String())
	}
	if is.Exit != exit || len(is.Errors) == 0 {
		t.Errorf("%q: %+v", args, is)
	}
	for _, e := range is.Errors {
		if e.Code == "" || e.Message == "" || e.Place.Command == "" || e.Fix == "" || strings.ContainsAny(e.Message+e.Fix, "\n\t") {
			t.Errorf("%q: %+v", args, e)
		}
	}
	return is
}

// TestErrorsOfAllCommands: whatever the command and wherever --json stands, an error is JSON.
func TestErrorsOfAllCommands(t *testing.T) {
	t.Chdir(t.TempDir())
	commands := 0
	var walk func(*cobra.Command)
	walk = func(cmd *cobra.Command) {
		for _, c := range cmd.Commands() {
			walk(c)
		}
		if cmd.Hidden || cmd.Name() == "help" {
			return
		}
		commands++
		words := strings.Fields(cmd.CommandPath())[1:]
		for _, more := range [][]string{{"--json", "--no-such-flag"}, {"--no-such-flag", "--json"}} {
			e := errorsIn(t, exitInput, append(words, more...)...).Errors[0]
			if e.Code != codeFlag || e.Place.Command != cmd.CommandPath() || !strings.HasPrefix(e.Place.Flag, "--") {
				t.Errorf("%q: %+v", words, e)
			}
		}
		if cmd.Flags().Lookup("json") != nil {
			errorsIn(t, exitInput, append(words, "a", "b", "c", "--json")...)
		}
	}
	walk(newRoot())
	if commands < 20 {
		t.Errorf("only %d commands", commands)
	}
	if text := refused(t, "plan", "--no-such-flag"); !strings.HasPrefix(text, "potlife: ") {
		t.Errorf("without --json: %s", text)
	}
	if text := refused(t, "log", "--", "--json"); !strings.HasPrefix(text, "potlife: ") {
		t.Errorf("behind two dashes --json is a word: %s", text)
	}
}

// TestErrorsAreSorted: each kind of error has its code, its place and its fix.
func TestErrorsAreSorted(t *testing.T) {
	data, err := filepath.Abs(filepath.Join("..", "..", "testdata"))
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	job, err := os.ReadFile(filepath.Join(data, "jobs", "telescope-strut.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile("strut.yaml", job, 0o644); err != nil {
		t.Fatal(err)
	}
	faulty := filepath.Join(data, "jobs", "bad", "many-faults.yaml")
	for _, c := range []struct {
		args string
		want report.Error
	}{
		{"plna", report.Error{Code: codeUnknownCommand, Message: `unknown command "plna"`, Place: report.Place{Command: "potlife"}, Fix: "potlife --help"}},
		{"plan nowhere.yaml", report.Error{Code: codeUnreadable, Message: "there is no job file", Place: report.Place{Command: "potlife plan", File: "nowhere.yaml"}, Fix: "check the spelling"}},
		{"plan " + faulty, report.Error{Code: codeFile, Message: "unknown key pickup", Place: report.Place{Command: "potlife plan", File: faulty, Line: 7, Column: 1}, Fix: "write pick_up"}},
		{"worktime --resin epoxy-ipda --mass 250g --vessel {cup:90mm} --room 23", report.Error{Code: codeQuantity, Message: "--room: 23 has no unit", Place: report.Place{Command: "potlife worktime"}, Fix: "23 °C"}},
		{"resins show nope", report.Error{Code: codeUnknownResin, Message: "no built-in system", Place: report.Place{Command: "potlife resins show"}, Fix: "write one of"}},
		{"check --session nowhere", report.Error{Code: codeNoSession, Message: "is not the folder of a session", Place: report.Place{Command: "potlife check"}, Fix: "potlife start JOB"}},
	} {
		e := errorsIn(t, exitInput, append(strings.Fields(c.args), "--json")...).Errors[0]
		if e.Code != c.want.Code || e.Place != c.want.Place || !strings.Contains(e.Message, c.want.Message) || !strings.Contains(e.Fix, c.want.Fix) {
			t.Errorf("%s: %+v, want %+v", c.args, e, c.want)
		}
	}
	if n := len(errorsIn(t, exitInput, "plan", faulty, "--json").Errors); n != 4 {
		t.Errorf("%d errors of a file with four", n)
	}

	ran(t, "start", "strut.yaml")
	refusal := errorsIn(t, exitInput, "log", "--json", "poured").Errors[0]
	if refusal.Code != codeRefused {
		t.Errorf("%+v", refusal)
	}
	if e := errorsIn(t, exitInput, "log", "--json", "mixed", "239").Errors[0]; e.Code != codeQuantity || !strings.Contains(e.Fix, "239 g") {
		t.Errorf("%+v", e)
	}
	ran(t, "log", "mixed", "239g")
	if err := damageLine(filepath.Join("strut.session", "journal.jsonl")); err != nil {
		t.Fatal(err)
	}
	e := errorsIn(t, exitDamaged, "check", "--json").Errors[0]
	if e.Code != codeDamaged || e.Place.File != filepath.Join("strut.session", "journal.jsonl") || e.Place.Line != 1 || !strings.Contains(e.Fix, "potlife session restore") {
		t.Errorf("%+v", e)
	}

	is := oneError(syscall.ENOSPC, report.Place{Command: "potlife plan"}, exitFailed)
	if is.Code != codeDiskFull || !strings.HasPrefix(is.Fix, "make room") {
		t.Errorf("%+v", is)
	}
}

// damageLine changes a letter in the first line of a journal.
func damageLine(path string) error {
	text, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	text[20] ^= 1
	return os.WriteFile(path, text, 0o644)
}

// TestErrorCodesAreListed: the README has every code, and no other.
func TestErrorCodesAreListed(t *testing.T) {
	source, err := os.ReadFile("errors.go")
	if err != nil {
		t.Fatal(err)
	}
	readme, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, table, found := strings.Cut(string(readme), "| code | what is wrong |")
	if !found {
		t.Fatal("the README has no table of codes")
	}
	table, _, _ = strings.Cut(table, "\n\n")
	listed := map[string]bool{}
	for _, code := range regexp.MustCompile("(?m)^\\| `([a-z-]+)`").FindAllStringSubmatch(table, -1) {
		listed[code[1]] = true
	}
	for _, code := range regexp.MustCompile(`(?m)^\tcode[A-Z]\w+ += "([a-z-]+)"$`).FindAllStringSubmatch(string(source), -1) {
		if !listed[code[1]] {
			t.Errorf("the README has no %s", code[1])
		}
		delete(listed, code[1])
	}
	for code := range listed {
		t.Errorf("no error has the code %s", code)
	}
}
