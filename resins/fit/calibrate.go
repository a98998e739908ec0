package fit

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"potlife/kinetics/ode"
	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
)

// Spreads of a record that a label has narrowed, factors 9 times in 10: a pot
// life with its container, one without, and a viscosity.
const (
	labelledTime        = 1.2
	containerlessTime   = 1.35
	labelledViscosity   = 1.15
	greatestLabelFactor = 1000.0 // beyond it the label is of another kind of resin
	labelPatience       = 4      // times its own time that a label's test is followed
)

// A Calibration is a record rescaled to a label.
type Calibration struct {
	Record          *resins.Record
	TimeFactor      float64 // of every time of the cure law; 1 without a pot life
	ViscosityFactor float64 // of the viscosity; 1 without one
	Warnings        []warning.Warning
	LeftOut         []warning.Warning // what the label does not say and stays generic
	Misfit          *Misfit           // nil: the label may well be of this system
}

// A Misfit belongs beside every answer: the label's pot life is hardly of this system, but
// hours for minutes, or of another resin.
type Misfit struct {
	TimeFactor float64 // the label's times over the record's; below 1: the label is faster
	Claims     float64 // the record's own spread
}

// farBeyond is how many times the record's own spread, as a logarithm, makes a label a
// misfit (our choice: the square of what one in ten is beyond).
const farBeyond = 2.0

// Calibrate returns a copy of the record whose rate and viscosity are scaled so
// that the label's own test, simulated as [Fit] does, gives the label's figures,
// and whose spreads are narrowed to what such figures are good for. A label is
// taken at its word: [Fit] would leave it some of its distance to the prior (3 % of
// a pot life, 9 % of a viscosity where they are far apart), which nobody who reads
// the label expects. A factor outside the record's own spread is
// a warning with both figures. The error is a label that no rate can satisfy.
func Calibrate(r *resins.Record, l *resins.Label) (*Calibration, error) {
	c := &Calibration{TimeFactor: 1, ViscosityFactor: 1}
	copied := *r
	copied.Evidence = maps.Clone(r.Evidence)
	copied.Calibrated = slices.Clone(r.Calibrated)
	c.Record = &copied
	if !l.HasViscosity && r.Evidence["viscosity"].Kind != resins.Measured {
		c.LeftOut = append(c.LeftOut, LabelWithoutViscosity{Typical: r.Kinetics.ViscosityAt(0, 0, quantity.Celsius(25)), Spread: r.Spread.Viscosity})
	}
	if !l.HasPotLife && r.Generic() {
		c.LeftOut = append(c.LeftOut, LabelWithoutPotLife{})
	}
	if l.HasViscosity {
		if err := c.viscosity(r, l); err != nil {
			return nil, err
		}
	}
	if l.HasPotLife {
		if err := c.potLife(r, l); err != nil {
			return nil, err
		}
	}
	return c, nil
}

// An ImpossibleLabel is a pot life that no rate of the system can give.
type ImpossibleLabel struct{ System, Label string }

// Problem is what is wrong, in a line.
func (e *ImpossibleLabel) Problem() string {
	return "however fast or slow, " + e.System + " cannot give this pot life: " + e.Label
}

// Mend is what to do about it.
func (e *ImpossibleLabel) Mend() string {
	return "check time, mass, container and end-point against the data sheet; end: gel is the safest"
}

func (e *ImpossibleLabel) Error() string { return e.Problem() + "\n   " + e.Mend() }

// An ImpossibleViscosity is one that makes of the record what no liquid resin is.
type ImpossibleViscosity struct {
	System, Label string
	Value         quantity.Viscosity
	At            quantity.Temperature
}

// Problem is what is wrong, in a line.
func (e *ImpossibleViscosity) Problem() string {
	return fmt.Sprintf("with %s, %s would have %v at %v, which no liquid resin has", e.Label, e.System, e.Value, e.At)
}

// Mend is what to do about it.
func (e *ImpossibleViscosity) Mend() string {
	return "check value, unit and temperature against the data sheet, and the system"
}

func (e *ImpossibleViscosity) Error() string { return e.Problem() + "\n   " + e.Mend() }

func (c *Calibration) viscosity(from *resins.Record, l *resins.Label) error {
	alone := from.Kinetics.ViscosityAt(0, 0, l.ViscosityAt)
	c.ViscosityFactor = float64(l.Viscosity / alone)
	scaled := from.Kinetics.Adjusted(1, c.ViscosityFactor)
	if value, at := scaled.Viscosity.Reference(); !(value >= resins.LeastViscosity && value <= resins.GreatestViscosity) {
		return &ImpossibleViscosity{System: from.Name, Label: fmt.Sprintf("%v at %v", l.Viscosity, l.ViscosityAt), Value: value, At: at}
	}
	if f := eitherWay(c.ViscosityFactor); f > from.Spread.Viscosity {
		c.Warnings = append(c.Warnings, FarViscosity{Said: l.Viscosity, Alone: alone, At: l.ViscosityAt, Factor: f, Claims: from.Spread.Viscosity})
	}
	c.Record.Kinetics = scaled
	c.Record.Spread.Viscosity = min(from.Spread.Viscosity, labelledViscosity)
	c.Record.Evidence["viscosity"] = resins.Evidence{Kind: resins.Measured, Note: fmt.Sprintf("scaled to the label: %v at %v", l.Viscosity, l.ViscosityAt)}
	c.Record.Calibrated = append(c.Record.Calibrated, fmt.Sprintf("viscosity %v at %v", l.Viscosity, l.ViscosityAt))
	return nil
}

func (c *Calibration) potLife(from *resins.Record, l *resins.Label) error {
	resin := c.Record.Kinetics
	said := potLifeOf(l)
	rate, err := labelRate(func(factor float64, coarse bool) (float64, error) {
		faster := resin.Adjusted(factor, 1)
		t, err := said.potLife(&faster, 1, labelPatience*l.Time, coarse)
		return math.Log(float64(t / l.Time)), err
	})
	if err != nil {
		return err
	}
	if math.IsNaN(rate) {
		return &ImpossibleLabel{System: from.Name, Label: l.String()}
	}
	c.TimeFactor = 1 / rate
	if err := c.compare(said, l.Time, from.Spread.Time); err != nil {
		return err
	}
	spread := labelledTime
	if !l.HasIn {
		spread = containerlessTime
		c.Warnings = append(c.Warnings, LabelWithoutContainer{
			Cup: said.container(resin.Density).Cup, Mass: l.Mass, Spread: containerlessTime, Known: labelledTime,
		})
	}
	c.Record.Kinetics = resin.Adjusted(rate, 1)
	c.Record.Spread.Time = min(from.Spread.Time, spread)
	c.Record.Evidence["cure"] = resins.Evidence{Kind: resins.Measured, Note: "rate scaled to the label: " + l.String()}
	c.Record.Calibrated = append(c.Record.Calibrated, "pot life "+l.String())
	return nil
}

// compare warns where the label's speed is beyond a spread, and calls it a misfit far beyond.
func (c *Calibration) compare(said Statement, stated quantity.Time, spread float64) error {
	alone, err := said.potLife(&c.Record.Kinetics, 1, 7*86400, false)
	if err != nil {
		return err
	}
	f := eitherWay(c.TimeFactor)
	if f > spread {
		far := FarPotLife{Said: stated, Alone: alone, Factor: f, Claims: spread}
		if math.IsInf(float64(alone), 1) {
			far.Alone, far.Never = 0, true
		}
		c.Warnings = append(c.Warnings, far)
	}
	if math.Log(f) > farBeyond*math.Log(spread) {
		c.Misfit = &Misfit{TimeFactor: c.TimeFactor, Claims: spread}
	}
	return nil
}

// eitherWay is a factor or its inverse, whichever is above 1.
func eitherWay(f float64) float64 { return math.Max(f, 1/f) }

// labelRate finds the rate factor at which miss is zero, NaN for none: on the coarse
// grid, which costs a tenth, and from there by secants on the fine one. Where these
// do not close in, as next to an end that is only just reached, it is looked for on the
// fine grid from the beginning.
func labelRate(miss func(factor float64, coarse bool) (float64, error)) (float64, error) {
	const near, mostSecants = 2e-4, 5
	fine := func(factor float64) (float64, error) { return miss(factor, false) }
	rough, err := solveRate(func(factor float64) (float64, error) { return miss(factor, true) })
	if err != nil || math.IsNaN(rough) {
		return solveRate(fine)
	}
	x := math.Log(rough)
	xBefore, offBefore := math.NaN(), math.NaN()
	for range mostSecants {
		off, err := fine(math.Exp(x))
		if err != nil || math.IsInf(off, 0) {
			break
		}
		if math.Abs(off) <= near {
			return math.Exp(x), nil
		}
		slope := -1.0 // times go with 1/rate, but for their own heat
		if s := (off - offBefore) / (x - xBefore); s < 0 {
			slope = s
		}
		xBefore, offBefore = x, off
		x -= off / slope
	}
	return solveRate(fine)
}

// solveRate finds the rate factor at which miss, the logarithm of predicted
// over stated time, is zero. miss falls with the rate and may be +Inf. The
// result is NaN when there is none within [greatestLabelFactor].
func solveRate(miss func(factor float64) (float64, error)) (float64, error) {
	var failed error
	at := func(logFactor float64) float64 {
		m, err := miss(math.Exp(logFactor))
		if err != nil && failed == nil {
			failed = err
		}
		return math.Min(m, 1e3) // an end never reached: far too slow
	}
	low, high := 0.0, 0.0
	now := at(0)
	below, above := now, now
	bound := math.Log(greatestLabelFactor)
	for below < 0 && low > -bound {
		high, above = low, below
		low -= math.Ln2
		below = at(low)
	}
	for above > 0 && high < bound {
		low, below = high, above
		high += math.Ln2
		above = at(high)
	}
	if failed != nil {
		return 0, failed
	}
	if below < 0 || above > 0 {
		return math.NaN(), nil
	}
	root := ode.Root(at, low, high, below, above)
	if failed != nil {
		return 0, failed
	}
	// Where the end is reached or not at the turn of a hair, times jump and the
	// bracket closes on the jump instead of a zero.
	if !(math.Abs(at(root)) < 1e-3) {
		return math.NaN(), nil
	}
	return math.Exp(root), nil
}
