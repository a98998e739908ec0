package schedule_test

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"slices"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/ensemble"
	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule/session/daytest"
)

// TestStuckOfTheDemo: in nine of ten baths of the demo's labelled resin what sticks is not gelled
// after 350, 193 and 144 min at 23, 31 and 35 °C, the figures of the issue that asked for the limit:
// the 10 % quantile of members as a plan is judged by, against an integral and a quantile of
// lognormal times by SciPy. The quantile of 4,000 is off by 0.3 % in one of three, and the tolerance
// three times that.
func TestStuckOfTheDemo(t *testing.T) {
	w := daytest.Demo(t, "telescope-strut.yaml")
	text, err := os.ReadFile("../testdata/reference/stuck_results.json")
	if err != nil {
		t.Fatal(err)
	}
	var want struct {
		Isothermal []struct {
			NineInTen float64 `json:"nine_in_ten_s"`
		}
	}
	if err := json.Unmarshal(text, &want); err != nil {
		t.Fatal(err)
	}
	members := ensemble.Draw(w.Task.Spread, 4000, 1)
	for i, c := range []struct {
		celsius float64
		issue   float64
	}{{23, 350}, {31, 193}, {35, 144}} {
		gels := make([]float64, len(members))
		for k, m := range members {
			film := vessel.NewFilm(w.Task.Resin.Adjusted(m.Rate, 1), vessel.Constant(quantity.Celsius(c.celsius)))
			gel, err := film.GelAt(0, 0)
			if err != nil {
				t.Fatal(err)
			}
			gels[k] = float64(gel) / 60
		}
		slices.Sort(gels)
		sure, scipy := gels[len(gels)/10], want.Isothermal[i].NineInTen/60
		if !(math.Abs(scipy-c.issue) <= 0.6) { // whole minutes, of an ensemble that was drawn
			t.Errorf("at %g °C SciPy has %.1f min, the issue %g", c.celsius, scipy, c.issue)
		}
		outside.Check(t, outside.Row{
			ID: fmt.Sprintf("libraries/stuck/nine-in-ten-%g", c.celsius), Subject: outside.Libraries, Source: "scipy", Mark: outside.Derived,
			What:    fmt.Sprintf("gel of what sticks of the demo's labelled resin at %g °C, 9 in 10", c.celsius),
			Printed: fmt.Sprintf("%.1f", scipy), Unit: "min", Within: 0.01 * scipy, Why: "the quantile of 4,000 members, off by 0.3 % in one of three",
		}, sure)
	}
	// The reference has the resin of the job.
	law, known := w.Task.Resin.Cure.(kinetics.KamalSourour)
	if !known || !(math.Abs(float64(law.K1.A)/109900.10702286617-1) <= 1e-9) {
		t.Errorf("the demo's resin is another: %+v", w.Task.Resin.Cure)
	}
}
