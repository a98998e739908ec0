package replay

import (
	"math"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// lying is resin in the bath that no drum stirs: all of it while the drum stands with the tow, and
// from pour to pour what is beyond the reach of a drum. Its hottest place ends the bath's life.
type lying struct {
	from quantity.Time
	was  vessel.State // when it was last stirred; Mass 0: all is stirred
	end  quantity.Time
	by   vessel.Limit
	seen quantity.Time // until when its end was looked for
}

// layDown begins to let resin lie, or has it stirred, as this tow runs or stands.
func (w *World) layDown(tow vessel.Tow) {
	switch {
	case !w.bath.StandsStill():
	case tow != vessel.Tow{} && !w.bath.NeverWhole():
		w.lies = lying{}
	case w.lies.was.Mass <= 0:
		w.lies = lying{from: quantity.Time(w.now), was: w.Bath}
	}
}

// lyingEnds notes whether what lies still passes a limit until a moment, and before the bath as it
// would be stirred does.
func (w *World) lyingEnds(until quantity.Time) error {
	l := &w.lies
	if l.was.Mass <= 0 || w.Over != vessel.NoLimit && w.OverAt <= l.from {
		return nil
	}
	if until > l.seen {
		horizon := until - l.from
		if w.bath.NeverWhole() { // it is asked again and again
			horizon = lifeHorizon
		}
		life, err := w.stand.Life(l.was, l.from, w.script.Task.Limits, horizon)
		if err != nil {
			return err
		}
		l.end, l.by, l.seen = l.from+life.Left, life.EndsBy, l.from+horizon
	}
	if l.end <= until && l.by != vessel.TooThick && (w.Over == vessel.NoLimit || l.end < w.OverAt) {
		w.Over, w.OverAt = l.by, max(l.end, l.from)
	}
	return nil
}

// left is the working life of the bath from now on if the tow stands, as far as the horizon; exact:
// that of the slab itself.
func (w *World) left(horizon quantity.Time, exact bool) (vessel.Life, error) {
	stand, limits, now := w.stand, w.script.Task.Limits, quantity.Time(w.now)
	if exact {
		stand = stand.Exact()
	}
	life := vessel.Life{Left: quantity.Time(math.Inf(1))}
	if w.lies.was.Mass <= 0 || w.bath.NeverWhole() && w.lies.from < now {
		var err error
		if life, err = stand.Life(w.Bath, now, limits, horizon); err != nil || w.lies.was.Mass <= 0 {
			return life, err
		}
	}
	stood := now - w.lies.from
	lying, err := stand.Life(w.lies.was, w.lies.from, limits, horizon+stood)
	if lying.EndsBy != vessel.TooThick {
		lying.Left = max(0, lying.Left-stood)
	}
	lying.TooThickFor = max(0, lying.TooThickFor-stood)
	if lying.Left < life.Left {
		life = lying
	}
	return life, err
}

// lying is the resin that decides what becomes of a bath that nobody touches, and since when it lies.
func (w *World) lying() (vessel.State, quantity.Time) {
	if w.lies.was.Mass <= 0 {
		return w.Bath, quantity.Time(w.now)
	}
	return w.lies.was, w.lies.from
}
