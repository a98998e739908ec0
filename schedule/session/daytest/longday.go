package daytest

import (
	"fmt"
	"math"
)

// Alike replaces the tube's layers by others that are all alike.
func Alike(layers, minutes int) (replace []string) {
	return []string{Layers, fmt.Sprintf("  - {helical: 45 deg, time: %d min, tow: 60 m, repeat: %d}\n", minutes, layers)}
}

// LongDay logs some 500 events: 62 layers, each with a pot, a pause and two readings, and a
// change of the bath after every fifteen. The caller's read logs a temperature that is off by
// the noise in K.
func (d *Day) LongDay(read func(minutes, noise float64)) {
	now := 0.0
	for k := range 62 {
		grams := 35.0
		if k%15 == 0 {
			grams = 250
		}
		d.Fill(now, grams)
		now += 6
		d.Begin(now, k+1)
		read(now+2, 0.4*math.Sin(float64(k)))
		d.Pause(now + 3)
		d.Resume(now + 4)
		read(now+6, 0.4*math.Cos(float64(3*k)))
		d.Done(now+9, k+1)
		now += 9.5
		if k%15 == 14 {
			d.Changed(now)
			now++
		}
	}
}
