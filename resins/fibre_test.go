package resins_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"potlife/kinetics/outside"
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
	outside.Check(t, outside.Row{
		ID: "mixture/tow-area", Subject: outside.Mixture, Mark: outside.Derived,
		What: "area of four tows of 800 tex at 1.80 g/cm³", Printed: "1.778", Unit: "mm²",
	}, 4*float64(tow.Tex)/float64(tow.Density)*1e6)
}

// TestYields: yards in a pound against tex, both as the program reads them. The standard
// prints the number of a tow of one yard in a pound; the table's tex are rounded as trade
// names are, to three digits at best.
func TestYields(t *testing.T) {
	tex := func(yardsPerPound float64) float64 {
		pound, err := quantity.Parse[quantity.Mass]("1 lb")
		if err != nil {
			t.Fatal(err)
		}
		yard, err := quantity.Parse[quantity.Length]("36 in")
		if err != nil {
			t.Fatal(err)
		}
		return quantity.LinearDensity(float64(pound) / (yardsPerPound * float64(yard))).In("tex")
	}
	outside.Check(t, outside.Row{
		ID: "mixture/yield/one", Subject: outside.Mixture, Source: "iso14692", Where: "tow tex", Mark: outside.Seen,
		What: "a tow of which one yard weighs a pound", Printed: "496054.6", Unit: "tex",
	}, tex(1))
	for _, c := range []struct {
		yards   float64
		printed string
	}{{675, "735"}, {450, "1100"}, {207, "2400"}, {113, "4400"}} {
		outside.Check(t, outside.Row{
			ID: fmt.Sprintf("mixture/yield/%g", c.yards), Subject: outside.Mixture, Source: "yields", Mark: outside.Seen,
			What: fmt.Sprintf("a roving of %g yards in a pound", c.yards), Printed: c.printed, Unit: "tex",
			Factor: 1.01, Why: "trade names of rovings are rounded tex",
		}, tex(c.yards))
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
