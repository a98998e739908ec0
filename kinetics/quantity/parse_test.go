package quantity_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
)

// rounding allows three float64 operations of half an ulp (1.1e-16) each.
const rounding = 4e-16

func near(got, want, relative float64) bool {
	return math.Abs(got-want) <= relative*math.Abs(want)
}

func si[Q quantity.Quantity](text string) func() (string, float64, error) {
	return func() (string, float64, error) {
		q, err := quantity.Parse[Q](text)
		return text, float64(q), err
	}
}

// TestParse checks spellings and factors. Factors of accepted non-SI units: SI Brochure,
// 9th ed. (2019), table 8 (min, h, d, deg, L); inch 25.4 mm and pound 0.45359237 kg exact
// by the 1959 agreement; poise 0.1 Pa·s and thermochemical calorie 4.184 J as in NIST SP
// 811 (2008), appendix B. 72 °F = (72−32)·5/9 °C by definition.
func TestParse(t *testing.T) {
	rows := []struct {
		read func() (string, float64, error)
		want float64
	}{
		{si[quantity.Temperature]("22C"), 295.15},
		{si[quantity.Temperature]("22 °C"), 295.15},
		{si[quantity.Temperature]("22\u00a0°C"), 295.15},
		{si[quantity.Temperature]("22\u202fºC"), 295.15},
		{si[quantity.Temperature]("22 degC"), 295.15},
		{si[quantity.Temperature]("22 deg C"), 295.15},
		{si[quantity.Temperature]("22 ℃"), 295.15},
		{si[quantity.Temperature]("22c"), 295.15},
		{si[quantity.Temperature]("\u221240 °C"), 233.15},
		{si[quantity.Temperature]("-40 °F"), 233.15},
		{si[quantity.Temperature]("72 °F"), 273.15 + 40*5.0/9},
		{si[quantity.Temperature]("295.15 K"), 295.15},
		{si[quantity.Temperature]("0 K"), 0},
		{si[quantity.TemperatureDifference]("-10 K"), -10},
		{si[quantity.Time]("45 min"), 2700},
		{si[quantity.Time]("45 Min"), 2700},
		{si[quantity.Time]("1 h 30 min"), 5400},
		{si[quantity.Time]("1h05min"), 3900},
		{si[quantity.Time]("2 days 4 hr 1 sec"), 187201},
		{si[quantity.Time]("-1 h 30 min"), -5400},
		{si[quantity.Time]("1.5e2 s"), 150},
		{si[quantity.Time]("20 µs"), 20e-6},
		{si[quantity.Length]("250 mm"), 0.25},
		{si[quantity.Length]("+12.5 \u00b5m"), 12.5e-6},
		{si[quantity.Length]("12.5 \u03bcm"), 12.5e-6},
		{si[quantity.Length]("2 in"), 0.0508},
		{si[quantity.Length](".5 km"), 500},
		{si[quantity.Mass]("1.2 kg"), 1.2},
		{si[quantity.Mass]("1.2KG"), 1.2},
		{si[quantity.Mass]("1 lb"), 0.45359237},
		{si[quantity.Density]("1.15 g/cm³"), 1150},
		{si[quantity.Density]("1.15 g/cm3"), 1150},
		{si[quantity.Density]("1.15 g/cm^3"), 1150},
		{si[quantity.Density]("1.15 g·cm⁻³"), 1150},
		{si[quantity.Density]("1.15 g/mL"), 1150},
		{si[quantity.Density]("1.15 kg/L"), 1150},
		{si[quantity.Density]("1.15 kg/l"), 1150},
		{si[quantity.Density]("1150kg/m3"), 1150},
		{si[quantity.Volume]("850 mL"), 850e-6},
		{si[quantity.Volume]("850ml"), 850e-6},
		{si[quantity.Volume]("850 cm³"), 850e-6},
		{si[quantity.Volume]("850 cm3"), 850e-6},
		{si[quantity.Volume]("850 cc"), 850e-6},
		{si[quantity.Volume]("1.2 L"), 1.2e-3},
		{si[quantity.Volume]("1.2 l"), 1.2e-3},
		{si[quantity.Volume]("1200 mm^3"), 1.2e-6},
		{si[quantity.Volume]("0.5 m³"), 0.5},
		{si[quantity.ArealWeight]("200 g/m²"), 0.2},
		{si[quantity.ArealWeight]("200g/m2"), 0.2},
		{si[quantity.ArealWeight]("200 gsm"), 0.2},
		{si[quantity.ArealWeight]("0.2 kg·m⁻²"), 0.2},
		{si[quantity.Viscosity]("1500 mPa·s"), 1.5},
		{si[quantity.Viscosity]("1500 mPas"), 1.5},
		{si[quantity.Viscosity]("1500 mPa*s"), 1.5},
		{si[quantity.Viscosity]("1500 mPa.s"), 1.5},
		{si[quantity.Viscosity]("1500 mPa s"), 1.5},
		{si[quantity.Viscosity]("1500mPa⋅s"), 1.5},
		{si[quantity.Viscosity]("1500 cP"), 1.5},
		{si[quantity.Viscosity]("15 P"), 1.5},
		{si[quantity.Viscosity]("1.5 Pa·s"), 1.5},
		{si[quantity.HeatCapacity]("2.2 J/(g·K)"), 2200},
		{si[quantity.HeatCapacity]("2.2 J/g/K"), 2200},
		{si[quantity.HeatCapacity]("2.2 J/g K"), 2200},
		{si[quantity.HeatCapacity]("2200 J/(kg·K)"), 2200},
		{si[quantity.HeatCapacity]("2.2 kJ/(kg*K)"), 2200},
		{si[quantity.HeatCapacity]("2.2 kJ·kg⁻¹·K⁻¹"), 2200},
		{si[quantity.Conductivity]("0.19 W/(m·K)"), 0.19},
		{si[quantity.Conductivity]("0.19 W/mK"), 0.19},
		{si[quantity.HeatTransfer]("10 W/(m²·K)"), 10},
		{si[quantity.HeatTransfer]("10 W/m²K"), 10},
		{si[quantity.HeatTransfer]("10 W/m2/K"), 10},
		{si[quantity.HeatTransfer]("10 W/(m2 K)"), 10},
		{si[quantity.MolarEnergy]("55 kJ/mol"), 55000},
		{si[quantity.MolarEnergy]("55000 J/mol"), 55000},
		{si[quantity.MolarEnergy]("10 kcal/mol"), 41840},
		{si[quantity.SpecificEnergy]("425 J/g"), 425000},
		{si[quantity.SpecificEnergy]("425 kJ/kg"), 425000},
		{si[quantity.Rate]("3.533e4 1/s"), 35330},
		{si[quantity.Rate]("6e+1 s⁻¹"), 60},
		{si[quantity.Rate]("6e\u22121 s^-1"), 0.6},
		{si[quantity.Rate]("60/min"), 1},
		{si[quantity.Rate]("36 1/h"), 0.01},
		{si[quantity.LinearDensity]("800 tex"), 8e-4},
		{si[quantity.LinearDensity]("800 g/km"), 8e-4},
		{si[quantity.LinearDensity]("8000 dtex"), 8e-4},
		{si[quantity.Speed]("15 m/min"), 0.25},
		{si[quantity.Speed]("250 mm/s"), 0.25},
		{si[quantity.RotationalSpeed]("60 rpm"), 2 * math.Pi},
		{si[quantity.RotationalSpeed]("60 1/min"), 2 * math.Pi},
		{si[quantity.RotationalSpeed]("60 rev/min"), 2 * math.Pi},
		{si[quantity.RotationalSpeed]("2 rad/s"), 2},
		{si[quantity.HeatingRate]("30 K/h"), 30.0 / 3600},
		{si[quantity.HeatingRate]("2 °C/min"), 2.0 / 60},
		{si[quantity.Angle]("180 deg"), math.Pi},
		{si[quantity.Angle]("180°"), math.Pi},
		{si[quantity.Fraction]("62 %"), 0.62},
		{si[quantity.Fraction]("62%"), 0.62},
		{si[quantity.Fraction]("-5 %"), -0.05},
	}
	for _, row := range rows {
		text, got, err := row.read()
		if err != nil {
			t.Errorf("%q: %v", text, err)
		} else if !near(got, row.want, rounding) {
			t.Errorf("%q = %v, want %v", text, got, row.want)
		}
	}
	for _, c := range []struct {
		id, what, printed, unit string
		read                    func() (string, float64, error)
	}{
		{"pound", "a pound", "0.45359237", "kg", si[quantity.Mass]("1 lb")},
		{"inch", "an inch", "0.0254", "m", si[quantity.Length]("1 in")},
		{"calorie", "a thermochemical kilocalorie", "4184", "J", si[quantity.MolarEnergy]("1 kcal/mol")},
	} {
		text, got, err := c.read()
		if err != nil {
			t.Errorf("%q: %v", text, err)
		}
		outside.Check(t, outside.Row{
			ID: "files/units/" + c.id, Subject: outside.Files, Source: "codata", Mark: outside.Memory,
			What: c.what, Printed: c.printed, Unit: c.unit, Anchored: "our constant is this definition",
		}, got)
	}
}

// TestParseRefusals checks that every refusal says what is wrong and what to write.
func TestParseRefusals(t *testing.T) {
	rows := []struct {
		read          func() (string, float64, error)
		problem, mend string
	}{
		{si[quantity.Mass]("2,5 kg"), "2,5 has a comma where a point is wanted", "write it like this: 2.5 kg"},
		{si[quantity.Mass]("1 200 g"), "1 200 g has a gap in its number", "write it like this: 1200 g"},
		{si[quantity.Mass]("1\u202f200 g"), "has a gap in its number", "write it like this: 1200 g"},
		{si[quantity.Mass]("1,200 g"), "1,200 can be read in two ways", "write 1200 g or 1.200 g"},
		{si[quantity.Mass]("1_200 g"), "1_200 g groups its digits", "write it like this: 1200 g"},
		{si[quantity.Mass]("1'200'000 mg"), "groups its digits", "write it like this: 1200000 mg"},
		{si[quantity.Mass]("1.200.000 mg"), "1.200.000 has two points", "one point"},
		{si[quantity.Mass]("1.534,5 g"), "1.534,5 has a point and a comma", "write it like this: 1534.5 g"},
		{si[quantity.Mass]("1,534.5g"), "1,534.5 has a comma and a point", "write it like this: 1534.5g"},
		{si[quantity.Mass]("1.5,5 g"), "1.5,5 g has several marks in its number", "one point"},
		{si[quantity.Mass]("1,534,500 g"), "several marks in its number", "one point"},
		{si[quantity.Mass]("1,5.5 g"), "several marks in its number", "one point"},
		{si[quantity.Mass]("1.534,5.6 g"), "several marks in its number", "one point"},
		{si[quantity.Mass]("5. kg"), "5. ends with a point", "write it like this: 5 kg"},
		{si[quantity.Mass]("010 g"), "010 begins with a zero", "write it like this: 10 g"},
		{si[quantity.Mass]("0x10 g"), "0x10 g is hexadecimal", "decimal"},
		{si[quantity.Rate]("3.5 × 10^4 1/s"), "is not a plain number", "3.5e4"},
		{si[quantity.Rate]("1 200 1/s"), "has a gap", "write it like this: 1200 1/s"},
		{si[quantity.Length]("250"), "250 has no unit, here a length is wanted", "write it like this: 250 mm"},
		{si[quantity.Fraction]("0.6"), "0.6 has no unit", "write 60 %, or 0.6 % if that is meant"},
		{si[quantity.Length]("5 kg"), "5 kg is a mass, here a length is wanted", "write it like this: 5 mm"},
		{si[quantity.Time]("5 m"), "5 m is a length, here a time is wanted", "write it like this: 5 min"},
		{si[quantity.Time]("5 1/s"), "5 1/s is a rate, here a time is wanted", "5 min"},
		{si[quantity.Time]("5 kg/m3"), "5 kg/m3 is a density, here a time", "5 min"},
		{si[quantity.Time]("30 min 1 h"), "30 min 1 h: min 1 h is not a unit of time", "45 min"},
		{si[quantity.Time]("09:00"), "09:00 looks like a time of day", "9 h 30 min"},
		{si[quantity.Temperature]("22 mm"), "is a length, here a temperature is wanted", "22 °C"},
		{si[quantity.Temperature]("-300 °C"), "-300 °C is below absolute zero", "check the sign and the unit"},
		{si[quantity.Temperature]("-1 K"), "below absolute zero", "check"},
		{si[quantity.TemperatureDifference]("10 °C"), "10 °C is a temperature, here a difference is wanted", "a difference is written in kelvin: 10 K"},
		{si[quantity.TemperatureDifference]("18 F"), "is a temperature", "a difference is written in kelvin: 10 K"},
		{si[quantity.Viscosity]("600 MPa·s"), "600 MPa·s: MPa·s is megapascal-seconds", "write mPa·s"},
		{si[quantity.Volume]("850"), "850 has no unit, here a volume is wanted", "write it like this: 850 mL"},
		{si[quantity.Volume]("850 g"), "850 g is a mass, here a volume is wanted", "850 mL"},
		{si[quantity.Volume]("5 ML"), "5 ML: ML is megalitres", "write mL"},
		{si[quantity.Volume]("5 mm"), "5 mm is a length, here a volume is wanted", "5 mL"},
		{si[quantity.ArealWeight]("200 g/m"), "200 g/m is a mass per length, here a mass per area is wanted", "200 g/m²"},
		{si[quantity.ArealWeight]("200 g/m³"), "g/m³ is not a unit of mass per area", "write it like this: 200 g/m²"},
		{si[quantity.Length]("5 MM"), "5 MM: MM is not mm, capital M means mega", "write it like this: 5 mm"},
		{si[quantity.Length]("5 mmm"), "mmm is not a unit of length", "write it like this: 5 mm"},
		{si[quantity.Length]("5 furlongs"), "furlongs is not a unit of length", "units of length: µm, mm, cm, m, km, in"},
		{si[quantity.LinearDensity]("450 yd/lb"), "yd/lb is not a unit of mass per length", "tex"},
		{si[quantity.Mass](""), "nothing is written here", "write it like this: 250 g"},
		{si[quantity.Mass](" \t"), "nothing is written here", "write it like this: 250 g"},
		{si[quantity.Mass]("kg"), "kg does not begin with a number", "250 g"},
		{si[quantity.Mass]("NaN kg"), "NaN kg is not a finite number", "250 g"},
		{si[quantity.Mass]("-.inf kg"), "is not a finite number", "250 g"},
		{si[quantity.Mass]("1e999 kg"), "1e999 is out of reach", "check the exponent"},
		{si[quantity.Mass]("1e-999 kg"), "1e-999 is out of reach", "check the exponent"},
		{si[quantity.Time]("1e299 d"), "1e299 d is out of reach", "check the exponent"},
		{si[quantity.HeatCapacity]("2 J/((g·K)"), "is not a unit of heat capacity", "J/(g·K)"},
	}
	for _, row := range rows {
		text, _, err := row.read()
		var refusal *quantity.Error
		if !errors.As(err, &refusal) {
			t.Errorf("%q: error %v, want an *Error", text, err)
			continue
		}
		if !strings.Contains(refusal.Problem, row.problem) || !strings.Contains(refusal.Mend, row.mend) {
			t.Errorf("%q: problem %q, mend %q; want %q, %q", text, refusal.Problem, refusal.Mend, row.problem, row.mend)
		}
		line := refusal.Error()
		if !strings.Contains(line, refusal.Problem) || !strings.Contains(line, refusal.Mend) || strings.Contains(line, "\n") {
			t.Errorf("%q: the line %q leaves something out", text, line)
		}
		if strings.TrimSpace(text) == text && !strings.Contains(line, text) && !strings.ContainsAny(text, "\u202f") {
			t.Errorf("%q: the line %q does not show the text", text, line)
		}
	}
}

// TestErrorIsOneShortLine checks texts that a terminal would not survive.
func TestErrorIsOneShortLine(t *testing.T) {
	for _, text := range []string{"5\nkg\x1b[31m", "5 " + strings.Repeat("x", 5000), "\xff", "5 \xff"} {
		_, err := quantity.Parse[quantity.Length](text)
		if err == nil {
			t.Fatalf("%q was read", text)
		}
		if line := err.Error(); strings.ContainsAny(line, "\n\x1b") || len(line) > 600 {
			t.Errorf("%q: message %q", text[:3], line)
		}
	}
}

func TestParseNumber(t *testing.T) {
	for text, want := range map[string]float64{
		"1": 1, "-0.5": -0.5, "+2e3": 2000, "\u22121.5E-1": -0.15, " 7 ": 7, "0": 0, "0.0": 0, ".25": 0.25,
	} {
		if got, err := quantity.ParseNumber(text); err != nil || !near(got, want, 0) {
			t.Errorf("%q = %v, %v; want %v", text, got, err, want)
		}
	}
	for text, problem := range map[string]string{
		"1,5": "comma", "NaN": "finite", "Inf": "finite", ".nan": "finite", "0x10": "hexadecimal", "010": "octal",
		"1_000": "groups", "5 mm": "plain number", "50%": "write it like this: 0.5", "": "nothing", "true": "begin with a number",
		"1 000": "gap", "1/2": "plain number", "1e400": "reach", "0b1": "plain number", "--1": "begin", "1.": "ends with a point",
	} {
		got, err := quantity.ParseNumber(text)
		if err == nil || !strings.Contains(err.Error(), problem) {
			t.Errorf("%q = %v, %v; want an error with %q", text, got, err, problem)
		}
	}
}

// TestParseAllocates keeps the common path at no allocation: replay parses a lot.
func TestParseAllocates(t *testing.T) {
	n := testing.AllocsPerRun(100, func() {
		if _, err := quantity.Parse[quantity.Viscosity]("1500 mPa·s"); err != nil {
			t.Fatal(err)
		}
	})
	if n != 0 {
		t.Errorf("%v allocations", n)
	}
}
