package session

import (
	"fmt"
	"math"
	"time"

	"potlife/schedule"
)

// A journal whose checksums fit may still hold what no program has logged: by another tool, by a
// hand, or by a fault of the disk's own memory. Such a line is refused as it is read, so that
// nothing behind has to ask. The bounds are far wider than those of what a crew may log, which
// have changed and may change: what was ever accepted stays readable.
const (
	firstYear, lastYear = 1969, 2200 // by any clock, of the years 1970 to 2199
	mostGrams           = 1e6        // what a crew may log is [heaviest]
	coldestC, hottestC  = -100, 1000
	mostPaS             = 1e6
	mostSeconds         = 1e9
	mostLayers          = 100_000
	mostParts           = 100_000 // of a plan
)

// absurd says what is wrong with an event that follows those before; empty: nothing.
func (e *Event) absurd(before []Event) string {
	first := len(before) == 0
	switch {
	case e.Kind == "":
		return "it has no kind"
	case first != (e.Kind == Started):
		return "a session has one start, in its first line"
	case !inYears(e.At) || !e.Logged.IsZero() && !inYears(e.Logged):
		return fmt.Sprintf("it has no time of the years %d to %d", firstYear+1, lastYear-1)
	case e.Pot < 0 || e.Pot > len(before) || e.Of < 0 || e.Of > len(before):
		return "it is of an event that is not before it"
	case e.Layer < 0 || e.Layer > mostLayers:
		return fmt.Sprintf("there is no layer %d", e.Layer)
	case !within(0, mostGrams, e.MassG, e.ResinG, e.HardenerG) || e.Grams != nil && !within(0, mostGrams, *e.Grams):
		return "its mass is none of resin"
	case e.IsC != nil && !within(coldestC, hottestC, *e.IsC):
		return "its temperature is none of resin"
	case !within(0, mostPaS, e.IsPaS) || !within(0, mostSeconds, e.Seconds):
		return "its viscosity is none of resin"
	}
	if problem := e.incomplete(before); problem != "" {
		return problem
	}
	if e.Plan != nil {
		return e.Plan.absurd(e, before)
	}
	return ""
}

// incomplete says what an event of its kind needs and does not have.
func (e *Event) incomplete(before []Event) string {
	switch e.Kind {
	case Started:
		if e.Layers < 1 || e.Layers > mostLayers {
			return fmt.Sprintf("a job of %d layers is none", e.Layers)
		}
		if f := e.Fibre; f != nil && (!within(1, 1e6, f.DensityKgM3) || !within(1e-3, 1e9, f.Tex) || !within(1, 1e6, f.HeatCapacityJPerKgK) || !within(0, 1e6, f.AcrossWPerMK)) {
			return "its fibre is none"
		}
	case Mixed:
		if !within(leastPotG, mostGrams, grams(*e)) || e.MassG == 0 && (e.ResinG == 0 || e.HardenerG == 0) || e.MassG > 0 && grams(*e) > e.MassG {
			return "a pot has the mass of both parts, or of each"
		}
	case BathTemp, Room:
		if e.IsC == nil {
			return "it has no temperature"
		}
	case FlowCup, Viscosity:
		if e.IsPaS <= 0 {
			return "it has no viscosity"
		}
	case LeftOver:
		if e.Grams == nil {
			return "it has no mass"
		}
	case Undo:
		if e.Of < 2 || before[e.Of-1].Kind == Undo {
			return "it takes back no event that can be taken back"
		}
	}
	return ""
}

// leastPotG is less than any scale shows.
const leastPotG = 0.01

// absurd says what is wrong with a plan that an event keeps.
func (p *Plan) absurd(e *Event, before []Event) string {
	layers := e.Layers
	if len(before) > 0 {
		layers = before[0].Layers
	}
	isLayer := func(n int) bool { return n >= 1 && n <= layers }
	const wrong = "its plan "
	if !inYears(p.From) || !inYears(p.End) || !p.Tightest.At.IsZero() && !inYears(p.Tightest.At) {
		return wrong + "has no times"
	}
	if m := p.MadeFor; !within(1e-6, 1e6, m.Rate, m.Viscosity, m.Loss) || !within(0, 1, p.Chance) || !within(-mostSeconds, mostSeconds, p.Tightest.LeftS, p.Tightest.ReserveS) {
		return wrong + "is for no bath"
	}
	if b := p.Bath; b != nil && (!within(0, mostGrams, b.MassG) || !within(coldestC, hottestC, b.TemperatureC) || !within(0, 1, b.Alpha)) {
		return wrong + "begins with no bath"
	}
	if len(p.Pours) > mostParts || len(p.Layers) > mostParts || p.Broke < 0 || p.Broke > len(before) {
		return wrong + "is longer than any"
	}
	for _, pour := range p.Pours {
		if !isLayer(pour.Layer) || pour.Circuits < 0 || pour.Circuits > mostSeconds || !inYears(pour.At) || len(pour.Pots) > mostParts {
			return wrong + "has a pour that is none"
		}
		sum := 0.0
		for _, pot := range pour.Pots {
			sum += pot.ResinG + pot.HardenerG
			if !inYears(pot.MixAt) || !within(0, mostGrams, pot.ResinG, pot.HardenerG) || pot.Pot < 0 || pot.Pot > len(before) {
				return wrong + "has a pot that is none"
			}
		}
		if !within(0, mostGrams, sum) {
			return wrong + "has a pour that is none"
		}
	}
	for _, l := range p.Layers {
		if !isLayer(l.Layer) || !inYears(l.Start) || !inYears(l.End) {
			return wrong + "has a layer that is none"
		}
	}
	return ""
}

func within(least, most float64, values ...float64) bool {
	for _, x := range values {
		if math.IsNaN(x) || x < least || x > most {
			return false
		}
	}
	return true
}

func inYears(t time.Time) bool { year := t.UTC().Year(); return year >= firstYear && year <= lastYear }

// fits refuses a session whose journal is of another job than the copy beside it.
func (s *Session) fits(job *schedule.Job, start Event) error {
	if len(job.Layers) == start.Layers {
		return nil
	}
	return &Damaged{Path: s.Journal.path, Line: 1, Problem: fmt.Sprintf("the session began with %d layers, and its %s has %d", start.Layers, JobCopy, len(job.Layers))}
}
