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

// A grid is how finely a wall is cut: the usual cells of a layer times fine, one for 0 or
// less.
type grid struct{ fine int }

// times is the grid with so many times as many cells; a layer of one keeps it.
func (g grid) times(finer int) grid {
	if g.fine > 0 {
		g.fine *= max(1, finer)
	}
	return g
}

// The wall grows with one cell a layer. The search computes on working cells, in a thick wall
// on fewLumps at first; the referee and the course in the room on finer ones.
var (
	lumps   = grid{fine: -1}
	growing = grid{fine: 0}
	working = grid{fine: 1}
	finer   = grid{fine: 2}
)

// fewLumps are enough to compare programs with, and thickFrom the cells from which on they are
// worth it.
const (
	fewLumps  = 8
	thickFrom = 12
)

// A layer is a cell, or several where it is thicker than a millimetre or a twenty-fourth of
// the laminate. The mandrel conducts far better, or is thin.
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

// newWall cuts a laid laminate on its mandrel.
func newWall(h *History, m *schedule.Mandrel, f *resins.Fibre, r *kinetics.Resin, g grid) wall {
	w := wall{body: still.Wall{Inner: m.Diameter / 2, Length: m.Length}}
	w.addMandrel(m, mandrelCells*max(g.fine, 1), h.Mandrel)
	for _, c := range h.cells(g) {
		w.body.Layers = append(w.body.Layers, laminateCell(c, f, r))
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
func (h *History) cells(g grid) []Layer {
	thickest := max(cellThickness, h.thickness()/mostCells)
	var list []Layer
	for _, l := range h.Layers {
		n := 1
		if g.fine > 0 {
			n = g.fine * int(math.Ceil(float64(l.Thickness)/thickest*(1-1e-9)))
		}
		l.Thickness /= quantity.Length(n)
		for range n {
			list = append(list, l)
		}
	}
	return list
}

// pot is the wall in its surroundings.
func (w *wall) pot(r kinetics.Resin, air vessel.Series, loss quantity.HeatTransfer, p still.Precision) (*still.Pot, error) {
	body := w.body
	body.Outside = loss
	return still.New(r, body, air, air, p)
}
