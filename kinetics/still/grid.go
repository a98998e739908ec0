package still

import (
	"math"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
)

// The gel time errs by roughness/n² of itself on n cells: measured on trays of 10
// to 75 mm and cups of 40 to 200 mm at Biot numbers of 0.2 to 20, it is below this
// in each. A cup is cut in two directions, and errs in both.
func roughness(base, biot float64) float64 {
	if math.IsInf(biot, 1) {
		return base + 0.35
	}
	return base + 0.35*biot/(5+biot)
}

// What a grid may cost in gel time, and roughness without resistance inside. A
// cup's cells are so many that it is given less; either is far below what any
// record knows of a resin.
const (
	trayGridError, trayRoughness = 3e-4, 0.1
	cupGridError, cupRoughness   = 1e-3, 0.22
)

// gridFor is the least even number of cells that keeps the error. Odd numbers put
// a cell in the middle, where it is hottest, and err otherwise.
func gridFor(roughness, allowed float64) int {
	return 2 * int(math.Ceil(math.Sqrt(roughness/allowed)/2))
}

// biot is h·L/k with half a thickness that is cooled from both sides.
func biot(loss quantity.HeatTransfer, thickness quantity.Length, k quantity.Conductivity) float64 {
	return float64(loss) * float64(thickness) / 2 / float64(k)
}

func (b Tray) cells(r *kinetics.Resin) int {
	loss := max(b.Vessel.SurfaceLoss, b.Vessel.WallLoss)
	return gridFor(roughness(trayRoughness, biot(loss, b.Vessel.Depth(b.Mass, r.Density), r.Conductivity)), trayGridError)
}

func (b Cup) cells(r *kinetics.Resin) int {
	thinner := min(b.depth(r), b.Diameter)
	return gridFor(roughness(cupRoughness, biot(max(b.SurfaceLoss, b.WallLoss), thinner, r.Conductivity)), cupGridError)
}

// usualLayerCells is what a layer of a wall is cut into when it does not say.
const usualLayerCells = 12

func (b Wall) cells(*kinetics.Resin) int { return usualLayerCells }
