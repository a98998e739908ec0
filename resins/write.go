package resins

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
)

// File returns the record as a file that [Read] reads. Numbers keep seven digits,
// which moves no time by more than 1e-5 of it. What a file has no place for is
// left out: the tests a record was calibrated to stand in its evidence.
func (r *Record) File() []byte {
	var b strings.Builder
	line := func(format string, a ...any) { fmt.Fprintf(&b, format+"\n", a...) }
	line("name: %s", quoted(r.Name))
	if r.Description != "" {
		line("description: %s", quoted(r.Description))
	}
	if r.Caution != "" {
		line("caution: %s", quoted(r.Caution))
	}
	line("parts:")
	line("  resin: {by_mass: %s, density: %v}", number(r.Mix.Resin.ByMass), short(r.Mix.Resin.Density))
	line("  hardener: {by_mass: %s, density: %v}", number(r.Mix.Hardener.ByMass), short(r.Mix.Hardener.Density))
	line("cure:")
	for _, entry := range r.cureEntries() {
		line("  %s", entry)
	}
	k := &r.Kinetics
	if k.Vitrification != nil {
		line("vitrification: {%s}", vitrificationEntries(k.Vitrification))
	}
	line("glass: {uncured: %v, cured: %v, lambda: %s}", short(k.Glass.Uncured), short(k.Glass.Cured), number(k.Glass.Lambda))
	line("viscosity: {%s}", viscosityEntries(k.Viscosity))
	line("thermal: {density: %v, heat_capacity: %v, conductivity: %v}", short(k.Density), short(k.HeatCapacity), short(k.Conductivity))
	line("spread: {time: %s, viscosity: %s}", number(r.Spread.Time), number(r.Spread.Viscosity))
	line("evidence:")
	for _, block := range Blocks {
		if e, found := r.Evidence[block]; found {
			line("  %s: {kind: %s, note: %s}", block, e.Kind, quoted(e.Note))
		}
	}
	return []byte(b.String())
}

func (r *Record) cureEntries() []string {
	var list []string
	add := func(format string, a ...any) { list = append(list, fmt.Sprintf(format, a...)) }
	constant := func(suffix string, k kinetics.Arrhenius) {
		add("A%s: %v", suffix, short(k.A))
		add("E%s: %v", suffix, short(k.E))
	}
	switch l := r.Kinetics.Cure.(type) {
	case kinetics.KamalSourour:
		add("law: kamal-sourour")
		constant("1", l.K1)
		constant("2", l.K2)
		add("m: %s", number(l.M))
		add("n: %s", number(l.N))
	case kinetics.NthOrder:
		add("law: nth-order")
		constant("", l.K)
		add("n: %s", number(l.N))
	case kinetics.TwoStage:
		add("law: two-stage")
		constant("1", l.K1)
		constant("2", l.K2)
		constant("3", l.K3)
		add("B: %s", number(l.B))
		add("switch: %s", number(l.Switch))
	}
	add("heat: %v", short(r.Kinetics.Heat))
	add("gel: %s", number(r.Kinetics.Gel))
	add("valid: {from: %v, to: %v}", short(r.Valid.From), short(r.Valid.To))
	return list
}

func vitrificationEntries(law kinetics.Vitrification) string {
	switch v := law.(type) {
	case kinetics.GlassShift:
		return fmt.Sprintf("shift: %v, sharpness: %s", short(v.Shift), number(v.C))
	case kinetics.LinearVitrification:
		return fmt.Sprintf("a0: %s, aT_per_K: %s, sharpness: %s", number(v.A0), number(v.ATPerK), number(v.C))
	}
	return ""
}

func viscosityEntries(law kinetics.ViscosityLaw) string {
	flow := func(f kinetics.Flow) string {
		return fmt.Sprintf("at: %v, value: %v, activation: %v", short(f.At), short(f.Value), short(f.Activation))
	}
	switch v := law.(type) {
	case kinetics.CastroMacosko:
		return fmt.Sprintf("law: castro-macosko, %s, a: %s, b: %s", flow(v.Flow), number(v.A), number(v.B))
	case kinetics.DualArrhenius:
		return fmt.Sprintf("law: dual-arrhenius, %s, growth: %v, growth_activation: %v", flow(v.Flow), short(v.Growth.A), short(v.Growth.E))
	}
	return ""
}

// digits of a number in a file.
const digits = 7

// short keeps as many digits of a quantity as a file shows. A temperature is
// rounded in °C, in which it is written.
func short[Q quantity.Quantity](value Q) Q {
	if t, ok := any(value).(quantity.Temperature); ok {
		return Q(quantity.Celsius(rounded(t.Celsius())))
	}
	return Q(rounded(float64(value)))
}

func rounded(value float64) float64 {
	if value == 0 || math.IsInf(value, 0) || math.IsNaN(value) {
		return value
	}
	scale := math.Pow(10, digits-1-math.Floor(math.Log10(math.Abs(value))))
	if math.IsInf(scale, 0) {
		return value
	}
	return math.Round(value*scale) / scale
}

func number(value float64) string { return strconv.FormatFloat(rounded(value), 'g', -1, 64) }

// quoted writes a text in double quotes as YAML reads it; only backslash and
// quote have a meaning there, since a document holds no other signs that do not
// print.
func quoted(text string) string {
	text = strings.Map(func(c rune) rune {
		if c < ' ' || c == 0x7f {
			return ' '
		}
		return c
	}, text)
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(text) + `"`
}
