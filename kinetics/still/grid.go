package still

import (
	"math"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
)

// The gel time errs by roughness/n² of itself on n cells: measured on trays of 10
// to 75 mm and cups of 40 to 200 mm at Biot numbers of 0.2 to 20, it is below
// 0.1 + 0.3·Bi/(5 + Bi) in each.
func roughness(biot float64) float64 { return 0.1 + 0.3*biot/(5+biot) }

// What a grid may cost in gel time. A cup's cells are so many that it is given
// less; either is far below what any record knows of a resin.
const (
	trayGridError = 3e-4
	cupGridError  = 7e-4
)

// gridFor is the least number of cells that keeps the error, at least four.
func gridFor(biot, allowed float64) int {
	if math.IsInf(biot, 1) {
		biot = 1e6
	}
	return max(4, int(math.Ceil(math.Sqrt(roughness(biot)/allowed))))
}

// biot is h·L/k with half a thickness that is cooled from both sides.
func biot(loss quantity.HeatTransfer, thickness quantity.Length, k quantity.Conductivity) float64 {
	return float64(loss) * float64(thickness) / 2 / float64(k)
}

func (b Tray) cells(r *kinetics.Resin) int {
	loss := max(b.Vessel.SurfaceLoss, b.Vessel.WallLoss)
	return gridFor(biot(loss, b.Vessel.Depth(b.Mass, r.Density), r.Conductivity), trayGridError)
}

func (b Cup) cells(r *kinetics.Resin) int {
	return gridFor(biot(max(b.SurfaceLoss, b.WallLoss), min(b.depth(r), b.Diameter), r.Conductivity), cupGridError)
}

// usualLayerCells is what a layer of a wall is cut into when it does not say.
const usualLayerCells = 12

func (b Wall) cells(*kinetics.Resin) int { return usualLayerCells }
