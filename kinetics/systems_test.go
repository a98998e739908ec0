package kinetics_test

import (
	"potlife/kinetics"
	"potlife/kinetics/quantity"
)

// system is one resin as the built-in catalogue starts from it. Every prefactor
// is set to an anchor and none is a published fit; this package must not read
// files, so the constants stand here.
type system struct {
	a1, a2, e   float64 // 1/s, 1/s, J/mol
	gel         float64
	glass       kinetics.DiBenedetto
	at, value   float64 // °C, Pa·s
	activation  float64 // J/mol
	heat        float64 // J/kg
	density, cp float64
}

func glass(uncured, cured, lambda float64) kinetics.DiBenedetto {
	return kinetics.DiBenedetto{Uncured: quantity.Celsius(uncured), Cured: quantity.Celsius(cured), Lambda: lambda}
}

var systems = map[string]system{
	"epoxy-teta":                {2.362e5, 2.362e6, 56000, 0.447, glass(-33, 124, 0.42), 25, 0.8, 75000, 486e3, 1130, 2200},
	"epoxy-ipda":                {9.065e4, 9.065e5, 56000, 0.577, glass(-35, 120, 0.36), 25, 0.6, 70000, 430e3, 1110, 2200},
	"epoxy-polyetheramine-ipda": {3.533e4, 3.533e5, 55000, 0.577, glass(-40, 95, 0.42), 25, 0.3, 65500, 425e3, 1100, 2200},
	"epoxy-polyetheramine":      {1.731e4, 1.731e5, 54000, 0.577, glass(-42, 90, 0.42), 25, 0.5, 65000, 410e3, 1100, 2200},
	"epoxy-mthpa":               {9.202e6, 9.202e7, 73500, 0.55, glass(-40, 135, 0.42), 25, 0.7, 65000, 325e3, 1190, 2000},
	"epoxy-mpda":                {4.274e4, 5.343e5, 58000, 0.577, glass(-20, 160, 0.42), 50, 0.5, 75000, 470e3, 1160, 2100},
}

// coldCure are those that are left to cure in the room.
var coldCure = []string{"epoxy-teta", "epoxy-ipda", "epoxy-polyetheramine-ipda", "epoxy-polyetheramine"}

// resin builds the system with the usual vitrification.
func resin(name string) kinetics.Resin {
	s, ok := systems[name]
	if !ok {
		panic("no system " + name)
	}
	return kinetics.Resin{
		Name: name,
		Cure: kinetics.KamalSourour{
			K1: kinetics.Arrhenius{A: quantity.Rate(s.a1), E: quantity.MolarEnergy(s.e)},
			K2: kinetics.Arrhenius{A: quantity.Rate(s.a2), E: quantity.MolarEnergy(s.e)}, M: 1, N: 2,
		},
		Vitrification: kinetics.GlassShift{Glass: s.glass, Shift: kinetics.DefaultShift, C: kinetics.DefaultSharpness},
		Glass:         s.glass,
		Viscosity: kinetics.CastroMacosko{
			Flow: kinetics.Flow{At: quantity.Celsius(s.at), Value: quantity.Viscosity(s.value), Activation: quantity.MolarEnergy(s.activation)},
			Gel:  s.gel, A: 1.5, B: 1,
		},
		Gel: s.gel, Heat: quantity.SpecificEnergy(s.heat), Density: quantity.Density(s.density), HeatCapacity: quantity.HeatCapacity(s.cp),
	}
}
