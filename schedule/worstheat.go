package schedule

import (
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
)

// oneInAHundred is how many standard deviations on the bad side a bath is that must not
// run away: one in a hundred is worse. A life that ends too soon costs a bath, a
// runaway more.
const oneInAHundred = 2.326

// An among asks what runs away among the members of a belief. The worst one is where the contour of
// the critical mass touches the ellipse of all that are oneInAHundred out, (8) of package ensemble.
type among struct {
	known ensemble.Belief
	of    func(ensemble.Member) *still.Danger
}

// supposed is the worst member where losses decide at the surface.
func (a among) supposed() ensemble.Member { return a.known.Worst(oneInAHundred, ensemble.MoreHeat) }

// How the worst member is found. As a peak nears criticality its contours in rate and loss become
// those of the critical mass. At criticality it may jump, so it is asked of a lighter mass, which
// stays below with members a heatStep worse: the critical mass goes with loss over rate to the power
// of 3/2 at most (a body held by its inside, of which all lengths grow). Contours hardly bend: one
// regression suffices (a test looks in every direction).
const (
	roughly  = 0.05 // how closely the greatest safe mass is bracketed first
	lighter  = 0.85 // of it
	heatStep = 0.05 // of the logarithms
)

// worst is the member that must not run away, by the peaks of a mass.
func (a among) worst(mass quantity.Mass) (ensemble.Member, error) {
	slope, err := a.known.Slope(a.supposed(), heatStep, ensemble.MoreHeat, func(m ensemble.Member) (float64, error) {
		peak, err := a.of(m).FirstPeak(mass)
		return float64(peak), err
	})
	return a.known.Worst(oneInAHundred, slope), err
}

// greatestSafe is the greatest mass that does not run away in 99 of 100 members, and the worst member.
func (a among) greatestSafe() (quantity.Mass, ensemble.Member, error) {
	d := a.of(a.supposed())
	about, err := d.GreatestSafeWithin(roughly)
	if err != nil {
		return 0, ensemble.Member{}, err
	}
	if about == 0 {
		return 0, a.supposed(), nil
	}
	worst, err := a.worst(min(about*lighter, d.Highest))
	if err != nil {
		return 0, worst, err
	}
	d = a.of(worst)
	d.Near = about
	mass, err := d.GreatestSafe()
	return mass, worst, err
}

// runsAway tells whether a mass runs away in one of a hundred members. Any that is as far out and runs
// away shows it.
func (a among) runsAway(mass quantity.Mass) (bool, error) {
	d := a.of(a.supposed())
	mass = min(mass, d.Highest)
	if runs, err := d.RunsAway(mass); err != nil || runs {
		return runs, err
	}
	worst, err := a.worst(mass)
	if err != nil {
		return false, err
	}
	return a.of(worst).RunsAway(mass)
}
