package still

import (
	"math"

	"potlife/kinetics"
	"potlife/kinetics/conduction"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// A Body is what stands still: a shape, what it is made of and how it loses heat.
// The list is closed: [Tray], [Cup] and [Wall].
type Body interface {
	// network writes the body as cells, n of them across; cold resin has warmer
	// surroundings.
	network(r *kinetics.Resin, n int, cold bool) *conduction.Network
	// cells proposes an n.
	cells(r *kinetics.Resin) int
	// check returns what is wrong with the body.
	check(r *kinetics.Resin) error
	// holds is the mass of a pot in kg, NaN where the body has no one mass.
	holds() float64
}

// A Tray is a flat vessel whose temperature changes through the depth alone, as in its
// middle. Its upright walls take nothing: the middle, which decides, hardly feels them.
type Tray struct {
	Vessel vessel.Vessel
	Mass   quantity.Mass
	// Slow lets the walls take heat from every depth, as if the tray were mixed sideways: it
	// gels late, which is the safe side where a resin is judged by how long it took.
	Slow bool
}

func (b Tray) network(r *kinetics.Resin, n int, cold bool) *conduction.Network {
	v := b.Vessel
	resin := pure(r, v.Depth(b.Mass, r.Density))
	up := upright(n, cold, hottest(v.FloorLoss, v.SurfaceLoss, resin))
	var perimeter quantity.Length
	if b.Slow {
		perimeter = v.Perimeter
	}
	return conduction.SlabOn(up, v.AreaM2, resin, conduction.Face{Loss: v.FloorLoss, Wall: true},
		conduction.Face{Loss: v.SurfaceLoss}, perimeter, conduction.Face{Loss: v.WallLoss, Wall: true})
}

func (b Tray) holds() float64 { return float64(b.Mass) }

// A Cup is an upright cylinder whose temperature changes with height and with
// distance from the axis.
type Cup struct {
	Mass        quantity.Mass
	Diameter    quantity.Length
	SurfaceLoss quantity.HeatTransfer
	WallLoss    quantity.HeatTransfer // through the wall
	FloorLoss   quantity.HeatTransfer // through the floor and what it stands on
}

// depth is how high the resin stands.
func (b Cup) depth(r *kinetics.Resin) quantity.Length {
	return vessel.Cup(b.Diameter, 0, 0).Depth(b.Mass, r.Density)
}

func (b Cup) network(r *kinetics.Resin, n int, cold bool) *conduction.Network {
	floor, wall := conduction.Face{Loss: b.FloorLoss, Wall: true}, conduction.Face{Loss: b.WallLoss, Wall: true}
	resin := pure(r, b.depth(r))
	hot := hottest(b.FloorLoss, b.SurfaceLoss, resin)
	across, up := outward(n, cold), upright(n, cold, hot)
	if n >= fineCells && !cold {
		across, up = fine(n, hot)
	}
	return conduction.CylinderOn(across, up, b.Diameter/2, resin, floor, conduction.Face{Loss: b.SurfaceLoss}, wall)
}

func (b Cup) holds() float64 { return float64(b.Mass) }

// A Wall is wound layers on a mandrel, whose temperature changes with the radius
// alone; a layer without resin only conducts.
type Wall struct {
	Inner   quantity.Length // radius at which the first layer begins, 0 for a solid core
	Length  quantity.Length
	Layers  []conduction.Layer // innermost first, each with its own cells
	Inside  quantity.HeatTransfer
	Outside quantity.HeatTransfer
}

func (b Wall) network(_ *kinetics.Resin, n int, _ bool) *conduction.Network {
	layers := append([]conduction.Layer(nil), b.Layers...)
	for i := range layers {
		if layers[i].Cells <= 0 {
			layers[i].Cells = n
		}
	}
	return conduction.Tube(b.Inner, b.Length, layers,
		conduction.Face{Loss: b.Inside, Wall: true}, conduction.Face{Loss: b.Outside})
}

func (b Wall) holds() float64 { return math.NaN() }

// pure is resin alone.
func pure(r *kinetics.Resin, thickness quantity.Length) conduction.Layer {
	return conduction.Layer{
		Thickness: thickness, Conductivity: r.Conductivity, Density: r.Density,
		HeatCapacity: r.HeatCapacity, Resin: r.Density,
	}
}

// CupOf is the cup that a vessel is, with a mass in it.
func CupOf(v vessel.Vessel, mass quantity.Mass) Cup {
	return Cup{
		Mass: mass, Diameter: quantity.Length(2 * math.Sqrt(v.AreaM2/math.Pi)),
		SurfaceLoss: v.SurfaceLoss, WallLoss: v.WallLoss, FloorLoss: v.FloorLoss,
	}
}
