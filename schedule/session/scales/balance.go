package scales

import (
	"cmp"
	"math"

	"potlife/kinetics/quantity"
	"potlife/schedule/weighing"
	"potlife/schedule/weighing/budget"
)

// balance is the pick-up from the resin that was mixed and what is left of it, (8)
// of the package comment.
func (s *Sheet) balance() (*PickUp, error) {
	in := s.input()
	switch {
	case !in.Mixed.Given:
		return nil, &weighing.Missing{What: "the resin mixed", Alternatives: []string{"every pot with potlife log mixed"}}
	case s.day.unknown > 0 && s.Weights.LeftOverG == nil:
		return nil, &weighing.Missing{What: "what was left in the bath", Alternatives: []string{"it with potlife log left-over", "the weight of the part with potlife weigh --log"}}
	}
	b := &account{scale: cmp.Or(in.Scale, weighing.DefaultScale)}
	fibre := b.fibre(in)
	if fibre == nil {
		return nil, &weighing.Missing{What: "the fibre", Alternatives: []string{"the layers with potlife log begin and done", "the spools' weights with potlife weigh --log"}}
	}
	mixed, left, drips := b.mass("mixed", in.Mixed), b.mass("left over", in.LeftOver), b.mass("drips", in.Drips)
	cups := b.mass("cups", in.Cups)
	poured := -1
	if rest := s.day.leftInCups(); rest > 0 && s.Weights.CupsG == nil {
		poured = b.add("cups that were poured", float64(rest), cupsDoubt*float64(rest)/math.Sqrt(3))
	}
	target := targetByMass(in)
	out := budget.Propagate(func(x []float64) float64 {
		carried := x[mixed] - x[left] - x[cups] - x[drips]
		if poured >= 0 {
			carried -= x[poured]
		}
		return carried / fibre(x) * target / (1 - target)
	}, b.readings)
	if !(out.Value > 0) {
		return nil, &weighing.Impossible{
			Input: "left over", Problem: "with what stands in cups it is all that was mixed, or more",
			Mend: "weigh what is left with its vessel tared, and log every pot that was mixed",
		}
	}
	return &PickUp{Value: out.Value, U: out.U, Shares: out.Shares}, nil
}

// An account collects readings.
type account struct {
	scale    quantity.Mass
	readings []budget.Reading
}

// add returns the place of a reading.
func (b *account) add(name string, value, u float64) int {
	b.readings = append(b.readings, budget.Reading{Name: name, Value: value, U: u})
	return len(b.readings) - 1
}

// mass adds a mass; one that is not given is nothing, for sure.
func (b *account) mass(name string, m weighing.Known[quantity.Mass]) int {
	u := m.U
	if m.Given && u == 0 {
		u = b.scale / quantity.Mass(math.Sqrt(12))
	}
	return b.add(name, float64(m.Value), float64(u))
}

// fibre adds the best that is known of the fibre: as weighed, by spools, by tow; nil
// for none.
func (b *account) fibre(in weighing.Input) budget.Func {
	switch {
	case in.Fibre.Given:
		i := b.mass("fibre", in.Fibre)
		return func(x []float64) float64 { return x[i] }
	case in.SpoolBefore.Given && in.SpoolAfter.Given:
		i, j := b.mass("spool before", in.SpoolBefore), b.mass("spool after", in.SpoolAfter)
		return func(x []float64) float64 { return x[i] - x[j] }
	case in.Tow.Given && in.Tex.Given && in.Tows > 0:
		usual := weighing.UsualTolerances()
		within := func(v float64, share quantity.Fraction) float64 { return v * float64(share) / math.Sqrt(3) }
		i := b.add("tow", float64(in.Tow.Value), within(float64(in.Tow.Value), usual.Tow))
		j := b.add("tex", float64(in.Tex.Value), within(float64(in.Tex.Value), usual.Tex))
		return func(x []float64) float64 { return float64(in.Tows) * x[i] * x[j] }
	}
	return nil
}
