package ensemble

import (
	"math"
	"math/rand/v2"
	"sort"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distmv"
	"gonum.org/v1/gonum/stat/distuv"
)

// A country is all that a cloud's distribution holds, far more densely than members can
// be followed: places, in the frame of what they were drawn from, and their weights. What
// is known of members is spread over it.
type country struct {
	in      space
	frame   *frame // nil: the prior's own
	places  [][]float64
	weights []float64 // nil: all alike
}

// places is how many a country has, a prime: a quantile over them errs by less than a
// hundredth of a standard deviation.
const places = 4093

// surveySeed is that of the places, which are the same for every ensemble.
const surveySeed = 1

// priorCountry is what a spread allows.
func priorCountry(s Spread) *country {
	in := newSpace(s)
	if in.dim() == 0 {
		return nil
	}
	return &country{in: in, places: standardNormal(in.dim())}
}

func standardNormal(d int) [][]float64 {
	points := lattice(places, d, rand.NewPCG(surveySeed, 0))
	for _, x := range points {
		for j := range x {
			x[j] = distuv.UnitNormal.Quantile(x[j])
		}
	}
	return points
}

// faint is a ratio, as a part of the largest, below which it does not matter how small it
// is: logarithms are spread, of which a posterior has nearly a quadratic, and those of
// members that cannot be have no end.
const faint = 1e-2

// settled weighs the places of a round by the likelihood, spread from the members of the
// round: ratios are those of the posterior to what they were drawn from.
func settled(in space, points [][]float64, from distmv.LogProber, ratios []float64) *country {
	c := &country{in: in}
	if p, ok := from.(*proposal); ok {
		c.frame, ok = newFrame(moments{mean: p.mean, cov: p.cov})
		if !ok {
			return nil
		}
		for _, u := range p.draw(places, rand.NewPCG(surveySeed, 0)) {
			x, ok := c.frame.inside(u)
			if !ok {
				return nil
			}
			c.places = append(c.places, x)
		}
	} else {
		c.places = standardNormal(in.dim())
	}
	s, ok := c.survey(points)
	if !ok {
		return nil
	}
	logs := make([]float64, len(ratios))
	for i, r := range ratios {
		logs[i] = math.Log(r + faint)
	}
	c.weights, ok = s.spread(logs)
	if !ok {
		return nil
	}
	for i, w := range c.weights {
		c.weights[i] = math.Max(math.Exp(math.Min(w, 1))-faint, 0)
	}
	return c
}

// A survey spreads what is known at some points over a country.
type survey struct {
	*country
	spline *spline
	rows   *mat.Dense
}

// survey is false where the points are too few to tell anything of what lies between.
func (c *country) survey(points [][]float64) (*survey, bool) {
	if c.frame != nil {
		inside := make([][]float64, len(points))
		for i, u := range points {
			var ok bool
			if inside[i], ok = c.frame.inside(u); !ok {
				return nil, false
			}
		}
		points = inside
	}
	sp, ok := newSpline(points)
	if !ok {
		return nil, false
	}
	s := &survey{country: c, spline: sp, rows: mat.NewDense(len(c.places), sp.count, nil)}
	const together = 64
	_ = Each((len(c.places)+together-1)/together, func() struct{} { return struct{}{} }, func(_ struct{}, k int) error {
		for i := k * together; i < min(len(c.places), (k+1)*together); i++ {
			sp.fill(s.rows.RawRowView(i), c.places[i])
		}
		return nil
	})
	return s, true
}

// spread gives the value at each place.
func (s *survey) spread(values []float64) ([]float64, bool) {
	c, ok := s.spline.through(values)
	if !ok {
		return nil, false
	}
	var all mat.VecDense
	all.MulVec(s.rows, c)
	return all.RawVector().Data, true
}

// How the values around a quantile are told from those that matter no more: beyond some
// times what lies between the quantiles closeBelow under it and closeAbove over it, it
// does not matter how far. Infinities and jumps so become steps of one.
const (
	closeBelow, closeAbove = 0.07, 0.08
	mattersTimes           = 4
)

// strays is how far, in probability, a quantile over the country may be from that over
// the members alone.
const strays = 0.05

// quantile is that over the country, (11) of the package comment, of values with weights
// at the points of the survey.
func (s *survey) quantile(p float64, values, weights []float64) float64 {
	const outermost = 1e-3
	at := func(p float64) float64 { return Quantile(min(max(p, outermost), 1-outermost), values, weights) }
	middle := at(p)
	width := mattersTimes * (at(p+closeAbove) - at(p-closeBelow))
	if !(width > 0) || math.IsInf(middle, 0) {
		return middle
	}
	if math.IsInf(width, 1) {
		width = mattersTimes * 2 * (middle - at(p-closeBelow))
	}
	squeezed := make([]float64, len(values))
	for i, v := range values {
		squeezed[i] = math.Tanh((v - middle) / width)
	}
	over, ok := s.spread(squeezed)
	if !ok {
		return middle
	}
	refined := middle + width*math.Atanh(s.country.quantile(p, over))
	low, high := at(p-strays), at(p+strays)
	if !(refined >= low && refined <= high) {
		return min(max(middle, low), high)
	}
	return refined
}

func (c *country) quantile(p float64, values []float64) float64 {
	order := make([]int, len(values))
	total := 0.0
	for i := range order {
		order[i] = i
		total += c.weight(i)
	}
	sort.Slice(order, func(a, b int) bool { return values[order[a]] < values[order[b]] })
	sum := 0.0
	for k, i := range order {
		w := c.weight(i)
		if half := sum + w/2; half >= p*total {
			if k == 0 || w == 0 {
				return values[i]
			}
			// Between the middles of two places.
			before := order[k-1]
			span := (w + c.weight(before)) / 2
			return values[i] - (values[i]-values[before])*math.Min(1, (half-p*total)/span)
		}
		sum += w
	}
	return values[order[len(order)-1]]
}

// even returns the quantiles (k+½)/n of values, ascending.
func (c *country) even(n int, values []float64) []float64 {
	order := make([]int, len(values))
	total := 0.0
	for i := range order {
		order[i] = i
		total += c.weight(i)
	}
	sort.Slice(order, func(a, b int) bool { return values[order[a]] < values[order[b]] })
	list, sum, at := make([]float64, n), c.weight(order[0]), 0
	for k := range list {
		for wanted := (float64(k) + 0.5) / float64(n) * total; sum < wanted && at < len(order)-1; {
			at++
			sum += c.weight(order[at])
		}
		list[k] = values[order[at]]
	}
	return list
}

func (c *country) weight(i int) float64 {
	if c.weights == nil {
		return 1
	}
	return c.weights[i]
}
