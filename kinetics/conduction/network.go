package conduction

// A Network is a body as cells that store heat, exchange it with their neighbours
// and lose it outside. Cells are numbered along the direction with fewer of
// them, which keeps neighbours close.
type Network struct {
	Capacity []float64 // J/K of each cell
	Resin    []float64 // kg in each cell, the share that reacts
	ToRoom   []float64 // W/K from each cell to the room
	ToWall   []float64 // W/K from each cell to the wall or jacket

	stride  int       // from a cell to its neighbour in the other direction
	links   []link    // of cells with each other
	upright *column   // nil: not divided by a Grid
	sum     []float64 // W/K of all that leave a cell
}

// A link joins each cell i with the cell i + distance by watts[i], W/K.
type link struct {
	distance int
	watts    []float64
}

// Cells returns how many cells there are.
func (n *Network) Cells() int { return len(n.Capacity) }

// Shape returns the cells along the direction of the numbering and across it.
func (n *Network) Shape() (along, across int) { return n.stride, n.Cells() / n.stride }

// Flow writes the heat that flows into each cell, W, (1) of the package comment.
func (n *Network) Flow(kelvin []float64, roomK, wallK float64, watts []float64) {
	cells := len(watts)
	kelvin = kelvin[:cells]
	for i := range watts {
		watts[i] = n.ToRoom[i]*(roomK-kelvin[i]) + n.ToWall[i]*(wallK-kelvin[i])
	}
	for _, l := range n.links {
		g, far := l.watts[:cells-l.distance], watts[l.distance:]
		away := kelvin[l.distance:]
		for i, g := range g {
			q := g * (away[i] - kelvin[i])
			watts[i] += q
			far[i] -= q
		}
	}
}

// Fill sets b to diag(plus) less the matrix that turns temperatures into
// [Network.Flow].
func (n *Network) Fill(b *Band, plus []float64) {
	b.clear()
	for i, p := range plus {
		b.diagonal[i] = p + n.sum[i]
	}
	for _, l := range n.links {
		for i, g := range l.watts[:len(plus)-l.distance] {
			b.set(i+l.distance, l.distance, -g)
		}
	}
}

// NewBand returns a matrix that [Network.Fill] can fill.
func (n *Network) NewBand() *Band {
	width := 1
	for _, l := range n.links {
		width = max(width, l.distance)
	}
	return newBand(n.Cells(), width)
}

// A material is what a cell is made of.
type material struct {
	conductivity float64 // W/(m·K)
	capacity     float64 // J/(m³·K)
	resin        float64 // kg/m³
}

// sides are the four outsides of a body, low and high end of both directions.
type sides struct{ lowU, highU, lowV, highV Face }

// assemble builds a network from two directions, numbered along u.
func assemble(u, v line, of func(i, j int) material, out sides) *Network {
	nu, nv := u.cells(), v.cells()
	n := newNetwork(nu, nv)
	if nu > 1 {
		n.link(1, func(i, j int) float64 {
			if i+1 == nu {
				return 0
			}
			return between(u.area[i+1]*v.size[j], u.half[i], of(i, j), u.half[i+1], of(i+1, j))
		})
	}
	if nv > 1 {
		n.link(nu, func(i, j int) float64 {
			if j+1 == nv {
				return 0
			}
			return between(v.area[j+1]*u.size[i], v.half[j], of(i, j), v.half[j+1], of(i, j+1))
		})
	}
	for j := range nv {
		for i := range nu {
			c, m := j*nu+i, of(i, j)
			volume := u.size[i] * v.size[j]
			n.Capacity[c], n.Resin[c] = volume*m.capacity, volume*m.resin
			if i == 0 {
				n.lose(c, out.lowU, u.area[0]*v.size[j], u.half[0], m)
			}
			if i == nu-1 {
				n.lose(c, out.highU, u.area[nu]*v.size[j], u.half[i], m)
			}
			if j == 0 {
				n.lose(c, out.lowV, v.area[0]*u.size[i], v.half[0], m)
			}
			if j == nv-1 {
				n.lose(c, out.highV, v.area[nv]*u.size[i], v.half[j], m)
			}
		}
	}
	n.total()
	return n
}

// newNetwork is one of nu cells along and nv across, without any heat to exchange yet.
func newNetwork(nu, nv int) *Network {
	n := &Network{stride: nu}
	for _, p := range []*[]float64{&n.Capacity, &n.Resin, &n.ToRoom, &n.ToWall, &n.sum} {
		*p = make([]float64, nu*nv)
	}
	return n
}

// link joins each cell with another so far on, by what conducts tells of the first.
func (n *Network) link(distance int, conducts func(i, j int) float64) {
	watts := make([]float64, n.Cells())
	for c := range watts {
		watts[c] = conducts(c%n.stride, c/n.stride)
	}
	n.links = append(n.links, link{distance, watts})
}

// between is the conductance of two half cells in a row, (2) of the package
// comment.
func between(area, left float64, a material, right float64, b material) float64 {
	return area / (left/a.conductivity + right/b.conductivity)
}

// lose adds the conductance of half a cell and a surface in a row, (3) of the
// package comment.
func (n *Network) lose(c int, f Face, area, half float64, m material) {
	if f.Loss == 0 || area == 0 {
		return
	}
	g := area / (half/m.conductivity + 1/float64(f.Loss))
	if f.Wall {
		n.ToWall[c] += g
	} else {
		n.ToRoom[c] += g
	}
}

func (n *Network) total() {
	for i := range n.sum {
		n.sum[i] += n.ToRoom[i] + n.ToWall[i]
	}
	for _, l := range n.links {
		for i, g := range l.watts[:len(n.sum)-l.distance] {
			n.sum[i] += g
			n.sum[i+l.distance] += g
		}
	}
}
