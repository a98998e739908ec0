package still_test

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"potlife/kinetics"
	"potlife/kinetics/conduction"
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

// The problems that testdata/reference/speed.sh gives to other integrators too. They read
// cells and constants: of bath and wall those that this package computes with, so that all
// solve the same equations; of a tray and a cup, which this package follows on polynomials,
// as many equal cells as keep their own error in the range of 1e-4 and 1e-3.

// A yardstick is one of them.
type yardstick struct {
	name    string
	promise float64 // of Working precision, for the error of gel
	horizon quantity.Time
	bodies  []yardstickBody
}

// A yardstickBody is a resin in cells; a stirred bath is one cell.
type yardstickBody struct {
	resin      kinetics.Resin
	net        *conduction.Network // for the others
	start      vessel.State
	room, wall vessel.Series
	// gel solves by this module's own way; strict in steps and in cells.
	gel func(strict bool) (quantity.Time, error)
	// onNet solves strictly on the net.
	onNet func() (quantity.Time, error)
}

func yardsticks(t testing.TB) []yardstick {
	list := []yardstick{
		{"stirred bath", 1e-5, 8 * hour, []yardstickBody{stirred(medium(), vessel.Tray(0.15, 0.12, 10, 6), 1, 8*hour)}},
		{"still tray", 1e-4, 8 * hour, []yardstickBody{standingTray(t)}},
		{"still cup", 1e-4, 4 * hour, []yardstickBody{standingCup(t)}},
		{"wall", 1e-4, 10 * hour, []yardstickBody{curingWall(t)}},
		{"hundred baths", 1e-4, 8 * hour, nil},
	}
	hundred := &list[len(list)-1]
	for _, m := range ensemble.Draw(ensemble.Spread{Time: 1.6, Viscosity: 1.3, Loss: 1.3}, 100, 1) {
		trough := vessel.Tray(0.3, 0.12, vessel.UsualTraySurfaceLoss, vessel.UsualTrayWallLoss).LossesTimes(m.Loss)
		hundred.bodies = append(hundred.bodies, stirred(medium().Adjusted(m.Rate, m.Viscosity), trough, 0.5, hundred.horizon))
	}
	return list
}

// TestTwoGrids: equal cells and polynomials are two ways to cut a body, and gel at the same
// time, within the errors of the former: (0.1 + 0.35·Bi/(5 + Bi))/n² of itself in a tray and
// 0.12/n² more in a cup, measured on trays of 10 to 75 mm and cups of 40 to 200 mm.
func TestTwoGrids(t *testing.T) {
	for name, c := range map[string]struct {
		body  yardstickBody
		bound float64
	}{"tray": {standingTray(t), 0.2 / (64 * 64)}, "cup": {standingCup(t), 0.32 / (16 * 16)}} {
		want, err := c.body.gel(false)
		if err != nil {
			t.Fatal(err)
		}
		got, err := c.body.onNet()
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%s: off by %.1e, bound %.1e", name, float64(got/want)-1, c.bound)
		near(t, name, float64(got), float64(want), c.bound+1e-4) // of Working
	}
}

// stirred is a bath in a room of 25 °C: (2) of package vessel as one cell.
func stirred(r kinetics.Resin, v vessel.Vessel, mass quantity.Mass, horizon quantity.Time) yardstickBody {
	s := vessel.State{Mass: mass, Temperature: quantity.Celsius(25)}
	room := celsius(25)
	// Without resistance inside, a slab of one cell loses what a stirred bath does.
	layer := conduction.Layer{
		Thickness: v.Depth(mass, r.Density), Conductivity: quantity.Conductivity(math.Inf(1)),
		Density: r.Density, HeatCapacity: r.HeatCapacity, Resin: r.Density, Cells: 1,
	}
	wall := conduction.Face{Loss: v.WallLoss, Wall: true}
	net := conduction.Slab(v.AreaM2, []conduction.Layer{layer}, wall, conduction.Face{Loss: v.SurfaceLoss}, v.Perimeter, wall)
	gel := func(strict bool) (quantity.Time, error) {
		p := vessel.Working
		if strict {
			p = vessel.Strict
		}
		m, err := vessel.New(r, v, room, room, p).Milestones(s, 0, horizon)
		return m.Gel, err
	}
	return yardstickBody{r, net, s, room, room, gel, func() (quantity.Time, error) { return gel(true) }}
}

// standingTray is 1.5 kg, 75 mm deep; the others have 64 cells.
func standingTray(t testing.TB) yardstickBody {
	const cells, finest = 9, 25
	tray, r := deepTray(), medium()
	wall := conduction.Face{Loss: tray.Vessel.WallLoss, Wall: true}
	layer := resinIn(tray.Vessel.Depth(tray.Mass, r.Density), 64)
	net := conduction.Slab(tray.Vessel.AreaM2, []conduction.Layer{layer}, wall, conduction.Face{Loss: tray.Vessel.SurfaceLoss}, 0, conduction.Face{})
	return unstirred(t, tray, cells, finest, net, fresh(25), celsius(25), 8*hour)
}

// standingCup is 300 g in a cup as deep as wide; the others have 16 × 16 cells.
func standingCup(t testing.TB) yardstickBody {
	const cells, finest = 9, 15
	cup, r := still.Cup{Mass: 0.3, Diameter: 0.07, SurfaceLoss: 11, WallLoss: 11, FloorLoss: 11}, medium()
	wall := conduction.Face{Loss: cup.WallLoss, Wall: true}
	layer := resinIn(vessel.Cup(cup.Diameter, 0, 0).Depth(cup.Mass, r.Density), 16)
	net := conduction.Cylinder(cup.Diameter/2, 16, layer, wall, conduction.Face{Loss: cup.SurfaceLoss}, wall)
	return unstirred(t, cup, cells, finest, net, fresh(25), celsius(25), 4*hour)
}

func resinIn(thickness quantity.Length, cells int) conduction.Layer {
	r := medium()
	return conduction.Layer{
		Thickness: thickness, Conductivity: r.Conductivity, Density: r.Density,
		HeatCapacity: r.HeatCapacity, Resin: r.Density, Cells: cells,
	}
}

// unstirred is a body on so many cells of this module's own, and strictly on the finest;
// net is what the others get, nil for that of this module.
func unstirred(t testing.TB, b still.Body, cells, finest int, net *conduction.Network, start vessel.State, air vessel.Series, horizon quantity.Time) yardstickBody {
	of := func(p still.Precision, cells int) *still.Pot {
		p.Cells = cells
		pot, err := still.New(medium(), b, air, air, p)
		if err != nil {
			t.Fatal(err)
		}
		return pot
	}
	gel := func(pot *still.Pot) (quantity.Time, error) {
		states := make(still.Profile, pot.Network().Cells())
		for i := range states {
			states[i] = start
		}
		m, err := pot.Passages(states, 0, horizon)
		return m.Gel, err
	}
	if net == nil {
		net = of(still.Working, cells).Network()
	}
	return yardstickBody{
		medium(), net, start, air, air,
		func(strict bool) (quantity.Time, error) {
			if strict {
				return gel(of(still.Strict, finest))
			}
			return gel(of(still.Working, cells))
		},
		func() (quantity.Time, error) { return gel(still.OnNetwork(medium(), b, net, air, air, still.Strict)) },
	}
}

// curingWall is 30 mm of glass on a plastic liner in an oven that warms at once,
// thick-glass-on-liner of testdata/reference/wall_cases.json, cut as package
// schedule/cure cuts it.
func curingWall(t testing.TB) yardstickBody {
	air, err := vessel.NewSeries([]quantity.Time{0, hour}, []quantity.Temperature{296.15, 333.15})
	if err != nil {
		t.Fatal(err)
	}
	wall := still.Wall{Inner: 0.12, Length: 1, Inside: 5, Outside: 25, Layers: []conduction.Layer{
		{Thickness: 0.006, Conductivity: 0.45, Density: 950, HeatCapacity: 1900, Cells: 3},
		{Thickness: 0.03, Conductivity: 0.42, Density: 1850, HeatCapacity: 1150, Resin: 540, Cells: 24},
	}}
	return unstirred(t, wall, 0, 0, nil, vessel.State{Temperature: 296.15, Alpha: 0.05}, air, 10*hour)
}

// write gives the problem as numbers: cells, stride and horizon; the constants of
// cure, vitrification and gel; α and T at the start; the temperatures of room and
// wall; and of each cell what it stores, J/K, the heat of its cure, J, and what
// flows to room, wall and its two neighbours, W/K.
func (y yardstickBody) write(w io.Writer, horizon quantity.Time) {
	along, _ := y.net.Shape()
	n := y.net.Cells()
	law := y.resin.Cure.(kinetics.KamalSourour)
	glassy := y.resin.Vitrification.(kinetics.GlassShift)
	fmt.Fprintln(w, n, along, float64(horizon))
	fmt.Fprintln(w, float64(law.K1.A), float64(law.K1.E), float64(law.K2.A), float64(law.K2.E), law.M, law.N, y.resin.Gel)
	fmt.Fprintln(w, float64(glassy.Glass.Uncured), float64(glassy.Glass.Cured), glassy.Glass.Lambda, float64(glassy.Shift), glassy.C)
	fmt.Fprintln(w, y.start.Alpha, float64(y.start.Temperature))
	for _, s := range []vessel.Series{y.room, y.wall} {
		times := s.Times()
		fmt.Fprint(w, len(times))
		for _, at := range times {
			fmt.Fprint(w, " ", float64(at), " ", float64(s.At(at)))
		}
		fmt.Fprintln(w)
	}
	for i := range n {
		near, far := y.between(i, i+1), 0.0
		if along > 1 {
			far = y.between(i, i+along)
		}
		fmt.Fprintln(w, y.net.Capacity[i], y.net.Resin[i]*float64(y.resin.Heat), y.net.ToRoom[i], y.net.ToWall[i], near, far)
	}
}

// between is the conductance of two cells, asked of the network as a heat flow.
func (y yardstickBody) between(i, j int) float64 {
	n := y.net.Cells()
	if j >= n {
		return 0
	}
	kelvin, watts := make([]float64, n), make([]float64, n)
	kelvin[i] = 1
	y.net.Flow(kelvin, 0, 0, watts)
	return watts[j]
}

// TestYardsticks keeps the promise of each problem, and writes them into the folder
// that POTLIFE_SPEED names with the gel times of the strict solution on the cells told.
func TestYardsticks(t *testing.T) {
	for _, y := range yardsticks(t) {
		t.Run(y.name, func(t *testing.T) {
			for _, b := range y.bodies {
				want, err := b.gel(true)
				if err != nil {
					t.Fatal(err)
				}
				got, err := b.gel(false)
				if err != nil {
					t.Fatal(err)
				}
				near(t, "gel", float64(got), float64(want), y.promise)
			}
			if folder := os.Getenv("POTLIFE_SPEED"); folder != "" {
				y.keep(t, folder)
			}
		})
	}
}

func (y yardstick) keep(t *testing.T, folder string) {
	f, err := os.Create(filepath.Join(folder, y.name+".txt"))
	if err != nil {
		t.Fatal(err)
	}
	w := bufio.NewWriter(f)
	fmt.Fprintln(w, len(y.bodies), y.promise)
	for _, b := range y.bodies {
		strict, err := b.onNet()
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintln(w, float64(strict))
		b.write(w, y.horizon)
	}
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}

// BenchmarkYardsticks tells the error of gel beside the time, and the least time
// of all, which a busy machine lengthens less than the mean.
func BenchmarkYardsticks(b *testing.B) {
	for _, y := range yardsticks(b) {
		b.Run(y.name, func(b *testing.B) {
			worst := 0.0
			found := make([]quantity.Time, len(y.bodies))
			best := time.Duration(math.MaxInt64)
			b.ReportAllocs()
			for b.Loop() {
				began := time.Now()
				err := ensemble.Each(len(y.bodies), func() struct{} { return struct{}{} }, func(_ struct{}, i int) (err error) {
					found[i], err = y.bodies[i].gel(false)
					return err
				})
				if err != nil {
					b.Fatal(err)
				}
				best = min(best, time.Since(began))
			}
			b.StopTimer()
			for i, body := range y.bodies {
				want, err := body.gel(true)
				if err != nil {
					b.Fatal(err)
				}
				if found[i] != want { // both never, as well
					worst = math.Max(worst, math.Abs(float64(found[i]/want-1)))
				}
			}
			b.ReportMetric(worst*1e9, "ppb-of-gel")
			b.ReportMetric(float64(best.Nanoseconds()), "best-ns/op")
		})
	}
}
