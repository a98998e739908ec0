package vessel

import (
	"math"

	"potlife/kinetics/quantity"
)

// Air at 25 °C (textbook tables, memory, to 1 %), and how well resin radiates (textbooks give
// 0.9 to 0.95 for paints and plastics, memory).
const (
	airConductivity = 0.0255   // W/(m·K)
	airViscosity    = 1.562e-5 // kinematic, m²/s
	airPrandtl      = 0.73
	airKelvin       = 298.15
	emissivity      = 0.9
	stefanBoltzmann = 5.670374419e-8 // W/(m²·K⁴)
)

// StillAirLoss is that of a tray's surface in a closed room where nothing moves the air: a surface
// some kelvins warmer loses 8 to 10 W/(m²·K) by free convection and radiation (a test has the
// hand calculation), the less the nearer it is to the room.
const StillAirLoss quantity.HeatTransfer = 8

// PlateNusselt is the mean Nusselt number of a flat plate that air flows along,
//
//	Nu = 0.664·√Re·∛Pr
//
// the laminar boundary layer (E. Pohlhausen 1921; in textbooks for Re up to 5e5 and Pr above 0.6).
func PlateNusselt(reynolds, prandtl float64) float64 {
	return 0.664 * math.Sqrt(reynolds) * math.Cbrt(prandtl)
}

// DraughtLoss is what a surface as long as this loses to air that moves along it, radiation in a
// room included. Turbulence, edges and its own warmth would all add to it.
func DraughtLoss(air quantity.Speed, length quantity.Length) quantity.HeatTransfer {
	l := float64(length)
	forced := PlateNusselt(float64(air)*l/airViscosity, airPrandtl) * airConductivity / l
	return quantity.HeatTransfer(forced) + radiation()
}

// radiation is what a surface near room temperature exchanges with its walls: 4·ε·σ·T³.
func radiation() quantity.HeatTransfer {
	return quantity.HeatTransfer(4 * emissivity * stefanBoltzmann * math.Pow(airKelvin, 3))
}
