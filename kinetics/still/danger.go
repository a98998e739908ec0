package still

import (
	"math"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// RunawayRise is how far above its surroundings, and above where it began, the
// hottest place of a pot must get for it to have run away. The stationary states of
// self-heating end between one and two units R·T²/E above the surroundings
// (Semenov, Frank-Kamenetskii), some 13 to 25 K for epoxies in a room: whatever
// passes 50 K is not held by its losses any more, only by what is left to burn. With
// burn-off the peak rises smoothly with the mass, steepest at 40 to 90 K: that
// inflection and this rise agree on the mass within 10 % wherever there is one worth
// the name (a test of package schedule measures it).
const RunawayRise quantity.TemperatureDifference = 50

// A Danger is resin that may be forgotten: a kind of body, of any mass, at rest in
// surroundings that do not change.
type Danger struct {
	Resin      kinetics.Resin
	Body       func(quantity.Mass) Body
	Room, Wall quantity.Temperature
	From       quantity.Temperature // of the resin when mixed
	Highest    quantity.Mass        // as far as is looked
	Runs       quantity.Mass        // known to run away, as all heavier ones; 0: none is
	Near       quantity.Mass        // where the greatest safe mass is supposed, to begin there; 0: nowhere
	// Undepleted counts no burn-off: the resin reacts for ever at its fastest degree
	// of cure, as the classical theory has it. What is safe so is safe whatever the
	// rate law says of the later cure.
	Undepleted bool
	Precision  Precision
}

// Searching is a precision for [Danger]: the greatest safe mass is up to 1 % below
// what a fine grid gives (a test holds it), on the safe side.
var Searching = Precision{Rel: 1e-2, Alpha: 2e-4, Temperature: 4e-2, FirstStep: 60, Cells: 5}

// SafeWithin is how closely the greatest safe mass is bracketed: one heavier by that share is not safe.
const SafeWithin = 0.005

// leastShare of the highest mass is where the search begins.
const leastShare = 1.0 / 4096

// dangerHorizon is as far as a forgotten pot is followed.
const dangerHorizon quantity.Time = 7 * 86400

// pot is a mass of the resin, in its surroundings.
func (d *Danger) pot(mass quantity.Mass) (*Pot, error) {
	resin := d.Resin
	if d.Undepleted {
		resin = undepleted(resin, d.around())
	}
	precision := d.Precision
	precision.From = d.From
	return New(resin, d.Body(mass), vessel.Constant(d.Room), vessel.Constant(d.Wall), precision)
}

// around is the warmest of its surroundings and itself.
func (d *Danger) around() quantity.Temperature { return max(d.Room, d.Wall, d.From) }

// RunsAway tells whether a mass passes [RunawayRise] within seven days.
func (d *Danger) RunsAway(mass quantity.Mass) (bool, error) {
	if d.Runs > 0 && mass >= d.Runs {
		return true, nil
	}
	pot, err := d.pot(mass)
	if err != nil {
		return false, err
	}
	limit := d.around() + quantity.Temperature(RunawayRise)
	at, err := pot.TimeTo(vessel.EndPoint{Temperature: limit}, vessel.State{Temperature: d.From}, 0, dangerHorizon)
	return !math.IsInf(float64(at), 1), err
}

// GreatestSafe returns the greatest mass that does not run away, to [SafeWithin].
func (d *Danger) GreatestSafe() (quantity.Mass, error) { return d.GreatestSafeWithin(SafeWithin) }

// GreatestSafeWithin returns the greatest mass that does not run away, by bisection from below until
// one heavier by that share does: +Inf where not even the highest does, 0 where a four-thousandth
// of that does.
func (d *Danger) GreatestSafeWithin(share float64) (quantity.Mass, error) {
	safe, unsafe, err := d.bracket()
	if err != nil || safe == 0 || math.IsInf(float64(safe), 1) {
		return safe, err
	}
	for unsafe > safe*quantity.Mass(1+share) {
		middle := quantity.Mass(math.Sqrt(float64(safe * unsafe)))
		runs, err := d.RunsAway(middle)
		if err != nil {
			return 0, err
		}
		if runs {
			unsafe = middle
		} else {
			safe = middle
		}
	}
	return safe, nil
}

// bracket is a mass that is safe and one that is not: from the supposed one outwards, in steps that
// double, or all that there is.
func (d *Danger) bracket() (safe, unsafe quantity.Mass, err error) {
	least, highest := d.Highest*leastShare, d.Highest
	const firstStep = 0.02 // of the logarithm
	for step, at := firstStep, d.Near; at > least && at < highest; step *= 2 {
		runs, err := d.RunsAway(at)
		switch {
		case err != nil:
			return 0, 0, err
		case runs:
			unsafe = at
			at *= quantity.Mass(math.Exp(-step))
		default:
			safe = at
			at *= quantity.Mass(math.Exp(step))
		}
		if safe > 0 && unsafe > 0 {
			return safe, unsafe, nil
		}
	}
	if unsafe == 0 {
		if runs, err := d.RunsAway(highest); err != nil || !runs {
			return quantity.Mass(math.Inf(1)), 0, err
		}
		unsafe = highest
	}
	if safe == 0 {
		if runs, err := d.RunsAway(least); err != nil || runs {
			return 0, 0, err
		}
		safe = least
	}
	return safe, unsafe, nil
}

// endless is a rate law that stays at one degree of cure for ever.
type endless struct {
	law   kinetics.RateLaw
	alpha float64
}

func (l endless) Rate(_, kelvin float64) float64    { return l.law.Rate(l.alpha, kelvin) }
func (l endless) Breaks() []float64                 { return nil }
func (l endless) Piece(int) kinetics.RateLaw        { return l }
func (l endless) Scaled(f float64) kinetics.RateLaw { return endless{l.law.Scaled(f), l.alpha} }

// criticalRise is about R·T²/E for epoxies in a room: where criticality is decided.
const criticalRise = 13.0

// undepleted is the resin held at the degree of cure at which it reacts fastest,
// where criticality is decided.
func undepleted(r kinetics.Resin, around quantity.Temperature) kinetics.Resin {
	const steps = 200
	kelvin := float64(around) + criticalRise
	at, fastest := 0.0, 0.0
	for i := range steps {
		alpha := float64(i) / steps
		if rate := r.Cure.Rate(alpha, kelvin); rate > fastest {
			at, fastest = alpha, rate
		}
	}
	r.Cure, r.Vitrification = endless{r.Cure, at}, nil
	return r
}
