package weighing_test

import (
	"math"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/schedule/weighing"
)

// A tube is what a part truly is; its readings follow from it.
type tube struct {
	fibre, byMass, voids       float64 // kg, of part and trimmings; shares
	trimmings, mandrel, lost   float64 // kg
	fibreDensity, resinDensity float64
}

func carbonTube() tube {
	return tube{fibre: 0.8, byMass: 0.62, voids: 0.015, trimmings: 0.045, mandrel: 3.2, lost: 0.012, fibreDensity: 1800, resinDensity: 1200}
}

func (c tube) laid() float64 { return c.fibre / c.byMass }

func (c tube) density() float64 {
	return (1 - c.voids) / (c.byMass/c.fibreDensity + (1-c.byMass)/c.resinDensity)
}

// scales are the readings that a crew has anyway: part, trimmings, resin.
func (c tube) scales() weighing.Input {
	resin := c.laid() - c.fibre
	return weighing.Input{
		Part:      weighing.Of(quantity.Mass(c.mandrel + c.laid() - c.trimmings)),
		Mandrel:   weighing.Of(quantity.Mass(c.mandrel)),
		Trimmings: weighing.Of(quantity.Mass(c.trimmings)),
		Mixed:     weighing.Of(quantity.Mass(resin + 0.1 + c.lost)),
		LeftOver:  weighing.Of(quantity.Mass(0.05)), Cups: weighing.Of(quantity.Mass(0.02)),
		Rags: weighing.Of(quantity.Mass(0.02)), Drips: weighing.Of(quantity.Mass(0.01)),
		FibreDensity: weighing.Of(quantity.Density(c.fibreDensity)),
		ResinDensity: weighing.Of(quantity.Density(c.resinDensity)),
		Target:       resins.FibreFraction{Value: 0.62, Basis: resins.ByMass},
		Scale:        0.001, Balance: 1e-6,
	}
}

func (c tube) withTow(in weighing.Input) weighing.Input {
	in.Tow, in.Tex, in.Tows = weighing.Of(quantity.Length(c.fibre/(4*800e-6))), weighing.Of(quantity.LinearDensity(800e-6)), 4
	return in
}

func (c tube) withSpool(in weighing.Input) weighing.Input {
	in.SpoolBefore, in.SpoolAfter = weighing.Of(quantity.Mass(2.4)), weighing.Of(quantity.Mass(2.4-c.fibre))
	return in
}

func (c tube) withCoupon(in weighing.Input) weighing.Input {
	in.Coupon, in.Residue = weighing.Of(quantity.Mass(2e-3)), weighing.Of(quantity.Mass(2e-3*c.byMass))
	return in
}

func (c tube) withWater(in weighing.Input) weighing.Input {
	bath, _ := weighing.WaterDensity(quantity.Celsius(21))
	in.Air, in.Water = weighing.Of(quantity.Mass(5e-3)), weighing.Of(quantity.Mass(5e-3*(1-float64(bath)/c.density())))
	in.WaterTemperature = weighing.Of(quantity.Celsius(21))
	return in
}

func (c tube) withWall(in weighing.Input) weighing.Input {
	in.Plies, in.ArealWeight = 8, weighing.Of(quantity.ArealWeight(0.2667))
	byVolume := c.byMass * c.density() / c.fibreDensity
	in.Thickness = weighing.Of(weighing.Wall(8, 0.2667, quantity.Density(c.fibreDensity), quantity.Fraction(byVolume)))
	return in
}

func (c tube) everything() weighing.Input {
	return c.withWall(c.withWater(c.withCoupon(c.withSpool(c.withTow(c.scales())))))
}

func weigh(t *testing.T, in weighing.Input) *weighing.Result {
	t.Helper()
	r, err := weighing.Weigh(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// all are the warnings of a type.
func all[W warning.Warning](list []warning.Warning) []W {
	var found []W
	for _, w := range list {
		if one, is := w.(W); is {
			found = append(found, one)
		}
	}
	return found
}

// exactly allows for rounding, amplified where a piece hangs in water.
func exactly(t *testing.T, what string, got, want float64) {
	t.Helper()
	near(t, what, got, want, 1e-12*math.Max(1, math.Abs(want)))
}
