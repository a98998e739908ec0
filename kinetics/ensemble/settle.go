package ensemble

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// cloud is what a history ends in, given the weights of all its members. Where the last
// round found the whole posterior, it alone is the cloud: evenly spread over it, it tells
// a quantile better than all rounds, of which the earlier mostly lie elsewhere.
func (h *history) cloud(in space, n int, weights []float64) *Cloud {
	first := len(h.points) - n
	points, last := h.points[first:], h.drawn[len(h.drawn)-1]
	ratios := make([]float64, n)
	for i, u := range points {
		ratios[i] = h.logLike[first+i] + h.drawn[0].LogProb(u) - last.LogProb(u)
	}
	top := floats.Max(ratios)
	if math.IsInf(top, -1) || h.elsewhere(weights) > mostElsewhere {
		return newCloud(h.members, weights, len(h.drawn))
	}
	for i := range ratios {
		ratios[i] = math.Exp(ratios[i] - top)
	}
	own := append([]float64(nil), ratios...)
	floats.Scale(1/floats.Sum(own), own)
	if effective(own) < enough(n) {
		return newCloud(h.members, weights, len(h.drawn))
	}
	c := newCloud(h.members[first:], own, len(h.drawn))
	c.land = func() *country { return settled(in, h.members[first:], last, ratios) }
	return c
}

// mostElsewhere is how much of the posterior the last round may have missed.
const mostElsewhere = 0.01

// elsewhere is the share of the weight of all members that lies where the last round is
// drawn a thousand times as seldom as at its middle: as far as the first rounds tell,
// another part of the posterior.
func (h *history) elsewhere(weights []float64) float64 {
	p, ok := h.drawn[len(h.drawn)-1].(*proposal)
	if !ok {
		return 0 // the prior leaves nothing out
	}
	peak, share := p.LogProb(p.mean), 0.0
	for i, u := range h.points {
		if p.LogProb(u) < peak-math.Log(1000) {
			share += weights[i]
		}
	}
	return share
}
