package weighing_test

import (
	"math"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/schedule/weighing"
)

// TestWaterTable: handbook values in g/cm³ (CRC Handbook of Chemistry and
// Physics, memory). They are a digit finer than editions agree on, which differ
// by up to 1.5e-6 at 30 °C with the temperature scale: tolerance 2e-6. The
// greatest density, 0.999974950 at 3.983035 °C, is in the paper's constants.
func TestWaterTable(t *testing.T) {
	for celsius, want := range map[float64]float64{10: 0.9997026, 20: 0.9982067, 25: 0.9970470, 30: 0.9956502} {
		got, ok := weighing.WaterDensity(quantity.Celsius(celsius))
		if d := float64(got)/1000 - want; !ok || !(math.Abs(d) <= 2e-6) {
			t.Errorf("at %g °C %.7f g/cm³, want %.7f", celsius, float64(got)/1000, want)
		}
	}
	if got, _ := weighing.WaterDensity(quantity.Celsius(3.983035)); !(math.Abs(float64(got)-999.974950) <= 1e-9) { // rounding
		t.Errorf("%.9f kg/m³ at its greatest", got)
	}
}

// TestWaterAgainstKell compares with another formula, G. S. Kell, J. Chem. Eng.
// Data 20 (1975) 97 (constants from memory). It rests on older measurements and
// an older temperature scale: 0.003 kg/m³ lower at the maximum; tolerance 0.004.
func TestWaterAgainstKell(t *testing.T) {
	for c := 0.0; c <= 40; c += 0.5 {
		kell := (999.83952 + c*(16.945176+c*(-7.9870401e-3+c*(-46.170461e-6+c*(105.56302e-9-c*280.54253e-12))))) / (1 + 16.879850e-3*c)
		got, ok := weighing.WaterDensity(quantity.Celsius(c))
		if !ok || !(math.Abs(float64(got)-kell) <= 0.004) {
			t.Errorf("at %g °C %.5f, Kell %.5f kg/m³", c, float64(got), kell)
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
