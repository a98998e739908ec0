package ensemble_test

import (
	"errors"
	"math"
	"testing"

	"potlife/kinetics/ensemble"
)

// TestSlopeIsTheRegression: of an answer that is linear in the logarithms it is the gradient, in the
// factors that are not certain; of one that bends and is symmetrical about the place, too. Only
// rounding is allowed.
func TestSlopeIsTheRegression(t *testing.T) {
	bad := func(m ensemble.Member) (float64, error) {
		r, v, l := math.Log(m.Rate), math.Log(m.Viscosity), math.Log(m.Loss)
		return 3*r + 0.7*v - 2*l + 5*r*r - 4*l*l, nil
	}
	for _, c := range []struct {
		spread ensemble.Spread
		want   ensemble.Slope
	}{
		{usual, ensemble.Slope{3, 0.7, -2}},
		{ensemble.Spread{Time: 1, Viscosity: 1.3, Loss: 1.3}, ensemble.Slope{0, 0.7, -2}},
		{ensemble.Spread{Time: 1.3, Viscosity: 1.3, Loss: 1}, ensemble.Slope{3, 0.7, 0}},
	} {
		got, err := c.spread.Belief().Slope(ensemble.Nominal(), 0.1, ensemble.ShorterLife, bad)
		for j := range got {
			if err != nil || !(math.Abs(got[j]/0.2-c.want[j]) <= 1e-9) {
				t.Errorf("%+v: %v, want %v; %v", c.spread, got, c.want, err)
			}
		}
	}
	heat, err := usual.Belief().OfHeat().Slope(ensemble.Nominal(), 0.1, ensemble.MoreHeat, bad)
	if err != nil || heat[1] != 0 || !(heat[0] > 0 && heat[2] < 0) {
		t.Errorf("thickness counts: %v, %v", heat, err)
	}
	if m := usual.Belief().OfHeat().Worst(3, ensemble.ShorterLife); m.Viscosity != 1 {
		t.Errorf("%+v", m)
	}
}

// TestSlopeSupposed: an answer that does not move, and one that is no number, leave the slope that was
// supposed; a failure is one.
func TestSlopeSupposed(t *testing.T) {
	for name, answer := range map[string]float64{"constant": 7, "none": math.NaN(), "without end": math.Inf(1)} {
		got, err := usual.Belief().Slope(ensemble.Nominal(), 0.1, ensemble.MoreHeat, func(ensemble.Member) (float64, error) { return answer, nil })
		if err != nil || got != ensemble.MoreHeat {
			t.Errorf("%s: %v, %v", name, got, err)
		}
	}
	fails := errors.New("fails")
	if _, err := usual.Belief().Slope(ensemble.Nominal(), 0.1, ensemble.MoreHeat, func(ensemble.Member) (float64, error) { return 0, fails }); !errors.Is(err, fails) {
		t.Errorf("got %v", err)
	}
}
