package resins

import (
	"math"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

// A PotTest is a mass of resin in a container, watched from mixing on: what a data
// sheet's pot life and a log of a cup tell of. Nobody stirs it unless the
// container says so, and then its hottest place decides (package still).
type PotTest struct {
	In     Container
	Mass   quantity.Mass
	Room   quantity.Temperature
	From   quantity.Temperature // of the resin when mixed; 0: the room's
	Losses float64              // factor of the container's heat losses; 0: 1
	Coarse bool                 // for whoever asks a thousand times
}

// How finely the cup of a test is cut, 0 as finely as package still chooses. Ends are found
// within 0.3 % on the usual grid and 1 % on the coarse one of what a fine one gives (a test
// holds it): a label is good to 20 %, a statement to 10 %.
const (
	testCells   = 0
	coarseCells = 5
)

// AssumedCup is the container of a test that names none: a cup as deep as wide.
func AssumedCup(mass quantity.Mass, density quantity.Density) Container {
	return Container{Cup: vessel.UsualCup(mass, density).Perimeter / math.Pi}
}

// Body is a container with a mass in it that nobody stirs, its losses times a
// factor.
func (c Container) Body(mass quantity.Mass, losses float64, jacketed bool) still.Body {
	v := c.Vessel(jacketed).LossesTimes(losses)
	if c.Cup > 0 {
		return still.CupOf(v, mass)
	}
	return still.Tray{Vessel: v, Mass: mass}
}

// body is the container of the test. A tray is a slow one: the resin is judged by it, and one
// that was hotter than the real one would make the resin slower than it is.
func (t *PotTest) body() still.Body {
	b := t.In.Body(t.Mass, t.losses(), false)
	if tray, ok := b.(still.Tray); ok {
		tray.Slow = true
		return tray
	}
	return b
}

// Grid is [still.Working] for resin that starts at a temperature, with so many cells
// across where the container is a cup, whose cells are many; a tray's are few and left to
// package still.
func (c Container) Grid(cells int, from quantity.Temperature) still.Precision {
	p := still.Working
	p.From = from
	if c.Cup > 0 {
		p.Cells = cells
	}
	return p
}

// start is the resin when mixed.
func (t *PotTest) start() vessel.State {
	s := vessel.State{Mass: t.Mass, Temperature: t.From}
	if s.Temperature == 0 {
		s.Temperature = t.Room
	}
	return s
}

func (t *PotTest) stirred(resin *kinetics.Resin) bool {
	return t.In.Stirs(t.Mass, resin.Density) == vessel.DrumAlways
}

func (t *PotTest) losses() float64 {
	if t.Losses == 0 {
		return 1
	}
	return t.Losses
}

func (t *PotTest) bath(resin kinetics.Resin) *vessel.Bath {
	room := vessel.Constant(t.Room)
	return vessel.New(resin, t.In.Vessel(false).LossesTimes(t.losses()), room, room, vessel.Working)
}

func (t *PotTest) pot(resin kinetics.Resin) (*still.Pot, error) {
	room := vessel.Constant(t.Room)
	cells := testCells
	if t.Coarse {
		cells = coarseCells
	}
	return still.New(resin, t.body(), room, room, t.In.Grid(cells, t.start().Temperature))
}

// TimeTo returns how long the resin takes to an end-point, +Inf when that is not
// reached within the horizon.
func (t *PotTest) TimeTo(resin kinetics.Resin, end vessel.EndPoint, horizon quantity.Time) (quantity.Time, error) {
	times, err := t.TimesTo(resin, []vessel.EndPoint{end}, horizon)
	if err != nil {
		return 0, err
	}
	return times[0], nil
}

// TimesTo is [PotTest.TimeTo] for several ends of one pot.
func (t *PotTest) TimesTo(resin kinetics.Resin, ends []vessel.EndPoint, horizon quantity.Time) ([]quantity.Time, error) {
	if t.stirred(&resin) {
		return t.bath(resin).TimesTo(ends, t.start(), 0, horizon)
	}
	pot, err := t.pot(resin)
	if err != nil {
		return nil, err
	}
	return pot.TimesTo(ends, t.start(), 0, horizon)
}

// Trace returns what a thermometer and a viscometer in the middle of the resin see
// from one elapsed time to another, every interval apart and at the end: the
// hottest temperature, and the degree of cure and the growth of the most cured
// resin.
func (t *PotTest) Trace(resin kinetics.Resin, from, to, interval quantity.Time) ([]vessel.Sample, error) {
	if t.stirred(&resin) {
		_, samples, err := t.bath(resin).Trace(t.start(), from, to, interval, vessel.Tow{})
		return samples, err
	}
	pot, err := t.pot(resin)
	if err != nil {
		return nil, err
	}
	start, err := pot.Uniform(t.start())
	if err != nil {
		return nil, err
	}
	return pot.Probe(start, from, to, interval)
}
