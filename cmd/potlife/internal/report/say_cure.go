package report

import (
	"fmt"
	"math"
	"strings"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/schedule/cure"
)

// CureNotDrawn: a part without an oven program has no chart; the file stays as it was.
type CureNotDrawn struct{ Path string }

// Code names the kind.
func (CureNotDrawn) Code() string { return "cure-not-drawn" }

// sayCure tells the warnings of package cure.
func sayCure(w warning.Warning) (string, bool) {
	switch w := w.(type) {
	case CureNotDrawn:
		return "no chart is drawn, since there is no program; " + w.Path + " is left as it was", true
	case cure.MandrelAssumed:
		return fmt.Sprintf("the job does not say what the mandrel is made of: taken as a %s tube of %s; write mandrel.material and wall",
			w.Material, quantity.Format(w.Wall, "mm", 1)), true
	case cure.OvenAssumed:
		return fmt.Sprintf("the job says nothing of the oven: taken as one of up to %s that heats by %.3g K/min; write cure: {oven: {highest: 80 °C, ramp: 1 K/min}}",
			temperature(w.Highest), w.Ramp.In("K/min")), true
	case cure.RoomOutsideData:
		return fmt.Sprintf("the room at %s lies outside %s to %s, where the data of %s may be trusted: what it does in the room is a guess",
			temperature(w.Room), temperature(w.From), temperature(w.To), w.Resin), true
	case cure.OvenOutsideData:
		return fmt.Sprintf("the oven at %s lies outside %s to %s, where the data of %s may be trusted: times are good to a factor of %.2f there instead of %.2f, and the program allows for that",
			temperature(w.Oven), temperature(w.From), temperature(w.To), w.Resin, w.Spread, w.Inside), true
	case cure.PlanNotFeasible:
		return "the winding's plan breaks a limit: potlife plan tells which", true
	}
	if text, known := sayNoProgram(w); known {
		return text, true
	}
	return sayBroken(w)
}

// sayNoProgram tells why there is no program.
func sayNoProgram(w warning.Warning) (string, bool) {
	switch w := w.(type) {
	case cure.NeverStiff:
		return "the room alone never makes the part stiff enough to be drawn from its mandrel: cure it on the mandrel first, or in a warmer room", true
	case cure.NeverGels:
		return fmt.Sprintf("the room alone does not gel the part in %.0f days: turn it in the oven (cure.oven.turns: true), or wind in a warmer room", float64(cure.RoomHorizon)/86400), true
	case cure.WarmsItself:
		return fmt.Sprintf("in the room alone, before any oven, the wall of a fast hardener reaches %s, and %s are allowed: wind it in two goes, or with a slower hardener",
			warm(w.Peak), wholeCelsius(w.Allowed)), true
	case cure.GlassNeverReached:
		return fmt.Sprintf("this resin, fully cured, has a glass temperature of %s: no oven gives it %s", wholeCelsius(w.Cured), wholeCelsius(w.Asked)), true
	case cure.CureNeverReached:
		return fmt.Sprintf("%s, the hottest air allowed, held for days brings the laziest place of a slow hardener to %.2f, a glass temperature of %s; %.2f is asked: a hotter oven or mandrel, or a lower target",
			wholeCelsius(w.Air), w.Degree, wholeCelsius(w.Glass), w.Asked), true
	case cure.FreePartAlwaysSoftens:
		return fmt.Sprintf("even 10 K/h softens the free part: its glass temperature comes to %.0f K of its own, and %.0f K are asked: cure it on its mandrel, or leave it in the room for longer",
			math.Max(float64(w.Lead), -99), float64(w.Margin)), true
	case cure.AlwaysTooHot:
		return fmt.Sprintf("even 10 K/h to %s brings the hottest place to %s, and %s are allowed: hold it in the room for longer, or wind it in two goes",
			wholeCelsius(w.Air), warm(w.Peak), wholeCelsius(w.Allowed)), true
	}
	return "", false
}

// sayBroken tells what a program breaks.
func sayBroken(w warning.Warning) (string, bool) {
	switch w := w.(type) {
	case cure.AirTooHot:
		return fmt.Sprintf("the air goes to %s, and the oven has %s", wholeCelsius(w.Air), wholeCelsius(w.Highest)), true
	case cure.StepTooFast:
		return fmt.Sprintf("step %d asks for %v, and the oven is to do no more than %v", w.Step, w.Rate, w.Allowed), true
	case cure.TargetMissed:
		return fmt.Sprintf("as the last hold ends, the laziest place of a slow hardener has cured to %.3f (glass temperature %s) and is to reach %.3f",
			w.Degree, wholeCelsius(w.Glass), w.Asked), true
	case cure.PartTooHot:
		return fmt.Sprintf("the hottest place of a %s hardener reaches %s, over the %s allowed", w.Hardener, warm(w.Peak), wholeCelsius(w.Allowed)), true
	case cure.MandrelTooHot:
		return fmt.Sprintf("with a %s hardener the mandrel (%s) gets %s, and bears %s", w.Hardener, w.Material, warm(w.Peak), wholeCelsius(w.Allowed)), true
	case cure.FreePartSoftens:
		return fmt.Sprintf("the free part softens: %s after the last layer the glass temperature of a place is %.1f K above its own (%s hardener), and %.0f K are asked",
			w.At, float64(w.Lead), w.Hardener, float64(w.Margin)), true
	case cure.NotGelled:
		return fmt.Sprintf("the oven does not turn, and a %s hardener has not gelled to its last place when the program starts", w.Hardener), true
	}
	return "", false
}

func wholeCelsius(t quantity.Temperature) string { return quantity.Format(t, "°C", 0) }

// warm is a temperature within a sentence, without a figure where there is only danger.
func warm(t quantity.Temperature) string {
	if t > smokeAndFire {
		return "over 200 °C (smoke, fire)"
	}
	return quantity.Format(t, "°C", 1)
}

// programLine is a program in one line: 30 K/h to 60 °C, 4 h, 20 K/h to 90 °C, 2 h.
func programLine(p *cure.Program) string {
	var steps []string
	for _, s := range p.Steps {
		if s.Kind == cure.Hold {
			steps = append(steps, s.Hold.String())
			continue
		}
		steps = append(steps, fmt.Sprintf("%.4g K/h to %s", s.Rate.In("K/h"), wholeCelsius(s.To)))
	}
	return strings.Join(steps, ", ")
}
