package fit

import (
	"math"
	"sort"
)

// A curve is a predicted course, linear between its points.
type curve struct{ at, is []float64 }

// distance is how far a reading is from the curve, in standard deviations of its
// time and its value at once:
//
//	d² = min over t of ((t − at)/late)² + ((curve(t) − is)/sigma)²
//
// negative where the curve runs below the reading. A difference of values alone
// would take a runaway a minute late for a hundred kelvin.
func (c curve) distance(at, is, late, sigma float64) float64 {
	i := sort.SearchFloat64s(c.at, at)
	i = max(1, min(i, len(c.at)-1))
	share := (at - c.at[i-1]) / (c.at[i] - c.at[i-1])
	share = math.Max(0, math.Min(1, share))
	here := c.is[i-1] + share*(c.is[i]-c.is[i-1]) - is
	least := here * here / (sigma * sigma)
	near := func(k int) bool {
		x0, y0 := (c.at[k-1]-at)/late, (c.is[k-1]-is)/sigma
		x1, y1 := (c.at[k]-at)/late, (c.is[k]-is)/sigma
		if apart := math.Max(x0, -x1); apart > 0 && apart*apart >= least {
			return false // this part, and all beyond, is too far in time alone
		}
		dx, dy := x1-x0, y1-y0
		s := 0.0
		if length := dx*dx + dy*dy; length > 0 {
			s = math.Max(0, math.Min(1, -(x0*dx+y0*dy)/length))
		}
		x, y := x0+s*dx, y0+s*dy
		least = math.Min(least, x*x+y*y)
		return true
	}
	for k := i; k < len(c.at) && near(k); k++ {
	}
	for k := i - 1; k >= 1 && near(k); k-- {
	}
	return math.Copysign(math.Sqrt(least), here)
}
