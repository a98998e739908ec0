package resins_test

import (
	"math"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
)

// constants are the numbers that the catalogue was written from. Source: the
// project's own constants table; they are what the project chose, not outside
// evidence, and the test only guards the files against slips of the pen. What
// each number rests on stands under evidence in its file.
//
// One entry is no copy: epoxy-mthpa has 90 phr of anhydride and about 1 phr of
// amine, weighed as one hardener of 91.
var constants = []struct {
	name                                  string
	a1, a2, e                             float64 // 1/s, J/mol; E1 = E2 in every set
	heat, gel                             float64 // J/g
	uncured, cured, lambda                float64 // °C
	viscosityAt, viscosity, flow          float64 // °C, Pa·s, J/mol
	density, heatCapacity, conductivity   float64 // kg/m³, J/(kg·K), W/(m·K)
	phr, resinDensity, hardenerDensity    float64 // g/cm³
	spreadTime, spreadViscosity, from, to float64 // °C
}{
	{"epoxy-teta", 2.362e5, 2.362e6, 56000, 486, 0.447, -33, 124, 0.42, 25, 0.8, 75000, 1130, 2200, 0.20, 13, 1.13, 0.98, 1.6, 1.3, 15, 60},
	{"epoxy-ipda", 9.065e4, 9.065e5, 56000, 430, 0.577, -35, 120, 0.36, 25, 0.6, 70000, 1110, 2200, 0.20, 24, 1.13, 0.92, 1.6, 1.3, 15, 80},
	{"epoxy-polyetheramine-ipda", 3.533e4, 3.533e5, 55000, 425, 0.577, -40, 95, 0.42, 25, 0.30, 65500, 1100, 2200, 0.19, 30, 1.15, 0.94, 1.6, 1.3, 15, 80},
	{"epoxy-polyetheramine", 1.731e4, 1.731e5, 54000, 410, 0.577, -42, 90, 0.42, 25, 0.5, 65000, 1100, 2200, 0.19, 32, 1.15, 0.95, 1.6, 1.3, 20, 90},
	{"epoxy-mthpa", 9.202e6, 9.202e7, 73500, 325, 0.55, -40, 135, 0.42, 25, 0.7, 65000, 1190, 2000, 0.20, 91, 1.17, 1.22, 2.0, 1.5, 30, 130},
	{"epoxy-mpda", 4.274e4, 5.343e5, 58000, 470, 0.577, -20, 160, 0.42, 50, 0.5, 75000, 1160, 2100, 0.20, 14.5, 1.16, 1.14, 2.0, 1.5, 50, 120},
}

// TestCatalogueConstants compares each file with the table; the only errors are
// those of turning units.
func TestCatalogueConstants(t *testing.T) {
	for _, c := range constants {
		r := load(t, c.name)
		k := r.Kinetics
		law, ok := k.Cure.(kinetics.KamalSourour)
		flow, alsoOK := k.Viscosity.(kinetics.CastroMacosko)
		glass, thirdOK := k.Vitrification.(kinetics.GlassShift)
		if !ok || !alsoOK || !thirdOK {
			t.Errorf("%s has the laws %T, %T and %T", c.name, k.Cure, k.Viscosity, k.Vitrification)
			continue
		}
		for _, v := range []struct {
			what      string
			got, want float64
		}{
			{"A1", float64(law.K1.A), c.a1},
			{"A2", float64(law.K2.A), c.a2},
			{"E1", float64(law.K1.E), c.e},
			{"E2", float64(law.K2.E), c.e},
			{"m", law.M, 1},
			{"n", law.N, 2},
			{"heat", k.Heat.In("J/g"), c.heat},
			{"gel", k.Gel, c.gel},
			{"gel of the viscosity", flow.Gel, c.gel},
			{"uncured", k.Glass.Uncured.Celsius(), c.uncured},
			{"cured", k.Glass.Cured.Celsius(), c.cured},
			{"lambda", k.Glass.Lambda, c.lambda},
			{"viscosity at", flow.At.Celsius(), c.viscosityAt},
			{"viscosity", float64(flow.Value), c.viscosity},
			{"flow energy", float64(flow.Activation), c.flow},
			{"a", flow.A, 1.5},
			{"b", flow.B, 1},
			{"density", float64(k.Density), c.density},
			{"heat capacity", float64(k.HeatCapacity), c.heatCapacity},
			{"conductivity", float64(k.Conductivity), c.conductivity},
			{"phr", r.Mix.HardenerByMass(), c.phr},
			{"resin's density", float64(r.Mix.Resin.Density) / 1000, c.resinDensity},
			{"hardener's density", float64(r.Mix.Hardener.Density) / 1000, c.hardenerDensity},
			{"spread of time", r.Spread.Time, c.spreadTime},
			{"spread of viscosity", r.Spread.Viscosity, c.spreadViscosity},
			{"valid from", r.Valid.From.Celsius(), c.from},
			{"valid to", r.Valid.To.Celsius(), c.to},
			{"shift", float64(glass.Shift), 10},
			{"sharpness", glass.C, 60},
		} {
			// 273.15 K and back costs 1e-13 K, an SI prefix one rounding.
			if !(math.Abs(v.got-v.want) <= 1e-12*math.Max(math.Abs(v.want), 100)) {
				t.Errorf("%s: %s is %v, the table has %v", c.name, v.what, v.got, v.want)
			}
		}
	}
}

// TestMixDensityNearTheLiquids: the density of the liquid mix that a file states
// is that of its parts together, to 3 %: three recalled densities, each good to
// about 1 %.
func TestMixDensityNearTheLiquids(t *testing.T) {
	for _, c := range constants {
		r := load(t, c.name)
		if off := float64(r.Mix.Density()/r.Kinetics.Density) - 1; !(math.Abs(off) <= 0.03) {
			t.Errorf("%s: the parts make %v, the file says %v", c.name, r.Mix.Density(), quantity.Density(c.density))
		}
	}
}
