package cure

import (
	"math"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
)

// A Cured is how far the laziest place has cured.
type Cured struct {
	Degree float64
	Glass  quantity.Temperature
}

// A RoomCourse is what one bath does in the room, times from the last layer; +Inf for what
// does not come within [RoomHorizon].
type RoomCourse struct {
	StopTurning quantity.Time // resin no longer drains anywhere
	Gel         quantity.Time // of the first place
	Through     quantity.Time // of the last place
	Demould     quantity.Time // gelled, and the glass temperature above the room by the margin
	Peak        quantity.Temperature
	Week, Month Cured // after 7 and 28 days
}

// RoomHorizon is as far as the room is followed.
const (
	day         quantity.Time = 86400
	RoomHorizon               = 28 * day
)

// room follows a part in the room from its last layer on.
func (t *Task) room(p *part) (*RoomCourse, error) {
	wound := t.Wound()
	passed, err := p.pot.Passages(p.start, wound, RoomHorizon)
	if err != nil {
		return nil, err
	}
	c := &RoomCourse{Gel: passed.Gel, Through: passed.GelledThrough, Peak: passed.Peak}
	gel := p.pot.Resin().Gel
	if p.start.Foremost().Alpha >= gel {
		c.Gel = 0
	}
	if p.start.Laziest().Alpha >= gel {
		c.Through = 0
	}
	if c.StopTurning, err = t.stopTurning(p, c.Through); err != nil {
		return nil, err
	}
	return c, t.weeks(p, c)
}

// lookTurning is into how many stretches the time to gel is divided to find when resin no
// longer drains: ln η is nearly straight within one, but for the last before gel.
const lookTurning = 400

// stopTurning is when the thinnest place has passed the viscosity that no longer drains; gel
// at the latest.
func (t *Task) stopTurning(p *part, through quantity.Time) (quantity.Time, error) {
	wound, until := t.Wound(), min(through, RoomHorizon)
	if until <= 0 {
		return 0, nil
	}
	samples, err := p.pot.Trace(p.start, wound, wound+until, until/lookTurning)
	if err != nil {
		return 0, err
	}
	limit := math.Log(float64(t.Cure.NoSag))
	before := 0.0
	for i, s := range samples {
		now := t.thinnest(p, s.Profile) - limit
		switch {
		case now < 0:
		case i == 0:
			return 0, nil
		default:
			step := samples[i].At - samples[i-1].At
			return s.At - wound - step*quantity.Time(now/(now-before)), nil
		}
		before = now
	}
	return through, nil
}

// thinnest is the lowest ln η of all resin; a gelled place counts as thick.
func (t *Task) thinnest(p *part, profile still.Profile) float64 {
	r := p.pot.Resin()
	low := math.Inf(1)
	for _, s := range profile[p.wall.first:] {
		if s.Alpha < r.Gel {
			low = math.Min(low, s.LogViscosity(r))
		}
	}
	return low
}

// weeks follows the part for four weeks: the days after which it can be drawn, and how far
// it comes.
func (t *Task) weeks(p *part, c *RoomCourse) error {
	wound, r := t.Wound(), p.pot.Resin()
	c.Demould = quantity.Time(math.Inf(1))
	before := math.NaN()
	const interval = day / 48
	var last quantity.Time
	_, _, err := p.pot.Follow(p.start, wound, wound+RoomHorizon, interval, func(at quantity.Time, alpha, kelvin []float64) bool {
		least, laziest := math.Inf(1), math.Inf(1)
		for i := p.wall.first; i < len(alpha); i++ {
			laziest = math.Min(laziest, alpha[i])
			warmer := math.Max(kelvin[i], float64(t.Room.At(at)))
			least = math.Min(least, float64(r.Glass.At(alpha[i]))-warmer-float64(t.Cure.DemouldMargin))
		}
		since := at - wound
		if math.IsInf(float64(c.Demould), 1) && least >= 0 && since >= c.Through {
			c.Demould = since
			if before < 0 {
				c.Demould = max(c.Through, since-(since-last)*quantity.Time(least/(least-before)))
			}
		}
		before, last = least, since
		if math.Abs(float64(since-7*day)) < 1 {
			c.Week = Cured{laziest, r.Glass.At(laziest)}
		}
		c.Month = Cured{laziest, r.Glass.At(laziest)}
		return false
	})
	return err
}

// InRoom is what the room alone does to the likely and the slow bath.
func (t *Task) InRoom() (usual, sure *RoomCourse, err error) {
	list := make([]*RoomCourse, 2)
	err = ensemble.Each(len(list), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		p, err := t.newPart([]Hardener{likely, slow}[i], finer, still.Working)
		if err != nil {
			return err
		}
		list[i], err = t.room(p)
		return err
	})
	return list[0], list[1], err
}

// cut gives the walls of the three baths on a grid, which are cut once.
func (t *Task) cut(g grid) (*[baths]*part, error) {
	if t.parts[g] != nil {
		return t.parts[g], nil
	}
	list := &[baths]*part{}
	for b := range baths {
		var err error
		if list[b], err = t.newPart(b, g, still.Working); err != nil {
			return nil, err
		}
	}
	if t.parts == nil {
		t.parts = map[grid]*[baths]*part{}
	}
	t.parts[g] = list
	return list, nil
}

// air is the room's at an elapsed time of the job.
func (t *Task) air(at quantity.Time) quantity.Temperature { return t.Room.At(at) }
