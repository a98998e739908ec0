package resins_test

import (
	"math"
	"strings"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins"
	"potlife/resins/document"
)

// TestTexOfYield: 620 yd/lb is 800.1 tex (ISO 14692-1:2017, seen), and tow area
// tex/(1000·ρ): four tows of 800 tex at 1.80 g/cm³ are 1.778 mm² (derived). What
// a record calls tex is grams per kilometre, so 1e-6 kg/m.
func TestTexOfYield(t *testing.T) {
	tow := readFibre(t, "{density: 1.80 g/cm³, tex: 800.1}")
	const yard, pound = 0.9144, 0.45359237 // exact by definition
	if got := pound / (620 * yard); !(math.Abs(got/float64(tow.Tex)-1) <= 0.05/800) {
		t.Errorf("620 yd/lb is %g kg/m, 800.1 tex are %g", got, float64(tow.Tex))
	}
	tow = readFibre(t, "{density: 1.80 g/cm³, tex: 800 tex}")
	if area := 4 * float64(tow.Tex) / float64(tow.Density) * 1e6; !(math.Abs(area-1.778) <= 5e-4) { // digits printed
		t.Errorf("four tows have %g mm²", area)
	}
}

func readFibre(t *testing.T, text string) resins.Fibre {
	t.Helper()
	var f resins.Fibre
	if _, err := document.Read("fibre", []byte(text), f.Fields()); err != nil {
		t.Fatal(err)
	}
	f.Complete()
	return f
}

// TestTexInEveryDress: the key is the unit, so a bare number is tex too.
func TestTexInEveryDress(t *testing.T) {
	for _, text := range []string{"800", "800 tex", "0.8 g/m"} {
		f := readFibre(t, "{density: 1.80 g/cm³, tex: "+text+"}")
		if !(math.Abs(f.Tex.In("tex")-800) <= 1e-9) { // rounding
			t.Errorf("%s is read as %v", text, f.Tex)
		}
	}
	for _, text := range []string{"0", "-800", "800 kg", "5000 g/m", "many"} {
		var f resins.Fibre
		_, err := document.Read("fibre", []byte("{density: 1.80 g/cm³, tex: "+text+"}"), f.Fields())
		if err == nil || !strings.Contains(err.Error(), "fibre:1:") {
			t.Errorf("tex: %s gives %v", text, err)
		}
	}
}

// TestUsualHeatCapacity: a fibre that states none takes carbon's below 2.2 g/cm³
// and glass's above (common practice); one that does keeps its own.
func TestUsualHeatCapacity(t *testing.T) {
	for text, want := range map[string]quantity.HeatCapacity{
		"{density: 1.80 g/cm³, tex: 800}":                               vessel.CarbonHeatCapacity,
		"{density: 2.54 g/cm³, tex: 2400}":                              vessel.GlassHeatCapacity,
		"{density: 1.44 g/cm³, tex: 160, heat_capacity: 1.42 J/(g·K)}":  1420,
		"{density: 2.54 g/cm³, tex: 2400, heat_capacity: 0.83 J/(g·K)}": 830,
		"{density: 2200 kg/m³, tex: 2400, heat_capacity: 700 J/(kg·K)}": 700,
	} {
		if got := readFibre(t, text).HeatCapacity; !(math.Abs(float64(got/want)-1) <= 1e-12) { // rounding
			t.Errorf("%s: %v, want %v", text, got, want)
		}
	}
}

// TestUnknownFibre: a name that is none is not found and no error.
func TestUnknownFibre(t *testing.T) {
	if _, found, err := resins.LoadFibre("carbon-6k"); found || err != nil {
		t.Errorf("found %v, %v", found, err)
	}
}
