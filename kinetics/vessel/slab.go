package vessel

import (
	"math"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
)

// A slab is resin that lies still, wide enough for its middle not to feel the upright walls: what
// linear conduction through its depth says of it. Of its modes cos(z·x/L) + (b/z)·sin(z·x/L), the
// slowest has z with
//
//	z = atan(b/z) + atan(s/z),   b = h_f·L/k, s = h_s·L/k              (7)
//
// (H. S. Carslaw, J. C. Jaeger, Conduction of Heat in Solids, 2nd ed., 3.11, from memory).
type slab struct {
	slowest float64 // rate of the slowest mode, 1/s; 0: nothing cools it
	steady  float64 // rise of the hottest place per rise without losses in a second, steady, s
	core    float64 // of resin all alike, the slowest mode's share where it is hottest; above 1
	biot    float64 // the larger of b and s
	share   float64 // slowest over what the losses would be, were it stirred
}

// slabOf is the slab of a mass of resin in a vessel.
func slabOf(r *kinetics.Resin, v *Vessel, mass quantity.Mass) slab {
	depth, k := float64(v.Depth(mass, r.Density)), float64(r.Conductivity)
	b, s := float64(v.FloorLoss)*depth/k, float64(v.SurfaceLoss)*depth/k
	all := b + s
	if !(all > 0) {
		return slab{}
	}
	z := slowestMode(b, s)
	perSecond := k / (float64(r.Density) * float64(r.HeatCapacity) * depth * depth)
	d := slab{slowest: z * z * perSecond, share: z * z / all, biot: math.Max(b, s)}
	// Steady, with heat made evenly, the temperature is a parabola; x is where it is highest.
	below := (1 + s/2) / (all + b*s)
	x := b * below
	d.steady = (below + b*below*x - x*x/2) / perSecond
	sin, cos := math.Sincos(z)
	mean := sin/z + b/(z*z)*(1-cos)
	square := (1+b*b/(z*z))/2 + sin*cos/(2*z)*(1-b*b/(z*z)) + b/(z*z)*sin*sin
	d.core = mean / square * math.Hypot(1, b/z)
	return d
}

// slowestMode solves (7) by Newton's method: the right-hand side falls with z, so that there is
// one root, below π.
func slowestMode(b, s float64) float64 {
	z := math.Sqrt((b + s) / (1 + (b+s)/(math.Pi*math.Pi)))
	for range 6 {
		g := math.Atan2(b, z) + math.Atan2(s, z) - z
		z = math.Max(z/2, z+g/(1+b/(z*z+b*b)+s/(z*z+s*s)))
	}
	return z
}
