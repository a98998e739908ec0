package still

import (
	"fmt"
	"testing"
	"time"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still/rosenbrock"
	"potlife/kinetics/vessel"
)

func zmedium() kinetics.Resin {
	glass := kinetics.DiBenedetto{Uncured: quantity.Celsius(-35), Cured: quantity.Celsius(120), Lambda: 0.36}
	return kinetics.Resin{
		Cure: kinetics.KamalSourour{
			K1: kinetics.Arrhenius{A: 9.065e4, E: 56000}, K2: kinetics.Arrhenius{A: 9.065e5, E: 56000}, M: 1, N: 2,
		},
		Vitrification: kinetics.GlassShift{Glass: glass, Shift: kinetics.DefaultShift, C: kinetics.DefaultSharpness},
		Glass:         glass,
		Viscosity: kinetics.CastroMacosko{
			Flow: kinetics.Flow{At: quantity.Celsius(25), Value: 0.6, Activation: 70000}, Gel: 0.577, A: 1.5, B: 1,
		},
		Gel: 0.577, Heat: 430e3, Density: 1110, HeatCapacity: 2200, Conductivity: 0.2,
	}
}

func TestZ(t *testing.T) {
	room := vessel.Constant(quantity.Celsius(25))
	for _, c := range []struct {
		name  string
		body  Body
		cells int
		hor   quantity.Time
	}{
		{"tray", Tray{Vessel: vessel.Tray(0.15, 0.12, 10, 6), Mass: 1.5}, 64, 8 * 3600},
		{"cup", Cup{Mass: 0.3, Diameter: 0.07, SurfaceLoss: 11, WallLoss: 11}, 16, 4 * 3600},
		{"smallcup", Cup{Mass: 0.1, Diameter: 0.05, SurfaceLoss: 11, WallLoss: 11}, 16, 8 * 3600},
	} {
		var ref vessel.Milestones
		run := func(p Precision, m *rosenbrock.Tableau) {
			p.Cells = c.cells
			pot, err := New(zmedium(), c.body, room, room, p)
			if err != nil {
				t.Fatal(err)
			}
			pot.solver = rosenbrock.New(pot.system, m, rosenbrock.Tolerance{Rel:p.Rel,Abs: absOf(pot),Origin: pot.origin})
			t0 := time.Now()
			ms, err := pot.Milestones(vessel.State{Temperature: quantity.Celsius(25)}, 0, c.hor)
			d := time.Since(t0)
			if ref.Gel == 0 {
				ref = ms
			}
			fmt.Printf("%-9s %d stages tol %.0e %.0e: gel %.4f err %8.1e dbl %8.1e peak %.3f err %6.3f at err %8.1e rhs %d steps %d %v %v\n", c.name, len(m.Nodes()), p.Alpha, float64(p.Temperature), ms.Gel, float64((ms.Gel-ref.Gel)/ref.Gel), float64((ms.Doubled-ref.Doubled)/ref.Doubled), float64(ms.Peak), float64(ms.Peak-ref.Peak), float64((ms.PeakAt-ref.PeakAt)/ref.PeakAt), pot.Evaluations(), pot.Evaluations()/len(m.Nodes()), d.Round(10*time.Microsecond), err)
		}
		run(Precision{Alpha: 1e-8, Temperature: 1e-5, FirstStep: 1}, &rosenbrock.RODAS5P)
		for _, m := range []*rosenbrock.Tableau{&rosenbrock.RODASP} {
			for _, rel := range []float64{3e-3, 1e-3, 5e-4, 2e-4} {
			for _, tol := range []float64{1e-4, 3e-5, 1e-5} {
				fmt.Print(rel, " ")
				run(Precision{Rel: rel, Alpha: tol, Temperature: quantity.TemperatureDifference(tol * 200), FirstStep: 60}, m)
			}}
		}
	}
}

func absOf(p *Pot) []float64 {
	n := p.system.n
	abs := make([]float64, len(p.y))
	for i := range abs {
		abs[i] = p.precision.Alpha
		if i >= n && i < 2*n {
			abs[i] = float64(p.precision.Temperature)
		}
	}
	return abs
}
