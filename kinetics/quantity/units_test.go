package quantity_test

import (
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"potlife/kinetics/quantity"
	_ "potlife/kinetics/testrun" // fixes rapid's seed
)

// written is a number with a unit as a person could write it.
func written(number float64, unit string) string {
	return strconv.FormatFloat(number, 'g', -1, 64) + " " + unit
}

// rounded is what a few multiplications and additions of a conversion may lose, relative to
// the larger of the value and what the unit's zero lies away from that of SI.
func rounded(values ...float64) float64 {
	size := 0.0
	for _, v := range values {
		size = math.Max(size, math.Abs(v))
	}
	return 8 * size * 0x1p-52
}

// units holds all units of a quantity to each other: a number comes back in the unit in which
// it was written; the order of two numbers is kept, and so is that they differ; and whatever is
// told in one unit and read again in another is the same.
func units[Q interface {
	quantity.Quantity
	In(unit string) float64
}](t *rapid.T) {
	names := quantity.Units[Q]()
	unit := rapid.SampledFrom(names).Draw(t, "unit")
	other := rapid.SampledFrom(names).Draw(t, "other")
	low := rapid.Float64Range(1e-6, 1e6).Draw(t, "low")
	high := low * rapid.Float64Range(1+1e-6, 1e6).Draw(t, "times")
	read := func(number float64, unit string) Q {
		q, err := quantity.Parse[Q](written(number, unit))
		if err != nil {
			t.Fatal(err)
		}
		return q
	}
	a, b := read(low, unit), read(high, unit)
	if !(a < b) {
		t.Errorf("%s is %v, and %s %v", written(low, unit), float64(a), written(high, unit), float64(b))
	}
	zero := 0.0
	if offset(unit) {
		zero = 460 // 0 °F is as many steps above absolute zero, 0 °C is fewer
	}
	if back := a.In(unit); !(math.Abs(back-low) <= rounded(low, zero)) {
		t.Errorf("%s comes back as %g", written(low, unit), back)
	}
	if told := a.In(other); told > 0 {
		if again := read(told, other); !(math.Abs(float64(again-a)) <= rounded(float64(a), float64(read(1, other)))) {
			t.Errorf("%v is %s, which is %v", float64(a), written(told, other), float64(again))
		}
	}
	if !offset(unit) {
		twice := read(2*low, unit)
		if !(math.Abs(float64(twice-2*a)) <= rounded(float64(twice))) {
			t.Errorf("twice %v is %v", float64(a), float64(twice))
		}
	}
}

// offset tells whether a unit has a zero of its own.
func offset(unit string) bool { return unit == "°C" || unit == "°F" }

func TestUnitsAgree(t *testing.T) {
	for name, check := range map[string]func(*rapid.T){
		"temperature": units[quantity.Temperature], "difference": units[quantity.TemperatureDifference], "time": units[quantity.Time],
		"length": units[quantity.Length], "mass": units[quantity.Mass], "density": units[quantity.Density], "volume": units[quantity.Volume],
		"areal weight": units[quantity.ArealWeight], "viscosity": units[quantity.Viscosity], "heat capacity": units[quantity.HeatCapacity],
		"conductivity": units[quantity.Conductivity], "heat transfer": units[quantity.HeatTransfer], "molar energy": units[quantity.MolarEnergy],
		"specific energy": units[quantity.SpecificEnergy], "rate": units[quantity.Rate], "linear density": units[quantity.LinearDensity],
		"speed": units[quantity.Speed], "rotation": units[quantity.RotationalSpeed], "heating rate": units[quantity.HeatingRate],
		"angle": units[quantity.Angle], "fraction": units[quantity.Fraction],
	} {
		t.Run(name, func(t *testing.T) { rapid.Check(t, check) })
	}
}

// TestUnitsByDefinition: one of each unit in SI, by the definitions that name them; the inch,
// the pound and the thermochemical calorie are exact (1959 agreement, memory). The digits are
// those of the definitions.
func TestUnitsByDefinition(t *testing.T) {
	one := func(text string, got float64, err error, want float64) {
		t.Helper()
		if err != nil || !(math.Abs(got-want) <= rounded(want)) {
			t.Errorf("%s is %.17g, want %.17g; %v", text, got, want, err)
		}
	}
	for text, want := range map[string]float64{"1 min": 60, "1 h": 3600, "1 d": 86400, "1 ms": 1e-3, "2 d 3 h 4 min": 2*86400 + 3*3600 + 240} {
		q, err := quantity.Parse[quantity.Time](text)
		one(text, float64(q), err, want)
	}
	for text, want := range map[string]float64{"1 in": 0.0254, "1 mm": 1e-3, "1 km": 1e3, "1 µm": 1e-6} {
		q, err := quantity.Parse[quantity.Length](text)
		one(text, float64(q), err, want)
	}
	for text, want := range map[string]float64{"1 lb": 0.45359237, "1 g": 1e-3} {
		q, err := quantity.Parse[quantity.Mass](text)
		one(text, float64(q), err, want)
	}
	for text, want := range map[string]float64{"0 °C": 273.15, "32 °F": 273.15, "212 °F": 373.15, "-40 °F": 233.15, "-40 °C": 233.15} {
		q, err := quantity.Parse[quantity.Temperature](text)
		one(text, float64(q), err, want)
	}
	for text, want := range map[string]float64{"1 tex": 1e-6, "1 g/km": 1e-6} {
		q, err := quantity.Parse[quantity.LinearDensity](text)
		one(text, float64(q), err, want)
	}
	for text, want := range map[string]float64{"1 mPa·s": 1e-3, "1 cP": 1e-3} {
		q, err := quantity.Parse[quantity.Viscosity](text)
		one(text, float64(q), err, want)
	}
}
