package fit

import (
	"math"
	"slices"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins"
)

// TestDecisive: parameters that are not named as decisive leave a prediction as it
// is to the last bit, and each of those named changes it, but for two: vitrification may
// be too far off to count, and a level of viscosity cancels from its doubling. It is
// asked without the memory, which rests on it.
func TestDecisive(t *testing.T) {
	prior, err := resins.Load("epoxy-ipda")
	if err != nil {
		t.Fatal(err)
	}
	cup := resins.Container{Cup: 0.06}
	room := quantity.Celsius(23)
	log := func() *Log {
		return &Log{At: []quantity.Time{0, 3000, 6000}, Is: []quantity.Temperature{room, room + 20, room + 30}}
	}
	thick := log()
	thick.Viscosities = []ViscosityReading{{At: 600, Is: 1}}
	week := 7 * 24 * quantity.Time(3600)
	list := []Statement{
		{Kind: PotLife, Time: 6000, At: room, Mass: 0.1, In: cup, End: vessel.EndPoint{Gel: true}},
		{Kind: PotLife, Time: 3000, At: room, Mass: 0.11, In: cup, End: vessel.EndPoint{Doubled: true}},
		{Kind: PotLife, Time: 3000, At: room, Mass: 0.12, In: cup, End: vessel.EndPoint{Viscosity: 1.5}},
		{Kind: PotLife, Time: 3000, At: room, Mass: 0.2, In: cup, End: vessel.EndPoint{Temperature: room + 17}},
		{Kind: Viscosity, Value: 0.6, At: room},
		{Kind: FilmGel, Time: 30000, At: room},
		{Kind: Conversion, Is: 0.8, Time: week, At: room},
		{Kind: Glass, Glass: room + 30, Time: week + 60, At: room},
		{Kind: Heat, Heat: 4e5},
		{Kind: CupLog, File: "a", Room: room, Mass: 0.2, In: cup, Log: log()},
		{Kind: CupLog, File: "b", Room: room, Mass: 0.2, In: cup, Log: thick},
	}
	m, _, err := newModel(prior, list)
	if err != nil {
		t.Fatal(err)
	}
	predict := func(u *run, x []float64) []float64 {
		resin, err := m.resin(x)
		if err != nil {
			t.Fatal(err)
		}
		p := prediction{make([]float64, len(u.tests)), make([]float64, u.count)}
		if err := u.simulate(&resin, m.space, x, p); err != nil {
			t.Fatal(err)
		}
		return append(p.figures, p.residuals...)
	}
	for i, u := range m.runs {
		s := u.tests[0]
		if len(u.tests) > 1 {
			t.Fatalf("%v is answered by the run of %v", u.tests[1], s)
		}
		at := predict(u, make([]float64, len(m.active)))
		for k, active := range m.active {
			x := make([]float64, len(m.active))
			x[k] = 0.5
			same := slices.Equal(predict(u, x), at)
			mayStay := active == shift || active == cured || active == viscosity && s.End.Doubled
			if decisive := slices.Contains(u.decisive, active); !decisive && !same || decisive && same && !mayStay {
				t.Errorf("statement %d, %v: %s decisive %v, unchanged %v", i+1, s, m.all[active].moves, decisive, same)
			}
		}
	}
}

// TestMemory: what is asked again is answered alike, other places are not taken for it, and
// it forgets the oldest first but for what is kept for good.
func TestMemory(t *testing.T) {
	var m memo
	m.keep(place{1}, prediction{[]float64{5}, []float64{1, 2}})
	if p, known := m.recall(place{1}); !known || p.figures[0] != 5 || p.residuals[1] != 2 {
		t.Errorf("%v, %v", p, known)
	}
	if _, known := m.recall(place{math.Copysign(1, -1)}); known {
		t.Error("a place never asked is known")
	}
	m.pin()
	for i := range 3 * remembered {
		m.keep(place{2, float64(i)}, prediction{})
		m.keep(place{2, float64(i)}, prediction{})
	}
	known := func(at place) bool { _, known := m.recall(at); return known }
	if !known(place{1}) || known(place{2, 0}) || known(place{2, 2*remembered - 1}) || !known(place{2, 2 * remembered}) || len(m.said) != 1+remembered {
		t.Errorf("%d places are remembered", len(m.said))
	}
}
