package cure

import (
	"math"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

// A stage is the part of one bath in the oven.
type stage struct {
	wall  wall
	start still.Profile
}

// A course is what a program did to a part, extremes over all places and moments.
type course struct {
	peak    quantity.Temperature
	peakAt  quantity.Time
	mandrel quantity.Temperature           // the hottest place of the mandrel
	lead    quantity.TemperatureDifference // the least of glass temperature − temperature
	leadAt  quantity.Time
	laziest float64 // degree of cure, at the last moment seen
	reached quantity.Time
}

// bounds are what a course must keep; a run is given up at the first breach.
type bounds struct {
	exotherm, mandrel quantity.Temperature           // +Inf: none
	lead              quantity.TemperatureDifference // −Inf: none
	aim               float64                        // +Inf: followed to the end
	aimFrom           quantity.Time                  // when the last ramp is done
}

// kept tells whether a course has kept the bounds, its aim apart.
func (b *bounds) kept(c *course) bool {
	return c.peak <= b.exotherm && c.mandrel <= b.mandrel && c.lead >= b.lead
}

// follow runs the stage in the oven's air until the aim is reached from aimFrom on, a bound
// is broken, or until.
func (s *stage) follow(r kinetics.Resin, air vessel.Series, loss quantity.HeatTransfer, until, interval quantity.Time, b bounds, p still.Precision) (*course, error) {
	pot, err := s.wall.pot(r, air, loss, p)
	if err != nil {
		return nil, err
	}
	c := &course{peak: -1, mandrel: -1, lead: quantity.TemperatureDifference(math.Inf(1)), reached: quantity.Time(math.Inf(1))}
	before, last := math.Inf(1), quantity.Time(0)
	first, glass := s.wall.first, r.Glass
	_, _, err = pot.Follow(s.start, 0, until, interval, func(at quantity.Time, alpha, kelvin []float64) bool {
		c.look(glass, at, first, alpha, kelvin)
		if !b.kept(c) {
			return true
		}
		if c.laziest >= b.aim {
			c.reached = max(b.aimFrom, at)
			if before < b.aim {
				c.reached = max(b.aimFrom, at-(at-last)*quantity.Time((c.laziest-b.aim)/(c.laziest-before)))
			}
			return at >= b.aimFrom
		}
		before, last = c.laziest, at
		return false
	})
	return c, err
}

// look adds a moment.
func (c *course) look(glass kinetics.DiBenedetto, at quantity.Time, first int, alpha, kelvin []float64) {
	for _, k := range kelvin[:first] {
		c.mandrel = max(c.mandrel, quantity.Temperature(k))
	}
	c.laziest = math.Inf(1)
	for i := first; i < len(alpha); i++ {
		k := quantity.Temperature(kelvin[i])
		c.laziest = math.Min(c.laziest, alpha[i])
		if k > c.peak {
			c.peak, c.peakAt = k, at
		}
		if lead := quantity.TemperatureDifference(glass.At(alpha[i]) - k); lead < c.lead {
			c.lead, c.leadAt = lead, at
		}
	}
}
