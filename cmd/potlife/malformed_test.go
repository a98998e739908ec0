package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// expectation is the head of a malformed file: # expect: 4:8: what is wrong.
var expectation = regexp.MustCompile(`^\x{feff}?# expect: (\d+:\d+: .+?)\r?$`)

// TestMalformedFiles: every fault of every file is told at its place, with the
// line, a caret below the place and a mend, and nothing else is: no answer, no
// fault that only follows from another.
func TestMalformedFiles(t *testing.T) {
	for folder, command := range map[string][]string{
		"jobs":   {"plan"},
		"resins": {"resins", "check"},
	} {
		files, err := filepath.Glob(filepath.Join("..", "..", "testdata", folder, "bad", "*.yaml"))
		if err != nil || len(files) < 15 {
			t.Fatalf("%d malformed %s: %v", len(files), folder, err)
		}
		for _, file := range files {
			t.Run(folder+"/"+strings.TrimSuffix(filepath.Base(file), ".yaml"), func(t *testing.T) {
				wanted := expectations(t, file)
				if len(wanted) == 0 {
					t.Fatal("the file does not say what to expect")
				}
				found := faultsOf(t, refused(t, append(command, file)...), file)
				for i, fault := range found {
					if i < len(wanted) && !strings.HasPrefix(fault, wanted[i]) {
						t.Errorf("told %q, want %q", fault, wanted[i])
					}
				}
				if len(found) != len(wanted) {
					t.Errorf("%d faults told, want %d: %q", len(found), len(wanted), found)
				}
			})
		}
	}
}

func expectations(t *testing.T, file string) []string {
	t.Helper()
	source, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var wanted []string
	for line := range strings.SplitSeq(string(source), "\n") {
		if m := expectation.FindStringSubmatch(line); m != nil {
			wanted = append(wanted, m[1])
		}
	}
	return wanted
}

// refused runs a command that must be refused as wrong input and returns what
// it says.
func refused(t *testing.T, args ...string) string {
	t.Helper()
	var out, errOut bytes.Buffer
	if code := run(args, &out, &errOut); code != exitInput {
		t.Errorf("exit %d, want %d", code, exitInput)
	}
	if out.Len() > 0 {
		t.Errorf("an answer all the same: %s", out.String())
	}
	return errOut.String()
}

// faultsOf returns the faults told of a file as LINE:COLUMN: PROBLEM, and checks
// the shape of each: place, excerpt, caret, mend.
func faultsOf(t *testing.T, text, file string) []string {
	t.Helper()
	lines := strings.Split(strings.TrimPrefix(text, "potlife: "), "\n")
	var found []string
	for i, line := range lines {
		fault, ok := strings.CutPrefix(line, file+":")
		if !ok {
			continue
		}
		found = append(found, fault)
		if i+3 >= len(lines) {
			t.Fatalf("no excerpt, caret and mend after %q", line)
		}
		var number, column int
		if _, err := fmt.Sscanf(fault, "%d:%d:", &number, &column); err != nil {
			t.Errorf("no place in %q: %v", line, err)
		}
		if !strings.HasPrefix(strings.TrimSpace(lines[i+1]), fmt.Sprintf("%d |", number)) {
			t.Errorf("line %d is not shown: %q", number, lines[i+1])
		}
		if !caretLine.MatchString(lines[i+2]) {
			t.Errorf("no caret: %q", lines[i+2])
		}
		if mend := lines[i+3]; !strings.HasPrefix(mend, "   ") || len(strings.TrimSpace(mend)) < 5 {
			t.Errorf("no mend: %q", mend)
		}
		if word := jargon.FindString(fault); word != "" {
			t.Errorf("%q is no word for a winder: %q", word, fault)
		}
	}
	return found
}

var (
	caretLine = regexp.MustCompile(`^ +\| *\^$`)
	// jargon are words of parsers and programs.
	jargon = regexp.MustCompile(`(?i)\b(token|scalar|node|parse|unmarshal|strconv|runtime|nil|panic|int|float64|mapping value)\b`)
)

// TestEmptyAndHugeFiles are the two that are not worth keeping in a folder.
func TestEmptyAndHugeFiles(t *testing.T) {
	for name, c := range map[string]struct{ source, want string }{
		"empty": {"", "1:1: nothing is written here"},
		"huge":  {strings.Repeat("# fill\n", 300_000), "1:1: the text has 2100000 bytes, at most 1048576 are read"},
	} {
		t.Run(name, func(t *testing.T) {
			file := filepath.Join(t.TempDir(), name+".yaml")
			if err := os.WriteFile(file, []byte(c.source), 0o600); err != nil {
				t.Fatal(err)
			}
			for _, command := range [][]string{{"plan"}, {"resins", "check"}} {
				found := faultsOf(t, refused(t, append(command, file)...), file)
				if len(found) != 1 || !strings.HasPrefix(found[0], c.want) {
					t.Errorf("%s: told %q, want %q", command, found, c.want)
				}
			}
		})
	}
}

// TestFilesThatCannotBeRead: a path that leads nowhere or to a folder is told
// with the path and the next step.
func TestFilesThatCannotBeRead(t *testing.T) {
	folder := filepath.Join("..", "..", "testdata", "jobs")
	missing := filepath.Join(folder, "not-there.yaml")
	for _, c := range []struct {
		args       []string
		what, mend string
	}{
		{[]string{"plan", missing}, "there is no job file " + missing, "it was looked for in "},
		{[]string{"plan", folder}, folder + " is a folder, not a job file", "name the file in it"},
		{[]string{"resins", "check", missing}, "there is no resin record " + missing, "it was looked for in "},
		{[]string{"resins", "show", missing}, "there is no resin record " + missing, "it was looked for in "},
		{[]string{"resins", "check", folder}, folder + " is a folder, not a resin record", "name the file in it"},
		{[]string{"resins", "show", "epoxy-xyz"}, "no built-in system is called epoxy-xyz", "epoxy-ipda"},
	} {
		problem, mend, _ := strings.Cut(refused(t, c.args...), "\n")
		if !strings.Contains(problem, c.what) || !strings.Contains(mend, c.mend) {
			t.Errorf("%s: told %q, mend %q", c.args, problem, mend)
		}
	}
}
