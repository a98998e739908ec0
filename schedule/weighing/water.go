package weighing

import "potlife/kinetics/quantity"

// warmestWater ends the range of [WaterDensity], in °C; it starts at 0.
const warmestWater = 40

// WaterDensity returns the density of water at 101 325 Pa, (14) of the package
// comment, within 0.001 kg/m³; ordinary clean water is within 0.01 kg/m³ of it.
// ok is false outside 0 to 40 °C, where the formula does not hold.
func WaterDensity(t quantity.Temperature) (density quantity.Density, ok bool) {
	celsius := t.Celsius()
	if !(celsius >= 0 && celsius <= warmestWater) {
		return 0, false
	}
	return quantity.Density(waterDensity(celsius)), true
}

func waterDensity(celsius float64) float64 {
	const a1, a2, a3, a4, a5 = -3.983035, 301.797, 522528.9, 69.34881, 999.974950
	return a5 * (1 - (celsius+a1)*(celsius+a1)*(celsius+a2)/(a3*(celsius+a4)))
}
