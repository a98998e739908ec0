package report

import (
	"bytes"
	"encoding/json"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule"
	"potlife/schedule/batches"
)

// lastLayer is the demo strut with all but its last layer wound, an hour and a
// half into its day, with so much fresh resin in the bath.
func lastLayer(t *testing.T, bath quantity.Mass, cups ...batches.MixedPot) *schedule.Winding {
	t.Helper()
	job, err := schedule.LoadJob(filepath.Join("..", "..", "..", "..", "testdata", "jobs", "telescope-strut.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	w, err := schedule.Prepare(job)
	if err != nil {
		t.Fatal(err)
	}
	w.Task.Units = w.Task.Units[len(w.Task.Units)-1:]
	w.Task.Begin = batches.Beginning{At: 5400, Filled: true, Cups: cups}
	w.Task.Heel = func(ensemble.Member) (batches.Heel, error) {
		never := quantity.Time(math.Inf(1))
		state := vessel.State{Mass: bath, Temperature: quantity.Celsius(22)}
		return batches.Heel{State: state, Life: 3600, LaidGels: never, BaseGels: never}, nil
	}
	return w
}

func reported(t *testing.T, w *schedule.Winding) (*Plan, string) {
	t.Helper()
	s, err := w.Solve()
	if err != nil || !s.Feasible() {
		t.Fatal(s, err)
	}
	likely, err := w.LikelyViscosities(s.Plan)
	if err != nil {
		t.Fatal(err)
	}
	p := NewPlan(w, s, likely, nil)
	var text, raw bytes.Buffer
	if err := p.Text(&text); err != nil {
		t.Fatal(err)
	}
	if err := WriteJSON(&raw, p); err != nil {
		t.Fatal(err)
	}
	var back map[string]any
	if err := json.Unmarshal(raw.Bytes(), &back); err != nil || back["pots"] == nil || back["layers"] == nil {
		t.Errorf("lists are null: %v", err)
	}
	return p, text.String()
}

// TestRestWithoutPots: a plan that needs no pour has its layers with their times,
// no pots, and tells what binds it.
func TestRestWithoutPots(t *testing.T) {
	w := lastLayer(t, 0.5)
	p, text := reported(t, w)
	if len(p.Pots) != 0 || p.Totals.Pots != 0 || p.Totals.MixedG != 0 || len(p.Layers) != 1 || p.Layers[0].Start == nil {
		t.Errorf("%+v", p)
	}
	if !p.Start.Equal(w.Job.Start.Add(5400e9)) || !p.Layers[0].Start.Equal(p.Start) || p.Binds == nil || p.Binds.At.Before(p.Start) {
		t.Errorf("from %v, layer %+v, binds %+v", p.Start, p.Layers[0], p.Binds)
	}
	// 500 g less what the layer takes.
	if want := 500 - p.Layers[0].ResinG; !(math.Abs(p.Totals.WasteG-p.Totals.BledG-want) <= 1e-6) {
		t.Errorf("waste %g g, want %g", p.Totals.WasteG, want)
	}
	for _, words := range []string{"no pot and no change will do", "mixed 0 g in no pot", "wet"} {
		if !strings.Contains(text, words) {
			t.Errorf("%q is not in\n%s", words, text)
		}
	}
	if strings.Contains(text, "\nPots") {
		t.Errorf("a table of no pots:\n%s", text)
	}
}

// TestRestWithACup: a cup that stands is listed, is not mixed again, and counts
// neither as a pot nor as mixed.
func TestRestWithACup(t *testing.T) {
	w := lastLayer(t, 0.13)
	pot := w.Task.Mix.Weigh(0.24, w.Task.Pots.Step)
	w.Task.Begin.Cups = []batches.MixedPot{{MixAt: 5100, Pot: pot, Seq: 3}}
	p, text := reported(t, w)
	if len(p.Pots) != 1 || p.Pots[0].Seq != 3 || p.Pots[0].Into != "top-up" || p.Totals.Pots != 0 || p.Totals.MixedG != 0 {
		t.Errorf("%+v %+v", p.Pots, p.Totals)
	}
	for _, words := range []string{"stands", "now"} {
		if !strings.Contains(text, words) {
			t.Errorf("%q is not in\n%s", words, text)
		}
	}
}
