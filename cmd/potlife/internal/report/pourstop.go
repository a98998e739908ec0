package report

import "potlife/schedule"

// A pourStop is where the bath is poured into: now, before the first layer (the zero value),
// after a layer, or after a circuit of it.
type pourStop struct {
	now            bool
	layer, circuit int // from 1; circuit 0: the layer's last
}

// stopOf is the stop of a winding after so many units.
func stopOf(w *schedule.Winding, after int) pourStop {
	if after == 0 {
		return pourStop{now: w.Task.Begun()}
	}
	unit := w.Task.Units[after-1]
	s := pourStop{layer: unit.Layer + 1}
	if !unit.EndsLayer {
		s.circuit = unit.Circuits
	}
	return s
}

func (s pourStop) words() string {
	switch {
	case s.now:
		return "now"
	case s.layer == 0:
		return "before layer 1"
	case s.circuit == 0:
		return "after layer " + number(s.layer)
	}
	return number(s.layer) + ", circuit " + number(s.circuit)
}

// brief is for a narrow table.
func (s pourStop) brief() string {
	switch {
	case s.now:
		return "now"
	case s.layer == 0:
		return "start"
	case s.circuit == 0:
		return "after " + number(s.layer)
	}
	return number(s.layer) + "/" + number(s.circuit)
}
