package fit

import (
	"math"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/resins"
)

// TestCurveGoesOnBeyondTheLastReading: a log that was broken off in a runaway is
// compared with a resin 1 % slower, which comes 1 % later, and by what its own heat
// adds: an hour's cup in which heat runs away is late by less than 2 %, 72 s, of which
// (3) of the package comment takes 1 % and 5 s for one σ. The curve that far ahead of
// the last reading is tens of kelvin below it, many σ of 0.5 K.
func TestCurveGoesOnBeyondTheLastReading(t *testing.T) {
	prior, err := resins.Load("epoxy-ipda")
	if err != nil {
		t.Fatal(err)
	}
	room := quantity.Celsius(25)
	s := Statement{Kind: CupLog, File: "cut.csv", Room: room, Mass: 0.5, In: resins.Container{Cup: 0.09}}
	pot := resins.PotTest{In: s.In, Mass: s.Mass, Room: room, Coarse: true}
	samples, err := pot.Trace(prior.Kinetics, 0, 2*3600, 10)
	if err != nil {
		t.Fatal(err)
	}
	s.Log = &Log{}
	for _, read := range samples {
		s.Log.At, s.Log.Is = append(s.Log.At, read.At), append(s.Log.Is, read.Temperature)
		if read.Temperature > quantity.Celsius(120) {
			break
		}
	}
	last := len(s.Log.At) - 1
	if rise := s.Log.Is[last] - s.Log.Is[last-2]; !(rise > 10) {
		t.Fatalf("the log does not end in a runaway: %v in 20 s", rise)
	}
	log, _, err := thin(&s, prior.Kinetics.Density)
	if err != nil {
		t.Fatal(err)
	}
	slower := prior.Kinetics.Adjusted(0.99, 1)
	r := make([]float64, len(log.at))
	if _, err := log.predict(&slower, &s, 1, 0, r); err != nil {
		t.Fatal(err)
	}
	if d := r[len(r)-1]; !(d < 0 && math.Abs(d) <= 2) {
		t.Errorf("the last reading is %.2f σ off", d)
	}
}
