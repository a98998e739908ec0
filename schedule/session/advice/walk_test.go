package advice

import (
	"math/rand/v2"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/testrun"
	"potlife/schedule"
	"potlife/schedule/batches"
	"potlife/schedule/session/daytest"
)

// small is a bath that holds less than a layer takes, so that the tube is refilled at
// circuits.
func small(t testing.TB) *schedule.Winding {
	t.Helper()
	return prepared(t, "refill: layers", "refill: circuits", "lowest: 120 g, highest: 900 g", "lowest: 60 g, highest: 165 g", "largest: 600 g", "largest: 110 g", "smallest: 80 g", "smallest: 40 g")
}

// TestADayByThePlan: a day that goes by its plan hears nothing else, any minute. Before the
// first pour the bath is to be filled, after the last layer to be emptied; between the
// stop and the pour that is planned there the bath lacks resin, and while the tow runs
// inside a layer already as long before as a pot takes. At all other moments the advice is
// to carry on: the plan keeps every limit and the reserve in nine of ten baths, and each
// pot is just enough.
func TestADayByThePlan(t *testing.T) {
	for _, c := range []struct {
		name string
		of   func(testing.TB) *schedule.Winding
	}{
		{"strut", func(t testing.TB) *schedule.Winding { return daytest.Demo(t, "telescope-strut.yaml") }},
		{"shell", func(t testing.TB) *schedule.Winding { return daytest.Demo(t, "softener-shell.yaml") }},
		{"tube", func(t testing.TB) *schedule.Winding { return prepared(t) }},
		{"circuits", small},
		{"circuits, alone", func(t testing.TB) *schedule.Winding {
			w := small(t)
			w.Task.Pots.Helper = false
			return w
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := c.of(t)
			p := daytest.Planned(t, w).Plan
			d := newDay(w)
			d.AsPlanned(p)
			end := float64(p.End[len(p.End)-1]) / 60
			step := float64(testrun.Count(17, 1))
			asked := 0
			for m := 0.0; m <= end; m += step {
				a := d.ask(t, m, 0)
				asked++
				if want := expected(w, p, a); !want[a.Advice] {
					t.Errorf("after %.0f min: %s", m, a.say())
				}
				if a.Advice == CarryOn && !(a.LeftSure > 0) {
					t.Errorf("after %.0f min: carry on with nothing surely left", m)
				}
			}
			t.Logf("asked %d times, %d pours", asked, len(p.Pours))
		})
	}
}

// expected are the advices that agree with the plan.
func expected(w *schedule.Winding, p *batches.Plan, a *Answer) map[Advice]bool {
	if a.Now < p.Pours[0].At {
		return map[Advice]bool{Change: !a.Filled}
	}
	if a.Now >= p.End[len(p.End)-1] {
		return map[Advice]bool{EmptyOut: a.Rule == EmptyIt}
	}
	want := map[Advice]bool{CarryOn: true}
	for _, pour := range p.Pours[1:] {
		from := p.End[pour.Stop-1]
		if !w.Task.Units[pour.Stop-1].EndsLayer {
			from -= w.Task.Pots.Mixing + w.Task.Bath.Pour
		}
		const rounding quantity.Time = 1 // the clock of a journal has whole seconds in the worst case
		if a.Now >= from-rounding && a.Now < pour.At {
			want[TopUp] = true
		}
	}
	return want
}

// TestADayByThePlanIsRead: as before, with a thermometer of half a kelvin every ten minutes in
// a bath that is the record's, and in one that is a tenth more reactive, within the label's
// spread: what is read does not drive a crew off its plan.
func TestADayByThePlanIsRead(t *testing.T) {
	w := daytest.Demo(t, "telescope-strut.yaml")
	p := daytest.Planned(t, w).Plan
	end := float64(p.End[len(p.End)-1]) / 60
	for _, rate := range []float64{1, 1.1} {
		truth := ensemble.Member{Rate: rate, Viscosity: 1, Loss: 1, Weight: 1}
		d, r := newDay(w), rand.New(rand.NewPCG(5, 3))
		d.AsPlanned(p)
		var at, is []float64
		for m := float64(p.Pours[0].At)/60 + 2; m < end; m += 10 {
			world, err := d.play(t, m, 0).Script.World(truth)
			if err != nil {
				t.Fatal(err)
			}
			at, is = append(at, m), append(is, world.Bath.Temperature.Celsius()+0.5*r.NormFloat64())
		}
		for i := range at {
			d.Temperature(at[i], is[i])
		}
		step := float64(testrun.Count(23, 5))
		for m := 0.0; m <= end; m += step {
			if a := d.ask(t, m, 0); !expected(w, p, a)[a.Advice] {
				t.Errorf("rate %g, after %.0f min: %s", rate, m, a.say())
			}
		}
	}
}
