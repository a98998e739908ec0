package main

import (
	"bytes"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"potlife/kinetics/testrun"
)

// The race detector, ten times as slow, runs the tests with Together in their name: those in
// which goroutines meet. See .ci/run.

// raced tells that the race detector looks on.
var raced bool

// TestTogetherAsAlone: what several processors work out together is, to the last bit of the
// last figure, what one works out alone. JSON is not rounded, and a picture is compared too.
func TestTogetherAsAlone(t *testing.T) {
	if !raced && !testrun.IsLong() {
		t.Skip("for the race detector, and the long suite")
	}
	inRoot(t)
	chart := filepath.Join(t.TempDir(), "chart.svg")
	for _, c := range []struct {
		name string
		args []string
	}{
		{"worktime stirred", []string{"worktime", "--resin", "epoxy-ipda", "--mass", "250g", "--vessel", "{length: 300 mm, width: 120 mm}", "--room", "23C"}},
		{"worktime in a cup", []string{"worktime", "--resin", "epoxy-ipda", "--mass", "100g", "--vessel", "{cup: 60 mm}", "--room", "23C"}},
		{"plan", []string{"plan", "testdata/jobs/telescope-strut.yaml", "--chart", chart}},
		{"plan that needs help", []string{"plan", "testdata/jobs/softener-shell.yaml"}},
		{"check", []string{"check", "--session", "testdata/sessions/strut.session", "--at", "10:22", "--pause", "20min"}},
		{"replan", []string{"replan", "--session", "testdata/sessions/strut.session", "--at", "10:46"}},
		{"report", []string{"report", "testdata/sessions/strut.session"}},
		{"learn", []string{"learn", "testdata/sessions/strut.session"}},
		{"cure", []string{"cure", "testdata/jobs/telescope-strut.yaml"}},
		{"cure of a session", []string{"cure", "--session", "testdata/sessions/shell.session"}},
		{"fit", []string{"resins", "fit", "testdata/resins/club-epoxy-medium.yaml"}},
		{"cooling", []string{"resins", "cooling", "testdata/resins/bath-cooling.yaml"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			alone := answeredOn(t, 1, c.args, chart)
			// More goroutines than most processors have cores, so that their order is any.
			if together := answeredOn(t, 4, c.args, chart); !bytes.Equal(alone, together) {
				t.Errorf("on one processor\n%s\non several\n%s", alone, together)
			}
		})
	}
}

// answeredOn runs a command on so many processors and returns its JSON, its warnings and its
// chart.
func answeredOn(t *testing.T, processors int, args []string, chart string) []byte {
	t.Helper()
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(processors))
	_ = os.Remove(chart)
	var out bytes.Buffer
	if code := run(append(args, "--json"), &out, &out); code != exitDone && code != exitLimit {
		t.Fatalf("exit %d: %s", code, out.String())
	}
	picture, _ := os.ReadFile(chart) // of the commands that draw one
	return append(out.Bytes(), picture...)
}
