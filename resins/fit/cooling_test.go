package fit_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/resins/document"
	"potlife/resins/fit"
)

// water is a resin that does not cure, with the heat and the density of water
// (textbook values), so that package vessel can cool it.
var water = kinetics.Resin{
	Cure: kinetics.NthOrder{K: kinetics.Arrhenius{A: 0, E: 5e4}, N: 1}, Gel: 0.5, Heat: 1,
	Viscosity: kinetics.CastroMacosko{Flow: kinetics.Flow{At: 300, Value: 1e-3, Activation: 1.6e4}, Gel: 0.5, A: 1, B: 1},
	Density:   993, HeatCapacity: 4180, Conductivity: 0.6,
}

// cools follows water in a vessel by the simulation and adds noise.
func cools(t *testing.T, v vessel.Vessel, mass quantity.Mass, noise func() float64) *fit.Log {
	t.Helper()
	room := vessel.Constant(quantity.Celsius(21))
	bath := vessel.New(water, v, room, room, vessel.Strict)
	_, samples, err := bath.Trace(vessel.State{Mass: mass, Temperature: quantity.Celsius(45)}, 0, 5400, 60, vessel.Tow{})
	if err != nil {
		t.Fatal(err)
	}
	l := &fit.Log{}
	for _, s := range samples {
		l.At, l.Is = append(l.At, s.At), append(l.Is, s.Temperature+quantity.Temperature(noise()))
	}
	return l
}

// TestCoolingTest: water that the simulation of package vessel cools, a route of
// its own, gives the coefficients that it was cooled with. Two depths tell
// surface and wall apart, one only both together. Without noise the prior of a
// factor of 2 pulls by (σ/prior σ)², some per cent where both are told apart;
// with a thermometer of 0.5 K, three standard deviations are allowed.
func TestCoolingTest(t *testing.T) {
	in := resins.Container{Length: 0.3, Width: 0.12}
	truth := vessel.Tray(0.3, 0.12, 13, 4.5)
	total := func(s, w quantity.HeatTransfer, mass quantity.Mass) float64 {
		depth := truth.Depth(mass, 993)
		return float64(s)*truth.AreaM2 + float64(w)*(truth.AreaM2+float64(truth.Perimeter*depth))
	}
	random := rand.New(rand.NewPCG(3, 3))
	for _, noise := range []float64{0, 0.5} {
		stray := func() float64 { return noise * random.NormFloat64() }
		two := fit.Cooling{In: in, Covered: true, Tests: []fit.CoolingTest{
			{File: "full", Water: 3, Room: quantity.Celsius(21), Log: cools(t, truth, 3, stray)},
			{File: "low", Water: 0.4, Room: quantity.Celsius(21), Log: cools(t, truth, 0.4, stray)},
		}}
		got, err := two.Losses()
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("noise %g K: surface %.2f, wall %.2f W/(m²·K), spread %.3f, residual %.2f K", noise, float64(got.Surface), float64(got.Wall), got.Spread, got.Residual)
		if off := math.Abs(math.Log(total(got.Surface, got.Wall, 3) / total(13, 4.5, 3))); !(off <= 3*math.Log(got.Spread)/1.645) {
			t.Errorf("noise %g K: both together off by %.1f %%", noise, 100*off)
		}
		if !got.Split || !(math.Abs(float64(got.Surface)/13-1) <= 0.15) || !(math.Abs(float64(got.Wall)/4.5-1) <= 0.15) || len(got.Warnings) > 0 {
			t.Errorf("noise %g K: %+v", noise, got)
		}
		one := fit.Cooling{In: in, Tests: two.Tests[:1]}
		if got, err = one.Losses(); err != nil {
			t.Fatal(err)
		}
		if off := math.Abs(math.Log(total(got.Surface, got.Wall, 3) / total(13, 4.5, 3))); got.Split || !(off <= 0.05) {
			t.Errorf("one depth, noise %g K: %+v, off by %.1f %%", noise, got, 100*off)
		}
		if !slices.Equal(got.Warnings, []warning.Warning{fit.OpenWater{}, fit.NotToldApart{}}) || got.Spread < 1.3 {
			t.Errorf("%+v", got)
		}
	}
}

// TestCoolingFile reads a file of tests with its logs, and refuses what tells
// nothing.
func TestCoolingFile(t *testing.T) {
	folder := t.TempDir()
	var log strings.Builder
	log.WriteString("time_min;temperature_C\n")
	for m := 0; m <= 90; m += 5 { // τ = 100 min
		fmt.Fprintf(&log, "%d;%.1f\n", m, 21+24*math.Exp(-float64(m)/100))
	}
	for name, text := range map[string]string{
		"bath.yaml": "in: {length: 300 mm, width: 120 mm}\ncovered: true\ntests:\n  - {file: ./water.csv, water: 1500 g, room: 21 °C}\n",
		"water.csv": log.String(),
	} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	c, err := fit.LoadCooling(filepath.Join(folder, "bath.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	got, err := c.Losses()
	if err != nil {
		t.Fatal(err)
	}
	// m·cp/τ = 1.5·4180/6000 s = 1.045 W/K leaves through A = 0.036 m² of surface and
	// 0.036 + 0.84·0.042 = 0.0713 m² of wall and floor (derived). 5 %: digits of 0.1 K
	// and the prior.
	if lost := float64(got.Surface)*0.036 + float64(got.Wall)*0.0713; !(math.Abs(lost/1.045-1) <= 0.05) {
		t.Errorf("%.3f W/K, want 1.045: %+v", lost, got)
	}

	_, err = fit.ReadCooling("bath.yaml", []byte("in: {length: 300 mm}\ntests:\n  - {file: x.csv, mass: 1 kg, room: 21 °C}\n"))
	var faults *document.Faults
	if !errors.As(err, &faults) || !strings.Contains(err.Error(), "no size") || !strings.Contains(err.Error(), "unknown key mass") {
		t.Errorf("%v", err)
	}
	c.Tests[0].Room = quantity.Celsius(44)
	var none *fit.LogFaults
	if _, err := c.Losses(); !errors.As(err, &none) || !strings.Contains(err.Error(), "too little") {
		t.Errorf("%v", err)
	}
}
