package cure

import (
	"fmt"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule"
	"potlife/schedule/batches"
)

// TestLayersAge: the bath of the plan is what each layer is laid with as its winding is half done. On a
// mandrel that something holds at its temperature from within, a layer has aged since like a film at that
// temperature, integrated by Runge-Kutta: 0.3 % of its degree of cure is what the twentieth of a kelvin
// costs that the laminate is warmer.
func TestLayersAge(t *testing.T) {
	job, err := schedule.LoadJob("../../testdata/jobs/telescope-strut.yaml")
	if err != nil {
		t.Fatal(err)
	}
	job.Mandrel.Bore = 500
	w, err := schedule.Prepare(job)
	if err != nil {
		t.Fatal(err)
	}
	s, err := w.Solve()
	if err != nil {
		t.Fatal(err)
	}
	at := make([]quantity.Time, len(s.Plan.Start))
	for u := range at {
		at[u] = (s.Plan.Start[u] + s.Plan.End[u]) / 2
	}
	laid, err := batches.Course(w.Task, s.Plan, ensemble.Nominal(), at)
	if err != nil {
		t.Fatal(err)
	}
	task, err := ForPlan(w, s.Plan)
	if err != nil {
		t.Fatal(err)
	}
	h := task.History[likely]
	if len(h.Layers) != len(laid) || h.Wound != s.Plan.End[len(laid)-1] {
		t.Fatalf("%d layers wound by %v, want %d by %v", len(h.Layers), h.Wound, len(laid), s.Plan.End[len(laid)-1])
	}
	room := func(quantity.Time) quantity.Temperature { return quantity.Celsius(23) }
	for i, l := range h.Layers {
		want := film(task, laid[i].Alpha, room, h.Wound-at[i], 10)
		near(t, fmt.Sprintf("α of layer %d", i+1), l.State.Alpha, want, 0.003*want)
	}
}

// TestGrowthKeepsUp: laid in one age at once, and one after the other over ten hours, a thick wall differs:
// what was laid early is further cured, and warm. A thin one on heavy steel ages like a film.
func TestGrowthKeepsUp(t *testing.T) {
	task := demo(t, "telescope-strut")
	laid := make([]laying, 12)
	for i := range laid {
		laid[i].Thickness, laid[i].FibreVolume, laid[i].at = 2e-4, 0.5, quantity.Time(i)*10*minute
		laid[i].State = vessel.State{Alpha: 0.05}
	}
	job, err := schedule.LoadJob("../../testdata/jobs/telescope-strut.yaml")
	if err != nil {
		t.Fatal(err)
	}
	w, err := schedule.Prepare(job)
	if err != nil {
		t.Fatal(err)
	}
	w.Job.Mandrel.Wall = 0.04
	h, err := grown(w, task.Resin, laid, w.Task.Room, 2*hour)
	if err != nil {
		t.Fatal(err)
	}
	room := func(quantity.Time) quantity.Temperature { return quantity.Celsius(23) }
	for i, l := range h.Layers {
		want := film(task, 0.05, room, 2*hour-laid[i].at, 10)
		// The wall is some tenths of a kelvin warmer than the room: 2 % of the age.
		near(t, "α of a thin layer", l.State.Alpha, want, 0.02*want)
	}
	for i := range laid {
		laid[i].Thickness, laid[i].at = 4e-3, quantity.Time(i)*hour
	}
	h, err = grown(w, task.Resin, laid, w.Task.Room, 11*hour)
	if err != nil {
		t.Fatal(err)
	}
	alone := film(task, 0.05, room, 6*hour, 10)
	if got := h.Layers[5].State; !(got.Alpha > 1.15*alone) {
		t.Errorf("a layer within 48 mm is at %.3f, a film of its age at %.3f", got.Alpha, alone)
	}
}

// TestLifts: many layers are put together with their fibre and resin, and the youngest stays alone.
func TestLifts(t *testing.T) {
	laid := make([]laying, 1000)
	thickness, resin, cured := 0.0, 0.0, 0.0
	for i := range laid {
		l := &laid[i]
		l.Thickness, l.FibreVolume = quantity.Length(1e-4*(1+float64(i%3))), quantity.Fraction(0.4+0.1*float64(i%2))
		l.State.Alpha, l.at = 0.4-0.3*float64(i)/1000, quantity.Time(i)
		holds := float64(l.Thickness) * (1 - float64(l.FibreVolume))
		thickness, resin, cured = thickness+float64(l.Thickness), resin+holds, cured+holds*l.State.Alpha
	}
	list := lifts(laid, mostLifts)
	if len(list) != mostLifts || list[mostLifts-1] != laid[999] {
		t.Fatalf("%d lifts, the last %+v", len(list), list[len(list)-1])
	}
	var t2, r2, c2 float64
	for i, l := range list {
		holds := float64(l.Thickness) * (1 - float64(l.FibreVolume))
		t2, r2, c2 = t2+float64(l.Thickness), r2+holds, c2+holds*l.State.Alpha
		if i > 0 && !(l.at > list[i-1].at && l.State.Alpha < list[i-1].State.Alpha) {
			t.Errorf("lift %d is out of order", i)
		}
	}
	near(t, "thickness", t2/thickness, 1, 1e-12)
	near(t, "resin", r2/resin, 1, 1e-12)
	near(t, "cured", c2/cured, 1, 1e-12)
}

// TestLaminate: fibre and resin that stay on the part fill its thickness. 62 % by mass of carbon at 1.80
// with resin at 1.11 g/cm³ are 0.5015 by volume (derived: 0.62/1.8/(0.62/1.8 + 0.38/1.11)).
func TestLaminate(t *testing.T) {
	near(t, "fibre volume of the strut", demo(t, "telescope-strut").FibreVolume(), 0.5015, 1e-4)
	// The shell: 72 % by mass asked for, of glass at 2.54 with 1.10 g/cm³, 5 % more resin carried and 3 % of
	// that wiped off: 1.0185 times the resin.
	fibre, resin := 0.72/2.54, 0.28/1.10*1.05*0.97
	near(t, "fibre volume of the shell", demo(t, "softener-shell").FibreVolume(), fibre/(fibre+resin), 1e-6)
}
