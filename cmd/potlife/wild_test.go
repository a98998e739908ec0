package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"potlife/kinetics/testrun"
	"potlife/schedule/batches/wild"
)

var startLine = regexp.MustCompile(`(?m)^start: (.*)$`)

// TestWildJobsAreTold plans wild jobs, see package wild, as a crew does, and opens
// sessions of them at their own start, often at midnight or on a night when the clocks
// change: whatever comes out is an answer in 80 columns and whole JSON, or a refusal
// with its place.
func TestWildJobsAreTold(t *testing.T) {
	count := uint64(testrun.Draws(3, 60))
	setClock(t, afterAll)
	codes := map[int]int{}
	sessions := 0
	for n := uint64(1); n <= count; n++ { // the one before takes half a minute
		t.Run(strconv.FormatUint(n, 10), func(t *testing.T) {
			made := wild.New(1_000_000 + n)
			desk := t.TempDir()
			file := filepath.Join(desk, "job.yaml")
			text := made.Text
			if made.Lessons != "" {
				text += "learned: ./lessons.yaml\n"
				if err := os.WriteFile(filepath.Join(desk, "lessons.yaml"), []byte(made.Lessons), 0o600); err != nil {
					t.Fatal(err)
				}
			}
			if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
				t.Fatal(err)
			}
			code := told(t, "plan", file)
			codes[code]++
			if code == exitInput {
				return
			}
			if again := told(t, "plan", file, "--json"); again != code {
				t.Errorf("exit %d as text, %d as JSON", code, again)
			}
			start := startLine.FindStringSubmatch(text)[1]
			if got := told(t, "start", file, "--at", start, "--long-ago"); got != exitDone {
				t.Fatalf("start at %s: exit %d", start, got)
			}
			folder := filepath.Join(desk, "job.session")
			if got := told(t, "replan", "--session", folder, "--at", start); got != exitDone && got != exitLimit {
				t.Errorf("replan at %s: exit %d", start, got)
			}
			sessions++
		})
	}
	t.Logf("exits %v, %d sessions", codes, sessions)
	if count >= 60 && (codes[exitDone] < int(count)/6 || codes[exitLimit] < int(count)/6 || sessions < int(count)/2) {
		t.Error("too few of one kind: the wild jobs test nothing")
	}
}

// told runs a command and checks what it says, whatever that is.
func told(t *testing.T, args ...string) int {
	t.Helper()
	var out, errOut bytes.Buffer
	code := run(args, &out, &errOut)
	what := fmt.Sprint(args)
	switch {
	case code == exitFailed || code == exitDamaged:
		t.Errorf("%s: exit %d: %s", what, code, errOut.String())
	case code == exitInput && out.Len() > 0:
		t.Errorf("%s: refused, with an answer: %s", what, out.String())
	case code == exitInput && !regexp.MustCompile(`\.yaml:\d+:\d+: `).MatchString(errOut.String()):
		t.Errorf("%s: refused without a place: %s", what, errOut.String())
	case strings.HasPrefix(out.String(), "{") && !json.Valid(out.Bytes()):
		t.Errorf("%s: no JSON", what)
	}
	if args[0] != "start" { // paths are as long as they are
		forPeople(t, out.String(), args...)
	}
	return code
}
