package still

import (
	"math"
	"slices"

	"potlife/kinetics"
	"potlife/kinetics/conduction"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still/rosenbrock"
	"potlife/kinetics/vessel"
)

// Precision is how finely a body is integrated and how finely it is cut.
type Precision struct {
	Rel         float64                        // relative error of a step
	Alpha       float64                        // absolute error of α and φ in a step
	Temperature quantity.TemperatureDifference // absolute error of T in a step
	FirstStep   quantity.Time                  // tried at the start
	Cells       int                            // across, an odd number in a pot; 0: chosen for the body
	Finer       int                            // times as many cells, for whoever checks a grid; 0: 1
	From        quantity.Temperature           // of the resin at the start: cold resin has a grid of its own; 0: as warm as around it
}

var (
	// Working precision finds gel within 1e-4 of its time on the grid it has.
	Working = Precision{Rel: 2e-3, Alpha: 5e-5, Temperature: 1e-2, FirstStep: 60}
	// Strict precision is for whoever checks the former.
	Strict = Precision{Alpha: 1e-9, Temperature: 1e-6, FirstStep: 1}
)

// Tighter is a precision with so many times smaller errors on the same grid.
func (p Precision) Tighter(times float64) Precision {
	p.Rel, p.Alpha = p.Rel/times, p.Alpha/times
	p.Temperature /= quantity.TemperatureDifference(times)
	return p
}

// A Pot is a body of resin at rest in its surroundings, ready to be followed. It
// holds no state of the resin, but buffers: one goroutine at a time.
type Pot struct {
	body       Body
	resin      kinetics.Resin
	room, wall vessel.Series
	precision  Precision
	cells      int
	breaks     []float64
	kinks      []float64

	system  *system
	solver  *rosenbrock.Solver
	y       []float64
	excess  []float64
	alike   bool      // excess is the same in all cells
	origin  []float64 // of the relative error: where a run starts
	scratch []float64
}

// New returns a body of resin in its surroundings. wall is the temperature beyond
// floor and walls, or inside a wound wall; a pot on a bench has the room's. It
// refuses a body it cannot compute with by a [*BodyError].
func New(resin kinetics.Resin, body Body, room, wall vessel.Series, p Precision) (*Pot, error) {
	if err := body.check(&resin); err != nil {
		return nil, err
	}
	if p.Cells <= 0 {
		p.Cells = body.cells(&resin)
	}
	p.Cells, p.Finer = p.Cells*max(1, p.Finer), 1
	return onNetwork(resin, body, body.network(&resin, p.Cells, isCold(p.From, room, wall)), room, wall, p), nil
}

// onNetwork is [New] for a body that is cut into cells already.
func onNetwork(resin kinetics.Resin, body Body, net *conduction.Network, room, wall vessel.Series, p Precision) *Pot {
	pot := &Pot{
		body: body, resin: resin, room: room, wall: wall, precision: p, cells: p.Cells,
		breaks: resin.Cure.Breaks(), kinks: kinksOf(room, wall),
	}
	pot.system = newSystem(&pot.resin, net)
	n := pot.system.n
	size := 2 * n
	if pot.system.phi {
		size = 3 * n
	}
	tol := rosenbrock.Tolerance{Rel: p.Rel, Abs: make([]float64, size), Origin: make([]float64, size)}
	for i := range tol.Abs {
		tol.Abs[i] = p.Alpha
		if i >= n && i < 2*n {
			tol.Abs[i] = float64(p.Temperature)
		}
	}
	pot.y, pot.excess, pot.origin = make([]float64, size), make([]float64, n), tol.Origin
	pot.scratch = make([]float64, size)
	pot.solver = rosenbrock.New(pot.system, tol)
	return pot
}

// Resin returns the resin in the body.
func (p *Pot) Resin() *kinetics.Resin { return &p.resin }

// Cells returns how many cells the body has across.
func (p *Pot) Cells() int { return p.cells }

// Network returns the body as cells; it must not be changed.
func (p *Pot) Network() *conduction.Network { return p.system.net }

// Evaluations is the number of right-hand sides computed so far.
func (p *Pot) Evaluations() int { return p.solver.Evaluations() }

// kinksOf returns the times at which a series changes its slope, ascending.
func kinksOf(series ...vessel.Series) []float64 {
	var kinks []float64
	for _, s := range series {
		if s.IsConstant() {
			continue
		}
		for _, t := range s.Times() {
			kinks = append(kinks, float64(t))
		}
	}
	slices.Sort(kinks)
	return slices.Compact(kinks)
}

// straight is the line of a series from a on, up to b without a kink between.
func straight(s vessel.Series, a, b float64) (value, slope float64) {
	value = float64(s.At(quantity.Time(a)))
	if s.IsConstant() || !(b > a) || math.IsInf(b, 1) {
		return value, 0
	}
	return value, (float64(s.At(quantity.Time(b))) - value) / (b - a)
}

// load takes the states of a profile; one of another grid cannot come from this
// pot.
func (p *Pot) load(profile Profile) error {
	n := p.system.n
	p.alike = true
	if len(profile) != n {
		return &BodyError{"the number of cells of the profile", float64(len(profile)), "take a profile of the same pot"}
	}
	for i, s := range profile {
		p.y[i], p.y[n+i], p.excess[i] = s.Alpha, float64(s.Temperature), s.LogExcess
		p.origin[n+i] = p.y[n+i]
		p.alike = p.alike && s.LogExcess == profile[0].LogExcess
		if p.system.phi {
			p.y[2*n+i] = s.Phi
		}
	}
	return nil
}

// profile gives the states y.
func (p *Pot) profile(y []float64) Profile {
	n := p.system.n
	profile := make(Profile, n)
	for i := range profile {
		profile[i] = vessel.State{
			Mass: quantity.Mass(p.system.net.Resin[i]), Alpha: y[i],
			Temperature: quantity.Temperature(y[n+i]), LogExcess: p.excess[i],
		}
		if p.system.phi {
			profile[i].Phi = y[2*n+i]
		}
	}
	return profile
}
