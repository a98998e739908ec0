package kinetics

import (
	"math"

	"potlife/kinetics/quantity"
)

// A ViscosityLaw gives ln(η / (Pa·s)) as the sum of a flow part, which depends
// on temperature alone, and a growth part, which depends on the age alone. The
// list is closed: [CastroMacosko] and [DualArrhenius].
type ViscosityLaw interface {
	// LogFresh returns ln(η/(Pa·s)) of the unreacted mix at kelvin.
	LogFresh(kelvin float64) float64
	// LogGrowth returns what cure adds to it at conversion alpha and growth
	// integral phi; it never returns an infinity, see [LogGrowthAtGel].
	LogGrowth(alpha, phi float64) float64
	// PhiRate returns dφ/dt in 1/s at kelvin, 0 where the law has no φ.
	PhiRate(kelvin float64) float64
	// Reference returns the viscosity of the fresh mix that the law is tied to, and its
	// temperature.
	Reference() (quantity.Viscosity, quantity.Temperature)
	// FlowEnergy returns the activation energy of the flow.
	FlowEnergy() quantity.MolarEnergy
	// HasPhi tells whether the law uses φ.
	HasPhi() bool
	// Adjusted returns the law with its viscosity and its own rate, if it has
	// one, times a factor each.
	Adjusted(viscosity, rate float64) ViscosityLaw
}

// LogGrowthAtGel stands for the infinite growth at and beyond gel: e^60 times
// the fresh viscosity is beyond any limit, and a root finder can work with it.
const LogGrowthAtGel = 60.0

// Flow is the Arrhenius temperature dependence that both laws share:
// η = Value at the temperature At, with the flow energy Activation.
type Flow struct {
	At         quantity.Temperature
	Value      quantity.Viscosity
	Activation quantity.MolarEnergy
}

// LogFresh returns ln(η/(Pa·s)) at kelvin.
func (f Flow) LogFresh(kelvin float64) float64 {
	return math.Log(float64(f.Value)) + float64(f.Activation)/GasConstant*(1/kelvin-1/float64(f.At))
}

// Reference returns Value and At.
func (f Flow) Reference() (quantity.Viscosity, quantity.Temperature) { return f.Value, f.At }

// FlowEnergy returns Activation.
func (f Flow) FlowEnergy() quantity.MolarEnergy { return f.Activation }

// CastroMacosko is the law (8) of the package comment: a power law that runs
// to infinity at gel.
type CastroMacosko struct {
	Flow
	Gel  float64 // α_gel
	A, B float64 // dimensionless
}

// LogGrowth returns (a + bα)·ln(α_gel/(α_gel − α)).
func (v CastroMacosko) LogGrowth(alpha, _ float64) float64 {
	alpha = unit(alpha)
	if alpha >= v.Gel {
		return LogGrowthAtGel
	}
	return math.Min((v.A+v.B*alpha)*math.Log(v.Gel/(v.Gel-alpha)), LogGrowthAtGel)
}

// PhiRate returns 0: the law has no φ.
func (v CastroMacosko) PhiRate(float64) float64 { return 0 }

// HasPhi returns false.
func (v CastroMacosko) HasPhi() bool { return false }

// Adjusted returns the law with its viscosity times the factor viscosity; the
// growth follows the conversion, so rate changes nothing here.
func (v CastroMacosko) Adjusted(viscosity, _ float64) ViscosityLaw {
	v.Value *= quantity.Viscosity(viscosity)
	return v
}

// DualArrhenius is the law (9) of the package comment: exponential growth, all
// that most data sheets can feed. It knows no gel by itself.
type DualArrhenius struct {
	Flow
	Growth Arrhenius // k_g
}

// LogGrowth returns φ.
func (v DualArrhenius) LogGrowth(_, phi float64) float64 { return math.Min(phi, LogGrowthAtGel) }

// PhiRate returns dφ/dt = k_g·exp(−E_g/(R·T)) in 1/s.
func (v DualArrhenius) PhiRate(kelvin float64) float64 { return v.Growth.At(kelvin) }

// HasPhi returns true.
func (v DualArrhenius) HasPhi() bool { return true }

// Adjusted returns the law with its viscosity and its growth rate scaled.
func (v DualArrhenius) Adjusted(viscosity, rate float64) ViscosityLaw {
	v.Value *= quantity.Viscosity(viscosity)
	v.Growth = v.Growth.scaled(rate)
	return v
}
