package ensemble_test

import (
	"errors"
	"math"
	"sync/atomic"
	"testing"

	"potlife/kinetics/ensemble"
)

// TestDrawHasTheSpread: 90 % of each factor lies between 1/f and f. A Latin
// hypercube puts one member in each of n equal strata, so the share is exact to
// the two strata cut by the bounds.
func TestDrawHasTheSpread(t *testing.T) {
	const n = 400
	s := ensemble.Spread{Time: 1.6, Viscosity: 1.3, Loss: 1.2}
	members := ensemble.Draw(s, n, 1)
	for _, c := range []struct {
		name string
		f    float64
		of   func(ensemble.Member) float64
	}{
		{"rate", s.Time, func(m ensemble.Member) float64 { return m.Rate }},
		{"viscosity", s.Viscosity, func(m ensemble.Member) float64 { return m.Viscosity }},
		{"loss", s.Loss, func(m ensemble.Member) float64 { return m.Loss }},
	} {
		inside, logs := 0, 0.0
		for _, m := range members {
			if x := c.of(m); x > 1/c.f && x < c.f {
				inside++
			}
			logs += math.Log(c.of(m))
		}
		if d := math.Abs(float64(inside) - 0.9*n); !(d <= 2) {
			t.Errorf("%s: %d of %d within a factor %g, want 360 ± 2", c.name, inside, n, c.f)
		}
		// The mean of a stratified sample of n strays by about σ/n.
		if !(math.Abs(logs/n) <= 0.01*math.Log(c.f)) {
			t.Errorf("%s: mean logarithm %g, want 0", c.name, logs/n)
		}
	}
}

func TestDrawIsReproducible(t *testing.T) {
	s := ensemble.Spread{Time: 1.6, Viscosity: 1.3, Loss: 1.3}
	a, b, other := ensemble.Draw(s, 50, 7), ensemble.Draw(s, 50, 7), ensemble.Draw(s, 50, 8)
	same := 0
	for i := range a {
		if a[i] != b[i] {
			t.Fatalf("member %d differs for the same seed: %v, %v", i, a[i], b[i])
		}
		if a[i] == other[i] {
			same++
		}
	}
	if same == len(a) {
		t.Error("another seed gave the same members")
	}
	if got := ensemble.Draw(s, 0, 1); len(got) != 0 {
		t.Errorf("no members wanted, got %d", len(got))
	}
}

// TestCertainty: a spread of 1 is no spread.
func TestCertainty(t *testing.T) {
	for _, m := range ensemble.Draw(ensemble.Spread{Time: 1, Viscosity: 1, Loss: 1}, 5, 1) {
		if m != ensemble.Nominal() {
			t.Errorf("a certain bath differs from the record: %v", m)
		}
	}
	if got := (ensemble.Spread{Time: 1, Viscosity: 1, Loss: 1}).Belief().Worst(2, ensemble.MoreHeat); got != ensemble.Nominal() {
		t.Errorf("the worst of certain members: %v", got)
	}
}

// TestWorstIsOnTheBadSide: the worst member lies z standard deviations out, in the
// directions that shorten a life.
func TestWorstIsOnTheBadSide(t *testing.T) {
	s := ensemble.Spread{Time: 1.6, Viscosity: 1.3, Loss: 1.3}
	m := s.Belief().Worst(1.5, ensemble.ShorterLife)
	if !(m.Rate > 1 && m.Viscosity > 1 && m.Loss < 1) {
		t.Errorf("the worst member is not on the bad side: %+v", m)
	}
	z := func(x, f float64) float64 { return math.Log(x) / ensemble.Sigma(f) }
	d := math.Sqrt(math.Pow(z(m.Rate, 1.6), 2) + math.Pow(z(m.Viscosity, 1.3), 2) + math.Pow(z(m.Loss, 1.3), 2))
	if !(math.Abs(d-1.5) <= 1e-12) { // exact but for rounding
		t.Errorf("distance %g standard deviations, want 1.5", d)
	}
}

func TestQuantile(t *testing.T) {
	inf := math.Inf(1)
	ones := func(n int) []float64 {
		w := make([]float64, n)
		for i := range w {
			w[i] = 1
		}
		return w
	}
	for _, c := range []struct {
		p       float64
		x, w    []float64
		want    float64
		explain string
	}{
		{0.5, []float64{3, 1, 2}, ones(3), 1.5, "linear between order statistics at i/n, as documented by gonum"},
		{0.5, []float64{5, 1, inf, inf}, ones(4), 5, "an infinity is never interpolated"},
		{0.9, []float64{5, 1, inf, inf}, ones(4), inf, "most of the upper half never ends"},
		{0.5, []float64{1, 2, 3}, []float64{0, 1, 0}, 1.5, "a weight of zero only marks a place on the line"},
	} {
		if got := ensemble.Quantile(c.p, c.x, c.w); got != c.want {
			t.Errorf("quantile %g of %v weighted %v is %g, want %g: %s", c.p, c.x, c.w, got, c.want, c.explain)
		}
	}
	for _, x := range [][]float64{{}, {math.NaN(), 1}} {
		if got := ensemble.Quantile(0.5, x, ones(len(x))); !math.IsNaN(got) {
			t.Errorf("quantile of %v is %g, want NaN", x, got)
		}
	}
}

func TestEachTogetherRunsAllOnceAndReportsTheFirstError(t *testing.T) {
	const n = 1000
	var calls [n]atomic.Int32
	third, later := errors.New("third"), errors.New("later")
	err := ensemble.Each(n, func() int { return 0 }, func(_, i int) error {
		calls[i].Add(1)
		switch i {
		case 3:
			return third
		case 900:
			return later
		}
		return nil
	})
	if !errors.Is(err, third) {
		t.Errorf("got %v, want the error of the lowest index", err)
	}
	for i := range calls {
		if c := calls[i].Load(); c != 1 {
			t.Fatalf("index %d ran %d times", i, c)
		}
	}
}
