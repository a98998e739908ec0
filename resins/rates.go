package resins

import (
	"fmt"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/resins/document"
)

// fastestRate is far beyond any cure that can be mixed by hand, in 1/s.
const fastestRate = 1e3

// checkRates looks at the laws where the record says that they may be trusted: no cure runs
// backwards, stands still from the start, or is over in a thousandth of a second.
func (f *file) checkRates(doc *document.Document) {
	if !doc.Sound("cure") {
		return
	}
	c := &f.cure
	for _, at := range []quantity.Temperature{c.valid.From, (c.valid.From + c.valid.To) / 2, c.valid.To} {
		if problem := wrongRate(c.rateLaw(), at); problem != "" {
			doc.FaultAt("cure", problem, "check the constants, their units and signs, and the range valid")
			return
		}
		if growth := f.viscosity.form(c.gel).PhiRate(float64(at)); doc.Sound("viscosity") && !(growth <= fastestRate) {
			doc.FaultAt("viscosity", fmt.Sprintf("at %v the viscosity grows e-fold in %.2g s", at, 1/growth), "check growth and growth_activation")
			return
		}
	}
}

// wrongRate tells what no cure does at a temperature; empty where all is well.
func wrongRate(law kinetics.RateLaw, at quantity.Temperature) string {
	const steps = 64
	kelvin := float64(at)
	if !(law.Rate(0, kelvin) > 0) {
		return fmt.Sprintf("at %v nothing starts the cure", at)
	}
	for i := range steps {
		alpha := float64(i) / steps
		switch rate := law.Rate(alpha, kelvin); {
		case !(rate >= 0):
			return fmt.Sprintf("at %v the cure runs backwards from a degree of %.2g on", at, alpha)
		case !(rate <= fastestRate):
			return fmt.Sprintf("at %v the resin cures within %.2g s", at, 1/rate)
		}
	}
	return ""
}
