package batches

import (
	"math"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// A position is a plan in the making, at the moment at which unit stop−1 ended
// and nothing has been poured yet; at stop 0 the plan begins, and the bath is
// empty unless the task says otherwise.
type position struct {
	stop     int
	clock    float64 // s
	mixedBy  float64 // when the last pot mixed was poured: the next is begun after it
	heel     vessel.State
	life     float64      // standing life of the heel, s
	endsBy   vessel.Limit // what ends that life
	lies     float64      // life left of resin that no drum reaches, since the last pour, s; +Inf: there is none
	liesBy   vessel.Limit // what ends that
	reserve  float64      // asked of this bath, s
	over     vessel.Limit // has ended the life of the bath that a plan begins with
	standing bool         // cups that stood mixed when the plan began still do
	laidGels float64      // when the layer being laid first gels, s
	baseGels float64      // when the one below it gels
	score    Score
	cups     float64 // left in cups so far, kg
	dumped   float64 // kg

	ownSpare   quantity.Time // least spare of the last leg alone
	wasteSteps int           // see search.wasteSteps
	covered    bool          // by another position at the same stop
	coarse     bool          // found in a grain coarser than fine

	parent *position
	pour   Pour      // that led here
	times  []segment // of the units wound since
}

type segment struct{ start, end float64 }

// A leg is one pour and the winding up to the next.
type leg struct {
	crew *crew
	from *position
	into Into
	to   int // stop of the next pour, or the end

	// lenient goes on after the reserve is broken, keeps the first such breach
	// and leaves the films out.
	lenient       bool
	reserveBroken *Breach

	moments int     // see crew.moments
	wait    float64 // for the pour after the leg, where the crew's horizon is short, s
	fresh   vessel.Life

	p     position // becomes the next one
	state vessel.State
	now   float64
}

// travel follows a leg. The breach is nil when the leg keeps all that a plan
// must keep.
func (c *crew) travel(from *position, into Into, to int) (*position, *Breach, error) {
	l := leg{crew: c, from: from, into: into, to: to}
	pots, breach := c.task.justEnough(from, into, to)
	if breach != nil {
		return nil, breach, nil
	}
	pour := c.task.timing(from, into, pots)
	breach, err := l.run(pour)
	if breach != nil || err != nil {
		return nil, breach, err
	}
	next := l.p
	return &next, nil, nil
}

// run follows the leg with the pour given.
func (l *leg) run(pour Pour) (*Breach, error) {
	l.p = position{
		stop: l.to, score: l.from.score, parent: l.from, pour: pour,
		laidGels: l.from.laidGels, baseGels: l.from.baseGels,
		cups: l.from.cups, dumped: l.from.dumped, standing: l.from.standing, mixedBy: float64(pour.At),
		ownSpare: quantity.Time(math.Inf(1)), lies: l.from.lies, liesBy: l.from.liesBy,
	}
	l.now = l.from.clock
	steps := []func() (*Breach, error){l.standUntilPour, l.pourPots, l.standUntilWinding, l.wind}
	for _, step := range steps {
		if breach, err := step(); breach != nil || err != nil {
			return breach, err
		}
	}
	l.account()
	return nil, nil
}

// standUntilPour keeps the heel that will be topped up, or wound from as it is.
func (l *leg) standUntilPour() (*Breach, error) {
	at := float64(l.p.pour.At)
	l.state = vessel.State{}
	l.crew.watch.Fresh()
	if l.into == TopUp || l.into == None {
		if l.from.over != vessel.NoLimit {
			b := l.breach(ByLimit)
			b.Limit = l.from.over
			return b, nil
		}
		wait := at - l.from.clock
		l.p.lies -= wait
		if breach := l.ask(l.from.life-wait, l.from.reserve, l.from.endsBy); breach != nil {
			return breach, nil
		}
		var err error
		l.state, _, err = l.crew.watch.Advance(l.from.heel, quantity.Time(l.now), quantity.Time(at), vessel.Tow{})
		if err != nil || l.crew.watch.Ended() {
			return l.ended(), err
		}
		if l.into == TopUp && l.crew.tooOld(l.state) {
			return l.breach(ByHeel), nil
		}
	}
	l.now = at
	return nil, nil
}

// pourPots empties the cups into the bath, and asks how long it now lives.
func (l *leg) pourPots() (*Breach, error) {
	for _, pot := range l.p.pour.Pots {
		fresh, err := l.crew.inCup(pot, l.now)
		if err != nil {
			return nil, err
		}
		if pot.Seq > 0 && l.crew.tooOld(fresh) {
			return l.breach(ByHeel), nil
		}
		l.state = vessel.Pour(l.crew.bath.Resin(), l.state, fresh)
	}
	if err := l.live(); err != nil {
		return nil, err
	}
	life, by := math.Min(float64(l.fresh.Left), lifeHorizon), l.fresh.EndsBy
	switch {
	case l.into != None && l.crew.bath.NeverWhole():
		l.p.lies, l.p.liesBy = life, by
	case l.p.lies < life:
		life, by = l.p.lies, l.p.liesBy
	}
	if life <= 0 {
		b := l.breach(ByLimit)
		b.Limit = by
		return b, nil
	}
	l.p.life, l.p.endsBy, l.p.reserve = life, by, l.crew.reserve(life)
	if l.into == None {
		l.p.reserve = l.from.reserve
	}
	return l.ask(life, l.p.reserve, by), nil
}

// live asks how long the bath now lives. Where a plan begins with it as it is, that is known.
func (l *leg) live() (err error) {
	if l.from == l.crew.start && l.crew.task.Begin.Filled && l.into == None && l.now == l.from.clock && l.from.over == vessel.NoLimit {
		l.fresh = l.crew.begun
		return nil
	}
	l.fresh, err = l.crew.lifeOf(l.state, l.now, lifeHorizon)
	return err
}

func (l *leg) standUntilWinding() (*Breach, error) {
	return l.stand(float64(l.p.pour.Winds))
}

// stand lets the bath stand until the time given. Standing uses up the life
// known at its start second by second, so only its end needs to be asked.
func (l *leg) stand(until float64) (*Breach, error) {
	breach, err := l.advance(until, vessel.Tow{})
	if breach != nil || err != nil {
		return breach, err
	}
	return l.ask(l.p.life, l.p.reserve, l.p.endsBy), nil
}

// advance follows the bath under the watch to the time given.
func (l *leg) advance(until float64, tow vessel.Tow) (*Breach, error) {
	var err error
	l.state, _, err = l.crew.watch.Advance(l.state, quantity.Time(l.now), quantity.Time(until), tow)
	if err != nil || l.crew.watch.Ended() {
		return l.ended(), err
	}
	l.p.life -= until - l.now
	l.p.lies -= until - l.now
	l.now = until
	return nil, nil
}

func (l *leg) wind() (*Breach, error) {
	t := l.crew.task
	for u := l.from.stop; u < l.to; u++ {
		l.moments = l.crew.moments
		if u+1 == l.to {
			l.moments = max(l.moments, 1)
		}
		if breach, err := l.windUnit(u); breach != nil || err != nil {
			return breach, err
		}
		if u+1 < l.to {
			if breach, err := l.stand(l.now + t.pauseAfter(u+1)); breach != nil || err != nil {
				return breach, err
			}
		}
	}
	return nil, nil
}

// windUnit winds one unit, asks for the reserve at its end, or oftener, and
// keeps count of the films.
func (l *leg) windUnit(u int) (*Breach, error) {
	unit := &l.crew.task.Units[u]
	if l.crew.watch.TooThick() {
		b := l.breach(ByLimit)
		b.Limit, b.ThinsIn, b.ThinAt = vessel.TooThick, l.fresh.TooThickFor, l.fresh.ThinAt
		return b, nil
	}
	start, alpha := l.now, l.state.Alpha
	if l.moments == 0 {
		if breach, err := l.advance(l.now+float64(unit.Time), l.crew.task.tow(unit)); breach != nil || err != nil {
			return breach, err
		}
		l.p.life = math.NaN() // not asked for
	}
	for i := 1; i <= l.moments; i++ {
		until := start + float64(unit.Time)*float64(i)/float64(l.moments)
		if breach, err := l.windTo(until, l.crew.task.tow(unit)); breach != nil || err != nil {
			return breach, err
		}
	}
	l.p.times = append(l.p.times, segment{start, l.now})
	if l.lenient {
		return nil, nil
	}
	return nil, l.lay(unit, start, alpha)
}

// windTo winds until the time given and asks for the reserve there.
func (l *leg) windTo(until float64, tow vessel.Tow) (*Breach, error) {
	if breach, err := l.advance(until, tow); breach != nil || err != nil {
		return breach, err
	}
	left, by, err := l.crew.life(l.state, l.now, l.horizon())
	if err != nil {
		return nil, err
	}
	if l.p.lies < left {
		left, by = l.p.lies, l.p.liesBy
	}
	l.p.life, l.p.endsBy = left, by
	return l.ask(left, l.p.reserve, by), nil
}

// horizon is how far ahead the life left is followed, in s: far enough to see
// whether the reserve stands to the end of the pause or of the wait for the next
// pour, or as far as the crew looks.
func (l *leg) horizon() float64 {
	if l.crew.lifeHorizon > 0 {
		return l.crew.lifeHorizon
	}
	return l.p.reserve + math.Max(float64(l.crew.task.Pause), l.wait) + 1
}

// lay counts a layer that is laid on a gelled one, once, and keeps the time at
// which the one being laid first gels: that of its first or its last resin.
func (l *leg) lay(unit *Unit, start, alpha float64) error {
	for _, laid := range []struct{ at, alpha float64 }{{start, alpha}, {l.now, l.state.Alpha}} {
		gels, err := l.crew.gelAt(laid.alpha, laid.at)
		if err != nil {
			return err
		}
		l.p.laidGels = math.Min(l.p.laidGels, gels)
	}
	if l.now > l.p.baseGels {
		l.p.score.Gelled++
		l.p.baseGels = math.Inf(1)
	}
	if unit.EndsLayer {
		l.p.baseGels, l.p.laidGels = l.p.laidGels, math.Inf(1)
	}
	return nil
}

// account adds up what the leg costs.
func (l *leg) account() {
	l.p.clock, l.p.heel = l.now, l.state
	mass := float64(l.p.pour.Mass())
	l.p.cups += mass * l.crew.task.Pots.LeftInCup
	l.p.score.Pots += toBeMixed(l.p.pour.Pots)
	if l.into == Change {
		l.p.score.Changes++
		l.p.dumped += float64(l.from.heel.Mass)
	}
	stands := 0.0
	if l.from.standing {
		stands = l.crew.task.standing()
		if l.into != None { // the cups that this pour left standing are thrown away
			l.p.standing = false
			l.p.dumped += stands - standingMass(l.p.pour.Pots)
			stands = 0
		}
	}
	l.p.score.Spare = min(l.p.score.Spare, l.p.ownSpare)
	l.p.score.Waste = quantity.Mass(l.p.cups + l.p.dumped + stands + float64(l.p.heel.Mass))
}

// ask compares what is left with the reserve and keeps the least spare.
func (l *leg) ask(left, reserve float64, by vessel.Limit) *Breach {
	if math.IsNaN(left) { // standing after a unit whose end was not asked about
		return nil
	}
	spare := left - reserve
	if left <= 0 && l.crew.bath.StandsStill() { // which the watch, that sees it stirred, has not seen
		b := l.breach(ByLimit)
		b.Limit = by
		return b
	}
	if spare < 0 {
		b := l.breach(ByReserve)
		b.Limit, b.Left, b.Needed = by, quantity.Time(left), quantity.Time(reserve)
		if !l.lenient {
			return b
		}
		if l.reserveBroken == nil {
			l.reserveBroken = b
		}
	}
	l.p.ownSpare = min(l.p.ownSpare, quantity.Time(spare))
	return nil
}

// ended is the breach of a watch that ended, nil if it did not.
func (l *leg) ended() *Breach {
	if !l.crew.watch.Ended() {
		return nil
	}
	b := l.breach(ByLimit)
	limit, at := l.crew.watch.End()
	b.Limit, b.At = limit, at
	return b
}

func (l *leg) breach(why Reason) *Breach {
	return &Breach{Unit: l.from.stop + len(l.p.times), At: quantity.Time(l.now), Why: why}
}
