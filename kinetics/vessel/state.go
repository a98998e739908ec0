package vessel

import (
	"math"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
)

// State is a mass of mixed resin at one moment.
type State struct {
	Mass        quantity.Mass
	Temperature quantity.Temperature
	Alpha       float64 // degree of cure
	Phi         float64 // growth integral of a dual-Arrhenius viscosity
	LogExcess   float64 // ln of the factor by which mixed ages are thicker than the mean age

	Stuck float64       // degree of cure of what has stuck to the walls since the last change
	Used  quantity.Time // since the last change
}

// LogViscosity returns ln(η/(Pa·s)), the excess of mixed ages included.
func (s State) LogViscosity(r *kinetics.Resin) float64 {
	return r.LogViscosity(s.Alpha, s.Phi, float64(s.Temperature)) + s.LogExcess
}

// Viscosity returns η, +Inf at and beyond gel.
func (s State) Viscosity(r *kinetics.Resin) quantity.Viscosity {
	if s.Alpha >= r.Gel {
		return quantity.Viscosity(math.Inf(1))
	}
	return quantity.Viscosity(math.Exp(s.LogViscosity(r)))
}

// Pour returns what stands in the vessel after fresh has been poured onto heel
// and mixed: α and φ by mass, heat by m·cp·T, the viscosity at least the
// log-mass mean of both (package comment). What has stuck in the vessel stays. Pouring
// onto nothing gives fresh, in a clean vessel.
func Pour(r *kinetics.Resin, heel, fresh State) State {
	total := heel.Mass + fresh.Mass
	if heel.Mass <= 0 || total <= 0 {
		fresh.Stuck, fresh.Used = fresh.Alpha, 0
		return fresh
	}
	w := float64(heel.Mass / total)
	mix := func(a, b float64) float64 { return w*a + (1-w)*b }
	mixed := State{
		Mass:        total,
		Temperature: quantity.Temperature(mix(float64(heel.Temperature), float64(fresh.Temperature))),
		Alpha:       mix(heel.Alpha, fresh.Alpha),
		Phi:         mix(heel.Phi, fresh.Phi),
		Stuck:       math.Max(heel.Stuck, math.Max(heel.Alpha, fresh.Alpha)),
		Used:        heel.Used,
	}
	if heel.Used == 0 { // pots of one fill
		mixed.Stuck = mixed.Alpha
	}
	growth := func(s State) float64 { return r.Viscosity.LogGrowth(s.Alpha, s.Phi) + s.LogExcess }
	mixed.LogExcess = math.Max(0, mix(growth(heel), growth(fresh))-r.Viscosity.LogGrowth(mixed.Alpha, mixed.Phi))
	return mixed
}

// A Tow is what winding does to the bath; the zero Tow stands still.
type Tow struct {
	DrawKgPerS   float64               // resin carried off, kg/s
	FibreKgPerS  float64               // fibre through the bath, kg/s
	HeatCapacity quantity.HeatCapacity // of the fibre
}

// Heat capacities of fibres, from memory.
const (
	CarbonHeatCapacity quantity.HeatCapacity = 750
	GlassHeatCapacity  quantity.HeatCapacity = 800
)
