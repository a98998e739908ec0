package schedule

import (
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/kinetics/warning"
	"potlife/schedule/winding"
)

// How far a measured layer may be from what geometry and machine give before it is
// taken for a slip of the pen: ends and turn-rounds cost less than half of a layer.
const (
	measuredLength = 2.0
	measuredSpeed  = 2.0
)

// doubtMeasured doubts the first layer whose measured tow or time the mandrel and the
// machine hardly give; nil: none.
func (w *Winding) doubtMeasured() warning.Warning {
	plain := make([]winding.Layer, len(w.Job.Layers))
	for i, l := range w.Job.Layers {
		l.Time, l.Tow = 0, 0
		plain[i] = l
	}
	for i, computed := range winding.Lay(w.Job.setup(w.Record), plain) {
		l := w.Job.Layers[i]
		if ratio := float64(l.Tow / computed.Path); l.Tow > 0 && !(ratio >= 1/measuredLength && ratio <= measuredLength) {
			return TowDoubtful{Layer: l.Name, Measured: l.Tow, Computed: computed.Path}
		}
		path := computed.Path
		if l.Tow > 0 {
			path = l.Tow
		}
		if fastest := w.Job.Machine.TowSpeed * measuredSpeed; l.Time > 0 && quantity.Speed(float64(path)/float64(l.Time)) > fastest {
			return TimeDoubtful{Layer: l.Name, Measured: l.Time, Tow: path, Machine: w.Job.Machine.TowSpeed}
		}
	}
	return nil
}

// doubtSetting doubts the first layer whose first resin gels before its last is laid:
// what is wound last then lies on what has set, in the same layer; nil: none.
func (w *Winding) doubtSetting() warning.Warning {
	t := w.Task
	film := vessel.NewFilm(t.Resin, t.Limits.Mandrel)
	elapsed := t.Pots.Mixing
	for _, l := range w.Laid {
		gels, err := film.GelAt(0, elapsed)
		if err != nil {
			return nil
		}
		if gels < elapsed+l.Time {
			return LayerGelsUnderWay{Layer: l.Name, Takes: l.Time, Gels: gels - elapsed, Mandrel: t.Limits.Mandrel.At(elapsed)}
		}
		if t.Limits.Mandrel.IsConstant() && l.Time >= longest(w.Laid) {
			return nil // no other takes longer
		}
		elapsed += l.Time + t.Pause
	}
	return nil
}

func longest(laid []winding.Laid) quantity.Time {
	most := quantity.Time(0)
	for i := range laid {
		most = max(most, laid[i].Time)
	}
	return most
}
