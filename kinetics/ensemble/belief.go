package ensemble

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// A Belief is what a spread or a cloud comes down to where only mean and covariance count: a
// normal distribution of the logarithms of rate, viscosity and loss, and beside it one of how warm
// resin was mixed.
type Belief struct{ moments }

// Belief is that before any reading.
func (s Spread) Belief() Belief { return Belief{priorMoments(s)} }

// Belief is that of the cloud: as the readings tie its factors together.
func (c *Cloud) Belief() Belief { return Belief{c.moments} }

// OfHeat is the belief in rate and loss; the viscosity is the mean, since thickness warms nothing.
func (b Belief) OfHeat() Belief {
	const viscosity = 1
	cov := mat.NewSymDense(3, nil)
	for j := range 3 {
		for k := j; k < 3; k++ {
			if j != viscosity && k != viscosity {
				cov.SetSym(j, k, b.cov.At(j, k))
			}
		}
	}
	heat := b.moments
	heat.cov = cov
	return Belief{heat}
}

// Mean is the member in the middle.
func (b Belief) Mean() Member { return b.member(0, [3]float64(b.mean)) }

// member has these logarithms, z standard deviations out.
func (b Belief) member(z float64, logs [3]float64) Member {
	m := fromLogs(logs)
	m.Mixed = b.mixed + mixedPart*z*b.mixedSigma
	return m
}

// A Slope is how much worse the answer to a question gets with the logarithms of rate, viscosity
// and loss: g of (8) in the package comment. Only its direction counts.
type Slope [3]float64

// Slopes before a question is asked.
var (
	// ShorterLife is that of a working life, roughly: rate counts in full, viscosity by half, loss by
	// a third and the other way.
	ShorterLife = Slope{1, 0.5, -0.3}
	// MoreHeat is that of a temperature where losses decide at the surface: it depends on rate over loss.
	MoreHeat = Slope{1, 0, -1}
)

// Worst is the member z standard deviations on the bad side of the mean: of all that far out, the
// worst in the direction of the slope, (8) of the package comment. When it was mixed it was warmer,
// too, see mixedPart.
func (b Belief) Worst(z float64, slope Slope) Member {
	pull := mat.NewVecDense(3, nil)
	g := mat.NewVecDense(3, slope[:])
	pull.MulVec(b.cov, g)
	logs := [3]float64(b.mean)
	if length := math.Sqrt(mat.Dot(g, pull)); length > 0 {
		for j := range logs {
			logs[j] += z * pull.AtVec(j) / length
		}
	}
	return b.member(z, logs)
}

// Warmer is a member z standard deviations out in the direction of the slope, mixed as much warmer as
// the z-th of all is worse where a kelvin counts so much of the logarithm of the rate: with the other
// unknowns whole it is no less than that, whatever their share.
func (b Belief) Warmer(m Member, z, perKelvin float64, slope Slope) Member {
	pull, g := mat.NewVecDense(3, nil), mat.NewVecDense(3, slope[:])
	pull.MulVec(b.cov, g)
	others, mix := math.Sqrt(mat.Dot(g, pull)), slope[0]*perKelvin*b.mixedSigma
	part := mixedPart
	if both := math.Hypot(others, mix); both > 0 {
		part = max(part, mix/both)
	}
	m.Mixed = b.mixed + part*z*b.mixedSigma
	return m
}

// Slope asks a question of the members beside one, a step of the logarithm off either way in each
// factor that is not certain, and returns the regression of how bad their answers are. Where the
// answer does not move it is the slope supposed.
func (b Belief) Slope(at Member, step float64, supposed Slope, bad func(Member) (float64, error)) (Slope, error) {
	var slope Slope
	for j := range slope {
		if !(b.cov.At(j, j) > 0) {
			continue
		}
		var answers [2]float64
		for k, off := range [2]float64{-step, step} {
			logs := at.logs()
			logs[j] += off
			var err error
			beside := fromLogs(logs)
			beside.Mixed = at.Mixed
			if answers[k], err = bad(beside); err != nil {
				return slope, err
			}
		}
		slope[j] = answers[1] - answers[0]
	}
	if square := slope[0]*slope[0] + slope[1]*slope[1] + slope[2]*slope[2]; !(square > 0) || math.IsInf(square, 1) {
		return supposed, nil
	}
	return slope, nil
}
