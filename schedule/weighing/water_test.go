package weighing_test

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	"potlife/schedule/weighing"
)

// TestWaterTable: handbook values in g/cm³ (CRC Handbook of Chemistry and
// Physics, memory). They are a digit finer than editions agree on, which differ
// by up to 1.5e-6 at 30 °C with the temperature scale: tolerance 2e-6. 15 and 22 °C stand
// in two encyclopaedic tables (seen). The
// greatest density, 0.999974950 at 3.983035 °C, is in the paper's constants.
func TestWaterTable(t *testing.T) {
	for _, c := range []struct {
		celsius float64
		printed string
		mark    outside.Mark
	}{
		{10, "0.9997026", outside.Memory},
		{20, "0.9982067", outside.Memory},
		{25, "0.9970470", outside.Memory},
		{30, "0.9956502", outside.Memory},
		// Two encyclopaedic tables, in kg/m³ there.
		{15, "0.9991026", outside.Seen},
		{22, "0.9977735", outside.Seen},
	} {
		got, ok := weighing.WaterDensity(quantity.Celsius(c.celsius))
		if !ok {
			t.Errorf("no density at %g °C", c.celsius)
		}
		outside.Check(t, outside.Row{
			ID: fmt.Sprintf("weighing/water/%g", c.celsius), Subject: outside.Weighing, Source: "watertable", Mark: c.mark,
			What:    fmt.Sprintf("density of water at %g °C", c.celsius),
			Printed: c.printed, Unit: "g/cm³", Within: 2e-6, Why: "editions differ by 1.5e-6 with the temperature scale",
		}, float64(got)/1000)
	}
	got, _ := weighing.WaterDensity(quantity.Celsius(3.983035))
	outside.Check(t, outside.Row{
		ID: "anchored/water-greatest", Subject: outside.Weighing, Source: "tanaka2001", Mark: outside.Seen,
		What: "greatest density of water, at 3.983035 °C", Printed: "999.974950", Unit: "kg/m³", Within: 1e-9, Why: "rounding",
		Anchored: "constants of our formula",
	}, float64(got))
}

// TestWaterAgainstKell compares with another formula, G. S. Kell, J. Chem. Eng.
// Data 20 (1975) 97 (constants quoted in public programs). It rests on older measurements and
// an older temperature scale: 0.003 kg/m³ lower at the maximum; tolerance 0.004.
func TestWaterAgainstKell(t *testing.T) {
	for c := 0.0; c <= 40; c += 0.5 {
		kell := (999.83952 + c*(16.945176+c*(-7.9870401e-3+c*(-46.170461e-6+c*(105.56302e-9-c*280.54253e-12))))) / (1 + 16.879850e-3*c)
		got, ok := weighing.WaterDensity(quantity.Celsius(c))
		if !ok || !(math.Abs(float64(got)-kell) <= 0.004) {
			t.Errorf("at %g °C %.5f, Kell %.5f kg/m³", c, float64(got), kell)
		}
		if c == 5 || c == 37 {
			outside.Check(t, outside.Row{
				ID: fmt.Sprintf("weighing/kell/%g", c), Subject: outside.Weighing, Source: "kell1975", Mark: outside.Derived,
				What: fmt.Sprintf("density of water at %g °C by Kell's formula", c), Printed: strconv.FormatFloat(kell, 'f', 3, 64), Unit: "kg/m³",
				Within: 0.004, Why: "older measurements and temperature scale: 0.003 lower at the maximum",
			}, float64(got))
		}
	}
}

// TestWaterRange: no density where the formula does not hold.
func TestWaterRange(t *testing.T) {
	for _, c := range []float64{-0.1, 40.1, 100, math.NaN(), math.Inf(1)} {
		if got, ok := weighing.WaterDensity(quantity.Celsius(c)); ok {
			t.Errorf("at %g °C %v", c, got)
		}
	}
}
