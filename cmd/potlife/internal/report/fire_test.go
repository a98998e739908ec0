package report

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"potlife/kinetics/quantity"
)

// TestNoFigureAbove200: whatever tells a computed temperature tells none above 200 °C, in
// text, JSON and charts, and every figure below.
func TestNoFigureAbove200(t *testing.T) {
	for _, c := range []struct {
		celsius float64
		over    bool
	}{{35.25, false}, {199.9, false}, {200, false}, {200.5, true}, {269.97, true}} {
		for name, v := range map[string]any{
			"bath": &CheckBath{TemperatureC: c.celsius, TemperatureHi: c.celsius + 1, MassG: 7},
			"cup":  CheckCup{TemperatureC: c.celsius, MassG: 7},
			"cups": []CheckCup{{TemperatureC: c.celsius, MassG: 7}},
			"day":  &DayWorst{HottestC: c.celsius, HottestHiC: c.celsius},
		} {
			out, err := json.Marshal(v)
			if err != nil {
				t.Fatal(err)
			}
			var object map[string]any
			if err := json.Unmarshal([]byte(strings.Trim(string(out), "[]")), &object); err != nil {
				t.Fatal(err)
			}
			key := "temperature_C"
			if name == "day" {
				key = "hottest_C"
			}
			value, there := object[key]
			if !there || (value == nil) != c.over || object["over_200_C"] != c.over || !c.over && value != c.celsius {
				t.Errorf("%s at %g °C: %s", name, c.celsius, out)
			}
			if name != "day" && object["mass_g"] != 7.0 {
				t.Errorf("%s lacks the rest: %s", name, out)
			}
		}
		at := quantity.Celsius(c.celsius)
		if text := temperature(at) + tenths(c.celsius); strings.Contains(text, overSmokeAndFire) != c.over || c.over && strings.Contains(text, "269") {
			t.Errorf("%g °C: %q", c.celsius, text)
		}
		if d := Drawn(at); math.IsInf(d, 1) != c.over || !c.over && !(math.Abs(d-c.celsius) <= 1e-9) {
			t.Errorf("%g °C is drawn at %g", c.celsius, d)
		}
		p, over := believed(at)
		if over != c.over || (p == nil) != c.over {
			t.Errorf("%g °C is believed as %v, %v", c.celsius, p, over)
		}
	}
}
