package replay

import (
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// How far a layer in hand may run over before its done is taken to be forgotten: half as long
// again as it takes at the pace of the day, and not only the minutes that a crew is late with
// logging (our choice).
const (
	overdueShare               = 1.5
	overdueBy    quantity.Time = 5 * 60
)

// Overdue is when the layer in hand should have ended, by the time that the machine ran in it
// and the pace of the day; not ok where there is none, or where it need not have ended long
// since.
func (s *Script) Overdue() (ended quantity.Time, ok bool) {
	l := s.InHand()
	if l == nil {
		return 0, false
	}
	due := l.Planned * quantity.Time(s.Pace)
	if !(l.Ran > due*overdueShare && l.Ran > due+overdueBy) {
		return 0, false
	}
	ran, since, running := quantity.Time(0), l.Begun, false
	for _, st := range s.steps {
		if at := quantity.Time(st.at); st.do == runTow && at >= l.Begun {
			if running && ran+at-since >= due {
				break
			}
			if running {
				ran += at - since
			}
			since, running = at, st.tow != vessel.Tow{}
		}
	}
	return since + due - ran, true
}

// How long after the layer in hand should have ended, with nothing logged, the crew is asked what
// happened: whoever has resin on the gloves logs a done when the hands are clean (our choice).
const (
	silenceShare               = 1.1
	silenceBy    quantity.Time = 2 * 60
)

// LastSeq is the number of the last event that had happened.
func (s *Script) LastSeq() int {
	last := 0
	for _, e := range before(s.events, s.Winding.Job.Clock(s.Now)) {
		last = max(last, e.Seq)
	}
	return last
}

// Silent is since when nobody has logged what happened, where that is longer than what is in hand,
// or what comes next, should take: all else is a guess. A thermometer's reading is no answer, and a
// pause has no length. Nothing is asked where all is wound, or before the bath is filled.
func (s *Script) Silent() (since quantity.Time, ok bool) {
	if !s.Filled() || s.Day.Paused || s.Day.Finished {
		return s.told, false
	}
	var due quantity.Time
	if l := s.InHand(); l != nil {
		due = l.Planned
	} else if s.Day.LastDone < len(s.Winding.Laid) {
		due = s.Winding.Laid[s.Day.LastDone].Time + s.Task.Pause
	} else {
		return s.told, false
	}
	late := due*quantity.Time(s.Pace)*silenceShare + silenceBy
	if l := s.InHand(); l != nil && l.Ran > late && s.Now-s.machine > silenceBy+Window {
		return s.machine, true // what was mixed meanwhile is no answer
	}
	return s.told, s.Now-s.told > late
}
