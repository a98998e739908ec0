package resins

import (
	"strings"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/resins/document"
)

// cureBlock is the cure mapping as written, before it is a law.
type cureBlock struct {
	law               string
	a, a1, a2, a3     quantity.Rate
	e, e1, e2, e3     quantity.MolarEnergy
	m, n, b, switchAt float64
	heat              quantity.SpecificEnergy
	gel               float64
	valid             Range
}

// cureKeys are the keys that each law needs beyond those that all share.
var cureKeys = map[string][]string{
	"kamal-sourour": {"A1", "E1", "A2", "E2", "m", "n"},
	"nth-order":     {"A", "E", "n"},
	"two-stage":     {"A1", "E1", "A2", "E2", "A3", "E3", "B", "switch"},
}

// Bounds of the temperatures that a record speaks of, beyond which epoxies are glass or ash.
var coldestCure, hottestCure = quantity.Celsius(-60), quantity.Celsius(400)

// Bounds of the viscosity of a fresh mix as a record gives it.
const (
	LeastViscosity    quantity.Viscosity = 1e-3
	GreatestViscosity quantity.Viscosity = 1e4
)

// Bounds of the flow energy of a fresh mix.
const (
	LeastFlowEnergy    quantity.MolarEnergy = 10e3
	GreatestFlowEnergy quantity.MolarEnergy = 200e3
)

var cureLaws = []string{"kamal-sourour", "nth-order", "two-stage"}

// Bounds of what a cure of epoxy can be; a value outside is a slip of the pen.
const (
	leastEnergy, greatestEnergy quantity.MolarEnergy    = 20e3, 250e3
	leastHeat, greatestHeat     quantity.SpecificEnergy = 20e3, 1500e3
)

func (c *cureBlock) fields() []document.Field {
	energy := document.Between(leastEnergy, greatestEnergy)
	like := document.Example("55 kJ/mol")
	rate := document.Example("3.5e4 1/s")
	factor := func(which string) document.Option { return document.Doc("prefactor of the rate" + which) }
	activation := func(which string) document.Option { return document.Doc("activation energy of the rate" + which) }
	return []document.Field{
		document.Choice("law", &c.law, cureLaws, document.Required(), document.Doc("form of the rate law")),
		document.Quantity("A", &c.a, document.NotNegative(), factor(""), rate), document.Quantity("E", &c.e, energy, activation(""), like),
		document.Quantity("A1", &c.a1, document.NotNegative(), factor(" that begins the cure"), rate), document.Quantity("E1", &c.e1, energy, activation(" that begins the cure"), like),
		document.Quantity("A2", &c.a2, factor(" that grows with the cure"), rate), document.Quantity("E2", &c.e2, energy, activation(" that grows with the cure"), like),
		document.Quantity("A3", &c.a3, document.NotNegative(), factor(" above switch"), rate), document.Quantity("E3", &c.e3, energy, activation(" above switch"), like),
		document.Number("m", &c.m, document.Positive(), document.AtMost(5.0), document.Doc("order in the degree of cure"), document.Example("1")),
		document.Number("n", &c.n, document.Positive(), document.AtMost(5.0), document.Doc("order in what is left to cure"), document.Example("2")),
		document.Number("B", &c.b, document.Positive(), document.AtMost(1.0), document.Doc("degree of cure at which the first stage would end"), document.Example("0.47")),
		document.Number("switch", &c.switchAt, document.Positive(), document.AtMost(1.0), document.Doc("degree of cure at which the second stage begins"), document.Example("0.3")),
		document.Quantity("heat", &c.heat, document.Required(), document.Between(leastHeat, greatestHeat), document.Doc("of the whole reaction"), document.Example("430 J/g")),
		document.Number("gel", &c.gel, document.Required(), document.Between(0.05, 0.95), document.Doc("degree of cure at gel"), document.Example("0.577")),
		document.Mapping("valid", []document.Field{
			document.Quantity("from", &c.valid.From, document.Required(), document.Between(coldestCure, hottestCure), document.Doc("lowest temperature at which the data may be trusted"), document.Example("15 °C")),
			document.Quantity("to", &c.valid.To, document.Required(), document.Between(coldestCure, hottestCure), document.Doc("highest temperature at which the data may be trusted"), document.Example("80 °C")),
		}, document.Required(), document.Doc("where the data may be trusted")),
	}
}

// check adds the faults that depend on the law.
func (c *cureBlock) check(doc *document.Document) {
	lawKeys(doc, "cure", c.law, cureKeys)
	if c.law == "kamal-sourour" && doc.Sound("cure.A2") && c.a2 < 0 {
		doc.FaultAt("cure.A2", "a negative rate", "only the two-stage law may have a negative A2")
	}
	if doc.Sound("cure.A1") && doc.Sound("cure.A2") && c.law == "kamal-sourour" && c.a1 == 0 {
		doc.FaultAt("cure.A1", "without A1 nothing starts the cure", "give A1 above 0 1/s")
	}
	if doc.Sound("cure.valid") && c.valid.To-c.valid.From < 1 {
		doc.FaultAt("cure.valid", "the range of validity is empty", "give from below to")
	}
}

// lawKeys faults keys that the law named at block.law lacks or does not know.
func lawKeys(doc *document.Document, block, law string, known map[string][]string) {
	if !doc.Sound(block + ".law") {
		return
	}
	needed := map[string]bool{}
	for _, key := range known[law] {
		needed[key] = true
		if !doc.Has(block + "." + key) {
			doc.FaultAt(block, "the law "+law+" needs "+key, "add "+key+"; the law takes "+strings.Join(known[law], ", "))
		}
	}
	reported := map[string]bool{}
	for _, keys := range known {
		for _, key := range keys {
			if path := block + "." + key; !needed[key] && !reported[key] && doc.Has(path) {
				reported[key] = true
				doc.FaultAt(path, "the law "+law+" has no "+key, "take it out; the law takes "+strings.Join(known[law], ", "))
			}
		}
	}
}

func (c *cureBlock) rateLaw() kinetics.RateLaw {
	k := func(a quantity.Rate, e quantity.MolarEnergy) kinetics.Arrhenius {
		return kinetics.Arrhenius{A: a, E: e}
	}
	switch c.law {
	case "nth-order":
		return kinetics.NthOrder{K: k(c.a, c.e), N: c.n}
	case "two-stage":
		return kinetics.TwoStage{K1: k(c.a1, c.e1), K2: k(c.a2, c.e2), K3: k(c.a3, c.e3), B: c.b, Switch: c.switchAt}
	}
	return kinetics.KamalSourour{K1: k(c.a1, c.e1), K2: k(c.a2, c.e2), M: c.m, N: c.n}
}

// viscosityBlock is the viscosity mapping as written.
type viscosityBlock struct {
	law              string
	at               quantity.Temperature
	value            quantity.Viscosity
	activation       quantity.MolarEnergy
	a, b             float64
	growth           quantity.Rate
	growthActivation quantity.MolarEnergy
}

var viscosityKeys = map[string][]string{
	"castro-macosko": {"a", "b"},
	"dual-arrhenius": {"growth", "growth_activation"},
}

var viscosityLaws = []string{"castro-macosko", "dual-arrhenius"}

func (v *viscosityBlock) fields() []document.Field {
	return []document.Field{
		document.Choice("law", &v.law, viscosityLaws, document.Required(), document.Doc("form of the viscosity law")),
		document.Quantity("at", &v.at, document.Required(), document.Between(coldestCure, hottestCure), document.Doc("at which value holds"), document.Example("25 °C")),
		document.Quantity("value", &v.value, document.Required(), document.Between(LeastViscosity, GreatestViscosity), document.Doc("of the fresh mix at that temperature"), document.Example("600 mPa·s")),
		document.Quantity("activation", &v.activation, document.Required(), document.Between(LeastFlowEnergy, GreatestFlowEnergy), document.Doc("flow energy"), document.Example("65 kJ/mol")),
		document.Number("a", &v.a, document.Between(0.0, 50.0), document.Doc("constant of the exponent a + b·α"), document.Example("1.5")),
		document.Number("b", &v.b, document.Between(-50.0, 50.0), document.Doc("slope of the exponent a + b·α"), document.Example("1.0")),
		document.Quantity("growth", &v.growth, document.Positive(), document.Doc("prefactor of the growth"), document.Example("2e6 1/s")),
		document.Quantity("growth_activation", &v.growthActivation, document.Between(leastEnergy, greatestEnergy), document.Doc("activation energy of the growth"), document.Example("55 kJ/mol")),
	}
}

func (v *viscosityBlock) form(gel float64) kinetics.ViscosityLaw {
	flow := kinetics.Flow{At: v.at, Value: v.value, Activation: v.activation}
	if v.law == "dual-arrhenius" {
		return kinetics.DualArrhenius{Flow: flow, Growth: kinetics.Arrhenius{A: v.growth, E: v.growthActivation}}
	}
	return kinetics.CastroMacosko{Flow: flow, Gel: gel, A: v.a, B: v.b}
}

// vitrificationBlock is the vitrification mapping as written, in either form.
type vitrificationBlock struct {
	shift     quantity.TemperatureDifference
	sharpness float64
	a0, aT    float64
}

func (v *vitrificationBlock) fields() []document.Field {
	return []document.Field{
		document.Quantity("shift", &v.shift, document.Between[quantity.TemperatureDifference](-50, 80), document.Doc("vitrified where the glass temperature is the cure temperature plus this"), document.Example("10 K")),
		document.Number("a0", &v.a0, document.Doc("linear form: conversion at 0 K"), document.Example("-1.684")),
		document.Number("aT_per_K", &v.aT, document.Doc("linear form: its rise with temperature, 1/K"), document.Example("5.475e-3")),
		document.Number("sharpness", &v.sharpness, document.Required(), document.Between(5.0, 500.0), document.Doc("how suddenly the cure stops"), document.Example("60")),
	}
}

func (v *vitrificationBlock) check(doc *document.Document) {
	shift := doc.Has("vitrification.shift")
	linear := doc.Has("vitrification.a0") || doc.Has("vitrification.aT_per_K")
	switch {
	case shift && linear:
		doc.FaultAt("vitrification", "two forms of vitrification at once", "keep either shift, or a0 and aT_per_K")
	case linear && !(doc.Has("vitrification.a0") && doc.Has("vitrification.aT_per_K")):
		doc.FaultAt("vitrification", "the linear form needs both a0 and aT_per_K", "add the missing one")
	case !shift && !linear:
		doc.FaultAt("vitrification", "vitrification has no form", "add shift: 10 K, or a0 and aT_per_K")
	}
}

func (v *vitrificationBlock) form(doc *document.Document, glass kinetics.DiBenedetto) kinetics.Vitrification {
	if doc.Has("vitrification.a0") {
		return kinetics.LinearVitrification{A0: v.a0, ATPerK: v.aT, C: v.sharpness}
	}
	return kinetics.GlassShift{Glass: glass, Shift: v.shift, C: v.sharpness}
}
