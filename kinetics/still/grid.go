package still

import (
	"math"

	"potlife/kinetics"
	"potlife/kinetics/conduction"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// What a grid costs in gel time is below 3e-4 of it in a tray and 1e-3 in a cup, which has
// the square of so many cells: tests hold it. A body that its surroundings cool hard burns
// out behind a steep skin, and needs more for its peak.
const (
	trayCells, cooledTrayCells = 9, 21
	cupCells, cooledCupCells   = 7, 9
	cooledBiot                 = 5.0
)

func (b Tray) cells(r *kinetics.Resin) int {
	loss := max(b.Vessel.SurfaceLoss, b.Vessel.FloorLoss)
	if biot(loss, b.Vessel.Depth(b.Mass, r.Density), r.Conductivity) > cooledBiot {
		return cooledTrayCells
	}
	return trayCells
}

func (b Cup) cells(r *kinetics.Resin) int {
	if biot(max(b.SurfaceLoss, b.WallLoss, b.FloorLoss), min(b.depth(r), b.Diameter), r.Conductivity) > cooledBiot {
		return cooledCupCells
	}
	return cupCells
}

// biot is h·L/k with half a thickness that is cooled from both sides.
func biot(loss quantity.HeatTransfer, thickness quantity.Length, k quantity.Conductivity) float64 {
	return float64(loss) * float64(thickness) / 2 / float64(k)
}

// usualLayerCells is what a layer of a wall is cut into when it does not say.
const usualLayerCells = 12

func (b Wall) cells(*kinetics.Resin) int { return usualLayerCells }

// warmedBy is how much colder than its surroundings resin must start for these to decide
// where it gels first, not the heat of its cure: about R·T²/E, as [criticalRise].
const warmedBy quantity.TemperatureDifference = criticalRise

// isCold tells whether resin of a temperature, 0 if that is not known, is warmed by its
// surroundings.
func isCold(from quantity.Temperature, room, wall vessel.Series) bool {
	return from > 0 && max(room.Highest(), wall.Highest())-from > quantity.Temperature(warmedBy)
}

// skin is the share of the way from either side that warms first in cold resin: its outer
// elements.
const skin = 0.2

// upright is the grid from floor to surface: one element, or three in cold resin, in whose
// skin the temperature is steep. The number of cells is odd, so that one lies where the
// resin is hottest.
func upright(cells int, cold bool, hottest float64) conduction.Grid {
	g := conduction.Grid{Ends: []float64{0, 1}, Middle: within(0, 1, hottest), Degree: cells / 2 * 2}
	if cold {
		g.Ends, g.Middle = []float64{0, skin, 1 - skin, 1}, within(skin, 1-skin, hottest)
	}
	return g
}

// outward is the grid of the square of the radius.
func outward(cells int, cold bool) conduction.Grid {
	g := conduction.Grid{Ends: []float64{0, 1}, Middle: 0.5, Degree: cells / 2 * 2}
	if cold {
		g.Degree += 2
	}
	return g
}

// fine is what a cup is divided by that has many cells and is not cold: two elements above
// each other, which meet where the resin is hottest, are cheaper to solve than one of twice
// the degree and find gel as well; across, half of the way to the other side, fewer will do.
const fineCells = 9

func fine(cells int, hottest float64) (across, up conduction.Grid) {
	across = conduction.Grid{Ends: []float64{0, 1}, Middle: 0.5, Degree: cells - 4}
	up = conduction.Grid{Ends: []float64{0, within(0, 1, hottest), 1}, Degree: cells / 2}
	return across, up
}

// within keeps the middle node of an element so far from both ends that the others stay
// in order.
func within(from, to, at float64) float64 {
	const least = 1.0 / 3
	return math.Min(to-least*(to-from), math.Max(from+least*(to-from), at))
}

// reach is how deep conduction has come in the hour or so in which resin gels: some 50 mm of
// liquid resin.
func reach(l conduction.Layer) float64 {
	const hour = 3600.0
	return 3 * math.Sqrt(hour*float64(l.Conductivity)/(float64(l.Density)*float64(l.HeatCapacity)))
}

// hottest is about the share of the height at which resin is hottest: where the parabola is
// level that is the steady temperature of resin which makes heat evenly and loses it through
// floor and surface; nearer the middle in resin so deep that conduction has not come there.
// A node so near is enough, see [conduction.Network.Summit].
func hottest(floor, surface quantity.HeatTransfer, l conduction.Layer) float64 {
	below := math.Min(biot(floor, 2*l.Thickness, l.Conductivity), 1e6)
	above := math.Min(biot(surface, 2*l.Thickness, l.Conductivity), 1e6)
	if below == 0 && above == 0 {
		return 0.5
	}
	steady := below * (1 + above/2) / (below + above + below*above)
	far := reach(l) / float64(l.Thickness)
	return 0.5 + (steady-0.5)*math.Min(1, far*far)
}
