package fit

import (
	"errors"
	"fmt"
	"math"

	"potlife/kinetics"
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/resins"
)

// Standard deviations of the prior where the record does not say them; their
// reasons stand in the package comment.
const (
	energySigma     = 4e3  // J/mol
	flowEnergySigma = 6e3  // J/mol
	heatSigma       = 0.06 // of ln H
	shiftSigma      = 5.0  // K
	curedSigma      = 10.0 // K
	firstSigma      = 0.5  // K
)

// Energies that the rates of an epoxy can have, J/mol.
const leastEnergy, greatestEnergy = 30e3, 120e3

// The parameters by index; those of logs follow.
const (
	rate = iota
	energy
	viscosity
	flowEnergy
	loss
	heat
	shift
	cured
	named
)

// Moves names what a parameter of the fit moves.
type Moves string

// What may move.
const (
	MovesRate       Moves = "rate"
	MovesEnergy     Moves = "activation-energy"
	MovesViscosity  Moves = "viscosity"
	MovesFlowEnergy Moves = "flow-energy"
	MovesLoss       Moves = "cup-loss" // heat that the cups lose
	MovesHeat       Moves = "reaction-heat"
	MovesShift      Moves = "vitrification-shift"
	MovesCured      Moves = "cured-glass"
	MovesFirst      Moves = "first-temperature" // of a log
)

// A parameter of the fit, standardised: value = prior mean 0 + σ·x.
type parameter struct {
	moves Moves
	file  string // of the log whose first temperature it is
	unit  string
	sigma float64
}

// space is what may move: which parameters, with which prior.
type space struct {
	prior  *resins.Record
	pivot  float64 // K
	all    []parameter
	active []int // indices into all
	index  []int // of a parameter among the active, -1 for none
}

// usualPivot is where rooms are; a system that does not cure there is known best
// in the middle of its range.
var usualPivot = quantity.Celsius(23)

func newSpace(prior *resins.Record, list []Statement) *space {
	pivot := usualPivot
	if !prior.Valid.Holds(pivot) {
		pivot = (prior.Valid.From + prior.Valid.To) / 2
	}
	s := &space{prior: prior, pivot: float64(pivot)}
	s.all = []parameter{
		rate:       {MovesRate, "", "ln", ensemble.Sigma(prior.Spread.Time)},
		energy:     {MovesEnergy, "", "J/mol", energySigma},
		viscosity:  {MovesViscosity, "", "ln", ensemble.Sigma(prior.Spread.Viscosity)},
		flowEnergy: {MovesFlowEnergy, "", "J/mol", flowEnergySigma},
		loss:       {MovesLoss, "", "ln", ensemble.Sigma(ensemble.UsualSpread)},
		heat:       {MovesHeat, "", "ln", heatSigma},
		shift:      {MovesShift, "", "K", shiftSigma},
		cured:      {MovesCured, "", "K", curedSigma},
	}
	moves := make([]bool, named)
	for i := range list {
		for _, k := range list[i].tells() {
			moves[k] = true
		}
	}
	if _, shifts := prior.Kinetics.Vitrification.(kinetics.GlassShift); !shifts {
		moves[shift] = false
	}
	for k, moves := range moves {
		if moves && s.all[k].sigma > 0 {
			s.active = append(s.active, k)
		}
	}
	for i := range list {
		if list[i].Kind == CupLog {
			s.active = append(s.active, len(s.all))
			s.all = append(s.all, parameter{MovesFirst, list[i].File, "K", firstSigma})
		}
	}
	s.index = make([]int, len(s.all))
	for k := range s.index {
		s.index[k] = -1
	}
	for i, k := range s.active {
		s.index[k] = i
	}
	return s
}

// tells returns the parameters that a statement bears on.
func (s *Statement) tells() []int {
	switch s.Kind {
	case PotLife:
		if s.End.Viscosity > 0 {
			return []int{rate, energy, viscosity, flowEnergy, loss, heat}
		}
		return []int{rate, energy, loss, heat}
	case Viscosity:
		return []int{viscosity, flowEnergy}
	case FilmGel, Conversion:
		return []int{rate, energy}
	case Glass:
		return []int{rate, energy, shift, cured}
	case Heat:
		return []int{heat}
	}
	if s.Log != nil && (len(s.Log.Viscosities) > 0 || len(s.Log.FlowTimes) > 0) {
		return []int{rate, energy, viscosity, flowEnergy, loss, heat}
	}
	return []int{rate, energy, loss, heat}
}

// value is a parameter in its own unit at a point of the space.
func (s *space) value(k int, x []float64) float64 {
	if s.index[k] < 0 {
		return 0
	}
	return s.all[k].sigma * x[s.index[k]]
}

// resin is the prior's resin moved to x. The error is an energy that no rate can
// have.
func (s *space) resin(x []float64) (kinetics.Resin, error) {
	r := s.prior.Kinetics
	move := turn{dE: s.value(energy, x), pivot: s.pivot}
	move.factor = math.Exp(s.value(rate, x) + move.dE/(kinetics.GasConstant*move.pivot)) // (2)
	var err error
	if r.Cure, err = move.law(r.Cure); err != nil {
		if out := (*OutOfRange)(nil); errors.As(err, &out) {
			out.System = s.prior.Name
		}
		return r, err
	}
	r.Viscosity = move.flow(r.Viscosity, s.value(viscosity, x), s.value(flowEnergy, x))
	r.Heat *= quantity.SpecificEnergy(math.Exp(s.value(heat, x)))
	r.Glass.Cured += quantity.Temperature(s.value(cured, x))
	if v, shifts := r.Vitrification.(kinetics.GlassShift); shifts {
		v.Glass = r.Glass
		v.Shift += quantity.TemperatureDifference(s.value(shift, x))
		r.Vitrification = v
	}
	return r, nil
}

// A turn changes Arrhenius constants about the pivot.
type turn struct{ factor, dE, pivot float64 }

func (t turn) constant(k kinetics.Arrhenius) kinetics.Arrhenius {
	k.A *= quantity.Rate(t.factor)
	k.E += quantity.MolarEnergy(t.dE)
	return k
}

// law turns every constant of a rate law by the same energy.
func (t turn) law(law kinetics.RateLaw) (kinetics.RateLaw, error) {
	switch l := law.(type) {
	case kinetics.KamalSourour:
		l.K1, l.K2 = t.constant(l.K1), t.constant(l.K2)
		return l, positive(l.K1.E, l.K2.E)
	case kinetics.NthOrder:
		l.K = t.constant(l.K)
		return l, positive(l.K.E)
	case kinetics.TwoStage:
		l.K1, l.K2, l.K3 = t.constant(l.K1), t.constant(l.K2), t.constant(l.K3)
		return l, positive(l.K1.E, l.K2.E, l.K3.E)
	}
	return nil, fmt.Errorf("the rate law %T cannot be fitted", law)
}

func positive(energies ...quantity.MolarEnergy) error {
	for _, e := range energies {
		if !(e > 0) {
			return &OutOfRange{Energy: e, Blame: "taken together"}
		}
	}
	return nil
}

// flow moves level and energy of the flow about the law's own temperature, and
// the growth of a dual-Arrhenius law with the rates.
func (t turn) flow(law kinetics.ViscosityLaw, level, flowEnergy float64) kinetics.ViscosityLaw {
	moved := func(f kinetics.Flow) kinetics.Flow {
		f.Value *= quantity.Viscosity(math.Exp(level))
		f.Activation += quantity.MolarEnergy(flowEnergy)
		return f
	}
	switch v := law.(type) {
	case kinetics.CastroMacosko:
		v.Flow = moved(v.Flow)
		return v
	case kinetics.DualArrhenius:
		v.Flow = moved(v.Flow)
		v.Growth = t.constant(v.Growth)
		return v
	}
	return law
}

// energies are those of a law that count.
func energies(law kinetics.RateLaw) []quantity.MolarEnergy {
	var list []quantity.MolarEnergy
	for _, k := range constants(law) {
		if k.A != 0 {
			list = append(list, k.E)
		}
	}
	return list
}

func constants(law kinetics.RateLaw) []kinetics.Arrhenius {
	switch l := law.(type) {
	case kinetics.KamalSourour:
		return []kinetics.Arrhenius{l.K1, l.K2}
	case kinetics.NthOrder:
		return []kinetics.Arrhenius{l.K}
	case kinetics.TwoStage:
		return []kinetics.Arrhenius{l.K1, l.K2, l.K3}
	}
	return nil
}
