package ensemble_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"potlife/kinetics/ensemble"
)

// TestPriorCloud: without readings a cloud is the drawn ensemble, its worst
// member that of the spread. With readings that say nothing the moments are those of
// the sample: Latin hypercube fixes each unknown's own, but leaves correlations
// of about 1/√n; the tolerance is four of them.
func TestPriorCloud(t *testing.T) {
	const n = 400
	c := ensemble.Prior(usual, n, 3)
	for i, m := range ensemble.Draw(usual, n, 3) {
		if c.Members[i] != m || m.Weight != 1 {
			t.Fatalf("member %d differs from the drawn one", i)
		}
	}
	if c.Effective != n || c.Rounds != 0 || !c.Explained || c.Belief().Worst(1.3, ensemble.ShorterLife) != usual.Belief().Worst(1.3, ensemble.ShorterLife) {
		t.Errorf("%g effective members, %d rounds", c.Effective, c.Rounds)
	}
	flat, err := ensemble.Sharpen(usual, n, 3, likely(usual, func([3]float64) float64 { return -1e6 }))
	if err != nil {
		t.Fatal(err)
	}
	if len(flat.Members) != n || !(math.Abs(flat.Effective-n) <= 1e-6) { // rounding only
		t.Errorf("%d members, %g effective after readings that say nothing", len(flat.Members), flat.Effective)
	}
	want, got := standard(usual, usual.Belief().Worst(1.3, ensemble.ShorterLife)), standard(usual, flat.Belief().Worst(1.3, ensemble.ShorterLife))
	for j := range want {
		if !(math.Abs(got[j]-want[j]) <= 4/math.Sqrt(n)) {
			t.Errorf("unknown %d of the worse bath: %g, want %g", j, got[j], want[j])
		}
	}
}

// TestWorstIsTheWorst: of all baths equally far out none is worse.
func TestWorstIsTheWorst(t *testing.T) {
	bad := func(u [3]float64) float64 {
		return ensemble.Sigma(usual.Time)*u[0] + 0.5*ensemble.Sigma(usual.Viscosity)*u[1] - 0.3*ensemble.Sigma(usual.Loss)*u[2]
	}
	worst := bad(standard(usual, usual.Belief().Worst(1, ensemble.ShorterLife)))
	random, closest := rand.New(rand.NewPCG(1, 2)), math.Inf(-1)
	for range 10000 {
		u := [3]float64{random.NormFloat64(), random.NormFloat64(), random.NormFloat64()}
		r := math.Sqrt(u[0]*u[0] + u[1]*u[1] + u[2]*u[2])
		closest = max(closest, bad([3]float64{u[0] / r, u[1] / r, u[2] / r}))
	}
	// 10 000 directions come within some 1/√10000 of any; the cosine to the
	// second order.
	if !(closest <= worst) || !(closest >= 0.999*worst) {
		t.Errorf("the worst member is %g bad, the worst direction found %g", worst, closest)
	}
}

// TestEven: each member comes as often as its weight demands to within one,
// and the quantiles are the cloud's to within one step.
func TestEven(t *testing.T) {
	const n = 100
	c, err := ensemble.Sharpen(usual, 120, 3, likely(usual, newLinear(0.3).logLike))
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for _, m := range c.Members {
		sum += m.Weight
	}
	if d := math.Abs(sum - float64(len(c.Members))); !(d <= 1e-9) { // rounding only
		t.Errorf("weights sum to %g, want %d", sum, len(c.Members))
	}
	even := c.Even(n)
	if len(even) != n {
		t.Fatalf("%d members, want %d", len(even), n)
	}
	times := map[ensemble.Member]float64{}
	for _, m := range even {
		if m.Weight != 1 {
			t.Fatalf("weight %g, want 1", m.Weight)
		}
		times[m]++
	}
	for _, m := range c.Members {
		want := m.Weight * n / sum
		m.Weight = 1
		if !(math.Abs(times[m]-want) < 1) {
			t.Errorf("a member of share %g comes %g times", want, times[m])
		}
		delete(times, m)
	}
	if len(times) != 0 {
		t.Errorf("%d members that are not the cloud's", len(times))
	}
	// The one member that stands for all is the median one in badness: no more
	// than half of the weight is on either side.
	bad := func(m ensemble.Member) float64 {
		return math.Log(m.Rate) + 0.5*math.Log(m.Viscosity) - 0.3*math.Log(m.Loss)
	}
	middle, better, worse := bad(c.Even(1)[0]), 0.0, 0.0
	for _, m := range c.Members {
		switch b := bad(m); {
		case b < middle:
			better += m.Weight
		case b > middle:
			worse += m.Weight
		}
	}
	if !(max(better, worse) <= sum/2+1e-9) { // rounding only
		t.Errorf("the one member has the weight %g on one side and %g on the other", better, worse)
	}
	prior := ensemble.Prior(usual, n, 1)
	for i, m := range prior.Even(n) {
		if m != prior.Members[i] {
			t.Fatalf("equal members change: %d", i)
		}
	}
	if got := prior.Even(0); got != nil {
		t.Errorf("no members wanted, got %d", len(got))
	}
}
