package ensemble

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// aim returns the distribution to draw the next round from. Around the
// tempered cloud it fits a quadratic to the log-likelihood: that needs no more
// members than coefficients to find a posterior far narrower than their
// distances, where the cloud's own moments would narrow by a few times a round.
// Where the quadratic leads no further than the cloud is already, the moments
// of the cloud are the better guide.
func (h *history) aim(last mat.Symmetric, n int, guides float64) (*proposal, bool) {
	beta, weights := temper(h.logBase(), h.logLike, guides)
	m := newMoments(h.points, weights)
	m.cov = shrunk(m, effective(weights), last, n)
	if followed, ok := h.follow(m, weights, beta); ok {
		followed.cov.ScaleSym(widerFit, followed.cov)
		if p, ok := newProposal(followed.mean, followed.cov); ok {
			return p, true
		}
	}
	m.cov.ScaleSym(widerCloud, m.cov)
	return newProposal(m.mean, m.cov)
}

// follow returns the moments of prior × likelihood^β by the quadratic, with
// the largest β up to which it can be trusted; false if that is not beyond
// the β of the cloud. What a quadratic misses grows as the cube of the
// distance; trust ends where it changes the weight at the mean by a factor e.
func (h *history) follow(cloud moments, weights []float64, beta float64) (moments, bool) {
	frame, ok := newFrame(cloud)
	if !ok {
		return moments{}, false
	}
	x := make([][]float64, len(h.points))
	for i, u := range h.points {
		if x[i], ok = frame.inside(u); !ok {
			return moments{}, false
		}
	}
	r, ok := fitResponse(x, h.logLike, weights)
	if !ok {
		return moments{}, false
	}
	for at := math.Min(1, 1/r.misfit); at > beta; at /= 2 {
		step, cov, ok := frame.posterior(r, at)
		if !ok {
			return moments{}, false
		}
		if at*r.misfit*math.Pow(max(1, mat.Norm(step, 2)), 3) <= 1 {
			return frame.outside(step, cov), true
		}
	}
	return moments{}, false
}
