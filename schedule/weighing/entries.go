package weighing

import (
	"fmt"
	"math"
	"slices"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/schedule/weighing/budget"
)

// An entry is one input on its way to be a reading.
type entry struct {
	key     key
	reading budget.Reading
	given   bool
	text    string  // the value as a person writes it
	from    float64 // the least that it can be
	to      float64 // the most; beyond is a slip or a wrong unit
}

// entry makes an input an entry; off is its usual greatest error.
func (v Known[T]) entry(k key, off, from, to float64) entry {
	e := entry{key: k, given: v.Given, from: from, to: to, text: fmt.Sprint(v.Value)}
	e.reading = budget.Reading{Name: k.String(), Value: float64(v.Value), U: float64(v.U)}
	if v.U > 0 {
		e.reading.U = math.Max(e.reading.U, exact*math.Abs(e.reading.Value))
	}
	if v.U == 0 {
		e.reading.U, e.reading.Shape = math.Abs(off)/math.Sqrt(3), budget.Rectangular
	}
	return e
}

// exact is the relative uncertainty below which rounding is larger.
const exact = 1e-12

// Bounds of what a crew weighs and measures, in SI.
const (
	something = 1e-9
	heaviest  = 1e5
	longest   = 1e7
)

// entries lists all inputs with the doubt that each has: a scale that rounds to
// a step is off by half of it at most.
func (in *Input) entries() []entry {
	scale, fine := float64(in.Scale)/2, float64(in.Balance)/2
	t := in.Tolerances
	of := func(share quantity.Fraction, value float64) float64 { return float64(share) * value }
	return []entry{
		in.Part.entry(part, scale, something, heaviest),
		in.Mandrel.entry(mandrel, scale, something, heaviest),
		in.Trimmings.entry(trimmings, scale, 0, heaviest),
		in.Fibre.entry(fibre, scale, something, heaviest),
		in.Tow.entry(tow, of(t.Tow, float64(in.Tow.Value)), something, longest),
		in.Tex.entry(tex, of(t.Tex, float64(in.Tex.Value)), 1e-6, 1),
		in.SpoolBefore.entry(spoolBefore, scale, something, heaviest),
		in.SpoolAfter.entry(spoolAfter, scale, 0, heaviest),
		in.Mixed.entry(mixed, scale, something, heaviest),
		in.LeftOver.entry(leftOver, scale, 0, heaviest),
		in.Cups.entry(cups, scale, 0, heaviest),
		in.Rags.entry(rags, scale, 0, heaviest),
		in.Drips.entry(drips, scale, 0, heaviest),
		in.FibreDensity.entry(fibreDensity, of(t.FibreDensity, float64(in.FibreDensity.Value)), 500, 10000),
		in.ResinDensity.entry(resinDensity, of(t.ResinDensity, float64(in.ResinDensity.Value)), 500, 4000),
		in.Volume.entry(volume, of(t.Volume, float64(in.Volume.Value)), something, 1e3),
		in.Thickness.entry(thickness, float64(t.Thickness), something, 1),
		in.ArealWeight.entry(arealWeight, of(t.ArealWeight, float64(in.ArealWeight.Value)), 1e-3, 100),
		in.Air.entry(air, fine, something, heaviest),
		in.Water.entry(water, fine, 0, heaviest),
		in.WaterTemperature.entry(waterTemperature, float64(t.WaterTemperature), float64(quantity.Celsius(0)), float64(quantity.Celsius(warmestWater))),
		in.Coupon.entry(coupon, fine, something, heaviest),
		in.Residue.entry(residue, fine, something, heaviest),
	}
}

// usesScale tells whether anything was weighed on the scale: pieces are weighed on
// a balance, if there is one, and some come with a doubt of their own.
func (in *Input) usesScale() bool {
	list := []Known[quantity.Mass]{
		in.Part, in.Mandrel, in.Trimmings, in.Fibre, in.SpoolBefore, in.SpoolAfter,
		in.Mixed, in.LeftOver, in.Cups, in.Rags, in.Drips,
	}
	if in.Balance == 0 {
		list = append(list, in.Air, in.Water, in.Coupon, in.Residue)
	}
	return slices.ContainsFunc(list, func(m Known[quantity.Mass]) bool { return m.Given && m.U == 0 })
}

// settle puts defaults where nothing was said and returns what was assumed.
func (in *Input) settle() []warning.Warning {
	var assumed []warning.Warning
	note := func(w warning.Warning) { assumed = append(assumed, w) }
	if in.Scale == 0 {
		in.Scale = DefaultScale
		if in.usesScale() {
			note(ScaleAssumed{in.Scale})
		}
	}
	if in.Balance == 0 {
		in.Balance = in.Scale
	}
	if in.Band == 0 {
		in.Band = DefaultBand
		if in.Target.Value != 0 {
			note(BandAssumed{in.Band})
		}
	}
	own := in.Tolerances
	in.Tolerances = own.settle()
	t := in.Tolerances
	if in.Tex.Given && in.Tow.Given && in.Tex.U == 0 && own.Tex == 0 {
		note(TexToleranceAssumed{t.Tex})
	}
	if in.Tow.Given && in.Tow.U == 0 && own.Tow == 0 {
		note(TowToleranceAssumed{t.Tow})
	}
	if in.FibreDensity.Given && in.FibreDensity.U == 0 && own.FibreDensity == 0 {
		note(FibreDensityToleranceAssumed{t.FibreDensity})
	}
	if in.ResinDensity.Given && in.ResinDensity.U == 0 && own.ResinDensity == 0 {
		note(ResinDensityToleranceAssumed{t.ResinDensity})
	}
	if in.Air.Given && in.Water.Given && !in.WaterTemperature.Given {
		in.WaterTemperature = Of(DefaultWaterTemperature)
		in.Tolerances.WaterTemperature = unknownWater
		note(WaterTemperatureAssumed{DefaultWaterTemperature, unknownWater})
	}
	if in.Trimmings.Given && in.Trimmings.Value != 0 {
		note(TrimmingsAssumedAlike{})
	}
	return assumed
}
