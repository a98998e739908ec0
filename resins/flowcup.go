package resins

import (
	"fmt"
	"strings"

	"potlife/kinetics/quantity"
)

// A FlowCup turns the seconds in which a cup runs empty into a viscosity. The
// formulas hold for newtonian liquids.
type FlowCup struct {
	Name        string
	a, b, c     float64 // ν = a·t + b + c/t in mm²/s, t in s
	From, Until float64 // seconds, or mm²/s where the standard bounds that
	byTime      bool
}

// flowCups are ISO 2431 (3, 4 and 6 mm; formula and range from memory, the ends of
// the range agree) and the Zahn cups after ASTM D4212.
var flowCups = []FlowCup{
	{Name: "iso-3", a: 0.443, c: -200, From: 7, Until: 42},
	{Name: "iso-4", a: 1.37, c: -200, From: 34, Until: 135},
	{Name: "iso-6", a: 6.90, c: -570, From: 188, Until: 684},
	{Name: "zahn-2", a: 3.5, b: -3.5 * 14, From: 20, Until: 80, byTime: true},
	{Name: "zahn-3", a: 11.7, b: -11.7 * 7.5, From: 20, Until: 80, byTime: true},
	{Name: "zahn-4", a: 14.8, b: -14.8 * 5, From: 20, Until: 80, byTime: true},
	{Name: "zahn-5", a: 23, From: 20, Until: 80, byTime: true},
}

// FlowCups returns the names of the cups known.
func FlowCups() []string {
	names := make([]string, len(flowCups))
	for i, c := range flowCups {
		names[i] = c.Name
	}
	return names
}

// FlowCupNamed returns a cup by its name. The error is a [*quantity.Error].
func FlowCupNamed(name string) (FlowCup, error) {
	for _, c := range flowCups {
		if strings.EqualFold(c.Name, name) {
			return c, nil
		}
	}
	return FlowCup{}, &quantity.Error{Text: name, Named: true, Problem: name + " is not a flow cup known here", Mend: "write one of " + strings.Join(FlowCups(), ", ")}
}

// Viscosity returns the dynamic viscosity of a liquid of the density given that
// runs out in t. The error tells a time outside the range of the cup, in which
// its formula does not hold, and a cup that fits.
func (c FlowCup) Viscosity(t quantity.Time, density quantity.Density) (quantity.Viscosity, error) {
	seconds := float64(t)
	kinematic := c.a*seconds + c.b + c.c/seconds // mm²/s
	measured, unit := kinematic, "mm²/s"
	if c.byTime {
		measured, unit = seconds, "s"
	}
	if !(seconds > 0 && measured >= c.From && measured <= c.Until) {
		return 0, &quantity.Error{
			Text:    t.String(),
			Named:   true,
			Problem: fmt.Sprintf("%s in cup %s is outside its range of %g to %g %s", t, c.Name, c.From, c.Until, unit),
			Mend:    "take a cup with a wider hole for thicker resin, a narrower one for thinner",
		}
	}
	return quantity.Viscosity(kinematic * 1e-6 * float64(density)), nil
}
