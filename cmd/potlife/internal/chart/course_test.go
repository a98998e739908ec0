package chart

import (
	"fmt"
	"math"
	"time"
)

// Invented courses for the tests; no real resin.

var nine = time.Date(2026, 11, 28, 9, 0, 0, 0, time.UTC)

// growing is a bath that doubles its viscosity every half span between pours, is emptied
// for a moment before each change, and starts afresh with every pour.
func growing(title string, start time.Time, span time.Duration, pours, layers int) Course {
	const n = 400
	c := Course{Title: title, Limit: 1500}
	for i := range pours {
		kind := "top-up"
		switch {
		case i == 0:
			kind = "fill"
		case i%3 == 0:
			kind = "change"
		}
		c.Pours = append(c.Pours, Pour{At: start.Add(span * time.Duration(i) / time.Duration(pours)), Kind: kind, Grams: 204 - float64(i)})
	}
	every := span / time.Duration(max(pours, 1))
	for i := range n + 1 {
		at := span * time.Duration(i) / n
		since := float64(at%every) / float64(every)
		if i == n {
			since = 1
		}
		c.At = append(c.At, start.Add(at))
		likely := 420 * math.Exp(1.15*since)
		if pours > 1 && since > 0.97 {
			likely = math.NaN()
		}
		c.Likely = append(c.Likely, likely)
		c.Low = append(c.Low, likely*math.Exp(-0.5*since))
		c.High = append(c.High, likely*math.Exp(0.6*since))
	}
	for i := range layers {
		from, to := time.Duration(i), time.Duration(i+1)
		c.Layers = append(c.Layers, Layer{
			Name:  fmt.Sprintf("%d helical 25°", i+1),
			Start: start.Add(span * from / time.Duration(layers)),
			End:   start.Add(span*to/time.Duration(layers) - span/time.Duration(20*layers)),
		})
	}
	return c
}

// courses are the shapes of plan that the page must carry.
func courses() map[string]Course {
	return map[string]Course{
		"one layer":        growing("Strut", nine, 47*time.Minute, 1, 1),
		"six layers":       growing("Telescope strut, six layers", nine, 3*time.Hour+20*time.Minute, 4, 6),
		"hundred layers":   growing("Long shell", nine, 11*time.Hour, 40, 120),
		"over midnight":    growing("Night shift", nine.Add(11*time.Hour+10*time.Minute), 9*time.Hour, 5, 8),
		"one minute":       growing("Sample ring", nine.Add(20*time.Second), time.Minute, 1, 2),
		"two hundred":      growing("A title so long that it can not possibly stand on one line of the page, because somebody put the whole history of the part into the name of the job and then some", nine, 60*time.Hour, 200, 300),
		"no pours, layers": growing("", nine, 2*time.Hour, 0, 0),
	}
}
