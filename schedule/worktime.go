package schedule

import (
	"math"
	"slices"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/resins/document"
	"potlife/resins/fit"
	"potlife/schedule/batches"
)

// Standing is resin left to itself in a vessel: what worktime asks about.
type Standing struct {
	Record *resins.Record
	Mass   quantity.Mass
	Bath   Bath
	Room   quantity.Temperature
	From   quantity.Temperature // of the resin when mixed; 0: the room's
	Limits Limits
	Misfit *fit.Misfit // where the label is hardly of this system: said beside the answer

	Renamed []warning.Warning // keys that record and mappings have under names of before

	// Sampling is that of the ensemble; the zero value is the usual one.
	Sampling Sampling
}

// Lasting is how long it lasts; times from mixing, +Inf when not reached within
// [WorktimeHorizon].
type Lasting struct {
	Initial     quantity.Viscosity // as mixed
	Likely      quantity.Time      // working life, the median of the ensemble
	Sure        quantity.Time      // its 10 % quantile
	EndsBy      vessel.Limit
	TooThickFor quantity.Time        // until warming thins the bath; 0: never too thick
	ThinAt      quantity.Temperature // where it has thinned
	Milestones  vessel.Milestones
	Limits      vessel.Limits // that it was held to
	Danger      *Danger       // left alone
	Warnings    []warning.Warning
}

// WorktimeHorizon is as far as worktime looks.
const WorktimeHorizon quantity.Time = 7 * 86400

// A Sampling is how many baths an ensemble has and what they are drawn from, for whoever
// checks that neither moves a figure.
type Sampling struct {
	Members int
	Seed    uint64
}

// UsualSampling is that behind the sure figure.
var UsualSampling = Sampling{Members: 400, Seed: batches.Seed}

func (s Sampling) orUsual() Sampling {
	if s.Members == 0 {
		return UsualSampling
	}
	return s
}

// ReadVessel reads the bath mapping of a job from a flag's text; only its
// vessel counts, and a jacket has one temperature, since a flag has no clock. No tow runs, so
// that only a drum that turns always stirs. A cup stands on wood unless something is said of its
// floor, or of its wall, whose loss was then measured with the floor.
func ReadVessel(flag, text string) (Bath, []warning.Warning, error) {
	b := Bath{Container: resins.Container{Drum: resins.Drum{Turns: resins.WithTow}}, LossSpread: ensemble.UsualSpread}
	var ignored struct {
		mass quantity.Mass
		time quantity.Time
	}
	fields := append(b.Fields(),
		document.Quantity("lowest", &ignored.mass), document.Quantity("highest", &ignored.mass),
		document.Number("loss_spread", &b.LossSpread, document.Between(1.0, 10.0)),
		b.draughtField(),
		document.Quantity("change", &ignored.time), document.Quantity("pour", &ignored.time),
		document.Quantity("jacket", &b.Jacket.constant, document.Seen(&b.HasJacket), document.Between(coldest, hottest), document.Example("35 °C")))
	doc, _ := document.Read(flag, []byte(text), fields)
	b.Check(doc, "")
	checkJacket(doc, "")
	b.settleDraught(doc, "")
	if b.Cup > 0 && !doc.Has("drum") && !doc.Has("stirred") {
		b.Drum = resins.Drum{}
	}
	if b.Cup > 0 && !b.HasJacket && !doc.Has("stands_on") && !doc.Has("floor_loss") && !doc.Has("wall_loss") {
		b.StandsOn = usualFloor
	}
	if b.HasJacket {
		b.Jacket.series, b.Jacket.settled = vessel.Constant(b.Jacket.constant), true
	}
	return b, doc.Renamed(), doc.Err()
}

// ReadLimits reads the limits mapping of a job from a flag's text.
func ReadLimits(flag, text string) (Limits, []warning.Warning, error) {
	l := Limits{Reserve: usualReserve}
	doc, err := document.Read(flag, []byte(text), l.Fields())
	return l, doc.Renamed(), err
}

// ReadLabel reads the datasheet mapping of a job from a flag's text.
func ReadLabel(flag, text string) (*resins.Label, []warning.Warning, error) {
	var l resins.Label
	doc, _ := document.Read(flag, []byte(text), l.Fields())
	l.Check(doc, "")
	return &l, doc.Renamed(), doc.Err()
}

// Bounds that only a slip of the pen exceeds, for flags.
const (
	LeastMass    quantity.Mass = 1e-4
	GreatestMass quantity.Mass = 1000
)

// Coldest and Hottest bound every temperature that a crew can mean.
var Coldest, Hottest = coldest, hottest

// Last follows the resin and its ensemble.
func (s *Standing) Last() (*Lasting, error) {
	fresh := s.fresh()
	room, wall := s.surroundings()
	jacket := quantity.Temperature(0)
	if s.Bath.HasJacket {
		jacket = wall.Highest()
	}
	limits := s.Limits.vesselLimits(jacket, room)
	l := &Lasting{Limits: limits, Initial: fresh.Viscosity(&s.Record.Kinetics)}
	beside := []func() error{
		func() error { return s.nominal(l, fresh) },
		func() (err error) { l.Danger, err = s.danger(fresh, limits); return err },
	}
	err := ensemble.Each(len(beside), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error { return beside[i]() })
	if err != nil {
		return nil, err
	}
	cloud, lives, err := s.lives(fresh, limits)
	if err != nil {
		return nil, err
	}
	// The first gel ends a life. The members' lives are found on fewer cells than the gel of
	// the nominal resin, and differ in more than one way: their median may lie a little after it.
	l.Likely = min(quantity.Time(cloud.Quantile(ensemble.LikelyQuantile, lives)), l.Milestones.Gel)
	l.Sure = min(quantity.Time(cloud.Quantile(ensemble.SureQuantile, lives)), l.Likely)
	s.warn(l, fresh)
	return l, nil
}

// nominal follows the resin as its record has it: how its life ends, and what it passes.
func (s *Standing) nominal(l *Lasting, fresh vessel.State) error {
	nominal, err := s.stander(ensemble.Nominal(), fresh, 0, 1)
	if err != nil {
		return err
	}
	life, err := nominal.Life(l.Limits)
	if err != nil {
		return err
	}
	l.EndsBy, l.TooThickFor, l.ThinAt = life.EndsBy, life.TooThickFor, life.ThinAt
	l.Milestones, err = s.milestones(nominal, fresh)
	return err
}

// deep doubts a vessel in which the resin stands deeper than any tray or cup is: three
// times its width, or half a metre; nil: it does not.
func deep(c resins.Container, mass quantity.Mass, r *resins.Record) warning.Warning {
	v := c.Vessel(false)
	depth := v.Depth(mass, r.Kinetics.Density)
	width := math.Sqrt(v.AreaM2)
	if float64(depth) < 3*width && depth < 0.5 {
		return nil
	}
	return VesselTooDeep{Mass: mass, Depth: depth, In: c}
}

// shallow doubts a vessel in which the resin is a film that no tow could run through; nil:
// it is not.
func shallow(c resins.Container, mass quantity.Mass, r *resins.Record) warning.Warning {
	depth := c.Vessel(false).Depth(mass, r.Kinetics.Density)
	if depth >= leastDepth {
		return nil
	}
	return VesselTooShallow{Mass: mass, Depth: depth, In: c}
}

// found are those of the doubts that stand.
func found(doubts ...warning.Warning) []warning.Warning {
	return slices.DeleteFunc(doubts, func(w warning.Warning) bool { return w == nil })
}

// leastDepth is as flat as resin stays together on its own: the capillary length of
// epoxies, some 2 mm, and less on what they wet (our choice).
const leastDepth quantity.Length = 2e-4

func (s *Standing) warn(l *Lasting, fresh vessel.State) {
	add := func(list ...warning.Warning) { l.Warnings = append(l.Warnings, list...) }
	add(s.Record.Warnings()...)
	for _, t := range []quantity.Temperature{s.Room, fresh.Temperature} {
		if !s.Record.Valid.Holds(t) {
			add(OutsideData{At: t, Trusted: s.Record.Valid, Resin: s.Record.Name})
			break
		}
	}
	add(found(deep(s.Bath.Container, s.Mass, s.Record), shallow(s.Bath.Container, s.Mass, s.Record))...)
	if l.TooThickFor > 0 && !math.IsInf(float64(l.TooThickFor), 1) {
		add(TooThickWhenMixed{ThinsAfter: l.TooThickFor, ThinAt: l.ThinAt})
	}
}
