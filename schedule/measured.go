package schedule

import (
	"fmt"
	"math"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule/winding"
)

// How far a measured layer may be from what geometry and machine give before it is
// taken for a slip of the pen: ends and turn-rounds cost less than half of a layer.
const (
	measuredLength = 2.0
	measuredSpeed  = 2.0
)

// doubtMeasured doubts the first layer whose measured tow or time the mandrel and the
// machine hardly give.
func (w *Winding) doubtMeasured() string {
	plain := make([]winding.Layer, len(w.Job.Layers))
	for i, l := range w.Job.Layers {
		l.Time, l.Tow = 0, 0
		plain[i] = l
	}
	for i, computed := range winding.Lay(w.Job.setup(w.Record), plain) {
		l := w.Job.Layers[i]
		if ratio := float64(l.Tow / computed.Path); l.Tow > 0 && !(ratio >= 1/measuredLength && ratio <= measuredLength) {
			return fmt.Sprintf("layer %s has %s of tow as measured, its geometry takes %s: is it the path of the band, in the right unit?",
				l.Name, metres(l.Tow), metres(computed.Path))
		}
		path := computed.Path
		if l.Tow > 0 {
			path = l.Tow
		}
		if fastest := w.Job.Machine.TowSpeed * measuredSpeed; l.Time > 0 && quantity.Speed(float64(path)/float64(l.Time)) > fastest {
			return fmt.Sprintf("layer %s is wound in %v as measured, %s of tow at %.3g times the machine's %v: is the time right?",
				l.Name, l.Time, metres(path), float64(path)/float64(l.Time)/float64(w.Job.Machine.TowSpeed), w.Job.Machine.TowSpeed)
		}
	}
	return ""
}

func metres(l quantity.Length) string {
	if l < 10 {
		return fmt.Sprintf("%.3g m", float64(l))
	}
	return quantity.Format(l, "m", 0)
}

// doubtSetting doubts the first layer whose first resin gels before its last is laid:
// what is wound last then lies on what has set, in the same layer.
func (w *Winding) doubtSetting() string {
	t := w.Task
	film := vessel.NewFilm(t.Resin, t.Limits.Mandrel)
	elapsed := t.Pots.Mixing
	for _, l := range w.Laid {
		gels, err := film.GelAt(0, elapsed)
		if err != nil {
			return ""
		}
		if gels < elapsed+l.Time {
			return fmt.Sprintf("layer %s takes %s, and resin laid at the mandrel's %s gels within %s: its end is wound onto what has set",
				l.Name, around(l.Time), celsius(t.Limits.Mandrel.At(elapsed)), around(gels-elapsed))
		}
		if t.Limits.Mandrel.IsConstant() && l.Time >= longest(w.Laid) {
			return "" // no other takes longer
		}
		elapsed += l.Time + t.Pause
	}
	return ""
}

// around is a duration as people say it.
func around(t quantity.Time) string {
	switch s := float64(t); {
	case s < 120:
		return fmt.Sprintf("%.0f s", math.Ceil(s))
	case s < 7200:
		return fmt.Sprintf("%.0f min", s/60)
	}
	return fmt.Sprintf("%.0f h", t.In("h"))
}

func longest(laid []winding.Laid) quantity.Time {
	most := quantity.Time(0)
	for i := range laid {
		most = max(most, laid[i].Time)
	}
	return most
}
