package main

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"potlife/kinetics/testrun"
)

// desks makes two copies of what testdata holds for the program to read: one with the line
// ends of Unix and one with those of Windows.
func desks(t *testing.T) (unix, windows string) {
	t.Helper()
	unix, windows = t.TempDir(), t.TempDir()
	data, converted := filepath.Join("..", "..", "testdata"), 0
	for _, folder := range []string{"jobs", "resins", "sessions"} {
		err := filepath.WalkDir(filepath.Join(data, folder), func(path string, entry fs.DirEntry, err error) error {
			if err != nil || entry.IsDir() {
				return err
			}
			source, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			inside, err := filepath.Rel(data, path)
			if err != nil {
				return err
			}
			lf := bytes.ReplaceAll(source, []byte("\r\n"), []byte("\n"))
			crlf := bytes.ReplaceAll(lf, []byte("\n"), []byte("\r\n"))
			if !bytes.Equal(lf, crlf) {
				converted++
			}
			for desk, text := range map[string][]byte{unix: lf, windows: crlf} {
				to := filepath.Join(desk, inside)
				if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
					return err
				}
				if err := os.WriteFile(to, text, 0o644); err != nil {
					return err
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if converted < 80 {
		t.Fatalf("only %d files", converted)
	}
	for desk, end := range map[string]string{unix: "\n", windows: "\r\n"} {
		vessel := strings.Join([]string{"length: 300 mm", "width: 120 mm", "drum: {turns: always}", ""}, end)
		if err := os.WriteFile(filepath.Join(desk, "vessel.yaml"), []byte(vessel), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return unix, windows
}

// TestLineEnds: every kind of file that the program reads gives the same answer with the line
// ends of Windows, journals and their checksums included, and the same faults at the same
// places.
func TestLineEnds(t *testing.T) {
	if !testrun.IsLong() {
		t.Skip("every kind of file twice: " + testrun.Long + "=1 runs it")
	}
	lines := []string{
		"worktime --resin resins/club-epoxy-slow.yaml --mass 250g --vessel @vessel.yaml --room 23C --json",
		"resins check resins/club-epoxy-slow.yaml --json",
		"resins cooling resins/bath-cooling.yaml --json",
		"resins new --answers resins/answers.txt -o made.yaml --json",
		"resins check made.yaml --json", // statements are no record: its faults
		"check --session sessions/strut.session --at 10:46 --json",
		"report --session sessions/shell.session --json",
		"learn sessions/strut.session -o learned.yaml --json",
		"plan jobs/telescope-strut.yaml --json",
		"resins fit resins/club-epoxy-medium.yaml --json",
		"cure jobs/telescope-strut.yaml --program jobs/strut-oven.yaml --json",
	}
	unix, windows := desks(t)
	for _, folder := range []string{"jobs", "resins"} {
		bad, err := filepath.Glob(filepath.Join(unix, folder, "bad", "*.yaml"))
		if err != nil || len(bad) < 15 {
			t.Fatalf("%d malformed files: %v", len(bad), err)
		}
		for _, file := range bad {
			line := "plan jobs/bad/"
			if folder == "resins" {
				line = "resins check resins/bad/"
			}
			lines = append(lines, line+filepath.Base(file))
		}
	}
	answers := 0
	for _, line := range lines {
		code, said := on(t, unix, line)
		otherCode, otherSaid := on(t, windows, line)
		if code != otherCode || said != otherSaid {
			t.Errorf("%s: exit %d and\n%s\nwith other line ends exit %d and\n%s", line, code, said, otherCode, otherSaid)
		}
		if code == exitDone {
			answers++
		}
	}
	if answers < 7 {
		t.Errorf("only %d commands gave an answer", answers)
	}
}

// on runs a line on a desk and returns what it says on both streams.
func on(t *testing.T, desk, line string) (code int, said string) {
	t.Helper()
	t.Chdir(desk)
	var out, errOut bytes.Buffer
	code = run(strings.Fields(line), &out, &errOut)
	here, err := os.Getwd() // messages say where they looked
	if err != nil {
		t.Fatal(err)
	}
	return code, strings.ReplaceAll(out.String()+errOut.String(), here, "HERE")
}
