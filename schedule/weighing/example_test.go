package weighing_test

import (
	"fmt"

	"potlife/kinetics/quantity"
	"potlife/resins"
	"potlife/schedule/weighing"
)

// A tube on its mandrel, wound from 4 tows of 800 tex, weighed to 1 g.
func Example() {
	r, err := weighing.Weigh(weighing.Input{
		Part: weighing.Of(quantity.Mass(4.520)), Mandrel: weighing.Of(quantity.Mass(3.200)),
		Tow: weighing.Of(quantity.Length(250)), Tex: weighing.Of(quantity.LinearDensity(800e-6)), Tows: 4,
		SpoolBefore: weighing.Of(quantity.Mass(2.412)), SpoolAfter: weighing.Of(quantity.Mass(1.607)),
		Mixed: weighing.Of(quantity.Mass(0.640)), LeftOver: weighing.Of(quantity.Mass(0.055)),
		Target: resins.FibreFraction{Value: 0.62, Basis: resins.ByMass}, Scale: 0.001,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s: %.1f ± %.1f %% fibre by mass\n", r.Verdict.Word, r.ByMass.Value.In("%"), 2*r.ByMass.U.In("%"))
	fmt.Printf("too much resin: %.1f ± %.1f g\n", r.Surplus.Value.In("g"), 2*r.Surplus.U.In("g"))
	fmt.Printf("unaccounted for: %.0f ± %.0f g\n", r.Unaccounted.Value.In("g"), 2*r.Unaccounted.U.In("g"))
	// Output:
	// on-target: 61.0 ± 0.1 % fibre by mass
	// too much resin: 21.6 ± 1.5 g
	// unaccounted for: 70 ± 1 g
}
