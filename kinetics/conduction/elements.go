package conduction

import (
	"math"

	"potlife/kinetics/quantity"
)

// A Grid says where along one direction of a body of one material its temperatures are
// kept, as shares of the way: in each element between two ends at the Degree + 1 nodes of
// a polynomial. Of an odd number of elements the middle one has its middle node moved to
// Middle, where the body is hottest.
type Grid struct {
	Ends   []float64 // ascending from 0 to 1
	Middle float64   // even Degree only
	Degree int
}

// Cells is how many nodes the direction has.
func (g Grid) Cells() int { return (len(g.Ends)-1)*g.Degree + 1 }

// An axis is a direction divided by a [Grid]. A cell is what a node stands for: size is
// its share of the volume, and pull[d−1][i] the conductance between the cells i and i + d,
// both per unit of the other direction and of the conductivity; low and high are the areas
// of both ends.
type axis struct {
	size      []float64
	pull      [][]float64
	low, high float64
}

// divide puts a grid on a length; volume and conductance are volume and conducts(x) of a
// unit of length at x.
func (g Grid) divide(length, volume float64, conducts func(x float64) float64) axis {
	r := referenceOf(g.Degree)
	at, weight, slope := r.at, r.weight, r.slope
	a := axis{size: make([]float64, g.Cells()), pull: make([][]float64, g.Degree)}
	for d := range a.pull {
		a.pull[d] = make([]float64, g.Cells())
	}
	for e := range len(g.Ends) - 1 {
		from, to := g.Ends[e]*length, g.Ends[e+1]*length
		middle := (from + to) / 2
		if 2*e == len(g.Ends)-2 {
			middle = g.Middle * length
		}
		first := e * g.Degree
		for q, xi := range at {
			// A parabola takes −1, 0 and 1 to the two ends and the middle.
			x := middle + xi*(to-from)/2 + xi*xi*((from+to)/2-middle)
			stretch := (to-from)/2 + 2*xi*((from+to)/2-middle)
			a.size[first+q] += weight[q] * stretch * volume
			for i := range at {
				for j := i + 1; j <= g.Degree; j++ {
					// Minus an entry of the stiffness matrix, by the nodes' own quadrature.
					a.pull[j-i-1][first+i] -= weight[q] * conducts(x) * slope[q][i] * slope[q][j] / stretch
				}
			}
		}
	}
	return a
}

// upright is a direction at right angles to a wall or a floor.
func (g Grid) upright(height float64) axis {
	a := g.divide(height, 1, func(float64) float64 { return 1 })
	a.low, a.high = 1, 1
	return a
}

// outward is the direction away from an axis, all the way round. A smooth temperature is
// smooth in the square s of the radius; and in s the volume is even and the conductance
// 4π·s, so that the node on the axis has a volume.
func (g Grid) outward(radius float64) axis {
	a := g.divide(radius*radius, math.Pi, func(s float64) float64 { return 4 * math.Pi * s })
	a.low, a.high = 0, 2*math.Pi*radius
	return a
}

// product builds a network of one material from two directions, numbered along u.
func product(u, v axis, m material, out sides) *Network {
	nu, nv := len(u.size), len(v.size)
	n := newNetwork(nu, nv)
	for d, pull := range u.pull {
		n.link(d+1, func(i, j int) float64 { return pull[i] * v.size[j] * m.conductivity })
	}
	for d, pull := range v.pull {
		n.link((d+1)*nu, func(i, j int) float64 { return pull[j] * u.size[i] * m.conductivity })
	}
	for j := range nv {
		for i := range nu {
			c := j*nu + i
			volume := u.size[i] * v.size[j]
			n.Capacity[c], n.Resin[c] = volume*m.capacity, volume*m.resin
			if i == 0 {
				n.lose(c, out.lowU, u.low*v.size[j], 0, m)
			}
			if i == nu-1 {
				n.lose(c, out.highU, u.high*v.size[j], 0, m)
			}
			if j == 0 {
				n.lose(c, out.lowV, v.low*u.size[i], 0, m)
			}
			if j == nv-1 {
				n.lose(c, out.highV, v.high*u.size[i], 0, m)
			}
		}
	}
	n.total()
	return n
}

// mostBiot is the Biot number, by a whole thickness, that stands for a face held at the
// temperature outside.
const mostBiot = 1e4

// held makes a face that is held at the temperature outside one that loses to it fast.
func (f Face) held(l Layer) Face {
	f.Loss = min(f.Loss, quantity.HeatTransfer(mostBiot*float64(l.Conductivity)/float64(l.Thickness)))
	return f
}

// SlabOn is one material on a floor of area m² with its cells where the grid has them, and
// loses as [Slab] does; the layer's own Cells do not count.
func SlabOn(g Grid, area float64, of Layer, floor, top Face, perimeter quantity.Length, side Face) *Network {
	u := axis{size: []float64{area}, high: float64(perimeter)}
	v := g.upright(float64(of.Thickness))
	n := product(u, v, of.material(), sides{highU: side.held(of), lowV: floor.held(of), highV: top.held(of)})
	n.upright = g.column(1)
	return n
}

// CylinderOn is [Cylinder] with its cells where two grids have them; that of the radius is
// of the square of the radius.
func CylinderOn(across, up Grid, radius quantity.Length, of Layer, floor, top, side Face) *Network {
	floor, top, side = floor.held(of), top.held(of), side.held(of)
	u, v := across.outward(float64(radius)), up.upright(float64(of.Thickness))
	if len(u.size) <= len(v.size) {
		n := product(u, v, of.material(), sides{highU: side, lowV: floor, highV: top})
		n.upright = up.column(len(u.size))
		return n
	}
	n := product(v, u, of.material(), sides{lowU: floor, highU: top, highV: side})
	n.upright = up.column(1)
	return n
}

// A column is what a body needs to know of its upright direction to find a maximum between
// two cells: how far it is from a cell to the one above it, and the polynomials of the grid.
type column struct {
	rise, cells, degree int
	*reference
}

func (g Grid) column(rise int) *column {
	return &column{rise, g.Cells(), g.Degree, referenceOf(g.Degree)}
}

// Summit is the greatest value near a cell of what has its greatest value of all cells
// there, by one step of Newton's on the upright polynomial through its values. Across a
// body, between two polynomials and in a body that is not divided by a [Grid], it is the
// value of the cell.
func (n *Network) Summit(cell int, value func(cell int) float64) float64 {
	v, c := value(cell), n.upright
	if c == nil {
		return v
	}
	node := cell / c.rise % c.cells
	q := node % c.degree
	if q == 0 {
		return v // between two polynomials, or at an end
	}
	slope, bend := 0.0, 0.0
	for i, s := range c.slope[q] {
		there := value(cell + (i-q)*c.rise)
		slope += s * there
		bend += c.bend[q][i] * there
	}
	if !(bend < 0) {
		return v
	}
	// Not beyond half of the way to a neighbour, of which the summit would be nearer.
	x := math.Max((c.at[q-1]-c.at[q])/2, math.Min((c.at[q+1]-c.at[q])/2, -slope/bend))
	return math.Max(v, v+x*(slope+bend*x/2))
}
