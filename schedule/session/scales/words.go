package scales

import (
	"cmp"
	"fmt"

	"potlife/kinetics/quantity"
	"potlife/schedule/session"
)

// assumed says what was taken from the session where nothing was weighed.
func (d *day) assumed(w session.Weights) []string {
	list := []string{}
	note := func(unless bool, text string, args ...any) {
		if !unless {
			list = append(list, fmt.Sprintf(text, args...))
		}
	}
	job := d.winding.Job
	note(w.TowM != nil || d.tow == 0, "the tow is %.0f m, what the job winds in %s", float64(d.tow), layers(d.standing.LastDone))
	note(w.Tex != nil || d.tow == 0, "tex and tows are the job's: %s of %v", tows(cmp.Or(count(w.Tows), job.Machine.Tows)), job.Fibre.Tex)
	note(w.FibreDensityKgM3 != nil, "the fibre's density is the job's, %v", job.Fibre.Density)
	note(w.ResinDensityKgM3 != nil, "the cured resin is taken as dense as the liquid mix of %s, %v ± %.0f %%: cured it is some 2 to 5 %% denser (common practice, from memory); a cast piece in air and water would tell",
		d.winding.Record.Name, d.winding.Record.Kinetics.Density, 100*liquidFor)
	note(w.ArealWeightGM2 != nil || d.ply == 0, "the wall has %d plies of %s of fibre, as the job winds them", cmp.Or(count(w.Plies), d.plies), quantity.Format(d.ply, "g/m²", 0))
	note(w.CupsG != nil || d.inCups.readings == 0, "in cups are the %s that stand mixed", pots(len(d.standing.Pots)))
	return list
}

// doubts say what the session leaves open.
func (d *day) doubts(w session.Weights) []string {
	list := []string{}
	if d.standing.InHand > 0 {
		list = append(list, fmt.Sprintf("layer %d is in hand: its fibre is not counted; log done first", d.standing.InHand))
	} else if d.standing.LastDone < d.standing.Layers {
		list = append(list, fmt.Sprintf("%d of %s are done: only their fibre is counted", d.standing.LastDone, layers(d.standing.Layers)))
	}
	if d.unknown > 0 && w.LeftOverG == nil {
		what := "what was left in the bath was not weighed"
		if d.unknown > 1 || d.left.readings > 0 {
			what = fmt.Sprintf("what was left in %d of %d baths was not weighed", d.unknown, d.unknown+d.left.readings)
		}
		list = append(list, what+": it is part of the resin unaccounted for")
	}
	return list
}

// expected are the losses that the job reckons with and nobody weighed.
func (d *day) expected(w session.Weights) []Loss {
	list := []Loss{}
	if rest := d.leftInCups(); rest > 0 && w.CupsG == nil {
		list = append(list, Loss{"left in the cups that were poured", rest})
	}
	if wiped := d.wiped(); wiped > 0 && w.RagsG == nil {
		list = append(list, Loss{"wiped off", wiped})
	}
	return list
}

// leftInCups is what the job reckons to stay in the cups that were poured.
func (d *day) leftInCups() quantity.Mass {
	return d.poured.Mass * quantity.Mass(d.winding.Job.Pots.LeftInCup)
}

// wiped is what the job reckons to be wiped off the layers done.
func (d *day) wiped() quantity.Mass {
	carried := quantity.Mass(0)
	for _, l := range d.winding.Laid[:min(d.standing.LastDone, len(d.winding.Laid))] {
		carried += l.Resin
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

func layers(n int) string { return counted(n, "layer") }
func tows(n int) string   { return counted(n, "tow") }
func pots(n int) string   { return counted(n, "pot") }

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
