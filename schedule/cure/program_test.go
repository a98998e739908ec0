package cure

import (
	"strings"
	"testing"

	"potlife/kinetics/quantity"
)

// TestProgramTimes: 23 to 60 °C at 30 K/h is 74 min, 60 to 90 at 20 K/h 90 min (by hand).
func TestProgramTimes(t *testing.T) {
	p := program(ramp(60, 30), hold(4*hour), ramp(90, 20), hold(2*hour), cool(40, 60))
	from := quantity.Celsius(23)
	want := []float64{74, 74 + 240, 164 + 240, 164 + 360, 164 + 360 + 50}
	for i, end := range p.Ends(from) {
		near(t, "end of a step in min", end.In("min"), want[i], 1e-9)
	}
	near(t, "lasts", p.Lasts(from).In("min"), 574, 1e-9)
	near(t, "the target is due", p.HoldEnds(from).In("min"), 524, 1e-9)
	near(t, "hottest", p.Hottest(from).Celsius(), 90, 1e-9)
	air, err := p.Air(hour, from)
	if err != nil {
		t.Fatal(err)
	}
	for at, is := range map[quantity.Time]float64{0: 23, hour: 23, hour + 37*minute: 41.5, hour + 100*minute: 60, hour + 574*minute: 40, 100 * hour: 40} {
		near(t, "air", air.At(at).Celsius(), is, 1e-9)
	}
}

// TestRates: what a controller can be set to is at most 10 % apart from 10 K/h on, ends with the oven's own
// and never passes it.
func TestRates(t *testing.T) {
	for _, highest := range []float64{1, 2, 7.3, 40, 60, 119, 720, 3600} {
		list := rates(kelvinPerHour(highest))
		near(t, "the last", list[len(list)-1].In("K/h"), highest, 1e-9)
		for i := 1; i < len(list); i++ {
			a, b := list[i-1].In("K/h"), list[i].In("K/h")
			if !(b > a) || a >= 10 && !(b <= 1.1000001*a) {
				t.Errorf("%g K/h: %g after %g", highest, b, a)
			}
		}
	}
}

func TestReadProgram(t *testing.T) {
	p, err := ReadProgram("oven.yaml", []byte("steps:\n  - {ramp: 60 °C, rate: 30 K/h}\n  - {hold: 4 h}\n  - {ramp: 90 °C, rate: 0.5 K/min}\n  - {cool: 40 °C, rate: 1 K/min}\n"))
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Steps) != 4 || p.Steps[1].Kind != Hold || p.Steps[1].To != quantity.Celsius(60) || p.Steps[3].Kind != Cool {
		t.Errorf("%+v", p.Steps)
	}
	near(t, "rate", p.Steps[2].Rate.In("K/h"), 30, 1e-9)
}

// TestReadProgramRefuses: every fault says what is wrong and what to write.
func TestReadProgramRefuses(t *testing.T) {
	for text, says := range map[string]string{
		"steps: []":              "there is no step",
		"steps: [{hold: 4 h}]":   "a hold comes after a ramp",
		"steps: [{ramp: 60 °C}]": "how fast is missing",
		"steps: [{ramp: 60 °C, rate: 30 K/h}, {hold: 4 h, rate: 3 K/h}]":      "a hold has no rate",
		"steps: [{ramp: 60 °C, cool: 40 °C, rate: 30 K/h}]":                   "one of them",
		"steps: [{ramp: 60 °C, rate: 30 K/h}, {ramp: 50 °C, rate: 30 K/h}]":   "a ramp goes up",
		"steps: [{ramp: 60 °C, rate: 30 K/h}, {cool: 70 °C, rate: 30 K/h}]":   "a cooling goes down",
		"steps: [{ramp: 60, rate: 30 K/h}]":                                   "unit",
		"steps: [{ramp: 60 °C, rate: 30 °C}]":                                 "heating rate",
		"step: []":                                                            "steps",
		"steps: [{}]":                                                         "one of them",
		"steps: [" + strings.Repeat("{ramp: 60 °C, rate: 30 K/h},", 60) + "]": "controller",
	} {
		_, err := ReadProgram("oven.yaml", []byte(text))
		if err == nil || !strings.Contains(err.Error(), says) || !strings.Contains(err.Error(), "oven.yaml:1") {
			t.Errorf("%.60s: %v does not say %q and where", text, err, says)
		}
	}
}
