package replay

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"potlife/kinetics/quantity"
	"potlife/resins"
	"potlife/schedule/session"
	"potlife/schedule/session/daytest"
)

// TestLabelIsAppliedOnce: a session keeps the record calibrated to the label and says so; replay
// does not calibrate it again. One of before that was kept, with the record as it was, replays
// alike. Seven digits of a file move no rate by more than 1e-6.
func TestLabelIsAppliedOnce(t *testing.T) {
	// No container and no viscosity: two doubts of calibrating that replay cannot find again.
	const label = "datasheet:\n  pot_life: {time: 110 min, mass: 100 g, at: 23 °C, end: gel}"
	morning := daytest.Prepared(t, daytest.Labelled(label)...)
	job := morning.Job
	job.File = filepath.Join(t.TempDir(), "strut.yaml")
	generic, err := resins.Load("epoxy-ipda")
	if err != nil {
		t.Fatal(err)
	}
	if len(morning.Label) != 2 {
		t.Fatalf("doubts of calibrating: %q", morning.Label)
	}
	for name, copies := range map[string]session.Copies{"now": session.CopiesOf(morning), "before": {Resin: generic.Source}} {
		if copies.Resolved != (name == "now") {
			t.Errorf("%s: resolved is %v", name, copies.Resolved)
		}
		s, _, err := session.Start(job, copies, job.Start, job.Start)
		if err != nil {
			t.Fatal(err)
		}
		j, err := Read(s)
		if err != nil {
			t.Fatal(err)
		}
		at := quantity.Celsius(23)
		was, is := morning.Record.Kinetics.CureRate(0.1, float64(at)), j.Winding.Record.Kinetics.CureRate(0.1, float64(at))
		if !(math.Abs(is/was-1) <= 1e-6) {
			t.Errorf("%s: the rate is %g, in the morning it was %g", name, is, was)
		}
		if j.Winding.Record.Spread != morning.Record.Spread {
			t.Errorf("%s: spread %v", name, j.Winding.Record.Spread)
		}
		if diff := cmp.Diff(morning.Warnings, j.Winding.Warnings); diff != "" {
			t.Errorf("%s: doubts, - morning, + replay\n%s", name, diff)
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
		if err := os.RemoveAll(s.Folder); err != nil {
			t.Fatal(err)
		}
	}
}
