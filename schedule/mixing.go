package schedule

import (
	"potlife/kinetics/quantity"
	"potlife/resins/document"
)

// Mixing warms: the work of a drill makes a mix 3 to 8 K warmer than its parts were (common
// practice; 10 to 30 W for two minutes in 250 g are 2 to 7 K). A plan expects the low end,
// with a standard deviation by which one mix in ten is 5.6 K warmer or more; the first mix
// whose temperature is read replaces both. A hand puts in a tenth of that, which is not counted.
const (
	drillWarms       quantity.TemperatureDifference = 3
	drillWarmsSpread float64                        = 2 // K, standard deviation
)

// What resin is mixed by.
const (
	byDrill = "drill"
	byHand  = "hand"
)

// mixingField is a time, and then by hand, or a time with what is mixed by.
func mixingField(p *Pots) document.Field {
	p.MixedBy = byHand
	duration := func(name string, options ...document.Option) document.Field {
		return document.Quantity(name, &p.Mixing, append(options, document.Between[quantity.Time](0, 7200), document.Example("5 min"))...)
	}
	return document.Union("mixing", []document.Field{
		duration(""),
		document.Mapping("", []document.Field{
			duration("time", document.Required(), document.Doc("weighing and stirring one pot")),
			document.Choice("by", &p.MixedBy, []string{byDrill, byHand}, document.Doc("what stirs; a drill warms the mix by 3 K, hand by nothing")),
		}),
	}, document.Required(), document.Doc("weighing and stirring one pot, by hand where only a time is given"), document.Example("5 min"))
}

// warms is how much warmer than its parts a mix is expected to be, and the standard deviation of
// that in K.
func (p *Pots) warms() (rise quantity.TemperatureDifference, deviation float64) {
	if p.MixedBy != byDrill {
		return 0, 0
	}
	return drillWarms, drillWarmsSpread
}
