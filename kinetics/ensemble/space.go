package ensemble

import "math"

// A space is the part of an ensemble that is not certain: for each such
// unknown, in the order rate, viscosity, loss, the standard deviation of its
// logarithm. A point of it is the logarithms over these, (2) of the package
// comment, so that the prior is the standard normal distribution.
type space struct {
	of    []int // which of logs
	sigma []float64
}

func newSpace(s Spread) space {
	var p space
	for j, f := range [3]float64{s.Time, s.Viscosity, s.Loss} {
		if sigma := Sigma(f); sigma > 0 {
			p.of, p.sigma = append(p.of, j), append(p.sigma, sigma)
		}
	}
	return p
}

func (p space) dim() int { return len(p.of) }

func (p space) point(m Member) []float64 {
	logs := m.logs()
	u := make([]float64, p.dim())
	for k, j := range p.of {
		u[k] = logs[j] / p.sigma[k]
	}
	return u
}

func (p space) member(u []float64) Member {
	logs := [3]float64{}
	for k, j := range p.of {
		logs[j] = u[k] * p.sigma[k]
	}
	return fromLogs(logs)
}

// factors are what tells members apart.
func (m Member) factors() [3]float64 { return [3]float64{m.Rate, m.Viscosity, m.Loss} }

// logs are the logarithms of a member's factors: rate, viscosity, loss.
func (m Member) logs() [3]float64 {
	return [3]float64{math.Log(m.Rate), math.Log(m.Viscosity), math.Log(m.Loss)}
}

func fromLogs(logs [3]float64) Member {
	return Member{Rate: math.Exp(logs[0]), Viscosity: math.Exp(logs[1]), Loss: math.Exp(logs[2]), Weight: 1}
}
