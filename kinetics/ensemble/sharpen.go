package ensemble

import (
	"errors"
	"fmt"
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distmv"
)

// A Likelihood gives the natural logarithm of the likelihood of what was read
// for each of the members, in order, up to a constant that is the same in every
// call. -Inf says that a member cannot be; NaN and +Inf are errors.
type Likelihood func(members []Member) ([]float64, error)

const (
	// mostRounds bounds the calls of a likelihood.
	mostRounds = 6
	// fewest members of any use: with so many a share of one half is known to
	// ± 0.5/√fewest = 0.14.
	fewest = 12
)

// enough effective members for an answer from rounds of n: a third, with which
// the standard error of a quantile is √3 times that of n equal members. To
// halve it once more another round would have to be paid for.
func enough(n int) float64 { return float64(n) / 3 }

// guides is the number of effective members that the next round is aimed by:
// half as many again as a quadratic has coefficients, so that its misfit can
// be judged, or a tenth of a round, whichever is more; but not more than half
// of what there are.
func (h *history) guides(n int) float64 {
	known := len(h.points)
	return min(max(fewest, 1.5*float64(coefficients(len(h.points[0]))), float64(n)/10), float64(known)/2)
}

// Sharpen weighs the baths that a spread allows by readings, by adaptive
// importance sampling: (3) to (7) of the package comment. A round of n members
// from the prior comes first; as long as fewer than n/3 members are effective,
// another n are drawn around those that explain the readings best. All rounds
// count. The same seed and the same likelihoods give the same cloud.
//
// If no member of the first round can explain the readings, the cloud is the
// prior's and says so; if the rounds end with few effective members, Effective
// says so. Errors: n < 1, a failing likelihood, one that is NaN or +Inf.
func Sharpen(prior Spread, n int, seed uint64, readings Likelihood) (*Cloud, error) {
	if n < 1 {
		return nil, fmt.Errorf("ensemble: a cloud of %d members is none; ask for 1 at least", n)
	}
	in := newSpace(prior)
	if in.dim() == 0 {
		return judgeCertain(prior, n, seed, readings)
	}
	members := Draw(prior, n, seed)
	points := make([][]float64, n)
	for i, m := range members {
		points[i] = in.point(m)
	}
	last := identity(in.dim())
	standard, _ := distmv.NewNormal(make([]float64, in.dim()), last, nil)
	h := &history{}
	if err := h.ask(members, points, standard, readings); err != nil {
		return nil, err
	}
	if !h.explained() {
		return unexplained(prior, n, seed), nil
	}
	return h.refine(in, n, seed, last, readings)
}

// refine adds rounds until enough members are effective; last is the covariance
// that the first was drawn with.
func (h *history) refine(in space, n int, seed uint64, last *mat.SymDense, readings Likelihood) (*Cloud, error) {
	for {
		_, weights := temper(h.logBase(), h.logLike, 0)
		if effective(weights) >= enough(n) || len(h.drawn) == mostRounds {
			return h.cloud(in, n, weights), nil
		}
		next, ok := h.aim(last, n, h.guides(n))
		if !ok {
			return nil, errors.New("ensemble: the members that explain the readings have no finite spread; check the log-likelihoods")
		}
		last = next.cov
		points := next.draw(n, rand.NewPCG(seed, uint64(len(h.drawn))))
		members := make([]Member, n)
		for i, u := range points {
			members[i] = in.member(u)
		}
		if err := h.ask(members, points, next, readings); err != nil {
			return nil, err
		}
	}
}

func unexplained(prior Spread, n int, seed uint64) *Cloud {
	c := Prior(prior, n, seed)
	c.Rounds, c.Effective, c.Explained = 1, 0, false
	return c
}

// judgeCertain asks only whether a bath of which all is known can be.
func judgeCertain(prior Spread, n int, seed uint64, readings Likelihood) (*Cloud, error) {
	h := &history{}
	if err := h.ask([]Member{Nominal()}, [][]float64{nil}, nil, readings); err != nil {
		return nil, err
	}
	if !h.explained() {
		return unexplained(prior, n, seed), nil
	}
	c := Prior(prior, n, seed)
	c.Rounds = 1
	return c, nil
}

func identity(d int) *mat.SymDense {
	a := mat.NewSymDense(d, nil)
	for j := range d {
		a.SetSym(j, j, 1)
	}
	return a
}
