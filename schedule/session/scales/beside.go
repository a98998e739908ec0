package scales

import (
	"cmp"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/schedule/session"
)

// assumed is what was taken from the session where nothing was weighed.
func (d *day) assumed(w session.Weights) []warning.Warning {
	var list []warning.Warning
	note := func(unless bool, w warning.Warning) {
		if !unless {
			list = append(list, w)
		}
	}
	job, record := d.winding.Job, d.winding.Record
	note(w.TowM != nil || d.tow == 0, TowAssumed{Tow: d.tow, Layers: d.standing.LastDone, GivenUp: d.standing.GivenUp, Share: d.givenUp})
	note(w.Tex != nil || d.tow == 0, TexAssumed{Tows: cmp.Or(count(w.Tows), job.Machine.Tows), Tex: job.Fibre.Tex})
	note(w.FibreDensityKgM3 != nil, FibreDensityAssumed{job.Fibre.Density})
	note(w.ResinDensityKgM3 != nil, ResinDensityAssumed{Resin: record.Name, Density: record.Kinetics.Density, Within: liquidFor})
	note(w.ArealWeightGM2 != nil || d.ply == 0, PliesAssumed{Plies: cmp.Or(count(w.Plies), d.plies), Ply: d.ply})
	note(w.CupsG != nil || d.inCups.readings == 0, CupsAssumed{len(d.standing.Pots)})
	return list
}

// open is what the session leaves open.
func (d *day) open(w session.Weights) []warning.Warning {
	var list []warning.Warning
	if d.standing.InHand > 0 {
		list = append(list, LayerInHand{d.standing.InHand})
	} else if d.standing.LastDone < d.standing.Layers {
		list = append(list, LayersNotDone{Done: d.standing.LastDone, Layers: d.standing.Layers, GivenUp: d.standing.GivenUp, Share: d.givenUp})
	}
	if d.unknown > 0 && w.LeftOverG == nil {
		list = append(list, LeftOverNotWeighed{Baths: d.unknown, Of: d.unknown + d.left.readings})
	}
	return list
}

// expected are the losses that the job reckons with and that were not weighed.
func (d *day) expected(w session.Weights) []Loss {
	list := []Loss{}
	if rest := d.leftInCups(); rest > 0 && w.CupsG == nil {
		list = append(list, Loss{LeftInCups, rest})
	}
	if wiped := d.wiped(); wiped > 0 && w.RagsG == nil {
		list = append(list, Loss{WipedOff, wiped})
	}
	return list
}

// leftInCups is what the job reckons to stay in the cups that were poured.
func (d *day) leftInCups() quantity.Mass {
	return d.poured.Mass * quantity.Mass(d.winding.Job.Pots.LeftInCup)
}

// wiped is what the job reckons to be wiped off what is wound.
func (d *day) wiped() quantity.Mass {
	carried := quantity.Mass(0)
	for _, l := range d.onMandrel() {
		carried += l.Resin * quantity.Mass(l.share)
	}
	return carried * quantity.Mass(d.winding.Job.Bleed)
}

// count is a number, 0 for none.
func count(n *int) int {
	if n == nil {
		return 0
	}
	return *n
}
