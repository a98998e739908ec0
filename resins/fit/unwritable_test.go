package fit_test

import (
	"bytes"
	"errors"
	"os"
	"strings"
	"testing"

	"potlife/resins"
	"potlife/resins/fit"
)

// TestFlowEnergiesThatNoneHas: a viscosity of water in the cold, or of pitch in the heat, asks
// for resin that thickens as it warms. It is refused by the name of what asks for it; nothing
// is made of it that would not be read again.
func TestFlowEnergiesThatNoneHas(t *testing.T) {
	for _, one := range []string{"value: 1 mPa·s, at: -20 °C", "value: 10000 Pa·s, at: 150 °C"} {
		s := statements(t, "  - viscosity: {"+one+"}\n")
		_, err := fit.Fit(s, load(t, s.Like))
		var refused *fit.OutOfRange
		if !errors.As(err, &refused) || !refused.Flow || refused.Energy >= resins.LeastFlowEnergy && refused.Energy <= resins.GreatestFlowEnergy ||
			!strings.Contains(refused.Problem(), "viscosity") || !strings.Contains(refused.Mend(), "values") {
			t.Errorf("%s: %v", one, err)
		}
	}
}

// TestNoRecordHoldsIt: a record that lies at the end of what a file may say, and statements
// that push it over: the fit tells so instead of making what would not be read again.
func TestNoRecordHoldsIt(t *testing.T) {
	s := statements(t, "  - viscosity: {value: 1 mPa·s, at: 25 °C}\n")
	prior := load(t, s.Like)
	prior.Kinetics = prior.Kinetics.Adjusted(1, 1.5e-3/0.6) // from 600 to 1.5 mPa·s
	for _, factor := range []float64{1, 0.6} {
		like := *prior
		like.Kinetics = like.Kinetics.Adjusted(1, factor)
		got, err := fit.Fit(s, &like)
		var none *fit.NoRecord
		switch {
		case errors.As(err, &none) && strings.Contains(none.Problem(), "mPa·s is below") && none.Mend() != "":
		case err == nil:
			if _, err := resins.Read("x.yaml", got.Record.File()); err != nil {
				t.Errorf("it would not be read again: %v", err)
			}
		default:
			t.Error(err)
		}
		if refused := none != nil; refused != (factor < 1) {
			t.Errorf("%g times: refused %v", factor, refused)
		}
	}
}

// TestLogOfAnotherHour: a log that is said to begin 1000 minutes after mixing asks for no
// resin; whatever the search comes to, it is told as what the statements ask for.
func TestLogOfAnotherHour(t *testing.T) {
	source, err := os.ReadFile("../../testdata/resins/club-epoxy-medium.yaml")
	if err != nil {
		t.Fatal(err)
	}
	s, err := fit.Read("x.yaml", bytes.Replace(source, []byte("begins: 4 min"), []byte("begins: 1000 min"), 1))
	if err != nil {
		t.Fatal(err)
	}
	if err := s.ReadLogs(func(string) ([]byte, error) { return os.ReadFile("../../testdata/resins/saturday.csv") }); err != nil {
		t.Fatal(err)
	}
	_, err = fit.Fit(s, load(t, s.Like))
	var refused *fit.OutOfRange
	if !errors.As(err, &refused) || refused.System != s.Like || refused.Blame == "" {
		t.Errorf("%v", err)
	}
}
