package batches

import (
	"math"
	"math/rand/v2"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins"
)

// medium is a medium-reactive amine system with the constants of the
// catalogue's epoxy-ipda, its rates times factor.
func medium(factor float64) kinetics.Resin {
	glass := kinetics.DiBenedetto{Uncured: quantity.Celsius(-35), Cured: quantity.Celsius(120), Lambda: 0.36}
	return kinetics.Resin{
		Name: "medium",
		Cure: kinetics.KamalSourour{
			K1: kinetics.Arrhenius{A: 9.065e4, E: 56000}, K2: kinetics.Arrhenius{A: 9.065e5, E: 56000}, M: 1, N: 2,
		}.Scaled(factor),
		Vitrification: kinetics.GlassShift{Glass: glass, Shift: kinetics.DefaultShift, C: kinetics.DefaultSharpness},
		Glass:         glass,
		Viscosity: kinetics.CastroMacosko{
			Flow: kinetics.Flow{At: quantity.Celsius(25), Value: 0.6, Activation: 70000}, Gel: 0.577, A: 1.5, B: 1,
		},
		Gel: 0.577, Heat: 430e3, Density: 1110, HeatCapacity: 2200, Conductivity: 0.2,
	}
}

// bench is a small bath with units of equal layers.
func bench(layers int, minutes, grams float64) *Task {
	room := vessel.Constant(quantity.Celsius(22))
	t := &Task{
		Resin:  medium(1),
		Mix:    resins.Mix{Resin: resins.Part{ByMass: 100, Density: 1130}, Hardener: resins.Part{ByMass: 24, Density: 920}},
		Spread: ensemble.Spread{Time: 1.2, Viscosity: 1.15, Loss: 1.3},
		Room:   room, Wall: room,
		Limits: vessel.Limits{
			BathViscosity: vessel.UsualBathViscosity, LaidViscosity: vessel.UsualLaidViscosity,
			BathTemperature: vessel.UsualBathTemperature, Mandrel: room,
		},
		Reserve: 600,
		Bath:    Bath{Vessel: vessel.Tray(0.3, 0.12, 10, 6), Lowest: 0.12, Highest: 0.7, Change: 900, Pour: 60},
		Pots: Pots{
			Smallest: 0.08, Largest: 0.25, Step: 1e-4, Mixing: 300, Cup: vessel.Cup(0.09, 11, 11), LeftInCup: 0.02, Helper: true,
		},
		Pause: 180, Fibre: vessel.CarbonHeatCapacity,
	}
	for i := range layers {
		t.Units = append(t.Units, Unit{
			Layer: i, EndsLayer: true, Time: quantity.Time(minutes * 60),
			Resin: quantity.Mass(grams / 1000), FibreWeight: quantity.Mass(grams * 1.6 / 1000),
		})
	}
	return t
}

// randomTask is a small job whose limits may or may not bind.
func randomTask(r *rand.Rand) *Task {
	between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	t := bench(1+r.IntN(6), between(4, 25), between(15, 90))
	t.Resin = medium(math.Exp(between(-1, 1.8)))
	room := vessel.Constant(quantity.Celsius(between(14, 30)))
	if r.IntN(3) == 0 {
		var err error
		room, err = vessel.NewSeries([]quantity.Time{0, quantity.Time(between(2000, 9000))},
			[]quantity.Temperature{room.At(0), room.At(0) + quantity.Temperature(between(-3, 6))})
		if err != nil {
			panic(err)
		}
	}
	t.Room, t.Wall, t.Limits.Mandrel = room, room, room
	if r.IntN(4) == 0 { // a heated mandrel: layers gel under the next
		t.Limits.Mandrel = vessel.Constant(quantity.Celsius(between(50, 90)))
	}
	for i := range t.Units {
		t.Units[i].Time *= quantity.Time(between(0.6, 1.5))
		t.Units[i].Resin *= quantity.Mass(between(0.6, 1.5))
	}
	t.Bath.Lowest = quantity.Mass(between(0.05, 0.2))
	t.Bath.Highest = t.Bath.Lowest + quantity.Mass(between(0.1, 0.6))
	t.Pots.Smallest = quantity.Mass(between(0.03, 0.12))
	t.Pots.Largest = quantity.Mass(between(0.12, 0.4))
	t.Pots.Step = []quantity.Mass{1e-4, 1e-3, 5e-3}[r.IntN(3)]
	t.Pots.Helper = r.IntN(2) == 0
	if r.IntN(4) == 0 {
		t.ResinAt = quantity.Celsius(between(10, 26))
	}
	own := rand.New(rand.NewPCG(1, math.Float64bits(float64(t.Bath.Lowest)))) // the other draws stay as they were
	switch own.IntN(4) {
	case 0:
		t.Limits.Clean = vessel.Clean(600 + 8400*own.Float64())
	case 1:
		t.Limits.Clean = vessel.Uncleaned
	}
	return t
}

// sureOf is the bath that a plan of the task is first searched on.
func sureOf(t testing.TB, task *Task, z float64) Sure {
	t.Helper()
	sure, err := task.Sure(z)
	if err != nil {
		t.Fatal(err)
	}
	return sure
}
