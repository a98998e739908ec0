package chart

import (
	"math"

	"potlife/kinetics/quantity"
)

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
	Temperature: {"temperature", "°C", "bath temperature, °C", quantity.Temperature(0).Celsius(), "that is below absolute zero", -50, 300},
}

func (c Course) scale() scale { return scales[c.Measure] }

// headroom is the height of the viscosity axis in limits.
const headroom = 1.25

// A temperature axis holds what the bath has and what was read, and the limit too where it is
// not far above: on a page from a room's 20 °C to a limit of 40 °C, half a kelvin is nothing.
const (
	grain        = 5.0  // K, ends that read well
	leastSpan    = 10.0 // K
	farAbove     = 1.6  // spans from the bottom: a limit beyond is left off
	warmHeadroom = 0.12 // of what is below the limit, above it
)

// bounds are the ends of the axis. What lies above the top is cut off, or marked at the edge
// if it was read.
func (c Course) bounds() (bottom, top float64) {
	if c.Measure == Viscosity {
		return 0, headroom * c.Limit
	}
	low, high := math.Inf(1), math.Inf(-1)
	widen := func(a, b float64) { low, high = math.Min(low, a), math.Max(high, b) }
	limit := math.Inf(1)
	if c.limited() {
		limit = c.Limit
	}
	for _, series := range [][]float64{c.Low, c.Likely, c.High} {
		for _, v := range series {
			if finite(v) && v <= limit {
				widen(v, v)
			}
		}
	}
	for _, r := range c.Readings {
		if r.Is <= limit {
			widen(r.Is-r.Doubt, r.Is+r.Doubt)
		}
	}
	if low > high {
		low, high = c.Limit, c.Limit // all of it is above
	}
	bottom = grain * math.Floor((low-1)/grain)
	top = math.Max(bottom+leastSpan, high+1)
	if limit <= bottom+farAbove*(top-bottom) {
		top = c.Limit + warmHeadroom*(c.Limit-bottom)
	}
	return bottom, top
}

// showsLimit tells whether the limit is on the page.
func (c Course) showsLimit() bool {
	_, top := c.bounds()
	return c.limited() && c.Limit <= top
}
