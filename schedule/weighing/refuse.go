package weighing

import (
	"fmt"
	"math"

	"potlife/kinetics/quantity"
	"potlife/resins"
)

// refuseValues refuses inputs that cannot be true by themselves. The error is an
// [*Impossible].
func refuseValues(in *Input, entries []entry) error {
	for _, step := range []func() error{in.refuseScales, in.refuseTarget, in.refuseCounts, in.Tolerances.refuse} {
		if err := step(); err != nil {
			return err
		}
	}
	for _, e := range entries {
		if !e.given {
			continue
		}
		if err := e.refuse(); err != nil {
			return err
		}
	}
	return nil
}

func (in *Input) refuseScales() error {
	for _, s := range []struct {
		name string
		step quantity.Mass
	}{{"scale", in.Scale}, {"balance", in.Balance}} {
		if !(s.step > 0 && s.step <= 10) {
			return impossible(s.name, "give the step that its display moves by, such as 1 g", "no scale has steps of %v", s.step)
		}
	}
	return nil
}

func (in *Input) refuseTarget() error {
	const mend = "write it like this: 62 % by mass"
	if !(in.Band > 0 && in.Band < 1) {
		return impossible("band", "give it in percentage points, such as 2 %", "%v is no band about a fibre fraction", in.Band)
	}
	v, basis := in.Target.Value, in.Target.Basis
	if v != 0 && !(v > 0 && v < 1) {
		return impossible("target", mend, "%v is no fibre fraction", v)
	}
	if v != 0 && basis != resins.ByMass && basis != resins.ByVolume {
		return impossible("target", mend, "its basis %q is neither by mass nor by volume", basis)
	}
	return nil
}

func (in *Input) refuseCounts() error {
	if in.Tows < 0 {
		return impossible("tows", "give the number of tows that ran side by side", "%d is no number of tows", in.Tows)
	}
	if in.Plies < 0 {
		return impossible("plies", "count the plies through the wall, two for a helical layer", "%d is no number of plies", in.Plies)
	}
	return nil
}

func (t Tolerances) refuse() error {
	for _, share := range []float64{float64(t.Tex), float64(t.Tow), float64(t.ArealWeight), float64(t.FibreDensity), float64(t.ResinDensity), float64(t.Volume)} {
		if !(share > 0 && share < 1) {
			return impossible("tolerance", "give the greatest error to either side, such as 2 %", "%v of a value is no tolerance", share)
		}
	}
	if !(t.Thickness > 0 && t.Thickness < 1 && t.WaterTemperature > 0 && t.WaterTemperature < 100) {
		return impossible("tolerance", "give the greatest error to either side, such as 0.05 mm or 0.5 K", "%v and %v are no tolerances", t.Thickness, t.WaterTemperature)
	}
	return nil
}

// refuse tells what is wrong with an input that is there.
func (e entry) refuse() error {
	name, value, u := e.key.String(), e.reading.Value, e.reading.U
	switch {
	case math.IsNaN(value) || math.IsInf(value, 0):
		return impossible(name, "weigh or measure it again", "%v is no number", value)
	case value < 0:
		return impossible(name, "tare the scale and weigh or measure it again", "%s is less than nothing", e.text)
	case !(u >= 0 && u <= e.to):
		return impossible(name, "give how far it may be off, not below zero", "its uncertainty %v is none", u)
	case value == 0 && e.from > 0:
		return impossible(name, e.mendNothing(), "it is nothing")
	case !(value >= e.from && value <= e.to):
		return impossible(name, "look at the number and its unit", "%s cannot be", e.text)
	}
	return nil
}

func (e entry) mendNothing() string {
	if e.key == residue {
		return "carbon and organic fibres burn with the resin: digest the coupon in acid or solvent"
	}
	return "leave it out if it was not weighed"
}

// grams writes a mass in kg for a sentence.
func grams(kg float64) string { return fmt.Sprintf("%.4g g", 1000*kg) }

// refusePairs refuses inputs that cannot both be true.
func (m *model) refusePairs() error {
	x := m.values
	for _, pair := range []struct {
		less, more key
		mend       string
	}{
		{mandrel, part, "weigh part and mandrel together as part and the bare mandrel as mandrel, or leave mandrel out for a bare part"},
		{spoolAfter, spoolBefore, "look whether before and after were swapped, and weigh the same spools both times"},
		{residue, coupon, "weigh the coupon dry before and its fibre clean and dry after"},
		{water, air, "weigh dry in air first, then hung in water with the hanger tared"},
	} {
		if m.given[pair.less] && m.given[pair.more] && !(x[pair.less] < x[pair.more]) {
			return impossible(pair.less.String(), pair.mend, "%s is not less than %s, %s", grams(x[pair.less]), pair.more, grams(x[pair.more]))
		}
	}
	return nil
}

// refuseFibre refuses more fibre than there is laminate.
func (m *model) refuseFibre() error {
	if !m.given[part] {
		return nil
	}
	laid := m.laid(m.values)
	for _, e := range m.estimates {
		if mass := e.mass(m.values); !(mass < laid) {
			return impossible(part.String(), "weigh again, with its mandrel taken off and with everything that was cut from it as trimmings; else the fibre "+e.route.how()+" is wrong",
				"%sit is %s and lighter than its fibre %s, %s", m.withTrimmings(), grams(laid), e.route.how(), grams(mass))
		}
	}
	return nil
}

func (m *model) withTrimmings() string {
	if m.given[trimmings] {
		return "with its trimmings "
	}
	return ""
}

// refuseShares refuses a wall thinner than its fibre and more trimmings than
// laminate.
func (m *model) refuseShares() error {
	if m.hasThickness() {
		if w := m.byThickness(m.values); !(w > 0 && w < 1) {
			return impossible(thickness.String(), "measure it at several places, and count the plies again",
				"a wall of %v has no room for the fibre of %d plies", quantity.Length(m.values[thickness]), m.plies)
		}
	}
	if m.hasMass() && !(m.part(m.values) > 0) {
		return impossible(trimmings.String(), "weigh the part too, or look at the trimmings",
			"%s are all that the fibre makes, %s, or more", grams(m.values[trimmings]), grams(m.laid(m.values)))
	}
	return nil
}

// refuseResin refuses more resin found than was mixed, beyond doubt.
func (m *model) refuseResin() error {
	if !m.given[mixed] {
		return nil
	}
	found := 0.0
	for _, k := range []key{leftOver, cups, rags, drips} {
		if found += m.values[k]; found > m.values[mixed]+2*m.readings[mixed].U+2*m.readings[k].U {
			return impossible(k.String(), "weigh what is left with its vessel tared, and log every pot that was mixed",
				"with it, %s of resin were found off the part, but %s were mixed", grams(found), grams(m.values[mixed]))
		}
	}
	over := m.output(func(x []float64) float64 { return m.resinLaid(x) - x[mixed] })
	if m.hasMass() && over.Value > 2*over.U {
		return impossible(mixed.String(), "add every pot that was mixed, and look at the part and its fibre",
			"%s are less than the %s of resin on the part and its trimmings", grams(m.values[mixed]), grams(m.resinLaid(m.values)))
	}
	return nil
}
