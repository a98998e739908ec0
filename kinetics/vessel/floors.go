package vessel

import "potlife/kinetics/quantity"

// A Floor is what a vessel stands on, seen from its underside.
type Floor string

// The floors. Air is none: a vessel on its frame loses through its floor as through its wall.
const (
	Wood      Floor = "wood"
	Cardboard Floor = "cardboard"
	Foam      Floor = "foam"
	Steel     Floor = "steel"
	Stone     Floor = "stone"
	Air       Floor = "air"
)

// Floors are all of them.
var Floors = []string{string(Wood), string(Cardboard), string(Foam), string(Steel), string(Stone), string(Air)}

// floorLosses in W/(m²·K), derived: heat goes through the plate and from its underside into
// air, 11 W/(m²·K) as a cup's, one after the other. Thicknesses and conductivities are those
// usual in a workshop (common practice), rounded to the lower loss.
//
//	wood       18 mm of 0.14 W/(m·K)           1/(0.018/0.14 + 1/11)        = 4.55
//	cardboard  10 mm of 0.065, corrugated      1/(0.010/0.065 + 1/11)       = 4.09
//	foam       20 mm of 0.035                  1/(0.020/0.035 + 1/11)       = 1.51
//	steel       5 mm of 50                     1/(1/30 + 0.005/50 + 1/33)   = 15.7
//	stone      30 mm of 2                      1/(1/30 + 0.030/2 + 1/33)    = 12.7
//
// Steel and stone carry heat sideways as well: besides what is below it a ring as large as the
// floor sheds heat to both sides, 11 + 22 = 33. Then the gap under the vessel counts, about
// 1 mm of air: 0.026/0.001 and some radiation, 30.
var floorLosses = map[Floor]quantity.HeatTransfer{Wood: 4.5, Cardboard: 4, Foam: 1.5, Steel: 15, Stone: 12}

// Loss is what is lost through a floor of a vessel, given what its wall loses.
func (f Floor) Loss(wall quantity.HeatTransfer) quantity.HeatTransfer {
	if loss, known := floorLosses[f]; known {
		return loss
	}
	return wall
}
