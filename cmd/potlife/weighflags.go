package main

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"potlife/kinetics/quantity"
	"potlife/resins"
	"potlife/schedule/session"
)

// A weight is a flag of something weighed or measured.
type weight struct {
	flag, usage string
	read        func(text string, into *session.Weights) error
}

// measured reads a quantity into a field in a unit.
func measured[Q quantity.Quantity](in func(Q, string) float64, unit string, field func(*session.Weights) **float64) func(string, *session.Weights) error {
	return func(text string, into *session.Weights) error {
		q, err := quantity.Parse[Q](text)
		if err != nil {
			return err
		}
		number := asWritten(in(q, unit))
		*field(into) = &number
		return nil
	}
}

// asWritten drops what the way through SI adds in the last digit, so that the journal
// has what was written: 1534.3, not 1534.3000000000002.
func asWritten(number float64) float64 {
	short, err := strconv.ParseFloat(strconv.FormatFloat(number, 'g', 15, 64), 64)
	if err != nil {
		return number
	}
	return short
}

func grams(field func(*session.Weights) **float64) func(string, *session.Weights) error {
	read := measured(quantity.Mass.In, "g", field)
	return func(text string, into *session.Weights) error {
		err := read(text, into)
		if _, bare := quantity.ParseNumber(text); err != nil && bare == nil {
			// A part may weigh grams or kilograms: to guess one would mislead.
			return fmt.Errorf("%s has no unit, here a mass is wanted\n   write its unit: %[1]sg or %[1]skg", strings.TrimSpace(text))
		}
		return err
	}
}

// step reads the step of a scale: an exact scale there is none.
func step(field func(*session.Weights) **float64) func(string, *session.Weights) error {
	read := grams(field)
	return func(text string, into *session.Weights) error {
		if err := read(text, into); err != nil {
			return err
		}
		if !(**field(into) > 0) {
			return fmt.Errorf("no scale has steps of %s\n   give the step that its display moves by, such as 1g", text)
		}
		return nil
	}
}

func counted(field func(*session.Weights) **int) func(string, *session.Weights) error {
	return func(text string, into *session.Weights) error {
		n, err := strconv.Atoi(text)
		if err != nil || n < 1 {
			return fmt.Errorf("%s is no number from 1\n   count them, and write a whole number", text)
		}
		*field(into) = &n
		return nil
	}
}

// weights are the flags of all that can be weighed, in the order of a morning.
var weights = []weight{
	{"part", "`mass` of the part, on its mandrel if --mandrel is given", grams(func(w *session.Weights) **float64 { return &w.PartG })},
	{"mandrel", "`mass` of the bare mandrel", grams(func(w *session.Weights) **float64 { return &w.MandrelG })},
	{"trimmings", "`mass` of what was cut off before the part was weighed", grams(func(w *session.Weights) **float64 { return &w.TrimmingsG })},
	{"fibre", "`mass` of the fibre, where it was weighed itself", grams(func(w *session.Weights) **float64 { return &w.FibreG })},
	{"tow", "`length` of tow that ran, of each tow; goes with --tex and --tows", measured(quantity.Length.In, "m", func(w *session.Weights) **float64 { return &w.TowM })},
	{"tex", "`mass per length` of one tow, such as '800 tex'", measured(quantity.LinearDensity.In, "tex", func(w *session.Weights) **float64 { return &w.Tex })},
	{"tows", "`number` of tows side by side", counted(func(w *session.Weights) **int { return &w.Tows })},
	{"spool-before", "`mass` of all spools before", grams(func(w *session.Weights) **float64 { return &w.SpoolBeforeG })},
	{"spool-after", "`mass` of the same spools after", grams(func(w *session.Weights) **float64 { return &w.SpoolAfterG })},
	{"mixed", "`mass` of all resin that was mixed, hardener with it", grams(func(w *session.Weights) **float64 { return &w.MixedG })},
	{"left-over", "`mass` left in the bath, that of dumped baths with it", grams(func(w *session.Weights) **float64 { return &w.LeftOverG })},
	{"cups", "`mass` of resin in all cups, those that stand mixed with it", grams(func(w *session.Weights) **float64 { return &w.CupsG })},
	{"rags", "`mass` of resin wiped off into rags", grams(func(w *session.Weights) **float64 { return &w.RagsG })},
	{"drips", "`mass` of resin dripped beside bath and part", grams(func(w *session.Weights) **float64 { return &w.DripsG })},
	{"fibre-density", "`density` of the fibre, such as '1.80 g/cm³'", measured(quantity.Density.In, "kg/m³", func(w *session.Weights) **float64 { return &w.FibreDensityKgM3 })},
	{"resin-density", "`density` of the cured resin", measured(quantity.Density.In, "kg/m³", func(w *session.Weights) **float64 { return &w.ResinDensityKgM3 })},
	{"volume", "`volume` of the bare part, such as '850 mL'", measured(quantity.Volume.In, "mL", func(w *session.Weights) **float64 { return &w.VolumeML })},
	{"thickness", "`thickness` of the wall", measured(quantity.Length.In, "mm", func(w *session.Weights) **float64 { return &w.ThicknessMm })},
	{"areal-weight", "`mass per area` of the fibre in one ply, such as '200 g/m²'", measured(quantity.ArealWeight.In, "g/m²", func(w *session.Weights) **float64 { return &w.ArealWeightGM2 })},
	{"plies", "`number` of plies through the wall; a helical layer has two", counted(func(w *session.Weights) **int { return &w.Plies })},
	{"air", "`mass` of a piece in air; goes with --water", grams(func(w *session.Weights) **float64 { return &w.AirG })},
	{"water", "`mass` that the piece shows hung in water, its hanger tared", grams(func(w *session.Weights) **float64 { return &w.WaterG })},
	{"water-temperature", "`temperature` of that water; 23 °C if left out", measured(inCelsius, "", func(w *session.Weights) **float64 { return &w.WaterC })},
	{"coupon", "`mass` of a coupon before its resin was burnt off or digested", grams(func(w *session.Weights) **float64 { return &w.CouponG })},
	{"residue", "`mass` of the fibre that was left of the coupon", grams(func(w *session.Weights) **float64 { return &w.ResidueG })},
	{"scale", "`step` that the scale's display moves by; 1 g if left out", step(func(w *session.Weights) **float64 { return &w.ScaleG })},
	{"balance", "`step` of what weighed --air, --water, --coupon and --residue; that of the scale if left out", step(func(w *session.Weights) **float64 { return &w.BalanceG })},
}

func inCelsius(t quantity.Temperature, _ string) float64 { return t.Celsius() }

// addWeights adds the flags to a command.
func addWeights(cmd *cobra.Command) {
	f := cmd.Flags()
	f.SortFlags = false
	for _, w := range weights {
		f.String(w.flag, "", w.usage)
	}
}

// readWeights reads the flags that were given.
func readWeights(cmd *cobra.Command) (session.Weights, error) {
	var given session.Weights
	for _, w := range weights {
		if !cmd.Flags().Changed(w.flag) {
			continue
		}
		text, err := cmd.Flags().GetString(w.flag)
		if err == nil {
			err = w.read(text, &given)
		}
		if err != nil {
			return given, fmt.Errorf("--%s: %w", w.flag, err)
		}
	}
	return given, nil
}

// Bounds of a band about a fibre fraction, of which only a slip is outside.
const (
	narrowest quantity.Fraction = 0.0001
	widest    quantity.Fraction = 0.5
)

// readTarget reads the target and its band; empty is none.
func readTarget(target, band string) (t resins.FibreFraction, b quantity.Fraction, err error) {
	if target != "" {
		if t, err = resins.ParseFibreFraction(target); err != nil {
			return t, b, fmt.Errorf("--target: %w", err)
		}
	}
	if band == "" {
		return t, b, nil
	}
	b, err = flagQuantity[quantity.Fraction]("--band", band, narrowest, widest)
	return t, b, err
}

// flagOf is the flag of an input of the weighing.
func flagOf(input string) string { return "--" + strings.ReplaceAll(input, " ", "-") }
