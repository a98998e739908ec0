package replay

import (
	"fmt"
	"math"

	"potlife/kinetics/ensemble"
	"potlife/schedule/session"
)

// How far a weighed left-over may be off what is reckoned before it is doubted: by both (our
// choice).
const (
	leftOverShare = 0.5
	leftOverGrams = 50.0
)

// DoubtLeftOver says that what was weighed of the bath is far from what is reckoned without
// it; empty where it is not, where the reckoning itself is known to be wrong since the layers
// took all that was poured, or where the bath had been dumped.
func (j *Journal) DoubtLeftOver(e session.Event) (string, error) {
	if e.Kind != session.LeftOver || e.Grams == nil {
		return "", nil
	}
	var without []session.Event
	for _, other := range j.Events {
		if other.Seq != e.Seq {
			without = append(without, other)
		}
	}
	script, err := Compile(j.Winding, without, e.At)
	if err != nil {
		return "", err
	}
	if !script.Filled() {
		return "", nil
	}
	w, err := script.World(ensemble.Member{Rate: 1, Viscosity: 1, Loss: 1, Weight: 1})
	if err != nil {
		return "", err
	}
	reckoned := w.Bath.Mass.In("g")
	off := math.Abs(*e.Grams - reckoned)
	if !math.IsInf(float64(w.Dry), 1) || off <= leftOverGrams || off <= leftOverShare*reckoned {
		return "", nil
	}
	return fmt.Sprintf("left-over says %.0f g, and by what was poured and wound there should be some %.0f g: weigh it again, or log what was left out", *e.Grams, reckoned), nil
}
