package conduction

import (
	"math"
	"math/rand/v2"
	"testing"

	"potlife/kinetics/quantity"
)

func resinLayer(thickness quantity.Length, cells int) Layer {
	return Layer{Thickness: thickness, Conductivity: 0.2, Density: 1100, HeatCapacity: 2200, Resin: 1100, Cells: cells}
}

// moved is one polynomial with its middle off the middle; skinned has three.
var (
	moved   = Grid{Ends: []float64{0, 1}, Middle: 0.4, Degree: 6}
	skinned = Grid{Ends: []float64{0, 0.2, 0.8, 1}, Middle: 0.55, Degree: 4}
)

func bodies() map[string]*Network {
	air, water := Face{Loss: 11}, Face{Loss: 100, Wall: true}
	steel := Layer{Thickness: 0.004, Conductivity: 45, Density: 7800, HeatCapacity: 480, Cells: 3}
	return map[string]*Network{
		"slab":                      Slab(0.036, []Layer{resinLayer(0.01, 12)}, water, air, 0.84, water),
		"one cell":                  Slab(0.036, []Layer{resinLayer(0.01, 1)}, water, air, 0.84, water),
		"tube":                      Tube(0.04, 2, []Layer{steel, resinLayer(0.01, 9)}, air, air),
		"solid rod":                 Tube(0, 2, []Layer{resinLayer(0.02, 9)}, air, air),
		"tall cup":                  Cylinder(0.02, 5, resinLayer(0.08, 12), water, air, water),
		"flat cup":                  Cylinder(0.05, 13, resinLayer(0.01, 4), water, air, water),
		"slab of three polynomials": SlabOn(skinned, 0.036, resinLayer(0.01, 0), water, air, 0.84, water),
		"tall cup of polynomials":   CylinderOn(moved, skinned, 0.02, resinLayer(0.08, 0), water, air, water),
		"flat cup of polynomials":   CylinderOn(skinned, moved, 0.05, resinLayer(0.01, 0), water, air, water),
	}
}

// TestMeasures compares capacity, resin and the heat lost by a body of one
// temperature with its volume and surfaces: (3) with a large k is A·h.
func TestMeasures(t *testing.T) {
	const radius, height = 0.03, 0.05
	l := resinLayer(height, 7)
	l.Conductivity = 1e9
	for _, across := range []int{6, 9} { // numbered along the radius, along the height
		measure(t, Cylinder(radius, across, l, Face{Loss: 5, Wall: true}, Face{Loss: 11}, Face{Loss: 7, Wall: true}), radius, height)
	}
	measure(t, CylinderOn(moved, skinned, radius, l, Face{Loss: 5, Wall: true}, Face{Loss: 11}, Face{Loss: 7, Wall: true}), radius, height)
	measure(t, CylinderOn(skinned, moved, radius, l, Face{Loss: 5, Wall: true}, Face{Loss: 11}, Face{Loss: 7, Wall: true}), radius, height)
}

func measure(t *testing.T, n *Network, radius, height float64) {
	t.Helper()
	volume := math.Pi * radius * radius * height
	var capacity, resin, room, wall float64
	for i := range n.Capacity {
		capacity, resin = capacity+n.Capacity[i], resin+n.Resin[i]
		room, wall = room+n.ToRoom[i], wall+n.ToWall[i]
	}
	floor := math.Pi * radius * radius
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"capacity", capacity, volume * 1100 * 2200},
		{"resin", resin, volume * 1100},
		{"to the room", room, 11 * floor},
		{"to the wall", wall, 5*floor + 7*2*math.Pi*radius*height},
	} {
		// Sums of some forty terms, and half a cell of k = 1e9.
		if !(math.Abs(c.got-c.want) <= 1e-9*c.want) {
			t.Errorf("%s is %.12g, want %.12g", c.what, c.got, c.want)
		}
	}
}

// TestFlowKeepsHeat: what flows inside a body adds up to nothing.
func TestFlowKeepsHeat(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for name, n := range bodies() {
		kelvin, watts := make([]float64, n.Cells()), make([]float64, n.Cells())
		out := 0.0
		for i := range kelvin {
			kelvin[i] = 300 + 50*random.Float64()
			out += n.ToRoom[i]*(290-kelvin[i]) + n.ToWall[i]*(310-kelvin[i])
		}
		n.Flow(kelvin, 290, 310, watts)
		sum, size := 0.0, 0.0
		for _, w := range watts {
			sum, size = sum+w, size+math.Abs(w)
		}
		if !(math.Abs(sum-out) <= 1e-12*size) {
			t.Errorf("%s: %.12g W in all, %.12g W from outside", name, sum, out)
		}
	}
}

// TestSolve: the solution of (diag(plus) − flow)·x = b, put into Flow, gives b. A
// hundred cells lose a few digits of 16.
func TestSolve(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for name, n := range bodies() {
		cells := n.Cells()
		plus, b, x, watts := make([]float64, cells), make([]float64, cells), make([]float64, cells), make([]float64, cells)
		for i := range b {
			plus[i], b[i] = n.Capacity[i]*0.01*random.Float64(), random.NormFloat64()
		}
		copy(x, b)
		band := n.NewBand()
		n.Fill(band, plus)
		if !band.Factor() {
			t.Fatalf("%s: no factors", name)
		}
		band.Solve(x)
		n.Flow(x, 0, 0, watts)
		for i := range b {
			if got := plus[i]*x[i] - watts[i]; !(math.Abs(got-b[i]) <= 1e-10) {
				t.Errorf("%s: row %d gives %.12g, want %.12g", name, i, got, b[i])
			}
		}
	}
}

// TestIndefinite: a source stronger than all that holds it is told.
func TestIndefinite(t *testing.T) {
	for name, n := range bodies() {
		plus := make([]float64, n.Cells())
		for i := range plus {
			plus[i] = -1e3
		}
		band := n.NewBand()
		n.Fill(band, plus)
		if band.Factor() {
			t.Errorf("%s: factored an indefinite matrix", name)
		}
		plus[0] = math.NaN()
		n.Fill(band, plus)
		if band.Factor() {
			t.Errorf("%s: factored a NaN", name)
		}
	}
}
