package report

import (
	"encoding/json"
	"math"

	"potlife/kinetics/quantity"
)

// smokeAndFire is the temperature above which no computed figure is to be believed:
// resin smokes, boils and burns, and none of that is modelled.
var smokeAndFire = quantity.Celsius(200)

// overSmokeAndFire is what is told instead.
const overSmokeAndFire = "over 200 °C: smoke, fire"

// temperature prints °C, and no figure where there is only danger.
func temperature(t quantity.Temperature) string {
	if t > smokeAndFire {
		return overSmokeAndFire
	}
	return quantity.Format(t, "°C", 0)
}

// tenths prints °C to a thermometer's digit, and no figure where there is only danger.
func tenths(celsius float64) string {
	if t := quantity.Celsius(celsius); t <= smokeAndFire {
		return quantity.Format(t, "°C", 1)
	}
	return temperature(quantity.Celsius(celsius))
}

// celsiusOrFire prints a temperature of which there is no figure where there is only
// danger.
func celsiusOrFire(celsius *float64) string {
	if celsius == nil {
		return overSmokeAndFire
	}
	return temperature(quantity.Celsius(*celsius))
}

// believed is a computed temperature as JSON tells it, null above 200 °C, with whether
// it is.
func believed(t quantity.Temperature) (celsius *float64, over bool) { return below(t.Celsius()) }

// below is [believed] of a temperature in °C.
func below(celsius float64) (told *float64, over bool) {
	if quantity.Celsius(celsius) > smokeAndFire {
		return nil, true
	}
	return finite(celsius), false
}

// Drawn is a computed temperature in °C as a chart shows it: beyond its upper edge, +Inf,
// where there is only danger.
func Drawn(t quantity.Temperature) float64 {
	if t > smokeAndFire {
		return math.Inf(1)
	}
	return t.Celsius()
}

// MarshalJSON tells temperatures above 200 °C as null.
func (b *CheckBath) MarshalJSON() ([]byte, error) {
	type plain CheckBath
	likely, over := below(b.TemperatureC)
	sure, _ := below(b.TemperatureHi)
	return json.Marshal(struct {
		*plain
		Likely *float64 `json:"temperature_C"`
		Sure   *float64 `json:"temperature_sure_C"`
		Over   bool     `json:"over_200_C"` // the likely bath is
	}{(*plain)(b), likely, sure, over})
}

// MarshalJSON tells a temperature above 200 °C as null.
func (c CheckCup) MarshalJSON() ([]byte, error) {
	type plain CheckCup
	celsius, over := below(c.TemperatureC)
	return json.Marshal(struct {
		plain
		Celsius *float64 `json:"temperature_C"`
		Over    bool     `json:"over_200_C"`
	}{plain(c), celsius, over})
}

// MarshalJSON tells temperatures above 200 °C as null.
func (w *DayWorst) MarshalJSON() ([]byte, error) {
	type plain DayWorst
	likely, over := below(w.HottestC)
	high, _ := below(w.HottestHiC)
	return json.Marshal(struct {
		*plain
		Likely *float64 `json:"hottest_C"`
		High   *float64 `json:"hottest_high_C"`
		Over   bool     `json:"over_200_C"` // the likely bath was
	}{(*plain)(w), likely, high, over})
}
