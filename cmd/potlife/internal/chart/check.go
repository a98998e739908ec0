package chart

import (
	"fmt"
	"math"
	"time"
)

// What the axes can carry. A course outside is a slip upstream, not a plan.
const (
	shortest = time.Second         // the finest tick
	longest  = 31 * 24 * time.Hour // a month in 15 minute steps is still quick to tick

	lowestLimit  = 0.1 // mPa·s, a tenth of water
	highestLimit = 1e9 // mPa·s, stiffer than pitch

	heaviest = 1e8 // g, a hundred pots of a tonne, the heaviest that can be logged
)

// check says what is missing or impossible in a course, and nil if it can be drawn.
func (c Course) check() error {
	if err := c.checkTimes(); err != nil {
		return err
	}
	if s := c.scale(); c.limited() && !(c.Limit >= s.lowestLimit && c.Limit <= s.highestLimit) {
		return fmt.Errorf("chart: the %s limit is %g %s; give one between %g and %g %s",
			s.name, c.Limit, s.unit, s.lowestLimit, s.highestLimit, s.unit)
	}
	for _, s := range []struct {
		name   string
		values []float64
		needed bool
	}{{"likely", c.Likely, true}, {"low", c.Low, c.banded()}, {"high", c.High, c.banded()}, {"before", c.Before, c.Before != nil}} {
		if !s.needed {
			continue
		}
		if err := c.checkSeries(s.name, s.values); err != nil {
			return err
		}
	}
	for i, low := range c.Low {
		if low > c.High[i] {
			return fmt.Errorf("chart: at %s the low edge of the band, %g %s, is above the high one, %g %s; were they swapped?",
				clock(c.At[i]), low, c.scale().unit, c.High[i], c.scale().unit)
		}
	}
	for _, check := range []func() error{c.checkPours, c.checkReadings} {
		if err := check(); err != nil {
			return err
		}
	}
	return c.checkLayers()
}

func (c Course) checkTimes() error {
	switch len(c.At) {
	case 0:
		return fmt.Errorf("chart: no times to draw; give at least two")
	case 1:
		return fmt.Errorf("chart: one time only (%s); give at least two", clock(c.At[0]))
	}
	for i := 1; i < len(c.At); i++ {
		if c.At[i].Before(c.At[i-1]) {
			return fmt.Errorf("chart: times must ascend; time %d (%s) is before time %d (%s)",
				i+1, clock(c.At[i]), i, clock(c.At[i-1]))
		}
	}
	switch span := c.end().Sub(c.start()); {
	case span < shortest:
		return fmt.Errorf("chart: the times span %v; give at least %v", span, shortest)
	case span > longest:
		return fmt.Errorf("chart: the times span %.0f days (%s to %s), more than %.0f; check the dates",
			span.Hours()/24, c.start().Format(time.DateOnly), c.end().Format(time.DateOnly), longest.Hours()/24)
	}
	return nil
}

func (c Course) checkSeries(name string, values []float64) error {
	if len(values) != len(c.At) {
		return fmt.Errorf("chart: the %s series has %d values for %d times; give one for each", name, len(values), len(c.At))
	}
	s, something := c.scale(), false
	for i, v := range values {
		if v < s.lowest {
			return fmt.Errorf("chart: the %s %s at %s is %g %s; %s", name, s.name, clock(c.At[i]), v, s.unit, s.impossible)
		}
		something = something || finite(v)
	}
	if !something {
		return fmt.Errorf("chart: the %s series has no finite %s; nothing to draw", name, s.name)
	}
	return nil
}

func (c Course) checkPours() error {
	for i, p := range c.Pours {
		if _, ok := pourDashes[p.Kind]; !ok {
			return fmt.Errorf("chart: pour %d has the kind %q; take fill, top-up or change", i+1, p.Kind)
		}
		if !(p.Grams >= 0 && p.Grams <= heaviest) {
			return fmt.Errorf("chart: pour %d (%s, %s) has a mass of %g g; give one from 0 to %.0f g",
				i+1, p.Kind, clock(p.At), p.Grams, float64(heaviest))
		}
		if !c.covers(p.At) {
			return fmt.Errorf("chart: pour %d (%s, %s) is outside the charted time, %s to %s; extend the series or leave it out",
				i+1, p.Kind, clock(p.At), clock(c.start()), clock(c.end()))
		}
	}
	return nil
}

func (c Course) checkLayers() error {
	for i, l := range c.Layers {
		if l.End.Before(l.Start) {
			return fmt.Errorf("chart: layer %d (%s) ends at %s, before it starts at %s", i+1, l.Name, clock(l.End), clock(l.Start))
		}
		if !c.covers(l.Start) || !c.covers(l.End) {
			return fmt.Errorf("chart: layer %d (%s, %s to %s) is outside the charted time, %s to %s; extend the series or leave it out",
				i+1, l.Name, clock(l.Start), clock(l.End), clock(c.start()), clock(c.end()))
		}
	}
	return nil
}

// limited tells whether there is a limit; a page of viscosities needs one.
func (c Course) limited() bool { return c.Limit != 0 || c.Measure == Viscosity }

func (c Course) banded() bool { return c.Low != nil || c.High != nil }

func (c Course) start() time.Time { return c.At[0] }

// end is in the zone of the start, the zone of the page.
func (c Course) end() time.Time { return c.At[len(c.At)-1].In(c.start().Location()) }

func (c Course) covers(t time.Time) bool { return !t.Before(c.start()) && !t.After(c.end()) }

func clock(t time.Time) string { return t.Format("2006-01-02 15:04:05") }

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
