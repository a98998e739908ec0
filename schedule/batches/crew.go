package batches

import (
	"math"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

// Sure is the bath that a plan is made for.
type Sure = ensemble.Member

// A crew is one possible world: the task with one member's resin and losses. It
// holds buffers: one goroutine at a time.
type crew struct {
	task   *Task
	member ensemble.Member
	start  *position   // see [crew.begin]
	begun  vessel.Life // of the bath there
	judges bool        // films mean nothing to it

	bath  *vessel.Bath
	stand *still.Stand // the bath while the tow stands
	cup   *vessel.Bath
	film  *vessel.Film

	hottest *vessel.Film // as if the mandrel had its highest temperature all the time
	latest  float64      // no plan of the family ends later, s
	limits  vessel.Limits
	watch   *vessel.Watch
	// lifeHorizon is how far ahead a life is followed, in s; 0: as far as the
	// reserve asks.
	lifeHorizon float64
	// moments of a unit at which the life left is asked for, the last at its
	// end; 0: only at the end of the last unit before a pour.
	moments int
}

// lifeHorizon is as far as a life is followed, in s: two days.
const lifeHorizon = 48 * 3600.0

func newCrew(t *Task, m ensemble.Member) *crew {
	resin := t.Resin.Adjusted(m.Rate, m.Viscosity)
	c := &crew{
		task: t, member: m,
		bath:   vessel.New(resin, t.Bath.Vessel.LossesTimes(m.Loss), t.Room, t.Wall, vessel.Working),
		cup:    vessel.New(resin, t.Pots.Cup.LossesTimes(m.Loss), t.Room, t.Room, vessel.Working),
		limits: t.Limits, lifeHorizon: lifeHorizon,
	}
	c.stand = still.StandOf(c.bath)
	c.watch = vessel.NewWatch(c.bath, c.limits)
	return c
}

// inCup is a pot as it leaves its cup at pourAt.
func (c *crew) inCup(p MixedPot, pourAt float64) (vessel.State, error) {
	s, err := c.cup.Advance(c.task.asMixed(&p), p.MixAt, quantity.Time(pourAt), vessel.Tow{})
	s.Mass *= quantity.Mass(1 - c.task.Pots.LeftInCup)
	return s, err
}

// tooOld tells that resin is beyond [HeelLimit]: fresh is not poured onto it, nor
// is it poured from a cup that stood.
func (c *crew) tooOld(s vessel.State) bool { return s.Alpha > HeelLimit*c.task.Resin.Gel }

// lifeOf is the standing life of a bath.
func (c *crew) lifeOf(s vessel.State, at, horizon float64) (vessel.Life, error) {
	return c.stand.Life(s, quantity.Time(at), c.limits, quantity.Time(horizon))
}

// lifeOfHeel is that of the bath that a plan begins with, of which some may lie still already.
func (c *crew) lifeOfHeel(h *Heel, at float64) (vessel.Life, error) {
	lies, since := h.lying(c.task)
	if lies == nil {
		return c.lifeOf(h.State, at, lifeHorizon)
	}
	life, err := c.lifeOf(*lies, since, lifeHorizon)
	life.Left -= quantity.Time(at - since)
	if life.TooThickFor > 0 {
		life.TooThickFor -= min(life.TooThickFor, quantity.Time(at-since))
	}
	return life, err
}

// shortBy is as many times longer than they are found lives may be: of resin that lies still they
// are up to [still.StandShort] too short, and the reserve is not to be smaller for it.
func (t *Task) shortBy() float64 {
	if t.Bath.Vessel.Drum == vessel.DrumAlways {
		return 1
	}
	return 1 + still.StandShort
}

// reserve is what a bath must keep that has such a life, in s.
func (c *crew) reserve(life float64) float64 { return c.task.reserve(life * c.task.shortBy()) }

// life is the standing life of s in s, the horizon at most, and what ends it.
func (c *crew) life(s vessel.State, at, horizon float64) (left float64, by vessel.Limit, err error) {
	l, err := c.lifeOf(s, at, horizon)
	return math.Min(float64(l.Left), horizon), l.EndsBy, err
}

// gelAt is when a film laid at conversion alpha gels, +Inf where that is after
// any end that the job can have. The films are prepared at the first question: a
// crew that only judges never asks.
func (c *crew) gelAt(alpha, at float64) (float64, error) {
	if c.film == nil {
		mandrel := c.limits.Mandrel
		c.film = vessel.NewFilm(*c.bath.Resin(), mandrel)
		c.hottest = vessel.NewFilm(*c.bath.Resin(), vessel.Constant(mandrel.Highest()))
		c.latest = c.task.latest()
	}
	// No film gels before one that has the mandrel's highest temperature all
	// the time, which is looked up in a table.
	if soonest, err := c.hottest.GelAt(alpha, quantity.Time(at)); err != nil || float64(soonest) > c.latest {
		return math.Inf(1), err
	}
	gels, err := c.film.GelAt(alpha, quantity.Time(at))
	return float64(gels), err
}
