package vessel

import (
	"errors"
	"fmt"
	"math"

	"potlife/kinetics"
	"potlife/kinetics/ode"
	"potlife/kinetics/quantity"
)

// Precision is how finely a bath is integrated.
type Precision struct {
	Rel         float64                        // relative error of a step
	Alpha       float64                        // absolute error of α and φ in a step
	Temperature quantity.TemperatureDifference // absolute error of T in a step
	FirstStep   quantity.Time                  // tried at the start of a stretch; 0: guessed
}

var (
	// Working precision finds the gel of a runaway within 1e-5 of its time and
	// whatever comes slowly within 1e-4.
	Working = Precision{Alpha: 2e-6, Temperature: 1e-3, FirstStep: 60}
	// Strict precision is for whoever checks the former.
	Strict = Precision{Alpha: 1e-10, Temperature: 1e-7}
)

// Tighter is a precision with so many times smaller errors.
func (p Precision) Tighter(times float64) Precision {
	p.Rel, p.Alpha = p.Rel/times, p.Alpha/times
	p.Temperature /= quantity.TemperatureDifference(times)
	return p
}

// A Bath is resin in a vessel in its surroundings, ready to be followed. It
// holds no state of the resin, but buffers: one goroutine at a time.
type Bath struct {
	resin  kinetics.Resin
	vessel Vessel
	room   Series
	wall   Series
	breaks []float64

	solver *ode.Solver
	// firstStep spares the guess where stretches are short: a minute is what
	// most baths take in one step.
	firstStep float64
	y         []float64
	scratch   []float64

	precision Precision
	core      *core   // it is the hottest place of resin that lies still; nil: stirred
	hot       *Bath   // that place of this bath; nil: not asked for yet
	cools     float64 // share of its losses while it cools and is not stirred, see [slab]; 1: stirred

	// What the right-hand side needs of the stretch being integrated.
	law           kinetics.RateLaw
	phi           bool
	mass0, t0     float64
	draw          float64
	towLoss       float64 // ṁ_f·c_f, W/K
	surfaceLoss   float64 // h_s·A, W/K
	floorLoss     float64 // h_f·A, W/K
	wallLoss      float64 // h_w·perimeter/(ρA), W/(K·kg)
	rise          float64 // H/cp, K
	heatCapacity  float64
	roomK, roomKs float64 // at t0, and its slope
	wallK, wallKs float64
	logExcess     float64

	stuck stuck
}

// New returns a bath of resin in a vessel. wall is the jacket's temperature; a
// vessel without a jacket has the room's.
func New(resin kinetics.Resin, v Vessel, room, wall Series, p Precision) *Bath {
	return newBath(resin, v, room, wall, p, false)
}

func newBath(resin kinetics.Resin, v Vessel, room, wall Series, p Precision, hottest bool) *Bath {
	abs := []float64{p.Alpha, float64(p.Temperature)}
	phi := resin.Viscosity.HasPhi()
	if phi {
		abs = append(abs, p.Alpha)
	}
	var c *core
	if hottest {
		c = &core{energy: leastEnergy(&resin)}
		perSecond := float64(p.Temperature) / lagSeconds
		abs = append(abs, perSecond, perSecond)
	}
	b := &Bath{
		resin: resin, vessel: v, room: room, wall: wall,
		breaks: resin.Cure.Breaks(), phi: phi, firstStep: float64(p.FirstStep), precision: p, core: c, cools: 1,
		y: make([]float64, len(abs)), scratch: make([]float64, len(abs)),
	}
	b.surfaceLoss = float64(v.SurfaceLoss) * v.AreaM2
	b.floorLoss = float64(v.FloorLoss) * v.AreaM2
	b.wallLoss = float64(v.WallLoss) * float64(v.Perimeter) / (float64(resin.Density) * v.AreaM2)
	b.rise = float64(resin.AdiabaticRise())
	b.heatCapacity = float64(resin.HeatCapacity)
	b.solver = ode.New(b, ode.Tolerance{Rel: p.Rel, Abs: abs})
	return b
}

// Resin returns the resin in the bath.
func (b *Bath) Resin() *kinetics.Resin { return &b.resin }

// Room returns the room's temperature over time.
func (b *Bath) Room() Series { return b.room }

// Wall returns the temperature beyond floor and walls over time.
func (b *Bath) Wall() Series { return b.wall }

// Vessel returns what the resin stands in.
func (b *Bath) Vessel() Vessel { return b.vessel }

// Evaluations is the number of right-hand sides computed so far.
func (b *Bath) Evaluations() int { return b.solver.Evaluations() }

// Derivative is (1) and (2) of the package comment with y = α, T in K and,
// where the viscosity needs it, φ. It serves the integrator.
func (b *Bath) Derivative(t float64, y, dydt []float64) {
	kelvin := y[1]
	rate := b.law.Rate(y[0], kelvin)
	if b.resin.Vitrification != nil {
		rate *= kinetics.Slowing(b.resin.Vitrification, y[0], kelvin)
	}
	if b.phi {
		dydt[2] = b.resin.Viscosity.PhiRate(kelvin)
	}
	dt := t - b.t0
	if b.core != nil {
		last := len(y) - 2
		dydt[0] = rate
		dydt[1] = b.core.derivative(b.rise*rate, kelvin, b.roomK+b.roomKs*dt, y[last:], dydt[last:])
		return
	}
	mass := b.mass0 - b.draw*dt
	loss := (b.surfaceLoss+b.towLoss)*(kelvin-b.roomK-b.roomKs*dt) +
		(b.floorLoss+b.wallLoss*mass)*(kelvin-b.wallK-b.wallKs*dt)
	if loss > 0 {
		loss *= b.cools
	}
	heat := mass * b.heatCapacity
	inertia := heat
	if least := leastLag * (b.surfaceLoss + b.towLoss + b.floorLoss + b.wallLoss*mass); heat < least {
		inertia = least
	}
	if !(mass > 0) {
		inertia = math.NaN() // no mass has no temperature
	}
	dydt[0] = rate
	dydt[1] = (heat*b.rise*rate - loss) / inertia
}

// lagSeconds is what the error of a temperature is divided by for that of a loss in K/s: such a
// loss is wrong for as long as resin takes to settle.
const lagSeconds = 300

// leastLag is the shortest time, in s, in which a mass follows its surroundings.
// Less resin than that in a large vessel has their temperature to within 20 s of
// its past, which is all the model is asked for, and would cost an explicit
// integrator a step every few seconds for a week.
const leastLag = 20.0

// ErrEmpty tells that a run was to draw more resin than the bath holds.
var ErrEmpty = errors.New("the tow draws the bath empty")

// almostDry is the part of a bath that may be drawn before [ErrEmpty]: towards no
// mass at all (2) of the package comment has no solution to follow.
const almostDry = 0.999

// dryAt is when a mass in kg that loses draw in kg/s from t on is used up.
func dryAt(t, mass, draw float64) float64 {
	if draw > 0 {
		return t + mass/draw
	}
	return math.Inf(1)
}

// An observer sees each accepted step of a run and may end it.
type observer interface {
	// begin is called at the start of every smooth stretch.
	begin(b *Bath, t float64, y []float64)
	// step is called after every step; the run ends when it returns true.
	step(b *Bath) (stop bool)
}

// run follows s from t0 to t1 and leaves the state at the end, or at the step
// in which the observer stopped it, in s; it returns the time reached.
func (b *Bath) run(s *State, t0, t1 float64, tow Tow, watch observer) (float64, error) {
	b.y[0], b.y[1] = s.Alpha, float64(s.Temperature)
	if b.phi {
		b.y[2] = s.Phi
	}
	b.logExcess = s.LogExcess
	b.beginStuck(s, t0)
	b.draw = tow.DrawKgPerS
	b.towLoss = tow.FibreKgPerS * float64(tow.HeatCapacity)
	if b.core != nil {
		last := len(b.y) - 2
		b.y[last], b.y[last+1] = 0, 0
	} else if b.cools = 1; b.vessel.Drum.stands(tow) && t1 > t0 {
		b.cools = slabOf(&b.resin, &b.vessel, s.Mass).share
	}
	mass, piece := float64(s.Mass), 0
	last, dry := t1, dryAt(t0, mass, b.draw)
	if dry <= t1 {
		last = t0 + almostDry*(dry-t0)
	}
	for t := t0; ; {
		// A break of the rate law may lie at the very end of a stretch.
		for piece < len(b.breaks) && b.y[0] >= b.breaks[piece] {
			piece++
		}
		b.law = b.resin.Cure.Piece(piece)
		end := math.Min(last, math.Min(b.room.next(t), b.wall.next(t)))
		b.t0, b.mass0 = t, mass
		b.roomK, b.roomKs = b.room.line(t)
		b.wallK, b.wallKs = b.wall.line(t)
		b.solver.StartWith(t, b.y, b.firstStep)
		if watch != nil {
			watch.begin(b, t, b.y)
		}
		reached, stopped, err := b.stretch(end, piece, watch)
		mass = b.mass0 - b.draw*(reached-b.t0)
		t = reached
		if err != nil || stopped || t >= last {
			b.store(s, t, mass)
			if err == nil && !stopped && last < t1 {
				err = fmt.Errorf("%w after %g s; stop the tow before, or draw less", ErrEmpty, dry-t0)
			}
			return t, err
		}
	}
}

// stretch integrates to end or to the next break of the rate law, whichever
// comes first, and leaves the state there in b.y.
func (b *Bath) stretch(end float64, piece int, watch observer) (reached float64, stopped bool, err error) {
	if piece < len(b.breaks) {
		return b.stretchToBreak(end, b.breaks[piece], watch)
	}
	for b.solver.T() < end {
		if err = b.solver.Step(end); err != nil {
			break
		}
		if b.stepped(watch) {
			stopped = true
			break
		}
	}
	copy(b.y, b.solver.Y())
	return b.solver.T(), stopped, err
}

func (b *Bath) stretchToBreak(end, level float64, watch observer) (reached float64, stopped bool, err error) {
	beyond := func(_ float64, y []float64) float64 { return y[0] - level }
	for b.solver.T() < end {
		if err = b.solver.Step(end); err != nil {
			break
		}
		before, now := b.solver.YBefore()[0]-level, b.solver.Y()[0]-level
		if at, found := b.solver.Crossing(beyond, before, now, b.scratch); found {
			// Step again exactly to the break, so that the observer sees no
			// state beyond it.
			from := b.solver.Before()
			copy(b.y, b.solver.YBefore())
			b.solver.Start(from, b.y)
			for b.solver.T() < at && err == nil && !stopped {
				err = b.solver.Step(at)
				stopped = err == nil && b.stepped(watch)
			}
			copy(b.y, b.solver.Y())
			if !stopped {
				b.y[0] = math.Max(b.y[0], level)
			}
			return b.solver.T(), stopped, err
		}
		if b.stepped(watch) {
			stopped = true
			break
		}
	}
	copy(b.y, b.solver.Y())
	return b.solver.T(), stopped, err
}

// stepped is called after every step that counts.
func (b *Bath) stepped(watch observer) (stop bool) {
	b.ageStuck()
	return watch != nil && watch.step(b)
}

func (b *Bath) store(s *State, t, mass float64) {
	s.Alpha, s.Temperature, s.Mass = b.y[0], quantity.Temperature(b.y[1]), quantity.Mass(mass)
	if b.phi {
		s.Phi = b.y[2]
	}
	b.storeStuck(s, t)
}

// massAt returns the bath's mass in kg at time t of the present stretch.
func (b *Bath) massAt(t float64) float64 { return b.mass0 - b.draw*(t-b.t0) }

// stateAt returns the state at time t inside the last step.
func (b *Bath) stateAt(t float64) State {
	b.solver.At(t, b.scratch)
	s := State{
		Mass: quantity.Mass(b.massAt(t)), Alpha: b.scratch[0],
		Temperature: quantity.Temperature(b.scratch[1]), LogExcess: b.logExcess,
	}
	if b.phi {
		s.Phi = b.scratch[2]
	}
	b.storeStuck(&s, t)
	return s
}

// Advance follows s from one elapsed time to another and returns the state
// there, whatever limits it passes. A tow that would draw the bath empty gives an
// [ErrEmpty], an integration that fails an [*ode.Error].
func (b *Bath) Advance(s State, from, to quantity.Time, tow Tow) (State, error) {
	_, err := b.run(&s, float64(from), float64(to), tow, nil)
	return s, err
}
