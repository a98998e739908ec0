package conduction

// A Network is a body as cells that store heat, exchange it with their neighbours
// and lose it outside. Cells are numbered along the direction with fewer of
// them, which keeps neighbours close.
type Network struct {
	Capacity []float64 // J/K of each cell
	Resin    []float64 // kg in each cell, the share that reacts
	ToRoom   []float64 // W/K from each cell to the room
	ToWall   []float64 // W/K from each cell to the wall or jacket

	stride    int       // from a cell to its neighbour in the other direction
	near, far []float64 // W/K from cell i to i + 1 and to i + stride
	sum       []float64 // W/K of all that leave a cell
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
	near := n.near[:cells]
	for i := 0; i+1 < cells; i++ {
		q := near[i] * (kelvin[i+1] - kelvin[i])
		watts[i] += q
		watts[i+1] -= q
	}
	for i := 0; i+n.stride < cells; i++ {
		q := n.far[i] * (kelvin[i+n.stride] - kelvin[i])
		watts[i] += q
		watts[i+n.stride] -= q
	}
}

// Fill sets b to diag(plus) less the matrix that turns temperatures into
// [Network.Flow].
func (n *Network) Fill(b *Band, plus []float64) {
	b.clear()
	for i, p := range plus {
		b.diagonal[i] = p + n.sum[i]
		if i > 0 {
			b.set(i, 1, -n.near[i-1])
		}
		if i >= n.stride && n.stride > 1 {
			b.set(i, n.stride, -n.far[i-n.stride])
		}
	}
	if n.stride == 1 {
		for i := 1; i < n.Cells(); i++ {
			b.set(i, 1, -n.far[i-1])
		}
	}
}

// NewBand returns a matrix that [Network.Fill] can fill.
func (n *Network) NewBand() *Band {
	width := n.stride
	if width >= n.Cells() {
		width = 1
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
	cells := nu * nv
	n := &Network{stride: nu}
	for _, p := range []*[]float64{&n.Capacity, &n.Resin, &n.ToRoom, &n.ToWall, &n.near, &n.far, &n.sum} {
		*p = make([]float64, cells)
	}
	for j := range nv {
		for i := range nu {
			c, m := j*nu+i, of(i, j)
			volume := u.size[i] * v.size[j]
			n.Capacity[c], n.Resin[c] = volume*m.capacity, volume*m.resin
			if i+1 < nu {
				n.near[c] = between(u.area[i+1]*v.size[j], u.half[i], m, u.half[i+1], of(i+1, j))
			}
			if j+1 < nv {
				n.far[c] = between(v.area[j+1]*u.size[i], v.half[j], m, v.half[j+1], of(i, j+1))
			}
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
		if n.near[i] != 0 {
			n.sum[i] += n.near[i]
			n.sum[i+1] += n.near[i]
		}
		if n.far[i] != 0 {
			n.sum[i] += n.far[i]
			n.sum[i+n.stride] += n.far[i]
		}
	}
}
