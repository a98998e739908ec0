package cure

import (
	"math"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
	"potlife/kinetics/warning"
)

// A Tally is what the referee saw of a program: the whole way from the last layer to the
// part out of the oven.
type Tally struct {
	Baths  [baths]BathTally  // likely, slow, fast
	Broken []warning.Warning // promises that do not hold; empty for a sound program
	Course []Moment          // of the likely bath
}

// Likely, Slow and Fast are the tallies of the three baths.
func (t *Tally) Likely() *BathTally { return &t.Baths[likely] }

// Slow is the bath whose target counts.
func (t *Tally) Slow() *BathTally { return &t.Baths[slow] }

// Fast is the bath whose exotherm counts.
func (t *Tally) Fast() *BathTally { return &t.Baths[fast] }

// A BathTally is one bath's way; times from the last layer.
type BathTally struct {
	Peak      quantity.Temperature
	PeakAt    quantity.Time
	Mandrel   quantity.Temperature // the hottest place of the mandrel in the oven; 0: there is none
	Lead      quantity.TemperatureDifference
	LeadAt    quantity.Time
	Laziest   Cured // as the last hold ends
	Hottest   Cured // the furthest cured place then
	FirstGel  quantity.Time
	GelAt     quantity.Time // of the last place
	TurnUntil quantity.Time // the thinnest place has passed the viscosity that no longer drains
	Out       Cured         // the laziest place, out of the oven
}

// A Moment of the likely bath's way, from the last layer.
type Moment struct {
	At               quantity.Time
	Air              quantity.Temperature
	Hottest, Coldest quantity.Temperature // places with resin
	Glass            quantity.Temperature // of the laziest place
	Degree           float64              // of the laziest place
}

// Strict is what the referee computes with: ten times tighter steps on twice the cells.
var Strict = still.Precision{Alpha: 1e-6, Temperature: 1e-3, FirstStep: 10}

// strictInterval is how far apart the referee looks.
const strictInterval quantity.Time = 60

// courseMoments are how many moments of a way are kept for a picture, about.
const courseMoments = 900

// Referee follows a program that starts at a time from the last layer on, on finer cells and
// with tighter steps than any search, and asks every promise of the package comment again.
func (t *Task) Referee(p *Program, start quantity.Time) (*Tally, error) {
	tally := &Tally{}
	err := ensemble.Each(int(baths), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		w, err := t.walk(p, start, Hardener(i))
		if err != nil {
			return err
		}
		tally.Baths[i] = w.tally
		if Hardener(i) == likely {
			tally.Course = w.course
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	tally.Broken = t.broken(p, start, tally)
	return tally, nil
}

// walker follows one bath.
type walker struct {
	task       *Task
	part       *part
	tally      BathTally
	course     []Moment
	keep       bool
	start, due quantity.Time // of the program, and the end of its last hold, from the last layer
	end        quantity.Time
}

func (t *Task) walk(p *Program, start quantity.Time, b Hardener) (*walker, error) {
	part, err := t.newPart(b, finer, Strict)
	if err != nil {
		return nil, err
	}
	from := t.air(t.Wound() + start)
	w := &walker{
		task: t, part: part, keep: b == likely,
		start: start, due: start + p.HoldEnds(from), end: start + p.Lasts(from),
	}
	never := quantity.Time(math.Inf(1))
	w.tally = BathTally{Lead: quantity.TemperatureDifference(never), FirstGel: never, GelAt: never, TurnUntil: never}
	profile := part.start
	if start > 0 {
		if profile, err = w.inRoom(b); err != nil {
			return nil, err
		}
	}
	return w, w.inOven(p, b, profile, from)
}

// inRoom follows the part to the start of the program.
func (w *walker) inRoom(b Hardener) (still.Profile, error) {
	wound := w.task.Wound()
	samples, err := w.part.pot.Trace(w.part.start, wound, wound+w.start, strictInterval)
	if err != nil {
		return nil, err
	}
	for _, s := range samples {
		w.see(s.At-wound, w.task.air(s.At), s.Profile, w.part.wall.first, false)
	}
	return samples[len(samples)-1].Profile, nil
}

// inOven follows it through the program.
func (w *walker) inOven(p *Program, b Hardener, profile still.Profile, from quantity.Temperature) error {
	t, wall := w.task, w.part.wall
	if t.Cure.Free {
		wall, profile = wall.drawn(profile, t.Mandrel.Bore)
	}
	air, err := p.Air(w.start, from)
	if err != nil {
		return err
	}
	pot, err := wall.pot(t.inOven(b, p.Hottest(from)), air, t.Cure.Oven.Loss, Strict)
	if err != nil {
		return err
	}
	for _, leg := range [][2]quantity.Time{{w.start, w.due}, {w.due, w.end}} {
		if !(leg[1] > leg[0]) {
			continue
		}
		samples, err := pot.Trace(profile, leg[0], leg[1], strictInterval)
		if err != nil {
			return err
		}
		for _, s := range samples {
			w.see(s.At, air.At(s.At), s.Profile, wall.first, true)
		}
		profile = samples[len(samples)-1].Profile
		if leg[1] == w.due {
			w.tally.Laziest, w.tally.Hottest = w.cured(profile.Laziest()), w.cured(profile.Foremost())
		}
	}
	w.tally.Out = w.cured(profile.Laziest())
	return nil
}

func (w *walker) cured(s vessel.State) Cured {
	return Cured{s.Alpha, w.task.Resin.Glass.At(s.Alpha)}
}

// see adds a moment.
func (w *walker) see(at quantity.Time, air quantity.Temperature, profile still.Profile, first int, oven bool) {
	t, r, c := &w.tally, w.part.pot.Resin(), w.task
	hottest, coldest := quantity.Temperature(0), quantity.Temperature(math.Inf(1))
	thin, least, most := math.Inf(1), math.Inf(1), 0.0
	for i, s := range profile {
		if i < first {
			if oven {
				t.Mandrel = max(t.Mandrel, s.Temperature)
			}
			continue
		}
		hottest, coldest = max(hottest, s.Temperature), min(coldest, s.Temperature)
		least, most = math.Min(least, s.Alpha), math.Max(most, s.Alpha)
		if s.Alpha < r.Gel {
			thin = math.Min(thin, s.LogViscosity(r))
		}
		if lead := quantity.TemperatureDifference(r.Glass.At(s.Alpha) - s.Temperature); oven && lead < t.Lead {
			t.Lead, t.LeadAt = lead, at
		}
	}
	if hottest > t.Peak {
		t.Peak, t.PeakAt = hottest, at
	}
	if most >= r.Gel {
		t.FirstGel = min(t.FirstGel, at)
	}
	if least >= r.Gel {
		t.GelAt = min(t.GelAt, at)
	}
	switch never := quantity.Time(math.Inf(1)); {
	case thin < math.Log(float64(c.Cure.NoSag)):
		t.TurnUntil = never // warmed, it runs again
	case t.TurnUntil == never:
		t.TurnUntil = at
	}
	if w.keep && (len(w.course) == 0 || at-w.course[len(w.course)-1].At >= w.end/courseMoments || at == w.end || at == w.start) {
		w.course = append(w.course, Moment{At: at, Air: air, Hottest: hottest, Coldest: coldest, Glass: r.Glass.At(least), Degree: least})
	}
}

// What rounding may hide of a promise: the referee's own error is far below either.
const (
	heatRounding   = 0.05 // K
	degreeRounding = 1e-5
)

// broken asks every promise.
func (t *Task) broken(p *Program, start quantity.Time, tally *Tally) []warning.Warning {
	var list []warning.Warning
	breaks := func(w warning.Warning) { list = append(list, w) }
	from, o := t.air(t.Wound()+start), &t.Cure.Oven
	if hottest := p.Hottest(from); hottest > o.Highest+heatRounding {
		breaks(AirTooHot{Air: hottest, Highest: o.Highest})
	}
	for i, s := range p.Steps {
		limit := o.Ramp
		if s.Kind == Cool {
			limit = o.Cooling
		}
		if s.Kind != Hold && s.Rate > limit*(1+1e-9) {
			breaks(StepTooFast{Step: i + 1, Rate: s.Rate, Allowed: limit})
		}
	}
	if aim, got := t.Aim(), tally.Slow().Laziest.Degree; !(got >= aim-degreeRounding) {
		breaks(TargetMissed{Degree: got, Glass: tally.Slow().Laziest.Glass, Asked: aim})
	}
	for b := range baths {
		own := &tally.Baths[b]
		if own.Peak > t.Cure.Exotherm+heatRounding {
			breaks(PartTooHot{Hardener: b, Peak: own.Peak, Allowed: t.Cure.Exotherm})
		}
		if m := t.Mandrel.Material; !t.Cure.Free && m.Highest > 0 && own.Mandrel > m.Highest+heatRounding {
			breaks(MandrelTooHot{Hardener: b, Material: m.Name, Peak: own.Mandrel, Allowed: m.Highest})
		}
		if t.Cure.Free && own.Lead < t.Cure.Margin-heatRounding {
			breaks(FreePartSoftens{Hardener: b, At: own.LeadAt, Lead: own.Lead, Margin: t.Cure.Margin})
		}
		if !o.Turns && !(own.GelAt <= start+strictInterval) {
			breaks(NotGelled{Hardener: b})
		}
	}
	return list
}
