package ensemble

import (
	"math"
	"slices"
	"sort"
	"sync"

	"gonum.org/v1/gonum/floats"
)

// negligible is the share of the weight that a cloud leaves out in its
// lightest members, which cost as much to follow as the others. It moves no
// quantile by more than that share.
const negligible = 1e-3

// A Cloud is an ensemble with what readings say of it.
type Cloud struct {
	Members   []Member // their weights sum to their number
	Effective float64  // how many equal members would tell as much; 0 if none explains the readings
	Rounds    int      // how often the likelihood was asked for; 0 without readings
	Explained bool     // false if no member explains the readings; the members are then the prior's
	moments   moments  // of the logarithms of rate, viscosity and loss

	// land is the country, and the survey of all members; both may be nil. They are dear and most
	// clouds are never asked about what lies between their members.
	land    func() *country
	once    sync.Once
	country *country
	survey  *survey
}

// Prior is the cloud of n members before any reading: Draw, all alike.
func Prior(s Spread, n int, seed uint64) *Cloud {
	members := Draw(s, n, seed)
	return &Cloud{Members: members, Effective: float64(len(members)), Explained: true, moments: priorMoments(s), land: func() *country { return priorCountry(s) }}
}

// newCloud needs weights that sum to 1.
func newCloud(members []Member, weights []float64, rounds int) *Cloud {
	c := &Cloud{Rounds: rounds, Explained: true}
	var kept []float64
	for _, i := range heavy(weights) {
		c.Members, kept = append(c.Members, members[i]), append(kept, weights[i])
	}
	floats.Scale(1/floats.Sum(kept), kept)
	points := make([][]float64, len(kept))
	for i, m := range c.Members {
		logs := m.logs()
		points[i] = logs[:]
		c.Members[i].Weight = kept[i] * float64(len(kept))
	}
	c.Effective, c.moments = effective(kept), newMoments(points, kept)
	c.moments.mixed, c.moments.mixedSigma = mixedOf(c.Members, kept)
	return c
}

// mixedOf is the mean of how warm members were mixed, and its standard deviation.
func mixedOf(members []Member, weights []float64) (mean, sigma float64) {
	square := 0.0
	for i, m := range members {
		mean += weights[i] * m.Mixed
		square += weights[i] * m.Mixed * m.Mixed
	}
	return mean, math.Sqrt(max(0, square-mean*mean))
}

// heavy returns, in order, the indices without the lightest that together have
// a negligible share of the weight.
func heavy(weights []float64) []int {
	order := make([]int, len(weights))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return weights[order[a]] < weights[order[b]] })
	left, first := negligible, 0
	for first < len(order) && weights[order[first]] <= left {
		left -= weights[order[first]]
		first++
	}
	order = order[first:]
	sort.Ints(order)
	return order
}

// Even returns n members of weight 1, each as often as its weight demands to
// within one, by systematic resampling along the direction that roughly shortens a
// life, so that the sample has the quantiles of the cloud. A heavy member
// comes several times.
func (c *Cloud) Even(n int) []Member {
	if n <= 0 || len(c.Members) == 0 {
		return nil
	}
	order := make([]int, len(c.Members))
	badness := make([]float64, len(c.Members))
	for i, m := range c.Members {
		logs := m.logs()
		order[i], badness[i] = i, floats.Dot(ShorterLife[:], logs[:])+mixedShare*m.Mixed
	}
	sort.SliceStable(order, func(a, b int) bool { return badness[order[a]] < badness[order[b]] })
	step := float64(len(c.Members)) / float64(n)
	taken := make([]int, 0, n)
	below, at := 0.0, 0
	for k := range n {
		place := (float64(k) + 0.5) * step
		for at < len(order)-1 && below+c.Members[order[at]].Weight <= place {
			below += c.Members[order[at]].Weight
			at++
		}
		taken = append(taken, order[at])
	}
	sort.Ints(taken)
	members := make([]Member, n)
	for k, i := range taken {
		members[k] = c.Members[i]
		members[k].Weight = 1
	}
	return members
}

// Quantile is the p-quantile of values, one for each member in order: over all that the
// cloud stands for, between its members too, where they are enough to tell; else the
// weighted quantile of the values.
func (c *Cloud) Quantile(p float64, values []float64) float64 {
	if len(values) > 0 && !slices.ContainsFunc(values, func(v float64) bool { return v != values[0] }) {
		return values[0] // whatever lies between
	}
	c.once.Do(c.settle)
	return c.over(c.survey, p, c.Members, values)
}

// QuantileOf is [Cloud.Quantile] of values that are known for some of its members only.
func (c *Cloud) QuantileOf(some []Member, p float64, values []float64) float64 {
	c.once.Do(c.settle)
	return c.over(c.surveyed(some), p, some, values)
}

// QuantileOfMembers is [Cloud.Quantile] of a value that a member has by itself, without a simulation:
// between members too it is known, and not only spread.
func (c *Cloud) QuantileOfMembers(p float64, of func(Member) float64) float64 {
	values, weights := make([]float64, len(c.Members)), make([]float64, len(c.Members))
	for i, m := range c.Members {
		values[i], weights[i] = of(m), m.Weight
	}
	c.once.Do(c.settle)
	if c.survey == nil || slices.ContainsFunc(values, math.IsNaN) {
		return Quantile(p, values, weights)
	}
	members := c.country.members()
	over := make([]float64, len(members))
	for i, m := range members {
		over[i] = of(m)
	}
	o := ordered(values, weights)
	return o.near(p, c.country.quantile(p, over))
}

// EvenBy returns the indices of n members that stand for all in a value that each has:
// the k-th is the one whose value is nearest to the quantile (k+½)/n, so that a share of
// them is one of the cloud for whatever the value decides. Nil where the members are too
// few to tell, or a value is no finite number.
func (c *Cloud) EvenBy(n int, values []float64) []int {
	c.once.Do(c.settle)
	if c.survey == nil || slices.ContainsFunc(values, func(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) }) {
		return nil
	}
	over := c.survey.spread(values)
	byValue := make([]int, len(values))
	for i := range byValue {
		byValue[i] = i
	}
	sort.SliceStable(byValue, func(a, b int) bool { return values[byValue[a]] < values[byValue[b]] })
	taken := make([]int, n)
	for k, wanted := range c.country.even(n, over) {
		at := sort.Search(len(byValue), func(i int) bool { return values[byValue[i]] >= wanted })
		if at == len(byValue) || at > 0 && wanted-values[byValue[at-1]] < values[byValue[at]]-wanted {
			at--
		}
		taken[k] = byValue[at]
	}
	return taken
}

func (c *Cloud) over(s *survey, p float64, members []Member, values []float64) float64 {
	weights := make([]float64, len(members))
	for i, m := range members {
		weights[i] = m.Weight
	}
	if s == nil || slices.ContainsFunc(values, math.IsNaN) {
		return Quantile(p, values, weights)
	}
	return s.quantile(p, values, weights)
}

// settle surveys all members, once.
func (c *Cloud) settle() {
	if c.land != nil {
		c.country = c.land()
	}
	if c.country != nil && c.country.whole == nil { // before any reading
		c.survey = c.country.surveyWhole(c.Members)
		return
	}
	c.survey = c.surveyed(c.Members)
}

// surveyed is nil where the members are too few.
func (c *Cloud) surveyed(members []Member) *survey {
	if c.country == nil {
		return nil
	}
	return c.country.survey(members)
}
