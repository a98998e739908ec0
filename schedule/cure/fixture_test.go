package cure

import (
	"math"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/schedule"
)

const (
	minute quantity.Time = 60
	hour   quantity.Time = 3600
)

func kelvinPerHour(r float64) quantity.HeatingRate { return quantity.HeatingRate(r / 3600) }

// made is a part of a built-in system as if wound at once: n layers of half a millimetre with half
// of fibre, the innermost at α 0.15 and each further one a little younger, on a steel tube of 90 mm
// in a room of 23 °C.
func made(t testing.TB, system string, n int, change ...func(*Task)) *Task {
	t.Helper()
	record, err := resins.Load(system)
	if err != nil {
		t.Fatal(err)
	}
	fibre, found, err := resins.LoadFibre("carbon-12k")
	if err != nil || !found {
		t.Fatal(found, err)
	}
	steel, found := schedule.MaterialNamed("steel")
	if !found {
		t.Fatal("no steel")
	}
	room := vessel.Constant(quantity.Celsius(23))
	task := &Task{
		Mandrel: schedule.Mandrel{Diameter: 0.09, Length: 1.6, Material: steel, Wall: 3e-3, Bore: schedule.UsualBoreLoss},
		Cure: schedule.Cure{
			Oven:   schedule.Oven{Highest: quantity.Celsius(90), Ramp: kelvinPerHour(60), Cooling: kelvinPerHour(60), Loss: 25},
			Degree: 0.93, Exotherm: quantity.Celsius(110), Margin: 5, DemouldMargin: 10, NoSag: 100,
		},
		Fibre: fibre, Resin: record.Kinetics, Valid: record.Valid, Room: room, Rate: [baths]float64{1, 1 / 1.15, 1.15},
	}
	for b := range task.History {
		h := &History{Wound: 0, Mandrel: quantity.Celsius(23)}
		for i := range n {
			s := vessel.State{Temperature: quantity.Celsius(23), Alpha: 0.15 - 0.1*float64(i)/float64(n)}
			h.Layers = append(h.Layers, Layer{Thickness: 5e-4, FibreVolume: 0.5, State: s})
		}
		task.History[b] = h
	}
	for _, c := range change {
		c(task)
	}
	return task
}

func free(t *Task) { t.Cure.Free = true }

// demo is the part of a demo's job, planned.
func demo(t testing.TB, name string, change ...func(*schedule.Job)) *Task {
	t.Helper()
	job, err := schedule.LoadJob("../../testdata/jobs/" + name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range change {
		c(job)
	}
	w, err := schedule.Prepare(job)
	if err != nil {
		t.Fatal(err)
	}
	solution, err := w.Solve()
	if err != nil || solution.Plan == nil {
		t.Fatal(solution, err)
	}
	task, err := ForPlan(w, solution.Plan)
	if err != nil {
		t.Fatal(err)
	}
	return task
}

func freeJob(j *schedule.Job) { j.Cure.Free, j.Mandrel.Stays = true, false }

// film integrates dα/dt = rate(α, air) by the classical Runge-Kutta method, an integrator that the
// product does not have.
func film(t *Task, alpha float64, air func(quantity.Time) quantity.Temperature, until, step quantity.Time) float64 {
	rate := func(at quantity.Time, a float64) float64 { return t.Resin.CureRate(a, float64(air(at))) }
	n := int(math.Round(float64(until / step)))
	h := float64(until) / float64(n)
	for i := range n {
		at := quantity.Time(float64(i) * h)
		half := at + quantity.Time(h/2)
		k1 := rate(at, alpha)
		k2 := rate(half, alpha+h/2*k1)
		k3 := rate(half, alpha+h/2*k2)
		k4 := rate(at+quantity.Time(h), alpha+h*k3)
		alpha += h / 6 * (k1 + 2*k2 + 2*k3 + k4)
	}
	return alpha
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %.8g, want %.8g within %.2g", what, got, want, within)
	}
}

// solved is the answer of a task that must have a sound program.
func solved(t testing.TB, task *Task) *Answer {
	t.Helper()
	a, err := task.Solve()
	if err != nil {
		t.Fatal(err)
	}
	if !a.Feasible() {
		var broken []warning.Warning
		if a.Tally != nil {
			broken = a.Tally.Broken
		}
		t.Fatalf("no sound program: %+v %+v", a.Why, broken)
	}
	return a
}
