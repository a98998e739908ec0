package schedule

import (
	"fmt"
	"math"
	"strings"

	"potlife/kinetics/quantity"
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
func (w *Winding) doubtMachine() []string {
	var doubts []string
	m, f := &w.Job.Machine, &w.Job.Fibre
	if m.TowSpeed > fastestTow {
		doubts = append(doubts, fmt.Sprintf("machine.tow_speed is %s, and wet winding hardly runs faster than %s: is it the right unit?",
			quantity.Format(m.TowSpeed, "m/min", 0), quantity.Format(fastestTow, "m/min", 0)))
	}
	setup := w.Job.setup(w.Record)
	tows := fmt.Sprintf("%d tows", m.Tows)
	if m.Tows == 1 {
		tows = "1 tow"
	}
	made := fmt.Sprintf("a band of %v from %s of %s", m.Band, tows, quantity.Format(f.Tex, "tex", 0))
	each := m.Band / quantity.Length(m.Tows)
	widest := quantity.Length(math.Max(float64(widestTow), widestPerTex*float64(f.Tex)))
	switch ply := setup.Ply(); {
	case ply < thinnestPly || ply > thickestPly:
		doubts = append(doubts, fmt.Sprintf("%s lies %s mm thick at %v: check band, tows, tex and fibre_fraction",
			made, threeDigits(ply.In("mm")), w.Job.FibreFraction))
	case each > widest:
		doubts = append(doubts, fmt.Sprintf("%s is %s mm for each tow, and such a tow hardly lies wider than %s mm: check band and tows",
			made, threeDigits(each.In("mm")), threeDigits(widest.In("mm"))))
	}
	return doubts
}

func threeDigits(x float64) string { return fmt.Sprintf("%.3g", x) }

// Assumed tells what a job leaves out that its plan depends on, and what is taken instead.
func (w *Winding) Assumed() []string {
	doc := w.Job.doc
	if doc == nil { // a job that was never in a file
		return nil
	}
	l := w.Task.Limits
	var keys, taken []string
	for _, part := range []struct{ key, taken string }{
		{"ends", "no fibre beside the cylinder"},
		{"limits.bath_viscosity", thickness(l.BathViscosity) + " in the bath"},
		{"limits.laid_viscosity", thickness(l.LaidViscosity) + " as laid"},
		{"limits.bath_temperature", celsius(l.BathTemperature)},
		{"limits.reserve", fmt.Sprintf("a reserve of %v", w.Task.Reserve)},
	} {
		if doc.Has(part.key) {
			continue
		}
		taken = append(taken, part.taken)
		switch block, _, inside := strings.Cut(part.key, "."); {
		case !inside || doc.Has(block):
			keys = append(keys, part.key)
		case len(keys) == 0 || keys[len(keys)-1] != block:
			keys = append(keys, block)
		}
	}
	if len(keys) == 0 {
		return nil
	}
	return []string{fmt.Sprintf("the job leaves out %s; taken: %s", list(keys), list(taken))}
}
