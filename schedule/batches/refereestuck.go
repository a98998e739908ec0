package batches

import (
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// sticking is what the referee keeps of resin that sticks in the bath: the bath's
// temperatures since it began to look, read off at the moments at which it looks.
type sticking struct {
	filled float64 // when the bath was, s
	alpha  float64 // degree of cure when the referee began to look
	used   float64 // when it was last topped up or wound from, s
	at     []quantity.Time
	is     []quantity.Temperature
}

// stuckFrom begins a bath.
func stuckFrom(filled, alpha, now float64, s *vessel.State) sticking {
	k := sticking{filled: filled, alpha: alpha, used: filled}
	k.see(now, s)
	return k
}

// see notes the bath at a moment. A pour changes its temperature at once.
func (k *sticking) see(now float64, s *vessel.State) {
	const atOnce quantity.Time = 1e-3
	at := quantity.Time(now)
	if n := len(k.at); n > 0 {
		at = max(at, k.at[n-1]+atOnce)
	}
	k.at, k.is = append(k.at, at), append(k.is, s.Temperature)
}

// slackStuck is how far the gel may be off, as a share of the time since the bath was
// filled: the tolerance of a film, and straight lines between moments minutes apart.
const slackStuck = 5e-4

// checkClean checks that the bath was in use no longer than it stays clean: by a film of
// package vessel that has the bath's temperatures, where the search follows it with the bath.
func (r *referee) checkClean() error {
	k := &r.sticks
	if len(k.at) == 0 || r.task.Limits.Clean == vessel.Uncleaned {
		return nil
	}
	ends := k.filled + float64(r.task.Limits.Clean)
	if r.task.Limits.Clean == 0 {
		course, err := vessel.NewSeries(k.at, k.is)
		if err != nil {
			return err
		}
		gels, err := vessel.NewFilm(*r.bath.Resin(), course).GelAt(k.alpha, k.at[0])
		if err != nil {
			return err
		}
		ends = float64(gels)
	}
	if k.used > ends+slackTime+slackStuck*(k.used-k.filled) {
		r.broken(Broken{Promise: CleanInTime, At: quantity.Time(ends), Got: k.used - k.filled, Want: ends - k.filled})
	}
	return nil
}
