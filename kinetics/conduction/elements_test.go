package conduction

import (
	"math"
	"testing"
)

// TestLobatto: the weights integrate powers up to twice the degree less one exactly, and
// the slopes are those of any polynomial of the degree.
func TestLobatto(t *testing.T) {
	for degree := 1; degree <= 16; degree++ {
		at, weight := lobatto(degree)
		for power := range 2 * degree {
			sum := 0.0
			for i, x := range at {
				sum += weight[i] * math.Pow(x, float64(power))
			}
			want := 0.0
			if power%2 == 0 {
				want = 2 / float64(power+1)
			}
			if !(math.Abs(sum-want) <= 1e-13) {
				t.Errorf("degree %d: the integral of x^%d is %.15g, want %.15g", degree, power, sum, want)
			}
		}
		for q, row := range slopes(at) {
			slope := 0.0
			for i, x := range at {
				slope += row[i] * math.Pow(x, float64(degree))
			}
			if want := float64(degree) * math.Pow(at[q], float64(degree-1)); !(math.Abs(slope-want) <= 1e-10) {
				t.Errorf("degree %d: the slope of x^%[1]d at node %d is %.12g, want %.12g", degree, q, slope, want)
			}
		}
	}
}

// places are where the cells of a grid lie, as shares of the way.
func places(g Grid) []float64 {
	at, _ := lobatto(g.Degree)
	list := make([]float64, g.Cells())
	for e := range len(g.Ends) - 1 {
		for q, xi := range at {
			list[e*g.Degree+q] = g.Ends[e] + (g.Ends[e+1]-g.Ends[e])*(1+xi)/2
		}
	}
	return list
}

// TestFlowOfAParabola: into each cell of a cylinder inside which the temperature is
// a·z² + b·r² flows k·(2a + 4b) a m³, as Laplace's operator says; at the surface it is less
// what the insulated face does not let in. However the cells are numbered, and with one
// polynomial or three.
func TestFlowOfAParabola(t *testing.T) {
	const radius, depth, a, b = 0.04, 0.07, 5e3, 8e3
	one := Grid{Ends: []float64{0, 1}, Middle: 0.5, Degree: 4}
	three := Grid{Ends: []float64{0, 0.2, 0.8, 1}, Middle: 0.5, Degree: 3}
	for name, c := range map[string]struct{ across, up Grid }{"along the radius": {one, three}, "along the height": {three, one}} {
		n := CylinderOn(c.across, c.up, radius, resinLayer(depth, 0), Face{}, Face{}, Face{})
		s, z := places(c.across), places(c.up)
		along, _ := n.Shape()
		kelvin, watts := make([]float64, n.Cells()), make([]float64, n.Cells())
		of := func(cell int) (i, j int) { // of the radius, of the height
			if along == len(s) && len(s) <= len(z) {
				return cell % along, cell / along
			}
			return cell / along, cell % along
		}
		for cell := range kelvin {
			i, j := of(cell)
			kelvin[cell] = 300 + a*math.Pow(depth*z[j], 2) + b*radius*radius*s[i]
		}
		n.Flow(kelvin, 0, 0, watts)
		for cell := range kelvin {
			i, j := of(cell)
			if i == len(s)-1 || j == 0 || j == len(z)-1 {
				continue
			}
			want := 0.2 * (2*a + 4*b) * n.Capacity[cell] / (1100 * 2200)
			if !(math.Abs(watts[cell]-want) <= 1e-9*want) {
				t.Errorf("%s: into cell %d flow %.9g W, want %.9g", name, cell, watts[cell], want)
			}
		}
	}
}

// TestSummit: between two cells of a column the greatest value of a parabola is found
// exactly, wherever the middle was moved to; off a column and at its ends it is the cell's.
func TestSummit(t *testing.T) {
	g := Grid{Ends: []float64{0, 1}, Middle: 0.5, Degree: 6}
	z := places(g)
	slab := SlabOn(g, 1, resinLayer(0.05, 0), Face{}, Face{}, 0, Face{})
	at := func(top float64) func(int) float64 {
		return func(cell int) float64 { return 7 - math.Pow(z[cell]-top, 2) }
	}
	if got := slab.Summit(3, at(0.53)); !(math.Abs(got-7) <= 1e-12) {
		t.Errorf("%.15g, want 7", got)
	}
	if got, want := slab.Summit(6, at(1)), at(1)(6); got != want {
		t.Errorf("at the surface %.15g, want %.15g", got, want)
	}
	if got, want := Slab(1, []Layer{resinLayer(0.05, 6)}, Face{}, Face{}, 0, Face{}).Summit(3, func(c int) float64 { return float64(c % 4) }), 3.0; got != want {
		t.Errorf("without a grid %.15g, want %.15g", got, want)
	}
}
