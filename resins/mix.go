package resins

import (
	"fmt"
	"math"

	"potlife/kinetics/quantity"
)

// A Part is one of the two that are mixed.
type Part struct {
	ByMass  float64 // parts by mass
	Density quantity.Density
}

// A Mix is a mix ratio.
type Mix struct{ Resin, Hardener Part }

// Implausible tells why no two parts have the ratio; empty where they can. Known systems
// take 1 to 200 parts of hardener to 100 of resin; a hundred times that is a slip.
func (m Mix) Implausible() string {
	if h := m.HardenerByMass(); !(h >= 0.01 && h <= 20_000) {
		return fmt.Sprintf("%.3g parts of hardener by mass to 100 of resin", h)
	}
	return ""
}

// HardenerByMass returns the parts of hardener by mass to 100 of resin.
func (m Mix) HardenerByMass() float64 { return 100 * m.Hardener.ByMass / m.Resin.ByMass }

// HardenerByVolume returns the parts of hardener by volume to 100 of resin:
// parts by mass times the ratio of the densities, resin's over hardener's.
func (m Mix) HardenerByVolume() float64 {
	return m.HardenerByMass() * float64(m.Resin.Density/m.Hardener.Density)
}

// Density returns the density that the parts have together, no volume lost.
func (m Mix) Density() quantity.Density {
	total := m.Resin.ByMass + m.Hardener.ByMass
	volume := m.Resin.ByMass/float64(m.Resin.Density) + m.Hardener.ByMass/float64(m.Hardener.Density)
	return quantity.Density(total / volume)
}

// Split divides a mass into the two parts, exactly.
func (m Mix) Split(total quantity.Mass) (resin, hardener quantity.Mass) {
	hardener = total * quantity.Mass(m.Hardener.ByMass/(m.Resin.ByMass+m.Hardener.ByMass))
	return total - hardener, hardener
}

// A Pot is one cup as weighed.
type Pot struct{ Resin, Hardener quantity.Mass }

// Mass is the mass of the whole pot.
func (p Pot) Mass() quantity.Mass { return p.Resin + p.Hardener }

// Weigh returns a pot of at least the mass asked for in whole steps of the
// scale: the resin rounded up, the hardener to the step nearest the ratio, and
// both a step of resin higher where the pot would fall short. The hardener is
// never more than half a step off the ratio.
func (m Mix) Weigh(atLeast, step quantity.Mass) Pot {
	exact, _ := m.Split(atLeast)
	resin := roundUp(float64(exact), float64(step))
	for {
		hardener := math.Round(resin*m.HardenerByMass()/100/float64(step)) * float64(step)
		if resin+hardener >= float64(atLeast)*(1-1e-12) {
			return Pot{Resin: quantity.Mass(resin), Hardener: quantity.Mass(hardener)}
		}
		resin += float64(step)
	}
}

// roundUp rounds up to whole steps; a value within rounding errors of a step is
// that step.
func roundUp(x, step float64) float64 { return math.Ceil(x/step*(1-1e-12)) * step }

// RatioError returns the relative error of a pot's ratio, positive for too much
// hardener.
func (m Mix) RatioError(p Pot) float64 {
	return float64(p.Hardener/p.Resin)*100/m.HardenerByMass() - 1
}

// ScaleError returns the greatest relative error of the ratio that readings in
// steps can hide in a pot of the mass given: half a step of each part.
func (m Mix) ScaleError(total, step quantity.Mass) float64 {
	resin, hardener := m.Split(total)
	return 0.5 * float64(step/resin+step/hardener)
}

// SmallestPot returns the least mass that a scale can mix within the tolerance
// of the ratio.
func (m Mix) SmallestPot(step quantity.Mass, tolerance quantity.Fraction) quantity.Mass {
	return step * quantity.Mass(m.ScaleError(1, 1)/float64(tolerance))
}

// String is the ratio by mass and by volume.
func (m Mix) String() string {
	return fmt.Sprintf("100 : %.3g by mass, 100 : %.3g by volume", m.HardenerByMass(), m.HardenerByVolume())
}
