package ensemble

import "math"

// A space is the part of an ensemble that is not certain: for each such
// unknown, in the order of [Member.unknowns], the standard deviation. A point of
// it is the unknowns over these, (2) of the package comment, so that the prior
// is the standard normal distribution.
type space struct {
	of    []int // which of the unknowns
	sigma []float64
}

func newSpace(s Spread) space {
	var p space
	for j, sigma := range s.sigmas() {
		if sigma > 0 {
			p.of, p.sigma = append(p.of, j), append(p.sigma, sigma)
		}
	}
	return p
}

func (p space) dim() int { return len(p.of) }

func (p space) point(m Member) []float64 {
	from := m.unknowns()
	u := make([]float64, p.dim())
	for k, j := range p.of {
		u[k] = from[j] / p.sigma[k]
	}
	return u
}

func (p space) member(u []float64) Member {
	var to [mostUnknowns]float64
	for k, j := range p.of {
		to[j] = u[k] * p.sigma[k]
	}
	return fromUnknowns(to)
}

// mixedShare is how much worse a life gets per kelvin that resin was mixed warmer, beside [ShorterLife]
// and roughly: of 500 g in a tray a slow built-in system loses 2 % of its life, a quick one 5 %; of a
// quick cup it is 10 %.
const mixedShare = 0.05

// mixedPart is how many of its standard deviations warmer the worst member was mixed, for each that
// it lies out in the other unknowns; from those it takes none, since how much a kelvin matters
// differs tenfold from a bath's life to what runs away. Of a sum of two independent parts with
// deviations 1 and r, z deviations are z·√(1 + r²) and the worst member has z·(1 + r/2): as much
// where r is 4/3, and more, on the safe side, where the mix counts for less; for lives in baths
// r is 0.3 to 1.
const mixedPart = 0.5

// factors are what tells members apart.
func (m Member) factors() [mostUnknowns]float64 {
	return [mostUnknowns]float64{m.Rate, m.Viscosity, m.Loss, m.Mixed}
}

// logs are the logarithms of a member's factors: rate, viscosity, loss.
func (m Member) logs() [3]float64 {
	return [3]float64{math.Log(m.Rate), math.Log(m.Viscosity), math.Log(m.Loss)}
}

func fromLogs(logs [3]float64) Member {
	return Member{Rate: math.Exp(logs[0]), Viscosity: math.Exp(logs[1]), Loss: math.Exp(logs[2]), Weight: 1}
}

// mostUnknowns of a bath: rate, viscosity, loss, and how warm it was mixed.
const mostUnknowns = 4

// unknowns are the logarithms of a member's factors and the kelvins by which it was mixed warmer.
func (m Member) unknowns() [mostUnknowns]float64 {
	logs := m.logs()
	return [mostUnknowns]float64{logs[0], logs[1], logs[2], m.Mixed}
}

func fromUnknowns(u [mostUnknowns]float64) Member {
	m := fromLogs([3]float64{u[0], u[1], u[2]})
	m.Mixed = u[3]
	return m
}
