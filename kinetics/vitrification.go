package kinetics

import (
	"math"

	"potlife/kinetics/quantity"
)

// A Vitrification gives the conversion at which the resin turns to glass and
// the cure all but stops, (5) and (6) of the package comment. The list is
// closed: [GlassShift] and [LinearVitrification].
type Vitrification interface {
	// Conversion returns α_v at the absolute temperature kelvin. It may exceed
	// 1 and is then used as it is.
	Conversion(kelvin float64) float64
	// Sharpness returns C of (5), dimensionless.
	Sharpness() float64
}

// Usual values of [GlassShift], set so that 7 and 28 days at 23 °C give a glass
// temperature 15 to 37 K above the cure temperature (common practice; derived).
const (
	DefaultShift     quantity.TemperatureDifference = 10
	DefaultSharpness float64                        = 60
)

// GlassShift puts vitrification where Tg(α) = T + Shift.
type GlassShift struct {
	Glass DiBenedetto
	Shift quantity.TemperatureDifference
	C     float64 // sharpness, dimensionless
}

// Conversion returns α_v at kelvin.
func (v GlassShift) Conversion(kelvin float64) float64 {
	return v.Glass.Conversion(quantity.Temperature(kelvin + float64(v.Shift)))
}

// Sharpness returns C.
func (v GlassShift) Sharpness() float64 { return v.C }

// LinearVitrification is the published form α_v = a0 + aT·T with T in K.
type LinearVitrification struct {
	A0     float64 // dimensionless
	ATPerK float64 // 1/K
	C      float64 // sharpness, dimensionless
}

// Conversion returns α_v at kelvin.
func (v LinearVitrification) Conversion(kelvin float64) float64 { return v.A0 + v.ATPerK*kelvin }

// Sharpness returns C.
func (v LinearVitrification) Sharpness() float64 { return v.C }

// Slowing returns the factor f of (5), between 0 and 1.
func Slowing(v Vitrification, alpha, kelvin float64) float64 {
	return Slowed(v.Sharpness() * (alpha - v.Conversion(kelvin)))
}

// Slowed is f of (5) where C·(α − α_v) is x.
func Slowed(x float64) float64 {
	if x < -37 { // 1 to the last bit
		return 1
	}
	return 1 / (1 + math.Exp(x))
}
