package ensemble

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/stat/distmv"
)

// A country is all that a cloud's distribution holds, far more densely than members can
// be followed: places, in the frame of what they were drawn from, and their weights. What
// is known of members is spread over it.
type country struct {
	in      space
	frame   *frame // nil: the prior's own
	places  [][]float64
	weights []float64 // nil: all alike
	// whole is of all members of the round. What is known of some of them only needs a spline of its
	// own, but no other distances; nil: there is none.
	whole *survey
	index map[[mostUnknowns]float64]int // of those members

	// members are those of the places.
	members func() []Member
}

// priorCountry is what a spread allows.
func priorCountry(s Spread) *country {
	in := newSpace(s)
	if in.dim() == 0 {
		return nil
	}
	c := &country{in: in, places: normalPlaces(in.dim())}
	c.members = sync.OnceValue(c.populate)
	return c
}

// faint is a ratio, as a part of the largest, below which it does not matter how small it
// is: logarithms are spread, of which a posterior has nearly a quadratic, and those of
// members that cannot be have no end.
const faint = 1e-2

// settled weighs the places of a round by the likelihood, spread from the members of the
// round: ratios are those of the posterior to what they were drawn from.
func settled(in space, members []Member, from distmv.LogProber, ratios []float64) *country {
	c := &country{in: in}
	c.members = sync.OnceValue(c.populate)
	if p, ok := from.(*proposal); ok {
		c.frame, c.places = p.frame, studentPlaces(in.dim())
	} else {
		c.places = normalPlaces(in.dim())
	}
	s := c.surveyWhole(members)
	if s == nil {
		return nil
	}
	logs := make([]float64, len(ratios))
	for i, r := range ratios {
		logs[i] = math.Log(r + faint)
	}
	c.weights = s.spread(logs)
	for i, w := range c.weights {
		c.weights[i] = math.Max(math.Exp(math.Min(w, 1))-faint, 0)
	}
	return c
}

// populate makes the members of the places.
func (c *country) populate() []Member {
	members := make([]Member, len(c.places))
	c.blocks(func(from, to int) {
		for i := from; i < to; i++ {
			u := c.places[i]
			if c.frame != nil {
				u = c.frame.point(u)
			}
			members[i] = c.in.member(u)
		}
	})
	return members
}

// A survey spreads what is known of some members over a country.
type survey struct {
	*country
	spline *spline
	rows   blas64.General // what multiplies the unknowns at each place, those of the whole survey
	of     []int          // columns of the rows that the spline's knots have; nil: they are all of them
}

// survey is nil where the members are too few to tell anything of what lies between.
func (c *country) survey(members []Member) *survey {
	points := make([][]float64, len(members))
	for i, m := range members {
		points[i] = c.in.point(m)
		if c.frame == nil {
			continue
		}
		var ok bool
		if points[i], ok = c.frame.inside(points[i]); !ok {
			return nil
		}
	}
	sp, ok := newSpline(points)
	if !ok {
		return nil
	}
	s := &survey{country: c, spline: sp}
	if c.whole != nil {
		if s.of, ok = c.known(members); ok {
			s.rows = c.whole.rows
			return s
		}
	}
	s.rows = c.distances(sp)
	return s
}

// surveyWhole is the survey of all members of a round. It goes before any other.
func (c *country) surveyWhole(members []Member) *survey {
	if c.whole = c.survey(members); c.whole == nil {
		return nil
	}
	c.index = make(map[[mostUnknowns]float64]int, len(members))
	for i, m := range members {
		c.index[m.factors()] = i
	}
	return c.whole
}

// known are the places of members among those of the whole survey; false where one is not among them.
func (c *country) known(members []Member) ([]int, bool) {
	of := make([]int, len(members))
	for i, m := range members {
		var ok bool
		if of[i], ok = c.index[m.factors()]; !ok {
			return nil, false
		}
	}
	return of, true
}

// together is how many places one goroutine takes at a time.
const together = 512

// blocks lets work have all places, some at a time.
func (c *country) blocks(work func(from, to int)) {
	_ = Each((len(c.places)+together-1)/together, func() struct{} { return struct{}{} }, func(_ struct{}, k int) error {
		work(k*together, min(len(c.places), (k+1)*together))
		return nil
	})
}

// distances are what multiplies the unknowns of a spline at each place.
func (c *country) distances(sp *spline) blas64.General {
	count := sp.lu.Rows
	rows := blas64.General{Rows: len(c.places), Cols: count, Stride: count, Data: make([]float64, len(c.places)*count)}
	c.blocks(func(from, to int) {
		for i := from; i < to; i++ {
			sp.fill(rows.Data[i*count:(i+1)*count], c.places[i])
		}
	})
	return rows
}

// spread gives the value at each place.
func (s *survey) spread(values []float64) []float64 {
	c := s.spline.through(values)
	if s.of != nil {
		all := make([]float64, s.rows.Cols)
		for i, k := range s.of {
			all[k] = c[i]
		}
		tail := coefficients(s.in.dim())
		copy(all[len(all)-tail:], c[len(c)-tail:])
		c = all
	}
	over := make([]float64, len(s.places))
	s.blocks(func(from, to int) {
		some := blas64.General{Rows: to - from, Cols: s.rows.Cols, Stride: s.rows.Stride, Data: s.rows.Data[from*s.rows.Stride : to*s.rows.Stride]}
		blas64.Gemv(blas.NoTrans, 1, some, blas64.Vector{N: len(c), Inc: 1, Data: c}, 0, blas64.Vector{N: to - from, Inc: 1, Data: over[from:to]})
	})
	return over
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
	o := ordered(values, weights)
	middle, below := o.inner(p), o.inner(p-closeBelow)
	width := mattersTimes * (o.inner(p+closeAbove) - below)
	if !(width > 0) || math.IsInf(middle, 0) {
		return middle
	}
	if math.IsInf(width, 1) {
		width = mattersTimes * 2 * (middle - below)
	}
	squeezed := make([]float64, len(values))
	for i, v := range values {
		squeezed[i] = math.Tanh((v - middle) / width)
	}
	return o.near(p, middle+width*math.Atanh(s.country.quantile(p, s.spread(squeezed))))
}

// A weighed value is that of a place.
type weighed struct{ value, weight float64 }

func (c *country) weighed(values []float64) (list []weighed, total float64) {
	list = make([]weighed, len(values))
	for i, v := range values {
		list[i] = weighed{v, c.weight(i)}
		total += list[i].weight
	}
	return list, total
}

// quantile is that of values at the places, between the middles of two of them. Only those around it
// are put into order.
func (c *country) quantile(p float64, values []float64) float64 {
	const few = 24
	list, total := c.weighed(values)
	wanted := p * total
	sum := 0.0       // weight of what lies below the list
	var last weighed // the greatest below the list
	none := true     // nothing does
	for len(list) > few {
		middle := split(list)
		low, top, weight := list[:middle], list[0], 0.0
		for _, w := range low {
			if weight += w.weight; w.value > top.value {
				top = w
			}
		}
		if sum+weight-top.weight/2 >= wanted {
			list = low
			continue
		}
		sum, last, none, list = sum+weight, top, false, list[middle:]
	}
	slices.SortFunc(list, func(a, b weighed) int { return cmp.Compare(a.value, b.value) })
	for _, w := range list {
		if half := sum + w.weight/2; half >= wanted {
			if none || w.weight == 0 {
				return w.value
			}
			span := (w.weight + last.weight) / 2
			return w.value - (w.value-last.value)*math.Min(1, (half-wanted)/span)
		}
		sum, last, none = sum+w.weight, w, false
	}
	return last.value
}

// split puts what is small before what is great and returns where the great begins; either part has
// one at least.
func split(list []weighed) int {
	first, middle, last := list[0].value, list[len(list)/2].value, list[len(list)-1].value
	pivot := max(min(first, middle), min(max(first, middle), last))
	i, k := 0, len(list)-1
	for {
		for list[i].value < pivot {
			i++
		}
		for list[k].value > pivot {
			k--
		}
		if i >= k {
			break
		}
		list[i], list[k] = list[k], list[i]
		i, k = i+1, k-1
	}
	return max(1, min(i, len(list)-1))
}

// even returns the quantiles (k+½)/n of values, ascending.
func (c *country) even(n int, values []float64) []float64 {
	order, total := c.weighed(values)
	slices.SortFunc(order, func(a, b weighed) int { return cmp.Compare(a.value, b.value) })
	list, sum, at := make([]float64, n), order[0].weight, 0
	for k := range list {
		for wanted := (float64(k) + 0.5) / float64(n) * total; sum < wanted && at < len(order)-1; {
			at++
			sum += order[at].weight
		}
		list[k] = order[at].value
	}
	return list
}

func (c *country) weight(i int) float64 {
	if c.weights == nil {
		return 1
	}
	return c.weights[i]
}
