package advice

import (
	"math"
	"slices"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule/batches"
)

// clean finds by when the bath must be changed for what sticks in it, where that is before all is
// wound. A plan without a change was judged to end before: by baths that are followed, and not taken
// to stay as warm as they are; of one that changes the bath now the order says it.
func (n *now) clean() error {
	a := &n.answer
	if !a.Filled || n.script.Blind || a.Situation.Wound || n.script.Day.Finished || !math.IsNaN(float64(a.PastSince)) {
		return nil
	}
	changes := func(p batches.Pour) bool { return p.Into == batches.Change }
	if n.going != nil && (!slices.ContainsFunc(n.going.Pours, changes) || a.Next != nil && a.Next.now && a.Next.Into == batches.Change) {
		return nil
	}
	clean := make([]float64, len(n.few))
	err := ensemble.Each(len(n.few), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		until, err := n.few[i].World.CleanUntil()
		clean[i] = float64(until)
		return err
	})
	at := quantity.Time(n.played.QuantileOf(n.few, ensemble.SureQuantile, clean))
	if a.EndsBy == vessel.NotClean && n.script.Task.Limits.Clean == 0 { // which is reckoned with a bath that warms
		at = min(at, a.Now+a.StoppedSure)
	}
	if last := len(a.Goals) - 1; err == nil && last >= 0 && at < a.Now+a.Goals[last].Done {
		a.CleanBy = at
	}
	return err
}
