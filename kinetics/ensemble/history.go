package ensemble

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat/distmv"
)

// A history holds all points at which the likelihood was asked for, and the
// distributions that they were drawn from, the prior first, as many from each.
type history struct {
	points  [][]float64
	members []Member
	logLike []float64
	drawn   []distmv.LogProber
}

// ask adds a round of members drawn from a distribution.
func (h *history) ask(members []Member, points [][]float64, from distmv.LogProber, readings Likelihood) error {
	l, err := readings(members)
	if err != nil {
		return err
	}
	if len(l) != len(members) {
		return fmt.Errorf("ensemble: %d log-likelihoods for %d members; give one for each, in order", len(l), len(members))
	}
	for i, v := range l {
		if math.IsNaN(v) || math.IsInf(v, 1) {
			return fmt.Errorf("ensemble: the log-likelihood of member %d of round %d (rate × %.4g, viscosity × %.4g, loss × %.4g) is %g; "+
				"check the readings and their standard deviations (a member that cannot be has -Inf)",
				i, len(h.drawn), members[i].Rate, members[i].Viscosity, members[i].Loss, v)
		}
	}
	h.points = append(h.points, points...)
	h.members = append(h.members, members...)
	h.logLike = append(h.logLike, l...)
	h.drawn = append(h.drawn, from)
	return nil
}

func (h *history) explained() bool { return !math.IsInf(floats.Max(h.logLike), -1) }

// logBase is the logarithm of prior over proposal for every point, the
// proposal being the mixture of all rounds: (4) of the package comment without
// the likelihood. Because the prior is one of the rounds, it is at most the
// logarithm of their number.
func (h *history) logBase() []float64 {
	base, each := make([]float64, len(h.points)), make([]float64, len(h.drawn))
	for i, u := range h.points {
		for r, from := range h.drawn {
			each[r] = from.LogProb(u)
		}
		base[i] = each[0] - floats.LogSumExp(each) + math.Log(float64(len(each)))
	}
	return base
}
