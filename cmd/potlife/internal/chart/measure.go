package chart

import "math"

// Measure is what a chart shows of the bath.
type Measure int

// The measures. Viscosities are in mPa·s, temperatures in °C.
const (
	Viscosity Measure = iota
	Temperature
)

// scale is how a measure is named and what its axis can carry. A value outside is a slip
// upstream.
type scale struct {
	name, unit, axis          string
	lowest                    float64 // there is none below it
	impossible                string  // why not
	lowestLimit, highestLimit float64
}

var scales = map[Measure]scale{
	Viscosity: {"viscosity", "mPa·s", "bath viscosity, mPa·s", 0, "a viscosity is never negative", lowestLimit, highestLimit},
	// From frost to where any bath smokes.
	Temperature: {"temperature", "°C", "bath temperature, °C", -273.15, "that is below absolute zero", -50, 300},
}

func (c Course) scale() scale { return scales[c.Measure] }

// headroom is the height of the viscosity axis in limits, and what a temperature axis has
// above its limit, as a part of what it has below.
const (
	headroom     = 1.25
	warmHeadroom = 0.12
)

// bounds are the ends of the axis. Readings widen a temperature axis downwards; what lies
// above the top is cut off, or marked at the edge if it was read.
func (c Course) bounds() (bottom, top float64) {
	if c.Measure == Viscosity {
		return 0, headroom * c.Limit
	}
	const grain = 5 // K, a bottom that reads well
	bottom = c.Limit
	for _, v := range c.Low {
		if finite(v) {
			bottom = math.Min(bottom, v)
		}
	}
	for _, r := range c.Readings {
		bottom = math.Min(bottom, r.Is-r.Doubt)
	}
	bottom = grain * math.Floor((bottom-1)/grain)
	return bottom, c.Limit + warmHeadroom*(c.Limit-bottom)
}
