package still

import (
	"math"

	"potlife/kinetics/ode"
)

// firstGel finds when in the last step resin gels, of several places the first.
func (p *Pot) firstGel() (at float64, found bool) {
	at = math.Inf(1)
	p.eachGel(func(t float64) { at, found = math.Min(at, t), true })
	if t, hit := p.summitRises(p.mostCured(p.solver.Y()), 0, p.resin.Gel); hit {
		at, found = math.Min(at, t), true
	}
	return at, found
}

// summitRises finds when in the last step a [Pot.summit] reaches a level.
func (p *Pot) summitRises(cell, kind int, level float64) (at float64, found bool) {
	s := p.solver
	margin := func(t float64) float64 {
		return p.summit(cell, kind, p.during(t)) - level
	}
	now := margin(s.T())
	if !(now >= 0) {
		return 0, false
	}
	before := margin(s.Before())
	if !(before < 0) {
		return 0, false
	}
	return ode.Root(margin, s.Before(), s.T(), before, now), true
}

// lastGel finds when in the last step the last cell gelled, if none is left.
func (p *Pot) lastGel() (at float64, found bool) {
	now := p.solver.Y()
	for i, m := range p.system.net.Resin {
		if m > 0 && now[i] < p.resin.Gel {
			return 0, false
		}
	}
	at = p.solver.Before()
	p.eachGel(func(t float64) { at = math.Max(at, t) })
	return at, true
}

// eachGel tells the moments of the last step at which cells gel.
func (p *Pot) eachGel(tell func(t float64)) {
	s, gel := p.solver, p.resin.Gel
	before, now := s.YBefore(), s.Y()
	for i, m := range p.system.net.Resin {
		if !(m > 0) || !(before[i] < gel) || !(now[i] >= gel) {
			continue
		}
		tell(ode.Root(func(t float64) float64 { return s.Value(i, t) - gel }, s.Before(), s.T(), before[i]-gel, now[i]-gel))
	}
}

// warmsTo finds when in the last step a cell with resin reaches kelvin, of
// several the first. A rise and fall inside the step counts.
func (p *Pot) warmsTo(kelvin float64) (at float64, found bool) {
	s, n := p.solver, p.system.n
	before, now := s.YBefore(), s.Y()
	slope, slopeNow := s.SlopeBefore(), s.Slope()
	h := s.T() - s.Before()
	at = math.Inf(1)
	for i, m := range p.system.net.Resin {
		c := n + i
		if !(m > 0) || !(before[c] < kelvin) {
			continue
		}
		if now[c] < kelvin && !(slope[c] > 0 && slopeNow[c] < 0 && before[c]+h*slope[c] >= kelvin) {
			continue
		}
		rise := func(t float64) float64 { return s.Value(c, t) - kelvin }
		if t, hit := ode.Rising(rise, s.Before(), s.T(), before[c]-kelvin, now[c]-kelvin); hit {
			at, found = math.Min(at, t), true
		}
	}
	if t, hit := p.summitRises(p.system.hottest(now), n, kelvin); hit {
		at, found = math.Min(at, t), true
	}
	return at, found
}

// warmest finds the highest temperature of any resin in the last step, and when.
func (p *Pot) warmest() (at, kelvin float64) {
	s, n := p.solver, p.system.n
	before, now := s.YBefore(), s.Y()
	slope, slopeNow := s.SlopeBefore(), s.Slope()
	h := s.T() - s.Before()
	kelvin = math.Inf(-1)
	cell := 0
	for i, m := range p.system.net.Resin {
		c := n + i
		if !(m > 0) {
			continue
		}
		if now[c] > kelvin {
			at, kelvin, cell = s.T(), now[c], i
		}
		// A summit inside the step lies below both tangents.
		if slope[c] > 0 && slopeNow[c] < 0 && math.Min(before[c]+h*slope[c], now[c]-h*slopeNow[c]) > kelvin {
			if t := p.turn(c); s.Value(c, t) > kelvin {
				at, kelvin, cell = t, s.Value(c, t), i
			}
		}
	}
	return at, p.summit(cell, n, p.during(at))
}

// turn is where component c turns from rising to falling inside the last step.
func (p *Pot) turn(c int) float64 {
	s := p.solver
	rise := func(t float64) float64 { return s.Rise(c, t) }
	before, now := rise(s.Before()), rise(s.T())
	if before <= 0 {
		return s.Before()
	}
	if now >= 0 {
		return s.T()
	}
	return ode.Root(rise, s.Before(), s.T(), before, now)
}
