package report

import (
	"time"

	"potlife/kinetics/quantity"
	"potlife/schedule"
	"potlife/schedule/batches"
)

// Late adds how much later than planned each pour may come, see [batches.Late].
func (p *Plan) Late(w *schedule.Winding, plan *batches.Plan, late []quantity.Time) *Plan {
	clocked := func(at quantity.Time) *time.Time {
		t := w.Job.Clock(at)
		return &t
	}
	p.late = late
	n := 0
	for i := range plan.Pours {
		mixed := false // a pot of this pour is mixed before
		for k := range plan.Pours[i].Pots {
			pot := &p.Pots[n]
			if n++; pot.Seq > 0 {
				continue
			}
			if !mixed {
				pot.MixLatest = clocked(plan.Pours[i].Pots[k].MixAt + late[i])
			}
			pot.PourLatest, mixed = clocked(plan.Pours[i].At+late[i]), true
		}
	}
	return p
}

// latest is the latest time of what is planned: rounded down to a minute, and never before the
// minute planned.
func latest(planned, last time.Time) time.Time {
	planned, last = planned.Round(time.Minute), last.Truncate(time.Minute)
	if last.Before(planned) {
		return planned
	}
	return last
}
