package inforce

import (
	"math"
	"time"

	"potlife/kinetics/quantity"
	"potlife/schedule"
	"potlife/schedule/batches"
	"potlife/schedule/session"
)

// Morning is the plan of a whole job in the form of a journal, nil where none is feasible. The
// same job gives the same plan: so does a session that kept none.
func Morning(w *schedule.Winding) (*session.Plan, error) {
	own := *w
	solution, err := own.Solve()
	if err != nil || !solution.Feasible() {
		return nil, err
	}
	return Keep(&own, solution, session.AtStart)
}

// mostLayers is of how many layers a plan keeps the times, which only the report of the day
// shows: a line of the journal holds 64 KiB, and older programs read no longer one.
const mostLayers = 300

// Keep is a feasible solution in the form of a journal.
func Keep(w *schedule.Winding, s *batches.Solution, why session.Why) (*session.Plan, error) {
	t, plan := w.Task, s.Plan
	k := &session.Plan{
		Why: why, From: clock(w, t.Begin.At), Chance: s.Chance.KeepsAll, Coarse: plan.Coarse,
		MadeFor: session.PlanMember{Rate: plan.Member.Rate, Viscosity: plan.Member.Viscosity, Loss: plan.Member.Loss},
		End:     clock(w, plan.End[len(plan.End)-1]),
	}
	if t.Begin.Filled {
		heel, err := t.Heel(t.Likely())
		if err != nil {
			return nil, err
		}
		k.Bath = &session.PlanBath{MassG: grams(heel.State.Mass), TemperatureC: heel.State.Temperature.Celsius(), Alpha: heel.State.Alpha}
	}
	for _, pour := range plan.Pours {
		k.Pours = append(k.Pours, keepPour(w, &pour))
	}
	for u, unit := range t.Units {
		if n := len(k.Layers); n == 0 || k.Layers[n-1].Layer != unit.Layer+1 {
			k.Layers = append(k.Layers, session.PlanLayer{Layer: unit.Layer + 1, Start: clock(w, plan.Start[u])})
		}
		k.Layers[len(k.Layers)-1].End = clock(w, plan.End[u])
	}
	if len(k.Layers) > mostLayers {
		k.Layers = nil
	}
	k.Tightest = tightest(w, s.Tally)
	return k, nil
}

func keepPour(w *schedule.Winding, pour *batches.Pour) session.PlanPour {
	layer, circuits := placeOf(w, pour.Stop)
	k := session.PlanPour{Into: string(pour.Into), Layer: layer + 1, Circuits: circuits, At: clock(w, pour.At)}
	for _, pot := range pour.Pots {
		k.Pots = append(k.Pots, session.PlanPot{
			MixAt: clock(w, pot.MixAt), ResinG: grams(pot.Resin), HardenerG: grams(pot.Hardener), Pot: pot.Seq,
		})
	}
	return k
}

// placeOf is the layer before or in which a stop lies, and how many of its circuits are wound
// there. The first stop of a rest lies where the machine is.
func placeOf(w *schedule.Winding, stop int) (layer, circuits int) {
	units := w.Task.Units
	layer = units[stop].Layer
	switch {
	case stop == 0:
		return layer, min(wound(w), units[0].Circuits-1)
	case !units[stop-1].EndsLayer:
		return layer, units[stop-1].Circuits
	}
	return layer, 0
}

// wound is how many whole circuits are wound of the layer with which a rest begins.
func wound(w *schedule.Winding) int {
	units := w.Task.Units
	for i := range units {
		if units[i].EndsLayer {
			return max(0, units[i].Circuits-w.Laid[units[0].Layer].Circuits)
		}
	}
	return 0
}

// stopOf is the stop at that place among units still to be wound; 0 where it is passed.
func stopOf(units []batches.Unit, layer, circuits int) int {
	stop := 0
	for _, u := range units {
		if u.Layer < layer || u.Layer == layer && u.Circuits <= circuits {
			stop++
		}
	}
	return stop
}

// tightest is where a plan has least to spare.
func tightest(w *schedule.Winding, tally *batches.Tally) session.PlanTightest {
	found, least := session.PlanTightest{}, math.Inf(1)
	for i := range tally.Pours {
		p := &tally.Pours[i]
		if spare := float64(p.Least - p.Reserve); spare < least {
			least = spare
			found = session.PlanTightest{At: clock(w, p.LeastAt), LeftS: float64(p.Least), ReserveS: float64(p.Reserve), EndsBy: string(p.EndsBy)}
		}
	}
	return found
}

// clock is the time of day to the second, as a crew reads it.
func clock(w *schedule.Winding, at quantity.Time) time.Time {
	return w.Job.Clock(at).Round(time.Second)
}

func elapsed(w *schedule.Winding, at time.Time) quantity.Time {
	return quantity.Time(at.Sub(w.Job.Start).Seconds())
}

// grams is a mass as a scale shows it, without what floating point makes of it.
func grams(m quantity.Mass) float64 { return math.Round(m.In("g")*1e6) / 1e6 }
