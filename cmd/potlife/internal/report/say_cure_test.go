package report

import (
	"math"
	"strings"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/schedule/cure"
)

// TestNoFigureForFire: no figure stands for a temperature that only means danger.
func TestNoFigureForFire(t *testing.T) {
	c := quantity.Celsius
	for _, text := range []string{
		sentence(cure.PartTooHot{Peak: c(314), Allowed: c(110)}),
		sentence(cure.MandrelTooHot{Material: "pvc", Peak: c(314), Allowed: c(60)}),
		sentence(cure.WarmsItself{Peak: c(314), Allowed: c(110)}),
		sentence(cure.AlwaysTooHot{Air: c(80), Peak: c(314), Allowed: c(110)}),
	} {
		if !strings.Contains(text, "over 200 °C (smoke, fire)") || strings.Contains(text, "314") {
			t.Error(text)
		}
	}
	if text := sentence(cure.PartTooHot{Peak: c(130.04), Allowed: c(110)}); text != "the hottest place of a likely hardener reaches 130.0 °C, over the 110 °C allowed" {
		t.Error(text)
	}
	if text := sentence(cure.FreePartAlwaysSoftens{Lead: quantity.TemperatureDifference(math.Inf(-1)), Margin: 5}); !strings.Contains(text, "-99 K") {
		t.Error(text)
	}
}

// TestProgramLine: a program is told in one line.
func TestProgramLine(t *testing.T) {
	ramp := func(k cure.Kind, to, perHour float64) cure.Step {
		return cure.Step{Kind: k, To: quantity.Celsius(to), Rate: quantity.HeatingRate(perHour / 3600)}
	}
	hold := func(s quantity.Time) cure.Step { return cure.Step{Kind: cure.Hold, Hold: s} }
	p := &cure.Program{Steps: []cure.Step{ramp(cure.Ramp, 60, 30), hold(4 * 3600), ramp(cure.Ramp, 90, 20), hold(2 * 3600), ramp(cure.Cool, 40, 60)}}
	if got := programLine(p); got != "30 K/h to 60 °C, 4 h, 20 K/h to 90 °C, 120 min, 60 K/h to 40 °C" {
		t.Errorf("%q", got)
	}
}
