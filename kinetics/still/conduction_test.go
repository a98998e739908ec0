package still_test

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/conduction"
	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

// inert is resin that does not react.
func inert() kinetics.Resin {
	r := medium()
	r.Cure = kinetics.NthOrder{N: 1}
	return r
}

// cooled is how far the middle of a body and its mean are from the temperature
// outside, of 1 at the start, at Fourier number tau of the length half.
func cooled(t *testing.T, body still.Body, cells int, tau float64) (middle, mean float64) {
	t.Helper()
	r := inert()
	p := still.Precision{Alpha: 1, Temperature: 1e-5, FirstStep: 1, Cells: cells}
	room := vessel.Constant(300)
	pot, err := still.New(r, body, room, room, p)
	if err != nil {
		t.Fatal(err)
	}
	start, err := pot.Uniform(vessel.State{Temperature: 400})
	if err != nil {
		t.Fatal(err)
	}
	time := tau * half * half * float64(r.Density) * float64(r.HeatCapacity) / float64(r.Conductivity)
	end, err := pot.Advance(start, 0, quantity.Time(time))
	if err != nil {
		t.Fatal(err)
	}
	return (float64(end.Hottest().Temperature) - 300) / 100, (float64(end.Mean().Temperature) - 300) / 100
}

// TestOneTerm checks the one-term solutions of the textbook at Bi 1,
//
//	Çengel, Heat and Mass Transfer, table 4-2 (seen): θ = A1·exp(−λ1²·τ),
//	slab 0.8603, 1.1191; cylinder 1.2558, 1.2071,
//
// beyond τ = 0.2, where one term is enough by the book's own rule (2 %; at τ = 1
// the second is below 1e-4). Four printed figures of λ1 give 2.5e-4 of θ there; the
// grid has 1e-4 more.
func TestOneTerm(t *testing.T) {
	rod := rodOf(1).(still.Wall)
	rod.Layers[0].Cells = 64
	for _, c := range []struct {
		name       string
		body       still.Body
		lambda, a1 float64
	}{{"slab", slabOf(1), 0.8603, 1.1191}, {"cylinder", rod, 1.2558, 1.2071}} {
		for _, tau := range []float64{1, 2} {
			got, _ := cooled(t, c.body, 17, tau)
			want := c.a1 * math.Exp(-c.lambda*c.lambda*tau)
			near(t, fmt.Sprintf("%s at τ = %g", c.name, tau), got, want, 5e-4*tau)
			outside.Check(t, outside.Row{
				ID: fmt.Sprintf("heat/one-term/%s-%g", c.name, tau), Subject: outside.Heat, Source: "cengel", Where: "table 4-2", Mark: outside.Derived,
				What:    fmt.Sprintf("middle of a %s at Bi 1 and Fourier number %g, from λ and A of the table", c.name, tau),
				Printed: strconv.FormatFloat(want, 'f', 4, 64), Within: 5e-4*tau*want + 5e-5,
				Why: "four figures of λ, and the grid",
			}, got)
		}
	}
}

// TestConvergenceOrder refines the grid of an inert rod: the error of the mean falls with
// the square of the number of cells. 0.2 is allowed for the next term.
func TestConvergenceOrder(t *testing.T) {
	var at []float64
	for _, n := range []int{4, 8, 16, 32} {
		rod := rodOf(5).(still.Wall)
		rod.Layers[0].Cells = n
		_, mean := cooled(t, rod, n, 0.3)
		at = append(at, mean)
	}
	// Three differences of halved grids: their ratio is 2 to the order.
	first, second, last := at[1]-at[0], at[2]-at[1], at[3]-at[2]
	order := math.Log2(second / last)
	t.Logf("%.6f, order %.2f then %.2f", at, math.Log2(first/second), order)
	if !(math.Abs(order-2) <= 0.2) {
		t.Errorf("order %.2f, want 2", order)
	}
}

// TestPolynomialsConverge refines the grid of an inert slab and of a cup whose floor and
// surface lose unequally: with two more cells across the error of the mean falls at least
// tenfold, until it is that of the steps.
func TestPolynomialsConverge(t *testing.T) {
	cup := still.Cup{Mass: math.Pi * half * half * 2 * half * 1110, Diameter: 2 * half, SurfaceLoss: 20, WallLoss: 60, FloorLoss: 60}
	for name, body := range map[string]still.Body{"slab": slabOf(5), "cup": cup} {
		_, exact := cooled(t, body, 11, 0.3)
		last := math.Inf(1)
		for _, n := range []int{3, 5, 7} {
			_, mean := cooled(t, body, n, 0.3)
			off := math.Abs(mean - exact)
			t.Logf("%s, %d cells: off by %.1e", name, n, off)
			if !(off <= max(last/10, 1e-7)) {
				t.Errorf("%s, %d cells: off by %.2g, with two less by %.2g", name, n, off, last)
			}
			last = off
		}
	}
}

// TestLaminate is the example of the project's facts (derived): 10 mm of laminate,
// both faces 25 W/(m²·K), k 0.35 W/(m·K), a 2e-7 m²/s, from 20 to 80 °C; the middle
// after 10 min is at 66.3 °C.
func TestLaminate(t *testing.T) {
	r := inert()
	r.Conductivity, r.Density = 0.35, 1750
	r.HeatCapacity = 0.35 / (2e-7 * 1750)
	room := celsius(80)
	pot, err := still.New(r, still.Tray{Vessel: vessel.Vessel{AreaM2: 1, SurfaceLoss: 25, WallLoss: 25, FloorLoss: 25}, Mass: 17.5}, room, room, still.Strict)
	if err != nil {
		t.Fatal(err)
	}
	start, err := pot.Uniform(fresh(20))
	if err != nil {
		t.Fatal(err)
	}
	end, err := pot.Advance(start, 0, 10*minute)
	if err != nil {
		t.Fatal(err)
	}
	middle := float64(end[len(end)/2].Temperature - quantity.Celsius(0))
	outside.Check(t, outside.Row{
		ID: "heat/laminate", Subject: outside.Heat, Mark: outside.Derived,
		What: "middle of 10 mm of laminate after 10 min, both faces 25 W/(m²·K), from 20 to 80 °C", Printed: "66.3", Unit: "°C",
	}, middle)
}

// TestSteadyTube compares a tube of two materials, heated through its wall, with
// the textbook's resistances in a row (derived): 1/(2πr·h) and ln(r2/r1)/(2πk).
func TestSteadyTube(t *testing.T) {
	const inner, middle, outer = 0.02, 0.025, 0.035
	wall := still.Wall{
		Inner: inner, Length: 1, Inside: 50, Outside: 25,
		Layers: []conduction.Layer{
			{Thickness: middle - inner, Conductivity: 15, Density: 7800, HeatCapacity: 500, Cells: 8},
			{Thickness: outer - middle, Conductivity: 0.5, Density: 1600, HeatCapacity: 1100, Resin: 500, Cells: 24},
		},
	}
	pot, err := still.New(inert(), wall, celsius(20), celsius(120), still.Strict)
	if err != nil {
		t.Fatal(err)
	}
	start, err := pot.ByLayer([]vessel.State{fresh(20), fresh(20)})
	if err != nil {
		t.Fatal(err)
	}
	end, err := pot.Advance(start, 0, 48*hour)
	if err != nil {
		t.Fatal(err)
	}
	resistance := []float64{
		1 / (2 * math.Pi * inner * 50), math.Log(middle/inner) / (2 * math.Pi * 15),
		math.Log(outer/middle) / (2 * math.Pi * 0.5), 1 / (2 * math.Pi * outer * 25),
	}
	watts := 100 / (resistance[0] + resistance[1] + resistance[2] + resistance[3])
	lost := 0.0
	for i, s := range end {
		lost += pot.Network().ToRoom[i] * float64(s.Temperature-quantity.Celsius(20))
	}
	// 24 cells over a radius that grows by 40 %: (0.4/24)²/12 and the like.
	near(t, "heat through the tube, W", lost, watts, 2e-4)
	outside.Check(t, outside.Row{
		ID: "heat/tube", Subject: outside.Heat, Mark: outside.Derived,
		What: "heat through a tube of two materials, by resistances in a row", Printed: strconv.FormatFloat(watts, 'f', 2, 64), Unit: "W",
		Within: 2e-4 * watts, Why: "24 cells over a radius that grows by 40 %",
	}, lost)
}

// TestGelConverges refines the grid of a tray that gels: with four more cells the error of
// gel falls at least tenfold, until it is that of the steps.
func TestGelConverges(t *testing.T) {
	tray := still.Tray{Vessel: vessel.Tray(0.3, 0.12, 10, 6), Mass: 0.4}
	gel := func(cells int) float64 {
		p := still.Strict
		p.Cells = cells
		m, err := inRoom(t, medium(), tray, 25, p).Milestones(fresh(25), 0, 4*hour)
		if err != nil {
			t.Fatal(err)
		}
		return float64(m.Gel)
	}
	exact := gel(25)
	last := math.Abs(gel(3)/exact - 1)
	for _, n := range []int{7, 11} {
		off := math.Abs(gel(n)/exact - 1)
		t.Logf("%d cells: gel is off by %.1e", n, off)
		if !(off <= max(last/10, 1e-7)) {
			t.Errorf("%d cells: gel is off by %.2g, with four less by %.2g", n, off, last)
		}
		last = off
	}
}
