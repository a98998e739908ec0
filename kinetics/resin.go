package kinetics

import (
	"math"

	"potlife/kinetics/quantity"
)

// A Resin is one resin mixed with its hardener, as a value: it can be copied
// and adjusted freely.
type Resin struct {
	Name          string
	Cure          RateLaw
	Vitrification Vitrification // nil: none
	Glass         DiBenedetto
	Viscosity     ViscosityLaw
	Gel           float64                 // α_gel
	Heat          quantity.SpecificEnergy // H, J/kg, from α = 0 to 1
	Density       quantity.Density        // of the liquid mix
	HeatCapacity  quantity.HeatCapacity   // cp of the liquid mix
	Conductivity  quantity.Conductivity   // of the liquid mix
}

// CureRate returns dα/dt in 1/s, vitrification included.
func (r *Resin) CureRate(alpha, kelvin float64) float64 {
	rate := r.Cure.Rate(alpha, kelvin)
	if r.Vitrification != nil {
		rate *= Slowing(r.Vitrification, alpha, kelvin)
	}
	return rate
}

// LogViscosity returns ln(η/(Pa·s)); beyond gel it is finite and beyond any
// limit, see [LogGrowthAtGel].
func (r *Resin) LogViscosity(alpha, phi, kelvin float64) float64 {
	return r.Viscosity.LogFresh(kelvin) + r.Viscosity.LogGrowth(alpha, phi)
}

// ViscosityAt returns η at conversion alpha and growth integral phi; +Inf at
// and beyond gel.
func (r *Resin) ViscosityAt(alpha, phi float64, t quantity.Temperature) quantity.Viscosity {
	if alpha >= r.Gel {
		return quantity.Viscosity(math.Inf(1))
	}
	return quantity.Viscosity(math.Exp(r.LogViscosity(alpha, phi, float64(t))))
}

// AdiabaticRise returns H/cp, the rise that a full cure would give without
// losses.
func (r *Resin) AdiabaticRise() quantity.TemperatureDifference {
	return quantity.TemperatureDifference(float64(r.Heat) / float64(r.HeatCapacity))
}

// Adjusted returns the resin with every rate (cure, and the growth of a
// dual-Arrhenius viscosity) and the viscosity times a factor each.
func (r Resin) Adjusted(rate, viscosity float64) Resin {
	r.Cure = r.Cure.Scaled(rate)
	r.Viscosity = r.Viscosity.Adjusted(viscosity, rate)
	return r
}
