package advice

import (
	"math"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/schedule/batches"
	"potlife/schedule/session/hazard"
	"potlife/schedule/session/inforce"
	"potlife/schedule/session/replay"
)

// An Answer is what there is to say at a moment of a session. Times are elapsed seconds of
// the job where they are moments, and durations from Now otherwise.
type Answer struct {
	Now     quantity.Time
	Filled  bool
	Running bool
	Bath    Bath
	// What is left with the tow as it is, and if it stopped now; +Inf: more than two days.
	Left, LeftSure       quantity.Time
	Stopped, StoppedSure quantity.Time
	Reserve              quantity.Time // asked of this bath, that of the sure one, as a plan has it
	EndsBy               vessel.Limit
	ThinsIn              quantity.Time // of a bath that is still too thick, in all but a few worlds

	Advice    Advice // what comes first: a hazard, or what the crew is asked for
	Rule      Rule
	Hazards   []hazard.Hazard // the worst first
	Situation Situation
	// SpreadOld is how deep what comes out of the bath may lie; 0: it cannot run away, or stays.
	SpreadOld quantity.Length
	Planned   bool // by the plan in force, or another of the rest
	// MachineAdvice is what is to be done with machine and bath beside that.
	MachineAdvice Advice
	MachineRule   Rule
	Off           float64       // relative error of the hardener in the bath, beyond the job's tolerance; 0: within it
	Pour          Remedy        // what goes into the bath with a top-up, a change or a fill
	ActBefore     quantity.Time // elapsed; NaN: no moment is better than another
	PastSince     quantity.Time // elapsed, when the bath passed a limit; NaN: it has not
	// CleanBy is, elapsed, until when nine in ten baths of now are clean whatever is poured onto them;
	// NaN: to the end, or it was not asked for.
	CleanBy quantity.Time
	Resin   Resin         // until the bath is down to its lowest
	Next    *Next         // nil: none, or not looked for
	Plan    *inforce.Rest // what is left of the plan in force; nil: none is, or it was not asked for

	Goals         []Goal // layers still to be wound, in order
	Cups          []Cup
	Films         []Film
	PastByReading int // a reading that the bath cannot be wound from, if it is true, by number
	Pace          float64
	Effective     float64 // members that count after the readings, of Members
	Members       int

	Warnings []warning.Warning
	Urgent   int // the first so many of them may spoil the part while it is wound
}

// Bath is the bath of the likely world; sure figures are those that nine in ten keep.
type Bath struct {
	Mass                      quantity.Mass
	Age                       quantity.Time // since its oldest resin was mixed
	Temperature, Hottest      quantity.Temperature
	Viscosity, Thickest       quantity.Viscosity
	Alpha                     float64
	Rate, ViscosityFactor     float64 // medians of what the readings say of this hardener and this resin
	Loss                      float64
	RateSpread, ViscousSpread float64 // factors, 9 times in 10
}

// Resin is what is left of it above the lowest mass of the bath, at the pace of the day.
type Resin struct {
	Lasts    quantity.Time // of winding, with the pauses between layers; +Inf: to the end
	Circuits int           // whole ones
	Layer    int           // from 0, in which it is used up
}

// A Goal is a layer still to be wound.
type Goal struct {
	Layer int // from 0
	Needs quantity.Time
	Done  quantity.Time // from now until it is done if the machine goes on now
	Fits  bool          // with what is in the bath now
	Lacks Lack          // what it fails for, where it does not fit
}

// Lack is why a layer does not fit.
type Lack string

// The lacks.
const (
	LacksNothing Lack = ""
	LacksResin   Lack = "resin" // it would fit after a pour, for all that is known
	LacksLife    Lack = "life"
)

// A Next is the pour that comes next, by the plan in force or the best of the rest.
type Next struct {
	Into  batches.Into
	Layer int // from 0, before which it is poured; that in hand, if it is poured now
	// Circuit is after how many circuits of the layer it goes in; 0: before the layer.
	Circuit int
	MixAt   quantity.Time
	Latest  quantity.Time // to begin mixing, and all after it as much later, and the plan still keeps; MixAt at least
	At      quantity.Time
	Pour    Remedy
	now     bool // it is due
}

// A Remedy is what is poured. Fresh pots are mixed one after another.
type Remedy struct {
	Cups  []replay.Pot
	Fresh []resins.Pot
	Goals int // that it lasts for
}

// now is the moment at which an answer is worked out.
type now struct {
	script *replay.Script
	played *replay.Played
	few    []replay.Weighed
	// stopped is what each world has left if the tow stopped, to the horizon at most.
	stopped map[*replay.World]quantity.Time
	goals   []batches.Unit
	target  int
	answer  Answer
	cups    []replay.Pot  // that can still be used
	saved   Remedy        // pots that would end before their pour, and can go in now
	going   *batches.Plan // that the day goes by, from now on; nil: none holds
}

// Now works out the answer of a played day.
func Now(p *replay.Played) (*Answer, error) {
	n := &now{script: p.Script, played: p, goals: p.Script.Rest()}
	n.target = target(p.Script, n.goals)
	n.few = p.Few(trials)
	n.answer = Answer{
		Now: p.Script.Now, Filled: p.Script.Filled(), Running: p.Script.Running(), Pace: p.Script.Pace,
		ActBefore: unset, PastSince: unset, CleanBy: unset,
		Effective: p.Cloud.Effective, Members: len(p.Cloud.Members),
	}
	for _, step := range []func() error{n.bath, n.left, n.standing, n.films, n.decide, n.clean, n.findWarnings} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	return &n.answer, nil
}

// bath tells what is in it.
func (n *now) bath() error {
	p, b := n.played, &n.answer.Bath
	rate := func(m ensemble.Member) float64 { return m.Rate }
	viscous := func(m ensemble.Member) float64 { return m.Viscosity }
	b.Rate = p.QuantileOfMembers(ensemble.LikelyQuantile, rate)
	b.ViscosityFactor = p.QuantileOfMembers(ensemble.LikelyQuantile, viscous)
	b.Loss = p.QuantileOfMembers(ensemble.LikelyQuantile, func(m ensemble.Member) float64 { return m.Loss })
	b.RateSpread, b.ViscousSpread = n.spread(rate), n.spread(viscous)
	if !n.answer.Filled {
		return nil
	}
	temperature := func(w *replay.World) float64 { return float64(w.Bath.Temperature) }
	viscosity := func(w *replay.World) float64 { return float64(w.Viscosity()) }
	b.Mass = n.mass()
	b.Age = p.Script.Now - p.Script.FilledFrom()
	b.Temperature = quantity.Temperature(p.Likely(temperature))
	inside, err := p.BathNow()
	if err != nil {
		return err
	}
	b.Hottest = max(inside.Hottest, quantity.Temperature(p.Quantile(1-ensemble.SureQuantile, temperature)))
	b.Viscosity = quantity.Viscosity(p.Likely(viscosity))
	b.Thickest = quantity.Viscosity(p.Quantile(1-ensemble.SureQuantile, viscosity))
	b.Alpha = p.Likely(func(w *replay.World) float64 { return w.Bath.Alpha })
	return nil
}

// mass is the same in every world.
func (n *now) mass() quantity.Mass { return n.played.Worlds[0].Bath.Mass }

// spread is the factor within which a value lies 9 times in 10.
func (n *now) spread(of func(ensemble.Member) float64) float64 {
	return math.Sqrt(n.played.QuantileOfMembers(0.95, of) / n.played.QuantileOfMembers(0.05, of))
}

// thinQuantile is how many of the worlds must have thinned before one winds: of the ten in a
// hundred that may fail, most are kept for what may fail later.
const thinQuantile = 0.98

// horizon is as far as what is left is followed.
const horizon quantity.Time = 48 * 3600

// left follows every world to its end.
func (n *now) left() error {
	if !n.answer.Filled {
		return nil
	}
	type ends struct {
		left, stopped, reserve, thins quantity.Time
		by                            vessel.Limit
	}
	found := map[*replay.World]*ends{}
	unique := n.played.Unique()
	list := make([]ends, len(unique))
	err := ensemble.Each(len(unique), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		e, w := &list[i], unique[i]
		var err error
		a := w.Ahead()
		if e.reserve, err = a.Reserve(); err != nil {
			return err
		}
		if e.stopped, e.by, err = a.Exactly(horizon); err != nil {
			return err
		}
		e.thins = a.ThinsIn()
		e.left = e.stopped
		if n.answer.Running {
			e.left, e.by, err = w.Ahead().LeftWinding(n.layerInHand(), horizon)
		}
		return err
	})
	if err != nil {
		return err
	}
	for i, w := range unique {
		found[w] = &list[i]
	}
	a := &n.answer
	quantile := func(q float64, of func(*ends) quantity.Time) quantity.Time {
		return unbounded(quantity.Time(n.played.Quantile(q, func(w *replay.World) float64 { return float64(of(found[w])) })))
	}
	a.Left = quantile(ensemble.LikelyQuantile, func(e *ends) quantity.Time { return e.left })
	a.LeftSure = quantile(ensemble.SureQuantile, func(e *ends) quantity.Time { return e.left })
	if a.Stopped, a.StoppedSure = a.Left, a.LeftSure; a.Running {
		a.Stopped = quantile(ensemble.LikelyQuantile, func(e *ends) quantity.Time { return e.stopped })
		a.StoppedSure = quantile(ensemble.SureQuantile, func(e *ends) quantity.Time { return e.stopped })
	}
	a.Reserve = quantile(ensemble.SureQuantile, func(e *ends) quantity.Time { return e.reserve })
	a.ThinsIn = quantile(thinQuantile, func(e *ends) quantity.Time { return e.thins })
	a.EndsBy = n.mostOften(func(w *replay.World) vessel.Limit { return found[w].by })
	n.stopped = map[*replay.World]quantity.Time{}
	for w, e := range found {
		n.stopped[w] = min(e.stopped, horizon)
	}
	// What is tried out ends by what is left, so the few stand for all in that.
	n.few = n.played.FewBy(trials, func(w *replay.World) float64 { return float64(n.stopped[w]) })
	return nil
}

// layerInHand is what is left of it as one unit.
func (n *now) layerInHand() batches.Unit {
	whole := n.goals[0]
	for _, u := range n.goals[1:] {
		if whole.EndsLayer {
			break
		}
		whole.Time, whole.Resin, whole.FibreWeight = whole.Time+u.Time, whole.Resin+u.Resin, whole.FibreWeight+u.FibreWeight
		whole.EndsLayer = u.EndsLayer
	}
	return whole
}

// unbounded is +Inf for what was followed to the horizon.
func unbounded(t quantity.Time) quantity.Time {
	if t >= horizon-1 {
		return quantity.Time(math.Inf(1))
	}
	return t
}

// mostOften is the limit that ends most of the worlds by weight.
func (n *now) mostOften(of func(*replay.World) vessel.Limit) vessel.Limit {
	share := map[vessel.Limit]float64{}
	for i, w := range n.played.Worlds {
		share[of(w)] += n.played.Cloud.Members[i].Weight
	}
	return mostOften(func(l vessel.Limit) float64 { return share[l] })
}

// mostOften is the limit with the greatest share.
func mostOften(share func(vessel.Limit) float64) vessel.Limit {
	most := vessel.NoLimit
	for _, l := range []vessel.Limit{vessel.NoLimit, vessel.BathViscosity, vessel.LaidViscosity, vessel.BathTemperature, vessel.Gel, vessel.NotClean, vessel.TooThick} {
		if share(l) > share(most) {
			most = l
		}
	}
	return most
}

// state tells the state of the bath for the table.
func (n *now) state() BathState {
	if !n.answer.Filled {
		return Empty
	}
	over, thick := n.played.Ended()
	past := n.script.PastReading()
	if past != nil {
		n.answer.PastByReading = past.Seq
	}
	n.answer.PastSince = n.pastSince(past)
	const doubtful = 1 - batches.EnoughMembers
	switch {
	case over >= doubtful, n.answer.EndsBy == vessel.TooThick:
		return Past
	case thick >= doubtful:
		return Thick
	case past != nil:
		n.nothingLeft(past.PastLimit())
		return Past
	case over+thick >= doubtful:
		return Past
	}
	return Sound
}

// nothingLeft is what a reading past a limit leaves, whatever is reckoned.
func (n *now) nothingLeft(by vessel.Limit) {
	a := &n.answer
	a.Left, a.LeftSure, a.Stopped, a.StoppedSure, a.EndsBy = 0, 0, 0, 0, by
}
