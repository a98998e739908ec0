package schedule

import (
	"math"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
)

// What a machine for wet winding does, beyond which a figure is taken for a slip (common
// practice: tows run through a bath at 5 to 60 m/min, 12k carbon lies some 3 to 5 mm wide
// and plies are 0.1 to 1 mm thick).
const (
	fastestTow   quantity.Speed  = 2    // 120 m/min
	widestTow    quantity.Length = 6e-3 // of one tow, up to that of widestPerTex
	widestPerTex                 = 5.0  // m of width for each kg/m, for heavier tows
	thinnestPly  quantity.Length = 5e-5
	thickestPly  quantity.Length = 2e-3
)

// doubtMachine doubts a tow that runs faster than any resin bath wets, and a band that its
// tows hardly make.
func (w *Winding) doubtMachine() []warning.Warning {
	var doubts []warning.Warning
	m, f := &w.Job.Machine, &w.Job.Fibre
	if m.TowSpeed > fastestTow {
		doubts = append(doubts, TowTooFast{Speed: m.TowSpeed, Fastest: fastestTow})
	}
	setup := w.Job.setup(w.Record)
	band := TowBand{Width: m.Band, Tows: m.Tows, Tex: f.Tex}
	each := m.Band / quantity.Length(m.Tows)
	widest := quantity.Length(math.Max(float64(widestTow), widestPerTex*float64(f.Tex)))
	switch ply := setup.Ply(); {
	case ply < thinnestPly || ply > thickestPly:
		doubts = append(doubts, PlyDoubtful{Band: band, Thickness: ply, Fraction: w.Job.FibreFraction})
	case each > widest:
		doubts = append(doubts, BandTooWide{Band: band, Each: each, Widest: widest})
	}
	return doubts
}

// Assumed tells what a job leaves out that its plan depends on, and what is taken instead.
func (w *Winding) Assumed() []warning.Warning {
	doc := w.Job.doc
	if doc == nil { // a job that was never in a file
		return nil
	}
	l := w.Task.Limits
	out := LeftOut{Ends: !doc.Has("ends"), Limits: !doc.Has("limits")}
	if !doc.Has("limits.bath_viscosity") {
		out.BathViscosity = l.BathViscosity
	}
	if !doc.Has("limits.laid_viscosity") {
		out.LaidViscosity = l.LaidViscosity
	}
	if !doc.Has("limits.bath_temperature") {
		out.BathTemperature = l.BathTemperature
	}
	if !doc.Has("limits.reserve") {
		out.Reserve = w.Task.Reserve
	}
	if out == (LeftOut{}) {
		return nil
	}
	return []warning.Warning{out}
}
