package ensemble

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/stat/distuv"
)

// Spread holds the factors within which 90 % of each unknown lies; 1 is
// certainty.
type Spread struct {
	Time      float64 // of every time the cure law gives
	Viscosity float64
	Loss      float64 // of the vessel's loss coefficients
	// Mixed is no factor: the standard deviation, in K, of how warm resin is when it is mixed; 0 is
	// certainty.
	Mixed float64
}

// UsualSpread is the factor of an unmeasured loss coefficient, and of time and
// viscosity where a record states none.
const UsualSpread = 1.3

// z95 is the 95 % quantile of the standard normal distribution.
const z95 = 1.6448536269514722

// Sigma is the standard deviation of ln x for a spread f, (1) of the package
// comment; 0 for f ≤ 1.
func Sigma(f float64) float64 {
	if !(f > 1) {
		return 0
	}
	return math.Log(f) / z95
}

// sigmas are the standard deviations of a member's [Member.unknowns]. The last is
// left out where it is certain, so that an ensemble without it is drawn as ever.
func (s Spread) sigmas() []float64 {
	list := []float64{Sigma(s.Time), Sigma(s.Viscosity), Sigma(s.Loss)}
	if s.Mixed > 0 {
		list = append(list, s.Mixed)
	}
	return list
}

// A Member is one possible bath: factors on the record's rate, viscosity and
// heat loss, by how many K its resin was warmer than expected when it was mixed,
// and a weight, 1 before any reading.
type Member struct {
	Rate, Viscosity, Loss float64
	Mixed                 float64
	Weight                float64
}

// Nominal is the bath exactly as the record says.
func Nominal() Member { return Member{Rate: 1, Viscosity: 1, Loss: 1, Weight: 1} }

// Draw returns n members, reproducible by seed.
func Draw(s Spread, n int, seed uint64) []Member {
	if n <= 0 {
		return nil
	}
	sigmas := s.sigmas()
	points := design(n, len(sigmas), rand.NewPCG(seed, 0x9e3779b97f4a7c15))
	members := make([]Member, n)
	for i := range members {
		var off [mostUnknowns]float64
		for j, sigma := range sigmas {
			off[j] = sigma * distuv.UnitNormal.Quantile(points[i][j])
		}
		members[i] = Member{Rate: 1 / math.Exp(off[0]), Viscosity: math.Exp(off[1]), Loss: math.Exp(off[2]), Mixed: off[3], Weight: 1}
	}
	return members
}
