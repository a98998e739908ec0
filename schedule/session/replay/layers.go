package replay

import (
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/kinetics/warning"
	"potlife/schedule/session"
)

// A Layer is one that was begun.
type Layer struct {
	Index   int // from 0
	Begun   quantity.Time
	Done    bool
	GivenUp bool          // the session was finished with it in hand
	DoneAt  quantity.Time // or given up
	Ran     quantity.Time // the machine ran in it, pauses left out
	Planned quantity.Time // by the job
	Resin   quantity.Mass // carried off the bath by all of it
	Fibre   quantity.Mass

	takes quantity.Time // the running time that its resin is spread over
}

// shortestRun is the least time that a layer can have run, in s. One whose begin and done
// were logged together takes its resin at once.
const shortestRun = 1.0

func (l *Layer) tow(fibre quantity.HeatCapacity) vessel.Tow {
	if l.Done && l.Ran < shortestRun {
		return vessel.Tow{}
	}
	return vessel.Tow{
		DrawKgPerS: float64(l.Resin) / float64(l.takes), FibreKgPerS: float64(l.Fibre) / float64(l.takes), HeatCapacity: fibre,
	}
}

// Ended tells whether it is no longer wound at.
func (l *Layer) Ended() bool { return l.Done || l.GivenUp }

func (l *Layer) inHandAt(at float64) bool { return !l.Ended() || float64(l.DoneAt) > at }

// Wound is the share of a layer that is wound, 1 of one that is done.
func (l *Layer) Wound() float64 {
	if l.Done {
		return 1
	}
	return float64(l.Ran / l.takes)
}

// Left is the running time that a layer in hand still takes: that of one circuit where it should
// be done, since it is not.
func (s *Script) Left(l *Layer) quantity.Time {
	if left := l.takes - l.Ran; left >= shortestRun {
		return left
	}
	return l.takes / quantity.Time(max(1, s.Winding.Laid[l.Index].Circuits))
}

// layers adds up when the machine ran in each layer, and the pace of those that are done.
func (s *Script) layers(active []session.Event) {
	var inHand *Layer
	var since quantity.Time
	running := false
	stop := func(at quantity.Time) {
		if running {
			inHand.Ran += at - since
		}
		running = false
	}
	for _, e := range active {
		at := elapsed(s.Winding.Job, e.At)
		switch e.Kind {
		case session.Begin:
			laid := &s.Winding.Laid[e.Layer-1]
			s.Layers = append(s.Layers, Layer{Index: e.Layer - 1, Begun: at, Planned: laid.Time, Resin: laid.Resin, Fibre: laid.Fibre})
			inHand = &s.Layers[len(s.Layers)-1]
			since, running = at, true
		case session.Pause:
			stop(at)
		case session.Spread, session.ThrownOut, session.Cured:
			if e.Bath {
				stop(at)
			}
		case session.Resume:
			if inHand != nil && !inHand.Done {
				since, running = at, true
			}
		case session.Done:
			stop(at)
			inHand.Done, inHand.DoneAt = true, at
		case session.Finish:
			if s.Day.GivenUp > 0 {
				stop(at)
				inHand.GivenUp, inHand.DoneAt = true, at
			}
		}
	}
	stop(s.Now)
	s.pace()
	for i := range s.Layers {
		l := &s.Layers[i]
		l.takes = max(l.Ran, shortestRun)
		if !l.Done {
			l.takes = max(l.takes, l.Planned*quantity.Time(s.Pace)) // (2)
		}
	}
}

// GivenUp is the layer that the session was finished with in hand, nil for none.
func (s *Script) GivenUp() *Layer {
	if s.Day.GivenUp == 0 {
		return nil
	}
	return &s.Layers[s.Day.GivenUp-1]
}

// pace is (3) of the package comment.
func (s *Script) pace() {
	mean := quantity.Time(0)
	for i := range s.Winding.Laid {
		mean += s.Winding.Laid[i].Time / quantity.Time(len(s.Winding.Laid))
	}
	ran, planned := mean, mean
	for i := range s.Layers {
		if l := &s.Layers[i]; l.Done && l.Ran >= shortestRun {
			ran, planned = ran+l.Ran, planned+l.Planned
		}
	}
	s.Pace = float64(ran / planned)
}

// CheckFinish finds a [LayerGivenUp] in an event that finished the session.
func (j *Journal) CheckFinish(e session.Event) ([]warning.Warning, error) {
	s, err := j.Script(e.At, 0)
	if err != nil || s.GivenUp() == nil {
		return nil, err
	}
	return []warning.Warning{LayerGivenUp{Layer: s.Day.GivenUp, Share: s.GivenUp().Wound()}}, nil
}
