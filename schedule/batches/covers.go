package batches

import (
	"cmp"
	"math"

	"potlife/kinetics/quantity"
)

// compare orders two positions by what they have cost so far, in the order of
// what a plan wants; negative: p is the better one.
func (s *search) compare(p, q *position) int {
	return cmp.Or(
		cmp.Compare(p.score.Changes, q.score.Changes),
		cmp.Compare(p.score.Gelled, q.score.Gelled),
		cmp.Compare(p.score.Pots, q.score.Pots),
		cmp.Compare(p.wasteSteps, q.wasteSteps),
		cmp.Compare(s.spareSteps(q), s.spareSteps(p)),
	)
}

func (s *search) spareSteps(p *position) float64 {
	return math.Floor(float64(p.score.Spare) / s.grain.spare)
}

// covers tells that whatever can follow q can follow p as well and costs no
// more: p has the same cups standing, is at the same temperature and mass within a bucket, not older, not
// thicker, must be cleaned no sooner, its film gels no sooner, and its score so far is no worse. What
// follows adds the same to both scores, so they compare as they stand.
func (s *search) covers(p, q *position) bool {
	if p.standing != q.standing || s.compare(p, q) > 0 {
		return false
	}
	g := &s.grain
	if p.heel.Alpha > q.heel.Alpha+g.alpha || p.heel.LogExcess > q.heel.LogExcess+g.growth ||
		p.heel.Phi > q.heel.Phi+g.growth || s.stuckLonger(p, q) ||
		math.Abs(float64(p.heel.Temperature-q.heel.Temperature)) > g.temperature ||
		math.Abs(float64(p.heel.Mass/q.heel.Mass-1)) > g.mass {
		return false
	}
	later := p.clock - q.clock
	if !s.steady && math.Abs(later) > g.clock {
		return false
	}
	return p.clock-p.mixedBy >= q.clock-q.mixedBy-g.clock &&
		p.laidGels-p.clock >= q.laidGels-q.clock-g.clock &&
		p.baseGels-p.clock >= q.baseGels-q.clock-g.clock &&
		p.life-p.reserve >= q.life-q.reserve-g.clock &&
		p.lies >= q.lies-g.clock
}

// stuckLonger tells that the bath of p must be cleaned before that of q.
func (s *search) stuckLonger(p, q *position) bool {
	return p.heel.Stuck > q.heel.Stuck+s.grain.alpha || p.heel.Used > q.heel.Used+quantity.Time(s.grain.clock)
}
