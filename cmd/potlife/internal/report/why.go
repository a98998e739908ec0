package report

import (
	"fmt"
	"io"
	"strings"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/resins"
)

// Why writes each value of the record with its range, what it rests on and its source.
func (r *Record) Why(w io.Writer) error {
	record := r.record
	say(w, r.Name+": why these values", "", "")
	for _, block := range resins.Blocks {
		values := r.values(block)
		if len(values) == 0 {
			continue
		}
		fmt.Fprintf(w, "\n%s\n", block)
		for _, value := range values {
			say(w, value, "  ", "    ")
		}
		if e, found := record.Evidence[block]; found {
			say(w, string(e.Kind)+": "+e.Note, "  ", "    ")
		}
	}
	if len(r.Calibrated) > 0 {
		section(w, "rescaled to", r.Calibrated)
	}
	section(w, "Doubts", r.Warnings)
	return nil
}

// values are those of a block, each with the range that is known of it.
func (r *Record) values(block string) []string {
	record := r.record
	k := &record.Kinetics
	c := func(x quantity.Temperature) string { return quantity.Format(x, "°C", 0) }
	switch block {
	case "parts":
		return []string{
			record.Mix.String(),
			fmt.Sprintf("resin %s, hardener %s", quantity.Format(record.Mix.Resin.Density, "g/cm³", 2), quantity.Format(record.Mix.Hardener.Density, "g/cm³", 2)),
		}
	case "cure":
		return append(cureValues(k.Cure),
			fmt.Sprintf("every time within a factor of %.3g, 9 times in 10; may be trusted from %s to %s", record.Spread.Time, c(record.Valid.From), c(record.Valid.To)))
	case "heat":
		return []string{fmt.Sprintf("%s of mix, %s if none is lost", quantity.Format(k.Heat, "J/g", 0), quantity.Format(k.AdiabaticRise(), "K", 0)+" warmer")}
	case "gel":
		return []string{fmt.Sprintf("at a degree of cure of %.3g", k.Gel)}
	case "vitrification":
		switch v := k.Vitrification.(type) {
		case kinetics.GlassShift:
			return []string{fmt.Sprintf("the cure stops where the glass temperature is %s above the resin's, sharpness %.3g", quantity.Format(v.Shift, "K", 0), v.C)}
		case kinetics.LinearVitrification:
			return []string{fmt.Sprintf("the cure stops at %.4g + %.4g/K·T, sharpness %.3g", v.A0, v.ATPerK, v.C)}
		}
	case "glass":
		return []string{fmt.Sprintf("%s uncured, %s fully cured, lambda %.3g", c(k.Glass.Uncured), c(k.Glass.Cured), k.Glass.Lambda)}
	case "viscosity":
		return append(viscosityValues(k.Viscosity), fmt.Sprintf("within a factor of %.3g, 9 times in 10", record.Spread.Viscosity))
	case "thermal":
		return []string{fmt.Sprintf("density %s, heat capacity %s, conductivity %s", quantity.Format(k.Density, "g/cm³", 2),
			quantity.Format(k.HeatCapacity, "J/(g·K)", 2), quantity.Format(k.Conductivity, "W/(m·K)", 2))}
	}
	return nil
}

// constants prints Arrhenius constants under their names in a record.
func constants(names []string, list ...kinetics.Arrhenius) string {
	var parts []string
	for i, k := range list {
		parts = append(parts, fmt.Sprintf("A%s = %.4g 1/s, E%s = %s", names[i], float64(k.A), names[i], quantity.Format(k.E, "kJ/mol", 1)))
	}
	return strings.Join(parts, "; ")
}

func cureValues(law kinetics.RateLaw) []string {
	switch law := law.(type) {
	case kinetics.KamalSourour:
		return []string{"kamal-sourour: " + constants([]string{"1", "2"}, law.K1, law.K2), fmt.Sprintf("m = %.3g, n = %.3g", law.M, law.N)}
	case kinetics.NthOrder:
		return []string{"nth-order: " + constants([]string{""}, law.K), fmt.Sprintf("n = %.3g", law.N)}
	case kinetics.TwoStage:
		return []string{"two-stage: " + constants([]string{"1", "2", "3"}, law.K1, law.K2, law.K3), fmt.Sprintf("B = %.3g, switch at %.3g", law.B, law.Switch)}
	}
	return nil
}

func viscosityValues(law kinetics.ViscosityLaw) []string {
	flow := func(f kinetics.Flow) string {
		return fmt.Sprintf("%s mPa·s at %s, activation %s", viscosity(f.Value), quantity.Format(f.At, "°C", 0), quantity.Format(f.Activation, "kJ/mol", 1))
	}
	switch law := law.(type) {
	case kinetics.CastroMacosko:
		return []string{"castro-macosko: " + flow(law.Flow), fmt.Sprintf("a = %.3g, b = %.3g", law.A, law.B)}
	case kinetics.DualArrhenius:
		return []string{"dual-arrhenius: " + flow(law.Flow), "growth " + constants([]string{""}, law.Growth)}
	}
	return nil
}
