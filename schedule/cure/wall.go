package cure

import (
	"math"

	"potlife/kinetics"
	"potlife/kinetics/conduction"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
	"potlife/resins"
	"potlife/schedule"
)

// A grid is how finely a wall is cut: the usual cells times fine.
type grid struct {
	fine int
	bare bool // without its mandrel
}

// The search computes on working cells, the referee and the course in the room on finer ones.
var (
	working = grid{fine: 1}
	finer   = grid{fine: 2}
)

// A layer is a cell, or several where it is thicker than a millimetre or a twenty-fourth of
// the laminate. Where there are more layers than mostCells, cells of equal thickness mix
// those that they hold, but for the last layer, which is the youngest and gels last: it is
// always a cell of its own. The mandrel conducts far better, or is thin.
const (
	mostCells     = 24
	cellThickness = 1e-3
	mandrelCells  = 3
)

func (h *History) thickness() float64 {
	sum := 0.0
	for _, l := range h.Layers {
		sum += float64(l.Thickness)
	}
	return sum
}

// A wall is mandrel and laminate, or the laminate alone, cut into cells.
type wall struct {
	body   still.Wall
	states []vessel.State // of each layer of the body, one a cell in the laminate
	first  int            // the first cell that holds resin
}

// newWall cuts a laid laminate. The start is one temperature for all of it.
func newWall(h *History, m *schedule.Mandrel, f *resins.Fibre, r *kinetics.Resin, g grid, start quantity.Temperature) wall {
	w := wall{body: still.Wall{Inner: m.Diameter / 2, Length: m.Length}}
	if !g.bare {
		w.addMandrel(m, mandrelCells*g.fine, start)
	}
	for _, c := range h.cells(g.fine) {
		w.body.Layers = append(w.body.Layers, laminateCell(c, f, r))
		c.State.Temperature = start
		w.states = append(w.states, c.State)
	}
	return w
}

func (w *wall) addMandrel(m *schedule.Mandrel, cells int, start quantity.Temperature) {
	thickness := m.Wall
	w.body.Inside = m.Bore
	if m.Solid {
		thickness, w.body.Inside = m.Diameter/2, 0
	}
	w.body.Inner -= thickness
	w.body.Layers = append(w.body.Layers, conduction.Layer{
		Thickness: thickness, Conductivity: m.Material.Conductivity, Density: m.Material.Density,
		HeatCapacity: m.Material.HeatCapacity, Cells: cells,
	})
	w.states, w.first = append(w.states, vessel.State{Temperature: start}), cells
}

// laminateCell has the properties of a mixture: densities by volume, heat capacity by mass,
// the conductivity across the fibres.
func laminateCell(l Layer, f *resins.Fibre, r *kinetics.Resin) conduction.Layer {
	v := quantity.Density(l.FibreVolume)
	fibre, resin := v*f.Density, (1-v)*r.Density
	return conduction.Layer{
		Thickness:    l.Thickness,
		Conductivity: conduction.Transverse(r.Conductivity, f.Across(), l.FibreVolume),
		Density:      fibre + resin,
		HeatCapacity: (quantity.HeatCapacity(fibre)*f.HeatCapacity + quantity.HeatCapacity(resin)*r.HeatCapacity) / quantity.HeatCapacity(fibre+resin),
		Resin:        resin,
		Cells:        1,
	}
}

// cells cuts the layers.
func (h *History) cells(fine int) []Layer {
	layers := h.Layers
	if n := len(layers); n > mostCells {
		layers = append(mixed(layers[:n-1], mostCells*fine-1), layers[n-1])
		fine = 1
	}
	thickest := max(cellThickness, h.thickness()/mostCells)
	var list []Layer
	for _, l := range layers {
		n := fine * int(math.Ceil(float64(l.Thickness)/thickest*(1-1e-9)))
		l.Thickness /= quantity.Length(n)
		for range n {
			list = append(list, l)
		}
	}
	return list
}

// mixed cuts layers into n cells of equal thickness, each the mean of what it holds: fibre
// by thickness, states by resin.
func mixed(layers []Layer, n int) []Layer {
	h := History{Layers: layers}
	size := h.thickness() / float64(n)
	list := make([]Layer, n)
	resin, filled := make([]float64, n), make([]float64, n)
	from := 0.0
	for _, l := range layers {
		until := from + float64(l.Thickness)
		for c := int(from / size); c < n && float64(c)*size < until; c++ {
			overlap := math.Min(until, float64(c+1)*size) - math.Max(from, float64(c)*size)
			if !(overlap > 0) {
				continue
			}
			filled[c] += overlap
			list[c].FibreVolume += (l.FibreVolume - list[c].FibreVolume) * quantity.Fraction(overlap/filled[c])
			holds := overlap * (1 - float64(l.FibreVolume))
			resin[c] += holds
			list[c].State = blend(list[c].State, l.State, holds/resin[c])
		}
		from = until
	}
	for c := range list {
		list[c].Thickness = quantity.Length(size)
	}
	return list
}

// pot is the wall in its surroundings.
func (w *wall) pot(r kinetics.Resin, air vessel.Series, loss quantity.HeatTransfer, p still.Precision) (*still.Pot, error) {
	body := w.body
	body.Outside = loss
	return still.New(r, body, air, air, p)
}
