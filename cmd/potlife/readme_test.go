package main

import (
	"bytes"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the true output into the README")

// block is a fenced block of a Markdown page.
type block struct {
	info       string
	first, end int // lines of the text between the fences
}

func blocks(lines []string) []block {
	var found []block
	open := -1
	for i, line := range lines {
		if !strings.HasPrefix(line, "```") {
			continue
		}
		if open < 0 {
			open = i
			continue
		}
		found = append(found, block{info: strings.TrimPrefix(lines[open], "```"), first: open + 1, end: i})
		open = -1
	}
	return found
}

// TestReadme runs every block of the README. A console block is one command of
// the program with its true output, stderr left out; an sh block is run by the
// shell; the test command must be what CI runs.
func TestReadme(t *testing.T) {
	setClock(t, afterAll)
	inRoot(t)
	source, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(string(source), "\n")
	kinds := map[string]int{}
	list := blocks(lines)
	for i := len(list) - 1; i >= 0; i-- { // from the end, so that an update moves no line still to come
		b := list[i]
		kinds[b.info]++
		text := lines[b.first:b.end]
		switch b.info {
		case "console":
			lines = append(lines[:b.first:b.first], append(runConsole(t, text), lines[b.end:]...)...)
		case "sh":
			runShell(t, text)
		case "sh test":
			ci, err := os.ReadFile(filepath.Join(".ci", "run"))
			if err != nil || !strings.Contains(string(ci), "\n"+text[0]+"\n") {
				t.Errorf("CI does not run the README's test command %q: %v", text[0], err)
			}
		default:
			t.Errorf("line %d: a block of %q is not run by any test", b.first, b.info)
		}
	}
	if kinds["console"] < 4 || kinds["sh"] != 1 || kinds["sh test"] != 1 {
		t.Errorf("blocks seen: %v", kinds)
	}
	if now := strings.Join(lines, "\n"); *update && now != string(source) {
		if err := os.WriteFile("README.md", []byte(now), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// inRoot runs the rest of the test in the root of the repository.
func inRoot(t *testing.T) {
	t.Helper()
	t.Chdir(filepath.Join("..", ".."))
}

// runConsole runs the block's command in this process and returns the block as
// it should be.
func runConsole(t *testing.T, text []string) []string {
	t.Helper()
	line, found := strings.CutPrefix(text[0], "$ potlife ")
	if !found {
		t.Fatalf("a console block starts with %q, not with a command", text[0])
	}
	var out, errOut bytes.Buffer
	code := run(words(line), &out, &errOut)
	if code != exitDone {
		t.Errorf("%s: exit %d: %s", text[0], code, errOut.String())
	}
	truth := append([]string{text[0]}, strings.Split(strings.TrimRight(out.String(), "\n"), "\n")...)
	if got := strings.Join(text, "\n"); !*update && got != strings.Join(truth, "\n") {
		t.Errorf("the README shows\n%s\nthe program says\n%s\nrun go test ./cmd/potlife -run TestReadme -update", got, out.String())
	}
	return truth
}

// words splits a command line at spaces outside single quotes.
func words(line string) []string {
	var list []string
	for i, part := range strings.Split(line, "'") {
		if i%2 == 1 {
			list = append(list, part)
		} else {
			list = append(list, strings.Fields(part)...)
		}
	}
	return list
}

// runShell runs a block as a person would; it is skipped where there is no shell.
func runShell(t *testing.T, text []string) {
	t.Helper()
	shell, err := exec.LookPath("sh")
	if err != nil {
		t.Log("no shell on this machine")
		return
	}
	// The block builds the program in the root, where git does not see it.
	if _, err := os.Stat("potlife"); os.IsNotExist(err) {
		t.Cleanup(func() { os.Remove("potlife") })
	}
	cmd := exec.Command(shell, "-e", "-c", strings.Join(text, "\n"))
	cmd.Env = append(os.Environ(), "GOFLAGS=")
	if output, err := cmd.CombinedOutput(); err != nil {
		t.Errorf("%s: %v\n%s", strings.Join(text, "\n"), err, output)
	}
}
