package conduction

import "potlife/kinetics/quantity"

// A Face is an outside of a body: its loss coefficient, 0 for none and +Inf for a
// face held at the temperature outside, and whether that is the wall's or the
// room's.
type Face struct {
	Loss quantity.HeatTransfer
	Wall bool
}

// A Layer is a stretch of one material. A mixture has the conductivity across the
// layer, the heat capacity of all its parts and the resin of its resin alone.
type Layer struct {
	Thickness    quantity.Length
	Conductivity quantity.Conductivity
	Density      quantity.Density      // of the whole
	HeatCapacity quantity.HeatCapacity // of the whole
	Resin        quantity.Density      // kg of resin in a m³ of the whole
	Cells        int
}

func (l Layer) material() material {
	return material{
		conductivity: float64(l.Conductivity),
		capacity:     float64(l.Density) * float64(l.HeatCapacity),
		resin:        float64(l.Resin),
	}
}

// stacked returns the faces of layers one on the other and the material of each
// cell.
func stacked(start quantity.Length, layers []Layer) (faces []float64, of []material) {
	var lengths []float64
	var cells []int
	for _, l := range layers {
		lengths, cells = append(lengths, float64(l.Thickness)), append(cells, l.Cells)
		for range l.Cells {
			of = append(of, l.material())
		}
	}
	return cut(float64(start), lengths, cells), of
}

// Slab is layers on a floor of area m², lowest first. side is lost through at
// the rim, perimeter long, by each cell at its own temperature.
func Slab(area float64, layers []Layer, floor, top Face, perimeter quantity.Length, side Face) *Network {
	faces, of := stacked(0, layers)
	return assemble(lumped(area, float64(perimeter)), plane(faces), func(_, j int) material { return of[j] },
		sides{highU: side, lowV: floor, highV: top})
}

// Tube is layers round an axis, innermost first from the radius inner on, 0 for a
// solid core; nothing is lost at its ends.
func Tube(inner, length quantity.Length, layers []Layer, inside, outside Face) *Network {
	faces, of := stacked(inner, layers)
	return assemble(lumped(float64(length), 0), radial(faces), func(_, j int) material { return of[j] },
		sides{lowV: inside, highV: outside})
}

// Cylinder is one material standing upright, the layer's thickness high and its
// Cells in height; acrossCells from the axis to the wall.
func Cylinder(radius quantity.Length, acrossCells int, of Layer, floor, top, side Face) *Network {
	up, _ := stacked(0, []Layer{of})
	across := radial(cut(0, []float64{float64(radius)}, []int{acrossCells}))
	m := func(_, _ int) material { return of.material() }
	if acrossCells <= of.Cells {
		return assemble(across, plane(up), m, sides{highU: side, lowV: floor, highV: top})
	}
	return assemble(plane(up), across, m, sides{lowU: floor, highU: top, highV: side})
}
