package scales

import (
	"math"

	"potlife/kinetics/quantity"
	"potlife/schedule"
	"potlife/schedule/session"
	"potlife/schedule/session/replay"
	"potlife/schedule/weighing"
	"potlife/schedule/winding"
)

// A day is what a session knows of its part.
type day struct {
	winding  *schedule.Winding
	standing session.Day // at the end of the journal
	tow      quantity.Length
	givenUp  float64 // share of the layer that was in hand at the finish
	plies    int
	ply      quantity.ArealWeight // mean of all
	mixed    sum
	poured   sum
	inCups   sum // stand mixed
	left     sum
	unknown  int // baths whose rest was not weighed
}

// A sum is of so many readings of a scale.
type sum struct {
	quantity.Mass
	readings int
}

func (s *sum) add(grams float64) {
	if grams > 0 {
		s.Mass += quantity.Mass(grams * gram)
		s.readings++
	}
}

// known is the sum with the doubt of its readings of a scale, each of step/√12.
func (s sum) known(step quantity.Mass) weighing.Known[quantity.Mass] {
	u := float64(step) * math.Sqrt(float64(s.readings)/12)
	return weighing.Known[quantity.Mass]{Value: s.Mass, U: quantity.Mass(u), Given: s.readings > 0}
}

// gather adds up the events of a session.
func gather(w *schedule.Winding, all []session.Event) (*day, error) {
	standing, err := session.Through(all)
	if err != nil {
		return nil, err
	}
	d := &day{winding: w, standing: standing}
	active := session.Active(all)
	pots := map[int]session.Event{}
	for _, e := range active {
		switch e.Kind {
		case session.Mixed:
			pots[e.Seq] = e
			d.mixed.pot(e)
		case session.Poured:
			d.poured.pot(pots[e.Pot])
			delete(pots, e.Pot)
		}
	}
	for _, e := range active {
		if pot, left := pots[e.Seq]; left {
			d.inCups.pot(pot)
		}
	}
	d.leftOver(active)
	if standing.GivenUp > 0 {
		script, err := replay.Compile(w, all, active[len(active)-1].At)
		if err != nil {
			return nil, err
		}
		d.givenUp = script.GivenUp().Wound()
	}
	d.layers()
	return d, nil
}

// A part is a layer, or the share of one that was given up.
type part struct {
	winding.Laid
	share float64
}

// onMandrel are the layers done and what is wound of one that was given up.
func (d *day) onMandrel() []part {
	var list []part
	for _, l := range d.winding.Laid[:min(d.standing.LastDone, len(d.winding.Laid))] {
		list = append(list, part{l, 1})
	}
	if d.givenUp > 0 {
		list = append(list, part{d.winding.Laid[d.standing.GivenUp-1], d.givenUp})
	}
	return list
}

// pot adds a pot as it was weighed.
func (s *sum) pot(e session.Event) {
	s.add(e.MassG)
	s.add(e.ResinG)
	s.add(e.HardenerG)
}

// layers adds up the tow and the plies of what is wound, (1), (5) and (6) of the package
// comment.
func (d *day) layers() {
	job := d.winding.Job
	fibre, area := 0.0, 0.0
	for _, l := range d.onMandrel() {
		ends := job.Ends.Fibre
		if winding.Per(job.Ends.Per) == winding.PerCircuit {
			ends *= quantity.Length(l.Circuits)
		}
		plies := 2
		if l.Hoop {
			plies = 1
		}
		d.tow += l.Path * quantity.Length(l.share)
		fibre += float64(l.Path-ends) * l.share * float64(job.Machine.Tows) * float64(job.Fibre.Tex)
		if l.share < 1 {
			continue // no whole ply: its fibre makes the others heavier
		}
		d.plies += plies
		area += float64(plies) * math.Pi * float64(l.Diameter) * float64(job.Mandrel.Length)
	}
	if area > 0 && fibre > 0 {
		d.ply = quantity.ArealWeight(fibre / area)
	}
}

// liquidFor is how far the density of the liquid mix may be off that of the cured
// resin (common practice, memory).
const liquidFor = 0.05

// fill puts what the session knows into an input.
func (d *day) fill(in *weighing.Input, w session.Weights) {
	job, record := d.winding.Job, d.winding.Record
	scale := weighing.DefaultScale
	if w.ScaleG != nil {
		scale = quantity.Mass(*w.ScaleG * gram)
	}
	if d.tow > 0 {
		in.Tow, in.Tex, in.Tows = weighing.Of(d.tow), weighing.Of(job.Fibre.Tex), job.Machine.Tows
	}
	in.Mixed = d.mixed.known(job.Pots.Scale)
	in.Cups = d.inCups.known(job.Pots.Scale)
	in.LeftOver = d.left.known(scale)
	in.FibreDensity = weighing.Of(job.Fibre.Density)
	liquid := record.Kinetics.Density
	in.ResinDensity = weighing.Within(liquid, liquid*liquidFor/quantity.Density(math.Sqrt(3)))
	if d.ply > 0 {
		in.ArealWeight, in.Plies = weighing.Of(d.ply), d.plies
	}
	in.Target = job.FibreFraction
}
