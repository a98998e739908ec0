package replay

import (
	"math"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/schedule/session"
)

// How far a weighed left-over may be off what is reckoned before it is doubted: by both (our
// choice).
const (
	leftOverShare = 0.5
	leftOverGrams = 50.0
)

// CheckLeftOver finds a [LeftOverFar]: none where the reckoning itself is known to be wrong
// since the layers took all that was poured, or where the bath had been dumped.
func (j *Journal) CheckLeftOver(e session.Event) ([]warning.Warning, error) {
	if e.Kind != session.LeftOver || e.Grams == nil {
		return nil, nil
	}
	var without []session.Event
	for _, other := range j.Events {
		if other.Seq != e.Seq {
			without = append(without, other)
		}
	}
	script, err := Compile(j.Winding, without, e.At)
	if err != nil {
		return nil, err
	}
	if !script.Filled() {
		return nil, nil
	}
	w, err := script.World(ensemble.Member{Rate: 1, Viscosity: 1, Loss: 1, Weight: 1})
	if err != nil {
		return nil, err
	}
	reckoned := w.Bath.Mass.In("g")
	off := math.Abs(*e.Grams - reckoned)
	if !math.IsInf(float64(w.Dry), 1) || off <= leftOverGrams || off <= leftOverShare*reckoned {
		return nil, nil
	}
	return []warning.Warning{LeftOverFar{Weighed: quantity.Mass(*e.Grams / 1000), Reckoned: w.Bath.Mass}}, nil
}
