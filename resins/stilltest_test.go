package resins_test

import (
	"math"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
	"potlife/resins"
)

// TestGridsOfTests: the grids of a test find an end within 0.3 % and 2 % of what 24
// cells give at twice the precision, which are themselves good to 0.1 % (package
// still), in cups of every size that a crew or a laboratory has.
func TestGridsOfTests(t *testing.T) {
	at := quantity.Celsius(23)
	for _, name := range []string{"epoxy-teta", "epoxy-ipda", "epoxy-polyetheramine-ipda"} {
		r := load(t, name)
		for _, cup := range []struct {
			mm   float64
			mass quantity.Mass
		}{{50, 0.1}, {70, 0.1}, {90, 0.25}, {140, 0.9}, {200, 5}, {120, 0.03}} {
			in := resins.Container{Cup: quantity.Length(cup.mm / 1000)}
			p := still.Working
			p.Rel, p.Cells = p.Rel/2, 13
			room := vessel.Constant(at)
			fine, err := still.New(r.Kinetics, in.Body(cup.mass, 1, false), room, room, p)
			if err != nil {
				t.Fatal(err)
			}
			for _, end := range []vessel.EndPoint{{Gel: true}, {Doubled: true}, {Temperature: quantity.Celsius(40)}} {
				want, err := fine.TimeTo(end, vessel.State{Temperature: at}, 0, 86400)
				if err != nil {
					t.Fatal(err)
				}
				for coarse, tol := range map[bool]float64{false: 3e-3, true: 1e-2} {
					test := resins.PotTest{In: in, Mass: cup.mass, Room: at, Coarse: coarse}
					got, err := test.TimeTo(r.Kinetics, end, 86400)
					if err != nil {
						t.Fatal(err)
					}
					if got == want { // both never
						continue
					}
					if off := float64(got/want) - 1; !(math.Abs(off) <= tol) {
						t.Errorf("%s, %v in %g mm, coarse %v, %+v: %.1f min, fine %.1f, off %.2f %%", name, cup.mass, cup.mm, coarse, end, got.In("min"), want.In("min"), 100*off)
					}
				}
			}
		}
	}
}

// TestThermometer: what is traced of a still cup in the middle is warmer than the
// same cup stirred, and both reach gel when they are said to, to an interval.
func TestThermometer(t *testing.T) {
	r := load(t, "epoxy-ipda")
	var hottest [2]quantity.Temperature
	for i, stirred := range []bool{false, true} {
		test := resins.PotTest{In: resins.Container{Cup: 0.07, Drum: turning(stirred)}, Mass: 0.1, Room: quantity.Celsius(25), From: quantity.Celsius(22)}
		gel, err := test.TimeTo(r.Kinetics, vessel.EndPoint{Gel: true}, 86400)
		if err != nil {
			t.Fatal(err)
		}
		samples, err := test.Trace(r.Kinetics, 0, gel+60, 60)
		if err != nil {
			t.Fatal(err)
		}
		if s := samples[0]; s.Temperature != quantity.Celsius(22) || s.Alpha != 0 || s.Mass != 0.1 {
			t.Errorf("begins as %+v", s)
		}
		for _, s := range samples {
			if gelled := s.Alpha >= r.Kinetics.Gel; gelled != (s.At >= gel) && math.Abs(float64(s.At-gel)) > 60 {
				t.Errorf("stirred %v: gelled %v at %v, gel at %v", stirred, gelled, s.At, gel)
			}
		}
		hottest[i] = samples[60].Temperature
	}
	if !(hottest[0] > hottest[1]+1) {
		t.Errorf("%v after an hour, stirred %v", hottest[0], hottest[1])
	}
}

// turning is a drum that turns always, or none.
func turning(stirred bool) resins.Drum {
	if stirred {
		return resins.Turning
	}
	return resins.Drum{}
}
