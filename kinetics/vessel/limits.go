package vessel

import (
	"math"

	"potlife/kinetics/quantity"
)

// A Limit names what ends a bath's working life.
type Limit string

// The limits in the order in which ties between them are told. TooThick is a
// bath that was above its viscosity limit from mixing and never thinned.
const (
	NoLimit         Limit = ""
	BathViscosity   Limit = "bath_viscosity"
	LaidViscosity   Limit = "laid_viscosity"
	BathTemperature Limit = "bath_temperature"
	Gel             Limit = "gel"
	NotClean        Limit = "clean" // see [Clean]
	TooThick        Limit = "too_thick"
)

// Usual limits: the trade's viscosities (wet-out and drag; a hot thin bath may
// be far gone), and a margin over a water jacket beyond which runaway is near,
// the critical rise being about R·T²/E, some 12 K.
const (
	UsualBathViscosity quantity.Viscosity             = 1.5
	UsualLaidViscosity quantity.Viscosity             = 3.0
	UsualJacketMargin  quantity.TemperatureDifference = 12
)

// UsualBathTemperature is 40 °C, the end of usable time by common practice.
var UsualBathTemperature = quantity.Celsius(40)

// Limits are the bounds within which a bath can be used. Gel, at the resin's
// α_gel, is always one more.
type Limits struct {
	BathViscosity   quantity.Viscosity   // wet-out and drag
	LaidViscosity   quantity.Viscosity   // at the mandrel's temperature
	BathTemperature quantity.Temperature // runaway is near
	Mandrel         Series
	Clean           Clean
}

// The limits by index, as margins are kept.
const (
	byBathViscosity = iota
	byLaidViscosity
	byBathTemperature
	byGel
	byClean
	limitCount
)

var limitNames = [limitCount]Limit{BathViscosity, LaidViscosity, BathTemperature, Gel, NotClean}

// margins hold, for each limit, how far a bath is above it: negative is within.
type margins [limitCount]float64

// measured are limits in the form that margins are computed from.
type measured struct {
	logBath, logLaid, kelvin float64
	mandrel                  Series
	mandrelLogFresh          float64 // at a constant mandrel temperature
	clean                    Clean
}

func (b *Bath) measure(l Limits) measured {
	m := measured{
		logBath: math.Log(float64(l.BathViscosity)),
		logLaid: math.Log(float64(l.LaidViscosity)),
		kelvin:  float64(l.BathTemperature),
		mandrel: l.Mandrel,
		clean:   l.Clean,
	}
	if l.Mandrel.IsConstant() {
		m.mandrelLogFresh = b.resin.Viscosity.LogFresh(float64(l.Mandrel.At(0)))
	}
	return m
}

func (b *Bath) logGrowth(y []float64) float64 {
	phi := 0.0
	if b.phi {
		phi = y[2]
	}
	return b.resin.Viscosity.LogGrowth(y[0], phi) + b.logExcess
}

func (b *Bath) laidLogFresh(m *measured, t float64) float64 {
	if m.mandrel.IsConstant() {
		return m.mandrelLogFresh
	}
	return b.resin.Viscosity.LogFresh(float64(m.mandrel.At(quantity.Time(t))))
}

// all computes every margin at once: they share the growth of the viscosity.
func (b *Bath) all(m *measured, t float64, y []float64) margins {
	growth := b.logGrowth(y)
	return margins{
		b.resin.Viscosity.LogFresh(y[1]) + growth - m.logBath,
		b.laidLogFresh(m, t) + growth - m.logLaid,
		y[1] - m.kelvin,
		y[0] - b.resin.Gel,
		b.cleanMargin(m, t),
	}
}

// one computes a single margin, for root finding; byClean has its own, see cleanCrossing.
func (b *Bath) one(m *measured, which int, t float64, y []float64) float64 {
	switch which {
	case byBathViscosity:
		return b.resin.Viscosity.LogFresh(y[1]) + b.logGrowth(y) - m.logBath
	case byLaidViscosity:
		return b.laidLogFresh(m, t) + b.logGrowth(y) - m.logLaid
	case byBathTemperature:
		return y[1] - m.kelvin
	}
	return y[0] - b.resin.Gel
}

// worst returns the first limit, in the order told, that the margins exceed,
// -1 if there is none.
func (m margins) worst() int {
	for i, v := range m {
		if !(v < 0) {
			return i
		}
	}
	return -1
}

// onlyTooThick tells that the bath's viscosity alone is above its limit, the one
// excess that warming may cure.
func (m margins) onlyTooThick() bool {
	if !(m[byBathViscosity] >= 0) {
		return false
	}
	m[byBathViscosity] = -1
	return m.worst() < 0
}

// fromTheStart names the limit that a bath is above when its life should begin,
// where there is another than bath viscosity. Gel, which brings every viscosity
// with it, is told before these.
func (m margins) fromTheStart() Limit {
	if m[byGel] >= 0 {
		return Gel
	}
	for i := byLaidViscosity; i < limitCount; i++ {
		if !(m[i] < 0) {
			return limitNames[i]
		}
	}
	return BathViscosity
}
