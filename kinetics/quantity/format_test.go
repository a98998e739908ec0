package quantity_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"potlife/kinetics/quantity"
)

func TestString(t *testing.T) {
	rows := []struct {
		q    fmt.Stringer
		want string
	}{
		{quantity.Celsius(22), "22 °C"},
		{quantity.Celsius(-40), "-40 °C"},
		{quantity.Temperature(0.001), "0.001 K"},
		{quantity.TemperatureDifference(10), "10 K"},
		{quantity.Time(30), "30 s"},
		{quantity.Time(100), "100 s"},
		{quantity.Time(125), "125 s"},
		{quantity.Time(2700), "45 min"},
		{quantity.Time(5400), "90 min"},
		{quantity.Time(6 * 3600), "6 h"},
		{quantity.Time(7 * 86400), "7 d"},
		{quantity.Time(0), "0 min"},
		{quantity.Length(0.25), "250 mm"},
		{quantity.Length(1.6), "1600 mm"},
		{quantity.Length(240), "240 m"},
		{quantity.Length(12.5e-6), "12.5 µm"},
		{quantity.Mass(0.1), "100 g"},
		{quantity.Mass(1e-4), "0.1 g"},
		{quantity.Mass(1.2), "1.2 kg"},
		{quantity.Mass(-0.25), "-250 g"},
		{quantity.Density(1150), "1.15 g/cm³"},
		{quantity.Volume(850e-6), "850 mL"},
		{quantity.Volume(0.0125), "12.5 L"},
		{quantity.Volume(2e-8), "20 mm³"},
		{quantity.ArealWeight(0.2), "200 g/m²"},
		{quantity.Viscosity(1.5), "1500 mPa·s"},
		{quantity.HeatCapacity(2200), "2.2 J/(g·K)"},
		{quantity.Conductivity(0.19), "0.19 W/(m·K)"},
		{quantity.HeatTransfer(10), "10 W/(m²·K)"},
		{quantity.MolarEnergy(65500), "65.5 kJ/mol"},
		{quantity.SpecificEnergy(425000), "425 J/g"},
		{quantity.Rate(9.202e6), "9.202e6 1/s"},
		{quantity.Rate(9.2e-6), "9.2e-6 1/s"},
		{quantity.LinearDensity(8e-4), "800 tex"},
		{quantity.Speed(0.25), "15 m/min"},
		{quantity.RotationalSpeed(2 * math.Pi), "60 rpm"},
		{quantity.Angle(math.Pi / 4), "45 deg"},
		{quantity.Fraction(0.62), "62 %"},
	}
	for _, row := range rows {
		if got := row.q.String(); got != row.want {
			t.Errorf("%T(%v).String() = %q, want %q", row.q, row.q, got, row.want)
		}
	}
}

func ExampleFormat() {
	fmt.Println(quantity.Format(quantity.Celsius(22), "°C", 1))
	fmt.Println(quantity.Format(quantity.Mass(0.2504), "g", 0))
	fmt.Println(quantity.Format(quantity.Mass(-1e-9), "g", 1))
	// Output:
	// 22.0 °C
	// 250 g
	// 0.0 g
}

func TestIn(t *testing.T) {
	if got := quantity.Mass(0.25).In("g"); !near(got, 250, rounding) {
		t.Errorf("0.25 kg = %v g", got)
	}
	if got := quantity.Celsius(20).In("°F"); !near(got, 68, 1e-14) { // 5/9 is rounded, then 528 − 460 loses a digit
		t.Errorf("20 °C = %v °F", got)
	}
	defer func() {
		if recover() == nil {
			t.Error("In took a unit that a mass does not have")
		}
	}()
	quantity.Mass(1).In("mm")
}

// promised is what String's comment promises, relative to the SI value.
const promised = 1e-12

func roundTrip[Q quantity.Quantity](lowest float64) func(*rapid.T) {
	return func(t *rapid.T) {
		exponent := rapid.Float64Range(-290, 290).Draw(t, "exponent")
		size := math.Pow(10, exponent)
		if rapid.Bool().Draw(t, "ordinary") {
			size = rapid.Float64Range(1e-4, 1e5).Draw(t, "size")
		}
		if rapid.Bool().Draw(t, "negative") {
			size = math.Max(lowest, -size)
		}
		q := Q(size)
		text := any(q).(fmt.Stringer).String()
		back, err := quantity.Parse[Q](text)
		if err != nil || !near(float64(back), float64(q), promised) {
			t.Fatalf("%v -> %q -> %v, %v", float64(q), text, float64(back), err)
		}
		for _, unit := range quantity.Units[Q]() {
			again, err := quantity.Parse[Q](quantity.Example[Q]())
			if err != nil || math.IsNaN(any(again).(interface{ In(string) float64 }).In(unit)) {
				t.Fatalf("example %q: %v", quantity.Example[Q](), err)
			}
		}
	}
}

func TestRoundTrip(t *testing.T) {
	for name, check := range map[string]func(*rapid.T){
		"temperature": roundTrip[quantity.Temperature](0), "difference": roundTrip[quantity.TemperatureDifference](math.Inf(-1)),
		"time": roundTrip[quantity.Time](math.Inf(-1)), "length": roundTrip[quantity.Length](math.Inf(-1)),
		"mass": roundTrip[quantity.Mass](math.Inf(-1)), "density": roundTrip[quantity.Density](math.Inf(-1)),
		"volume": roundTrip[quantity.Volume](math.Inf(-1)), "areal weight": roundTrip[quantity.ArealWeight](math.Inf(-1)),
		"viscosity": roundTrip[quantity.Viscosity](math.Inf(-1)), "heat capacity": roundTrip[quantity.HeatCapacity](math.Inf(-1)),
		"conductivity": roundTrip[quantity.Conductivity](math.Inf(-1)), "heat transfer": roundTrip[quantity.HeatTransfer](math.Inf(-1)),
		"molar energy": roundTrip[quantity.MolarEnergy](math.Inf(-1)), "specific energy": roundTrip[quantity.SpecificEnergy](math.Inf(-1)),
		"rate": roundTrip[quantity.Rate](math.Inf(-1)), "linear density": roundTrip[quantity.LinearDensity](math.Inf(-1)),
		"speed": roundTrip[quantity.Speed](math.Inf(-1)), "rotation": roundTrip[quantity.RotationalSpeed](math.Inf(-1)),
		"angle": roundTrip[quantity.Angle](math.Inf(-1)), "fraction": roundTrip[quantity.Fraction](math.Inf(-1)),
	} {
		t.Run(name, func(t *testing.T) { rapid.Check(t, check) })
	}
}

func TestUnits(t *testing.T) {
	got := quantity.Units[quantity.Length]()
	if !slices.Equal(got, []string{"mm", "µm", "cm", "m", "km", "in"}) {
		t.Errorf("units of length: %q", got)
	}
	if name := quantity.Name[quantity.Length](); name != "a length" {
		t.Errorf("name %q", name)
	}
}
