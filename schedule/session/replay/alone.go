package replay

import (
	"time"

	"potlife/kinetics/quantity"
	"potlife/schedule/session"
)

// handsFull adds to the events of a day the pauses that a crew does not log whose only pair of hands
// mixes or pours while a layer is in hand: the machine stands then, as a plan for one has it. It
// stands from mixed on for as long as a pot takes to mix, from poured on for as long as that takes,
// and no longer than to the next that is logged of the machine.
func handsFull(active []session.Event, mixing, pouring quantity.Time, now time.Time) []session.Event {
	var list []session.Event
	running, stands := false, false
	var until time.Time
	for _, e := range active {
		if stands && !e.At.Before(until) {
			list = append(list, session.Event{Kind: session.Resume, At: until})
			stands = false
		}
		switch e.Kind {
		case session.Mixed, session.Poured:
			takes := mixing
			if e.Kind == session.Poured {
				takes = pouring
			}
			if running && !stands {
				list = append(list, session.Event{Kind: session.Pause, At: e.At})
				stands, until = true, e.At
			}
			if end := e.At.Add(time.Duration(float64(takes) * float64(time.Second))); end.After(until) {
				until = end
			}
		case session.Begin, session.Resume:
			running, stands = true, false
		case session.Done, session.Pause, session.Finish:
			running, stands = false, false
		case session.Spread, session.ThrownOut, session.Cured:
			if e.Bath {
				running, stands = false, false
			}
		}
		list = append(list, e)
	}
	if stands && !now.Before(until) {
		list = append(list, session.Event{Kind: session.Resume, At: until})
	}
	return list
}
