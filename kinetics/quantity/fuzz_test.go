package quantity_test

import (
	"errors"
	"fmt"
	"regexp"
	"sync"
	"testing"

	"potlife/kinetics/quantity"
)

// FuzzParse checks that no text panics, that every refusal is an *Error with a mend, and
// that whatever is read is read back from its own String.
func FuzzParse(f *testing.F) {
	for _, text := range []string{
		"22C", "72 °F", "1500 mPa·s", "1 h 05 min", "10 W/(m2 K)", "s⁻¹", "3.5e4 1/s", "1,200 g", "1 200 g", "−5 %",
		"J/((g", "5 m^-", "0x1", "1e999 kg", "2.5.1 kg", "\xff", "5 \u2070", "1e300 K",
		"850 ml", "2 ML", "1 cm^3", "200 g/m2", "1e-300 mm³", " 2.L//",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		again[quantity.Temperature](t, text)
		again[quantity.TemperatureDifference](t, text)
		again[quantity.Time](t, text)
		again[quantity.Mass](t, text)
		again[quantity.Volume](t, text)
		again[quantity.ArealWeight](t, text)
		again[quantity.Viscosity](t, text)
		again[quantity.HeatTransfer](t, text)
		again[quantity.Rate](t, text)
		again[quantity.RotationalSpeed](t, text)
		again[quantity.HeatingRate](t, text)
		again[quantity.Fraction](t, text)
		if _, err := quantity.ParseNumber(text); err != nil {
			refusal(t, text, err)
		}
	})
}

func again[Q quantity.Quantity](t *testing.T, text string) {
	t.Helper()
	q, err := quantity.Parse[Q](text)
	if err != nil {
		refusal(t, text, err)
		return
	}
	if !matches[Q](text) {
		t.Fatalf("%q is read and does not match the pattern", text)
	}
	shown := any(q).(fmt.Stringer).String()
	back, err := quantity.Parse[Q](shown)
	if err != nil || !near(float64(back), float64(q), promised) {
		t.Fatalf("%q -> %v -> %q -> %v, %v", text, float64(q), shown, float64(back), err)
	}
}

// compiled are the patterns, by the name of what they are for.
var compiled sync.Map

func matches[Q quantity.Quantity](text string) bool {
	name := quantity.Name[Q]()
	pattern, found := compiled.Load(name)
	if !found {
		pattern, _ = compiled.LoadOrStore(name, regexp.MustCompile(quantity.Pattern[Q](quantity.AnySign)))
	}
	return pattern.(*regexp.Regexp).MatchString(text)
}

func refusal(t *testing.T, text string, err error) {
	t.Helper()
	var e *quantity.Error
	if !errors.As(err, &e) || e.Problem == "" || e.Mend == "" {
		t.Fatalf("%q: %v is no refusal with a mend", text, err)
	}
}
