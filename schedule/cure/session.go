package cure

import (
	"math"

	"potlife/kinetics/ensemble"
	"potlife/schedule/session/replay"
)

// Unwound is a session whose layers are not all down.
type Unwound struct{ Done, Layers int }

func (e *Unwound) Error() string {
	return "not all layers are wound: what cures is not known yet\n   finish the winding, or leave --session out and ask of the job's plan"
}

// ForSession is the task of a part wound as a session logged it: layers with the ages that
// they had, in the room as it was read, with the rate that the readings left. A law with a
// growth integral starts each layer without the growth that it had in the bath, which a
// replay does not keep: its viscosity is a little low, until gel, which goes by the degree
// of cure.
func ForSession(p *replay.Played) (*Task, error) {
	script := p.Script
	w := script.Winding
	if len(script.Layers) < len(w.Laid) || !script.Layers[len(w.Laid)-1].Done {
		return nil, &Unwound{Done: len(script.Layers), Layers: len(w.Laid)}
	}
	middle := p.Cloud.Belief().Mean()
	of := func(world *replay.World) float64 { return world.Member.Rate }
	rate := [baths]float64{middle.Rate, p.Quantile(0.1, of), p.Quantile(0.9, of)}
	t := newTask(w, script.Task.Room, rate)
	err := ensemble.Each(int(baths), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		m := middle
		m.Rate = rate[i]
		world, err := script.World(m)
		if err != nil {
			return err
		}
		laid := layers(w)
		for n := range laid {
			l := &script.Layers[n]
			laid[n].at, laid[n].State.Alpha = (l.Begun+l.DoneAt)/2, meanOf(world.Laid[n])
		}
		t.History[i], err = grown(w, t.resin(Hardener(i)), laid, t.Room, script.Layers[len(laid)-1].DoneAt)
		return err
	})
	return t, err
}

// meanOf is the degree of cure half way through a layer.
func meanOf(l replay.Laid) float64 {
	if math.IsNaN(l.Last) {
		return l.First
	}
	return (l.First + l.Last) / 2
}
