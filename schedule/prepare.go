package schedule

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/resins/fit"
	"potlife/schedule/batches"
	"potlife/schedule/winding"
)

// A Winding is a job with all that follows from it before any pot is planned.
type Winding struct {
	Job      *Job
	Record   *resins.Record // calibrated to the job's label, if it has one
	Resolved *resins.Record // the same before any lessons
	Learned  *Learned       // what the job learned from sessions; nil: nothing
	Laid     []winding.Laid
	Task     *batches.Task
	Warnings []warning.Warning
	Label    []warning.Warning // those of the warnings that calibrating gave
	Renamed  []warning.Warning // those of the warnings that are about keys of its files
	Misfit   *fit.Misfit       // where the label is hardly of this system: said beside the answer
	// Contradictions are those of the warnings that no plan can mend: two figures of
	// the job do not go together.
	Contradictions []warning.Warning
}

// Prepare loads the job's resin, calibrates it, lays the layers and sets up the
// task of splitting the winding into pots. What is wrong with the job is told
// as a [*document.Faults] at its place in the job's file, what is wrong with a
// resin record at its place there.
func Prepare(j *Job) (*Winding, error) {
	record, err := resins.Load(j.ResinPath())
	if err != nil {
		return nil, j.faultOf("resin", err)
	}
	renamed := slices.Concat(j.Renamed, record.Renamed)
	var learned *Learned
	if path := j.LearnedPath(); path != "" {
		if learned, err = LoadLearned(path); err != nil {
			return nil, j.faultOf("learned", err)
		}
		renamed = append(renamed, learned.Renamed...)
	}
	w, err := PrepareWith(j, record, learned)
	if err != nil {
		return nil, err
	}
	w.Renamed, w.Warnings = renamed, slices.Concat(renamed, w.Warnings)
	return w, nil
}

// PrepareWith is [Prepare] with a record and lessons instead of those that the job names.
// The winding's job and record are then as the lessons have them. It says nothing of renamed
// keys: the copies that a session keeps are not for people to edit.
func PrepareWith(j *Job, record *resins.Record, learned *Learned) (*Winding, error) {
	w := &Winding{Job: j, Record: record, Resolved: record, Learned: learned}
	if j.HasLabel {
		c, err := fit.Calibrate(record, &j.Label)
		if err != nil {
			path := "datasheet.pot_life"
			if thin := (*fit.ImpossibleViscosity)(nil); errors.As(err, &thin) {
				path = "datasheet.viscosity"
			}
			return nil, j.faultOf(path, err)
		}
		w.Record, w.Resolved, w.Misfit = c.Record, c.Record, c.Misfit
		w.Label = append(c.Warnings, c.LeftOut...)
		w.Warnings = append(w.Warnings, w.Label...)
	}
	if learned != nil {
		learned.apply(w)
		j = w.Job
	}
	w.Laid = w.lay(j)
	w.Task = j.task(w.Record, w.Laid)
	w.warn()
	return w, w.possible()
}

// lay lays a job's layers, in the time that they are known to take.
func (w *Winding) lay(j *Job) []winding.Laid {
	laid := winding.Lay(j.setup(w.Record), j.Layers)
	if w.Learned != nil && w.Learned.Minutes.Known() {
		for i := range laid {
			laid[i].Time *= quantity.Time(w.Learned.Minutes.Value)
		}
	}
	return laid
}

func (j *Job) setup(r *resins.Record) winding.Setup {
	return winding.Setup{
		Diameter: j.Mandrel.Diameter, Length: j.Mandrel.Length,
		Tows: j.Machine.Tows, Band: j.Machine.Band, TowSpeed: j.Machine.TowSpeed,
		Spindle: j.Machine.Spindle, Turnaround: j.Machine.Turnaround,
		Ends: j.Ends.Fibre, EndsPer: winding.Per(j.Ends.Per),
		FibreDensity: j.Fibre.Density, Tex: j.Fibre.Tex,
		FibreByMass: float64(j.FibreFraction.OfMass(j.Fibre.Density, r.Kinetics.Density)),
		FibreVolume: float64(j.FibreFraction.OfVolume(j.Fibre.Density, r.Kinetics.Density)),
		PickUp:      j.PickUp,
	}
}

// surroundings are the temperatures around the bath and under the layers.
func (j *Job) surroundings() (room, wall, mandrel vessel.Series, jacket quantity.Temperature) {
	room, _ = j.Room.Series()
	wall, mandrel = room, room
	if j.Bath.HasJacket {
		wall, _ = j.Bath.Jacket.Series()
		jacket = wall.Highest()
	}
	if j.Mandrel.Temperature > 0 {
		mandrel = vessel.Constant(j.Mandrel.Temperature)
	}
	return room, wall, mandrel, jacket
}

func (j *Job) task(r *resins.Record, laid []winding.Laid) *batches.Task {
	room, wall, mandrel, jacket := j.surroundings()
	t := &batches.Task{
		Resin: r.Kinetics, Mix: r.Mix, Spread: r.Spread,
		Room: room, Wall: wall, ResinAt: j.ResinAt,
		Limits: j.Limits.vesselLimits(jacket, mandrel), Reserve: j.Limits.Reserve,
		Bath: batches.Bath{
			Vessel: j.Bath.Vessel(j.Bath.HasJacket), Lowest: j.Bath.Lowest, Highest: j.Bath.Highest,
			Change: j.Bath.Change, Pour: j.Bath.Pour,
		},
		Pots: batches.Pots{
			Smallest: j.Pots.Smallest, Largest: j.Pots.Largest, Step: j.Pots.Scale, Mixing: j.Pots.Mixing,
			Cup:       j.cup().Vessel(false),
			LeftInCup: float64(j.Pots.LeftInCup), Helper: j.Pots.Helper,
		},
		Pause: j.Machine.BetweenLayers,
		Fibre: j.Fibre.HeatCapacity,
	}
	t.Bath.Vessel.Drum = j.Bath.Stirs(j.Bath.Lowest, r.Kinetics.Density) // the shallower, the less a drum reaches
	t.Spread.Loss = j.Bath.LossSpread
	t.Pots.Warms, t.Spread.Mixed = j.Pots.warms()
	for i := range laid {
		if len(t.Units) > mostUnits { // too many already, see possible
			break
		}
		t.Units = append(t.Units, j.units(i, &laid[i])...)
	}
	return t
}

// stretchesPerLayer is how many stretches of whole circuits a layer is divided
// into where the job refills at circuits: fine enough to stop near any moment,
// and few enough to search. A layer that the bath could not hold is divided
// until a stretch takes a quarter of the bath at most.
const stretchesPerLayer = 8

// stretches is how many a layer is divided into.
func (j *Job) stretches(laid *winding.Laid) int {
	if !j.Circuits {
		return 1
	}
	quarter := float64(j.Bath.Highest-j.Bath.Lowest) / 4
	n := max(stretchesPerLayer, math.Ceil(float64(laid.Resin)/quarter))
	return int(min(n, float64(max(laid.Circuits, 1))))
}

// stops is how many places to stop all layers have.
func (j *Job) stops(laid []winding.Laid) int {
	n := 0
	for i := range laid {
		n += j.stretches(&laid[i])
	}
	return n
}

// units splits a layer where the machine may be stopped.
func (j *Job) units(layer int, laid *winding.Laid) []batches.Unit {
	n := j.stretches(laid)
	list := make([]batches.Unit, n)
	wound := 0
	for i := range list {
		upTo := laid.Circuits * (i + 1) / n
		share := float64(upTo-wound) / float64(laid.Circuits)
		wound = upTo
		list[i] = batches.Unit{
			Layer: layer, EndsLayer: i == n-1, Circuits: wound,
			Time:        laid.Time * quantity.Time(share),
			Resin:       laid.Resin * quantity.Mass(share),
			FibreWeight: laid.Fibre * quantity.Mass(share),
		}
	}
	return list
}

// longestLayer is what a layer may be told to take; only a slip of the pen exceeds it.
const longestLayer quantity.Time = 7 * 86400

// mostUnits bounds the stops that a plan may choose from.
const mostUnits = 20_000

// possible refuses what no plan can be searched for.
func (w *Winding) possible() error {
	if n := w.Job.stops(w.Laid); n > mostUnits {
		return w.Job.fault("refill", fmt.Sprintf("circuits give %d places to stop, more than the %d this tool plans", n, mostUnits), "write refill: layers")
	}
	for i := range w.Laid {
		if l := &w.Laid[i]; !(l.Time <= longestLayer) {
			return w.Job.fault("machine", fmt.Sprintf("layer %s would take %v", l.Name, l.Time), "check tow_speed, spindle, band and the mandrel's size")
		}
	}
	p, mix := &w.Job.Pots, w.Record.Mix
	if least := mix.SmallestPot(p.Scale, p.RatioTolerance); p.Smallest < least {
		finer := p.Scale * p.Smallest / least
		mend := "use a scale that reads " + quantity.Format(roundedDown(finer), "g", -1) + " or finer"
		if least <= p.Largest {
			mend = fmt.Sprintf("make it %.0f g or more, or ", math.Ceil(least.In("g"))) + mend
		}
		return w.Job.fault("pots.smallest", fmt.Sprintf("a pot of %v on a scale of %v can miss the ratio by %.1f %%, more than %v",
			p.Smallest, p.Scale, 100*mix.ScaleError(p.Smallest, p.Scale), p.RatioTolerance), mend)
	}
	if poured := p.Smallest * quantity.Mass(1-p.LeftInCup); poured > w.Job.Bath.Highest {
		return w.Job.fault("pots.smallest", fmt.Sprintf("the smallest pot, %v, does not fit into a bath of at most %v", p.Smallest, w.Job.Bath.Highest),
			"give a smaller pot, or a larger bath")
	}
	if pot := mix.Weigh(p.Smallest, p.Scale).Mass(); pot > p.Largest*(1+1e-9) {
		return w.Job.fault("pots.largest", fmt.Sprintf("the smallest pot weighs %v on this scale, more than the largest of %v", pot, p.Largest),
			fmt.Sprintf("give largest as %v or more", pot))
	}
	return nil
}

// roundedDown is a scale's step as scales have it: 1, 2 or 5 with zeros.
func roundedDown(step quantity.Mass) quantity.Mass {
	grams := step.In("g")
	decade := math.Pow(10, math.Floor(math.Log10(grams)))
	for _, digit := range []float64{5, 2} {
		if digit*decade <= grams {
			return quantity.Mass(digit * decade / 1000)
		}
	}
	return quantity.Mass(decade / 1000)
}

// Fibre fractions of wet winding by mass: carbon and glass (common practice).
var usualFractions = []struct {
	name            string
	below           quantity.Density
	lowest, highest quantity.Fraction
}{{"carbon", 2200, 0.55, 0.72}, {"glass", 1e9, 0.60, 0.80}}

func (w *Winding) warn() {
	j := w.Job
	w.Warnings = append(w.Warnings, w.Record.Warnings()...)
	w.Warnings = append(w.Warnings, j.startTwice...)
	w.Contradictions = w.contradictions()
	w.Warnings = append(w.Warnings, w.Contradictions...)
	w.warnOutside()
	w.Warnings = append(w.Warnings, found(
		deep(j.Bath.Container, j.Bath.Highest, w.Record), shallow(j.Bath.Container, j.Bath.Lowest, w.Record),
		deep(j.cup(), j.Pots.Largest, w.Record), j.Room.late(), w.doubtMeasured(), w.doubtSetting())...)
	w.Warnings = append(w.Warnings, w.doubtMachine()...)
	byMass := j.FibreFraction.OfMass(j.Fibre.Density, w.Record.Kinetics.Density)
	for _, u := range usualFractions {
		if j.Fibre.Density >= u.below {
			continue
		}
		if byMass < u.lowest || byMass > u.highest {
			w.Warnings = append(w.Warnings, FibreFractionUnusual{ByMass: byMass, Lowest: u.lowest, Highest: u.highest, Fibre: u.name})
		}
		break
	}
}

// warnOutside tells the first temperature at which the record's data may not be
// trusted, of those that the job can meet while it is wound.
func (w *Winding) warnOutside() {
	j := w.Job
	room, wall, mandrel, _ := j.surroundings()
	end := quantity.Time(0)
	for _, l := range w.Laid {
		end += l.Time + j.Machine.BetweenLayers
	}
	type place struct {
		site Site
		at   quantity.Temperature
	}
	var places []place
	course := func(site Site, s vessel.Series) {
		places = append(places, place{site, s.At(0)})
		for _, t := range s.Times() {
			if t > 0 && t < end {
				places = append(places, place{site, s.At(t)})
			}
		}
		places = append(places, place{site, s.At(end)})
	}
	course(SiteRoom, room)
	if mixed := w.Task.MixedAt(0); j.ResinAt > 0 || mixed != room.At(0) {
		places = append(places, place{SiteResin, mixed})
	}
	if j.Bath.HasJacket {
		course(SiteJacket, wall)
	}
	if j.Mandrel.Temperature > 0 {
		course(SiteMandrel, mandrel)
	}
	for _, p := range places {
		if !w.Record.Valid.Holds(p.at) {
			w.Warnings = append(w.Warnings, OutsideData{Site: p.site, At: p.at, Trusted: w.Record.Valid, Resin: w.Record.Name})
			return
		}
	}
}
