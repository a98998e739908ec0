package ensemble

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// TestChiQuantile: the quick inverse is that of the incomplete gamma function, to its own rounding.
func TestChiQuantile(t *testing.T) {
	slow := distuv.ChiSquared{K: freedom}
	for k := range 20_000 {
		p := (float64(k) + 0.5) / 20_000
		if got, want := chiQuantile(p), slow.Quantile(p); !(math.Abs(got/want-1) <= 1e-11) {
			t.Fatalf("%g at %g, want %g", got, p, want)
		}
	}
}

// TestSomeMembersNeedNoOtherDistances: what some of a round's members know, spread by the distances of
// all, is what it is by distances of their own.
func TestSomeMembersNeedNoOtherDistances(t *testing.T) {
	spread := Spread{Time: 1.4, Viscosity: 1.3, Loss: 1.3}
	members := Draw(spread, 120, 1)
	some := slices.Clone(members[20:90])
	values := make([]float64, len(some))
	for i, m := range some {
		values[i] = m.Rate * m.Rate * m.Viscosity / m.Loss
	}
	alone := priorCountry(spread)
	want := alone.survey(some).spread(values)
	all := priorCountry(spread)
	all.surveyWhole(members)
	s := all.survey(some)
	if s.of == nil || s.rows.Cols <= len(some)+coefficients(3) {
		t.Fatal("the distances are not those of all")
	}
	for i, got := range s.spread(values) {
		if !(math.Abs(got-want[i]) <= 1e-9*math.Abs(want[i])+1e-12) {
			t.Fatalf("%g at place %d, want %g", got, i, want[i])
		}
	}
	some[3].Rate *= 1.01
	if s := all.survey(some); s == nil || s.of != nil {
		t.Error("a member that was not in the round has the distances of the round")
	}
}

// TestQuantileOfPlaces: picking out a quantile gives what putting all into order does, with weights of
// nothing and equal values of equal weight.
func TestQuantileOfPlaces(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 7))
	inOrder := func(c *country, p float64, values []float64) float64 {
		list, total := c.weighed(values)
		slices.SortFunc(list, func(a, b weighed) int { return cmp.Compare(a.value, b.value) })
		sum := 0.0
		for k, w := range list {
			if half := sum + w.weight/2; half >= p*total {
				if k == 0 || w.weight == 0 {
					return w.value
				}
				span := (w.weight + list[k-1].weight) / 2
				return w.value - (w.value-list[k-1].value)*math.Min(1, (half-p*total)/span)
			}
			sum += w.weight
		}
		return list[len(list)-1].value
	}
	for round := range 400 {
		n := 1 + random.IntN(600)
		c, values := &country{}, make([]float64, n)
		if round%3 > 0 {
			c.weights = make([]float64, n)
		}
		for i := range values {
			if values[i] = random.NormFloat64(); round%3 == 0 {
				values[i] = math.Round(2 * values[i])
			}
			if c.weights != nil {
				c.weights[i] = max(0, random.Float64()-0.2)
			}
		}
		for _, p := range []float64{0, 0.001, 0.05, 0.1, 0.5, 0.9, 0.999} {
			if got, want := c.quantile(p, values), inOrder(c, p, values); !(math.Abs(got-want) <= 1e-9) {
				t.Fatalf("round %d, %d values: %g quantile %g, want %g", round, n, p, got, want)
			}
		}
	}
}

// TestConditionOfASpline: the estimate is that of the library within a factor of 3, and far beyond what
// is taken where two knots are all but one.
func TestConditionOfASpline(t *testing.T) {
	for _, n := range []int{40, 130, 400} {
		points := lattice(n, 3, rand.NewPCG(uint64(n), 1))
		for _, apart := range []float64{1, 1e-3, 1e-5} {
			for k := range points[1] {
				points[1][k] = points[0][k] + apart*(points[1][k]-points[0][k])
			}
			s, _ := newSpline(points)
			count := s.lu.Rows
			a := mat.NewDense(count, count, nil)
			for i, x := range points {
				s.fill(a.RawRowView(i), x)
				for k := n; k < count; k++ {
					a.Set(k, i, a.At(i, k))
				}
			}
			want, got := mat.Cond(a, 1), a.Norm(1)*s.inverse()
			if !(got > want/3 && got < want*3) {
				t.Errorf("%d knots, two of them %g of what they were apart: condition %.3g, want %.3g", n, apart, got, want)
			}
		}
	}
}
