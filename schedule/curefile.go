package schedule

import (
	"fmt"

	"potlife/kinetics/quantity"
	"potlife/resins/document"
)

// Cure is what becomes of the part when it is wound: the oven, what it is to reach
// there, and what must not happen on the way.
type Cure struct {
	Stated bool // the job says something of it

	Oven     Oven
	Glass    quantity.Temperature // that the laziest place is to reach; 0: Degree
	Degree   float64              // degree of cure that it is to reach
	Exotherm quantity.Temperature // that no place may pass
	Free     bool                 // the part stands free in the oven, drawn from its mandrel

	Margin        quantity.TemperatureDifference // of a free part's glass temperature above its own
	DemouldMargin quantity.TemperatureDifference // of the glass temperature above the room
	NoSag         quantity.Viscosity             // from which on resin no longer drains
}

// Oven is what the part is cured in.
type Oven struct {
	Stated  bool
	Highest quantity.Temperature
	Ramp    quantity.HeatingRate  // the fastest
	Cooling quantity.HeatingRate  // the fastest
	Loss    quantity.HeatTransfer // from its air to the part
	Turns   bool                  // the mandrel turns in it
}

// hottestOven bounds ovens: beyond, no epoxy is cured.
var hottestOven = quantity.Celsius(260)

// Usual figures of a cure, our choice where no source is named.
const (
	// UsualDegree is what is called cured for most uses (common practice).
	UsualDegree = 0.95
	// usualExothermMargin is how far above the oven's highest air no place may be: room
	// for a harmless overshoot.
	usualExothermMargin quantity.Temperature = 20
	// usualMargin keeps a free part stiff while it warms.
	usualMargin quantity.TemperatureDifference = 5
	// usualDemouldMargin keeps it stiff while its mandrel is drawn (common practice).
	usualDemouldMargin quantity.TemperatureDifference = 10
	// usualNoSag: a film of 0.2 mm of 100 Pa·s runs 0.5 mm in an hour on a standing wall,
	// ρ·g·d²/(3η). Common practice has 50 Pa·s (the end of the gel test of ISO 2535,
	// memory) to gel itself; near gel these are minutes apart.
	usualNoSag quantity.Viscosity = 100
	// usualRamp is what small ovens do (common practice).
	usualRamp quantity.HeatingRate = 1.0 / 60
	// usualOvenLoss is moved air and radiation (textbook range of forced air 10 to 100).
	usualOvenLoss quantity.HeatTransfer = 25
)

// usualOven is the hottest air of an oven that nobody described.
var usualOven = quantity.Celsius(80)

func (c *Cure) fields() []document.Field {
	o := &c.Oven
	return []document.Field{
		document.Mapping("oven", []document.Field{
			document.Quantity("highest", &o.Highest, document.Required(), document.Between(quantity.Celsius(25), hottestOven), document.Doc("its hottest air"), document.Example("120 °C")),
			document.Quantity("ramp", &o.Ramp, document.Between[quantity.HeatingRate](1.0/3600, 1), document.Doc("the fastest that it heats"), document.Example("2 K/min")),
			document.Quantity("cooling", &o.Cooling, document.Between[quantity.HeatingRate](1.0/3600, 1), document.Doc("the fastest that it may cool; as it heats if left out"), document.Example("1 K/min")),
			document.Quantity("loss", &o.Loss, document.Between[quantity.HeatTransfer](1, 1000), document.Doc("from its air to the part"), document.Example("25 W/(m²·K)")),
			document.Bool("turns", &o.Turns, document.Doc("the mandrel turns in it, so that it need not wait for gel")),
		}, document.Seen(&o.Stated), document.Doc("what the part is cured in")),
		document.Mapping("target", []document.Field{
			document.Quantity("glass", &c.Glass, document.Between(coldest, hottestOven), document.Doc("glass temperature of the laziest place"), document.Example("85 °C")),
			document.Number("degree_of_cure", &c.Degree, document.Between(0.3, 0.995), document.Doc("of the laziest place"), document.Example("0.95")),
		}, document.Ruled(document.Rule{OneOf: [][]string{{"glass"}, {"degree_of_cure"}}}), document.Doc("what the oven is to reach")),
		document.Quantity("exotherm", &c.Exotherm, document.Between(quantity.Celsius(25), quantity.Celsius(300)), document.Doc("that no place may pass"), document.Example("140 °C")),
		document.Bool("free", &c.Free, document.Doc("the part stands free in the oven, drawn from its mandrel")),
		document.Quantity("margin", &c.Margin, document.Between[quantity.TemperatureDifference](0, 60), document.Doc("of a free part's glass temperature above its own"), document.Example("5 K")),
		document.Quantity("demould_margin", &c.DemouldMargin, document.Between[quantity.TemperatureDifference](0, 100), document.Doc("of the glass temperature above the room"), document.Example("10 K")),
		document.Quantity("no_sag", &c.NoSag, document.Between[quantity.Viscosity](1, 1e6), document.Doc("viscosity from which on resin no longer drains"), document.Example("100 Pa·s")),
	}
}

// check fills in the usual figures and adds the faults that tie the keys together.
func (c *Cure) check(doc *document.Document) {
	o := &c.Oven
	if o.Highest == 0 {
		o.Highest = usualOven
	}
	if o.Ramp == 0 {
		o.Ramp = usualRamp
	}
	if o.Cooling == 0 {
		o.Cooling = o.Ramp
	}
	if o.Loss == 0 {
		o.Loss = usualOvenLoss
	}
	if c.Exotherm == 0 {
		c.Exotherm = o.Highest + usualExothermMargin
	}
	if c.NoSag == 0 {
		c.NoSag = usualNoSag
	}
	if !doc.Has("cure.margin") {
		c.Margin = usualMargin
	}
	if !doc.Has("cure.demould_margin") {
		c.DemouldMargin = usualDemouldMargin
	}
	switch {
	case c.Glass > 0 && c.Degree > 0:
		doc.FaultAt("cure.target", "there are two targets", "give glass or degree_of_cure")
	case doc.Has("cure.target") && doc.Sound("cure.target") && c.Glass == 0 && c.Degree == 0:
		doc.FaultAt("cure.target", "the target is empty", "give glass: 85 °C or degree_of_cure: 0.95")
	case c.Glass == 0 && c.Degree == 0:
		c.Degree = UsualDegree
	}
	if doc.Sound("cure.exotherm") && c.Exotherm < o.Highest {
		doc.FaultAt("cure.exotherm", fmt.Sprintf("the oven's own air, up to %v, is hotter than %v", o.Highest, c.Exotherm), "give the exotherm's limit above oven.highest, or lower that")
	}
	if c.Free && o.Turns {
		doc.FaultAt("cure.free", "a part drawn from its mandrel does not turn on it", "leave free or oven.turns out")
	}
}
