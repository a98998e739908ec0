package vessel

import (
	"math"
	"sort"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
)

// A core is the hottest place of resin that begins to lie still with one temperature, by two
// unknowns more: cooling starts at the faces and comes there late. With θ the temperature above
// what is outside, g the warming by cure in K/s, and τ and p of the slab,
//
//	dθ/dt  = g − l
//	dl/dt  = p·(l' − l) + f(l)                                         (8)
//	dl'/dt = p·(θ/τ − l') + f(l')
//
// Steady, θ = g·τ as in the slab; p is such that the slowest of the three decays as the slab's
// slowest mode does, and a tenth less. f is for the colder resin further out, which cures slower:
// where the rate is linear in T it shifts every mode alike, as it must,
//
//	f(l) = p·g·x/(1 + |x|),   x = 0.9·E·l/(p·R·T²)                     (9)
//
// Where resin lives for many times 1/p, (8) is stiff and says no more than its slow part,
//
//	(1 − s/τ)·dθ/dt = g − θ/τ − s·g·0.9·E/(R·T²)·θ/τ                   (10)
//
// with s so that it decays as the slowest mode does, or a tenth more late, from the share of that
// mode in what resin all alike has at that place.
//
// Where a face hardly resists, or room and wall differ, skin and core part, and none of this holds:
// see [Bath.Standing].
//
// The forms of (8) to (10), and both 0.9, are our own. Package still, which resolves the slab, proves
// them: by its test, lives are up to 1.9 % short, 0.5 % in the middle of 603 cases, and none is
// longer by more than 0.1 %. Where a peak just reaches a limit of the temperature a life
// may be longer by more: there half a kelvin moves it more than that.
type core struct {
	slab
	delay  float64 // p
	energy float64 // E/R, K
	lag    float64 // s of (10), s
	quick  bool    // followed by (10)
}

const (
	delaySlower = 0.9
	outerShare  = 0.9 // of E in f: resin further out is not all that much colder
	// mostDelays is for how many times 1/p a resin that lives longer is followed by (10).
	mostDelays = 100
	// mostDelay is for thin resin, in which whatever is late is so by seconds: it is followed by (10) as well.
	mostDelay = 1.0 / 12
	leastLate = 1e-9 // keeps p finite
	// smallBiot is up to where a face leaves the skin so near what the resin is inside that lives are not
	// 2 % short: some 28 mm of resin in air.
	smallBiot = 1.4
)

// Lives by (8) are cut by a share, so that they are never longer than those of the slab, and by
// more in resin colder than what is outside, whose skin is warmer than its core at first. Where that
// were more than coreShortMost, package still is asked.
const (
	coreShort     = 0.005
	coreShortCold = 0.001 // per K and unit of Biot's number
	coreShortMost = 0.013
)

// of sets the core up for a mass of resin.
func (c *core) of(r *kinetics.Resin, v *Vessel, s *State) {
	c.slab = slabOf(r, v, s.Mass)
	const begun, warmer = 0.05, 5.0 // on its way: a guess will do
	cures := math.Max(0, r.Gel-s.Alpha) / r.Cure.Rate(math.Max(s.Alpha, begun), float64(s.Temperature)+warmer)
	if c.steady < leastLag { // as thin as [Bath.Derivative] takes no resin to be
		c.slowest, c.steady = c.slowest*c.steady/leastLag, leastLag
	}
	late := math.Max(leastLate, 1-1/math.Sqrt(c.slowest*c.steady))
	c.delay = delaySlower * c.slowest / late
	c.lag = math.Max(0, c.steady-1/c.slowest) / delaySlower
	c.quick = c.delay*cures > mostDelays || c.delay > mostDelay
}

// derivative is (8), with the warming by cure given; l are the last two unknowns.
func (c *core) derivative(warming, kelvin, outside float64, l, dldt []float64) (dTdt float64) {
	if !(c.slowest > 0) { // nothing is lost
		dldt[0], dldt[1] = 0, 0
		return warming
	}
	over := kelvin - outside
	steep := outerShare * c.energy / (kelvin * kelvin)
	if c.quick {
		dldt[0], dldt[1] = 0, 0
		l := over / c.steady
		return (warming - l - warming*steep*l*c.lag) / (1 - c.lag/c.steady)
	}
	x := steep / c.delay
	slower := func(l float64) float64 { return warming * steep * l / (1 + x*math.Abs(l)) }
	dldt[0] = c.delay*(l[1]-l[0]) + slower(l[0])
	dldt[1] = c.delay*(over/c.steady-l[1]) + slower(l[1])
	return warming - l[0]
}

// leastEnergy is the least E/R of a rate law up to gel, in K, at temperatures of a bath.
func leastEnergy(r *kinetics.Resin) float64 {
	const cool, hot, steps = 295.0, 325.0, 8
	least := math.Inf(1)
	for i := range steps {
		alpha := r.Gel * (float64(i) + 0.5) / steps
		law := r.Cure.Piece(sort.SearchFloat64s(r.Cure.Breaks(), alpha))
		least = math.Min(least, math.Log(law.Rate(alpha, hot)/law.Rate(alpha, cool))/(1/cool-1/hot))
	}
	return math.Max(0, least)
}

// Resin that has cured by agedBy and is coldBy colder than what is outside, as after a cold pour, may
// pass its limit at the skin first; lives were up to 9 % long.
const (
	agedBy = 0.03
	coldBy = 3 // K
)

// justBelow a limit of the temperature, in K, a life does not begin beyond it.
const justBelow = 0.05

// short is the share that a life is cut by.
func (c *core) short(s State, outside quantity.Temperature) quantity.Time {
	under := math.Max(0, float64(outside-s.Temperature))
	return quantity.Time(coreShort + coreShortCold*c.biot*under)
}

// Standing is [Bath.Life] of resin that lies still from now on, as its hottest place has it. It is
// not ok where that can be at the skin; then package still must be asked.
func (b *Bath) Standing(s State, from quantity.Time, l Limits, horizon quantity.Time) (life Life, ok bool, err error) {
	if b.hot == nil {
		b.hot = newBath(b.resin, b.vessel, b.room, b.wall, b.precision, true).Sticking(l)
	}
	b.hot.stuck.follows = l.Clean.byFilm()
	c, outside := b.hot.core, b.room.At(from)
	c.of(&b.resin, &b.vessel, &s)
	agedCold := s.Alpha > agedBy && s.Temperature < outside-coldBy
	if c.biot > smallBiot || agedCold || !b.room.same(b.wall) || c.short(s, outside) > coreShortMost {
		return life, false, nil
	}
	cut, w := c.short(s, outside), NewWatch(b.hot, l)
	if c.quick && c.slowest > 0 {
		slow := outside + quantity.Temperature(c.core)*(s.Temperature-outside)
		s.Temperature = min(slow, max(s.Temperature, l.BathTemperature-justBelow))
	}
	if _, err := b.hot.run(&s, float64(from), float64(from+horizon), Tow{}, w); err != nil {
		return Life{}, true, err
	}
	life = w.Life(from)
	life.Left *= 1 - cut
	return life, true, nil
}
