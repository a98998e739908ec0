package learning

import (
	"math"
	"sort"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"potlife/schedule"
)

// A Said is what one session says of a figure: the logarithm y and its standard deviation.
type Said struct {
	At   time.Time
	Y, U float64
}

// A figure is what is known of one before any session.
type figure struct {
	y0, sigma0 float64 // prior of ln value and its standard deviation
	tau0       float64 // scatter of ln value from session to session
}

// figures of the lessons. A pick-up within a factor of 1.3 of what the job says, layers
// within 1.4 of the plan, a reactivity within the spread of a generic record, 1.6, and cups
// that keep 1 to 5 % hold nine times in ten; sessions of one crew differ by 10 % in pick-up
// and minutes, batches of one hardener by 10 % (our choice, after common practice).
var (
	pickUp     = figure{0, math.Log(1.3) / z95, math.Log(1.10) / z95}
	minutes    = figure{0, math.Log(1.4) / z95, math.Log(1.10) / z95}
	reactivity = figure{0, math.Log(1.6) / z95, math.Log(1.10) / z95}
	inCups     = figure{math.Log(0.022), math.Log(2.2) / z95, math.Log(1.3) / z95}
)

// z95 is the 95 % quantile of the standard normal distribution.
const z95 = 1.6448536269514722

const (
	halfLife = 120 * 24 * time.Hour // after which a session counts half
	huber    = 1.5
	// huberSquare is the mean of (h·z)² over a standard normal z, (2Φ(k)−1) − 2kφ(k) +
	// 2k²(1−Φ(k)) at k = 1.5.
	huberSquare = 0.7784
	priorTau    = 3.0 // sessions that the known scatter is worth
	mostTurns   = 200
	atRest      = 1e-10
)

// combine is (5) to (8) of the package comment. Without sessions there is no lesson.
func (f figure) combine(said []Said) schedule.Lesson {
	if len(said) == 0 {
		return schedule.Lesson{}
	}
	age := weights(said)
	mu, tau2 := weightedMedian(said, age), f.tau0*f.tau0
	precision, known := 1/(f.sigma0*f.sigma0), priorTau
	for range mostTurns {
		sum, last := f.y0/(f.sigma0*f.sigma0), precision
		precision = 1 / (f.sigma0 * f.sigma0)
		scatter := 0.0
		known = priorTau
		for i, s := range said {
			variance := s.U*s.U + tau2
			h := 1.0
			if off := math.Abs(s.Y-mu) / math.Sqrt(variance); off > huber {
				h = huber / off
			}
			sum += age[i] * h * s.Y / variance
			precision += age[i] * h / variance
			// μ is drawn to each session by its part in it.
			own := 1 - age[i]*h/variance/last
			scatter += age[i] * (h*h*(s.Y-mu)*(s.Y-mu)/(huberSquare*math.Max(own, 0.5)) - s.U*s.U)
			known += age[i]
		}
		before := mu
		mu = sum / precision
		tau2 = math.Max(0, priorTau*f.tau0*f.tau0+scatter) / known
		if math.Abs(mu-before) < atRest {
			break
		}
	}
	quantile := distuv.StudentsT{Sigma: 1, Nu: known}.Quantile(0.95)
	return schedule.Lesson{
		Value: math.Exp(mu), Spread: math.Exp(quantile * math.Sqrt(tau2+1/precision)), Sessions: len(said),
	}
}

// weights by age, 1 for the newest.
func weights(said []Said) []float64 {
	newest := said[0].At
	for _, s := range said {
		if s.At.After(newest) {
			newest = s.At
		}
	}
	list := make([]float64, len(said))
	for i, s := range said {
		list[i] = math.Exp2(-float64(newest.Sub(s.At)) / float64(halfLife))
	}
	return list
}

// weightedMedian is where the iteration starts: no odd session moves it far.
func weightedMedian(said []Said, weight []float64) float64 {
	order := make([]int, len(said))
	total := 0.0
	for i := range order {
		order[i] = i
		total += weight[i]
	}
	sort.SliceStable(order, func(a, b int) bool { return said[order[a]].Y < said[order[b]].Y })
	below := 0.0
	for _, i := range order {
		if below += weight[i]; below >= total/2 {
			return said[i].Y
		}
	}
	return said[order[len(order)-1]].Y
}
