package vessel

import (
	"math"

	"potlife/kinetics/quantity"
)

// Usual loss coefficients where a crew has measured none. Free convection of
// gases gives 2 to 25 W/(m²·K) (textbook range); a cup in still air loses about
// 5.5 by convection and 5.5 by radiation (derived). The jacket's is from memory.
const (
	UsualTraySurfaceLoss quantity.HeatTransfer = 10
	UsualTrayWallLoss    quantity.HeatTransfer = 6
	UsualCupLoss         quantity.HeatTransfer = 11
	UsualJacketLoss      quantity.HeatTransfer = 150
)

// A Vessel is what the resin stands in.
type Vessel struct {
	AreaM2      float64               // free surface = floor, m²
	Perimeter   quantity.Length       // of the wetted wall seen from above
	SurfaceLoss quantity.HeatTransfer // h_s
	WallLoss    quantity.HeatTransfer // h_w, through the wall
	FloorLoss   quantity.HeatTransfer // h_f, through the floor and what it stands on
	Drum        Drum
}

// Tray is a rectangular vessel with upright walls; its floor loses as they do.
func Tray(length, width quantity.Length, surfaceLoss, wallLoss quantity.HeatTransfer) Vessel {
	return Vessel{
		AreaM2:      float64(length) * float64(width),
		Perimeter:   2 * (length + width),
		SurfaceLoss: surfaceLoss, WallLoss: wallLoss, FloorLoss: wallLoss,
	}
}

// Cup is a cylindrical vessel with upright walls; its floor loses as they do.
func Cup(diameter quantity.Length, surfaceLoss, wallLoss quantity.HeatTransfer) Vessel {
	return Vessel{
		AreaM2:      math.Pi / 4 * float64(diameter) * float64(diameter),
		Perimeter:   math.Pi * diameter,
		SurfaceLoss: surfaceLoss, WallLoss: wallLoss, FloorLoss: wallLoss,
	}
}

// UsualCup is a cup as deep as it is wide for the mass given: the container
// assumed when a data sheet names none.
func UsualCup(mass quantity.Mass, density quantity.Density) Vessel {
	diameter := math.Cbrt(4 * float64(mass) / (math.Pi * float64(density)))
	return Cup(quantity.Length(diameter), UsualCupLoss, UsualCupLoss)
}

// OnFloor returns the vessel with another loss through its floor.
func (v Vessel) OnFloor(loss quantity.HeatTransfer) Vessel {
	v.FloorLoss = loss
	return v
}

// LossesTimes returns the vessel with all loss coefficients times factor.
func (v Vessel) LossesTimes(factor float64) Vessel {
	v.SurfaceLoss *= quantity.HeatTransfer(factor)
	v.WallLoss *= quantity.HeatTransfer(factor)
	v.FloorLoss *= quantity.HeatTransfer(factor)
	return v
}

// Depth returns the depth of a mass of resin in the vessel, (3) of the package
// comment.
func (v Vessel) Depth(mass quantity.Mass, density quantity.Density) quantity.Length {
	return quantity.Length(float64(mass) / (float64(density) * v.AreaM2))
}
