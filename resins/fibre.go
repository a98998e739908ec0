package resins

import (
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins/catalogue"
	"potlife/resins/document"
)

// A Fibre is one kind of tow.
type Fibre struct {
	Name, Description string
	Density           quantity.Density
	Tex               quantity.LinearDensity // of one tow
	HeatCapacity      quantity.HeatCapacity
	Conductivity      quantity.Conductivity // across the fibre; 0: see [Fibre.Across]
	Evidence          map[string]Evidence
}

// lightFibre separates carbon from glass where a fibre states no heat capacity:
// carbon fibres weigh 1.7 to 2.0 g/cm³, glass 2.45 to 2.7 (common practice).
const lightFibre quantity.Density = 2200

// Complete fills in the usual heat capacity where none was stated.
func (f *Fibre) Complete() {
	if f.HeatCapacity > 0 {
		return
	}
	f.HeatCapacity = vessel.GlassHeatCapacity
	if f.Density < lightFibre {
		f.HeatCapacity = vessel.CarbonHeatCapacity
	}
}

// Conductivities across fibres where none was stated, from memory: glass is the same in
// all directions, carbon has 2 to 7 across and ten times that or more along.
const (
	glassAcross  quantity.Conductivity = 1.0
	carbonAcross quantity.Conductivity = 4.0
)

// Across returns the conductivity across the fibre, the usual one where none is known.
func (f *Fibre) Across() quantity.Conductivity {
	switch {
	case f.Conductivity > 0:
		return f.Conductivity
	case f.Density < lightFibre:
		return carbonAcross
	}
	return glassAcross
}

// Fields describes a fibre as a mapping; call [Fibre.Complete] after reading.
func (f *Fibre) Fields() []document.Field {
	return []document.Field{
		document.Quantity("density", &f.Density, document.Required(), document.Between[quantity.Density](500, 10000), document.Doc("of the fibre"), document.Example("1.80 g/cm³")),
		document.Custom("tex", "a linear density", func(n document.Node) { readTex(n, &f.Tex) }, document.Required(), document.ReadLike(document.Quantity("", new(quantity.LinearDensity), document.Positive()), document.Number("", new(float64), document.Between(1.0, 1e6))), document.Doc("of one tow, in tex = g/km"), document.Example("800 tex")),
		document.Quantity("heat_capacity", &f.HeatCapacity, document.Between[quantity.HeatCapacity](100, 5000), document.Doc("of the fibre; the usual one if left out"), document.Example("0.75 J/(g·K)")),
		document.Quantity("conductivity", &f.Conductivity, document.Between[quantity.Conductivity](0.02, 100), document.Doc("across the fibre"), document.Example("4 W/(m·K)")),
	}
}

// readTex takes a linear density, or a bare number since the key is the unit.
func readTex(n document.Node, into *quantity.LinearDensity) {
	text, ok := n.Scalar()
	if !ok {
		return
	}
	value, err := quantity.Parse[quantity.LinearDensity](text)
	if number, bare := quantity.ParseNumber(text); bare == nil {
		value, err = quantity.LinearDensity(number*1e-6), nil
	}
	switch {
	case err != nil:
		n.Refuse(err)
	case !(value > 1e-6 && value < 1):
		n.Fault(text+" is no tow", "tows have 50 to 20 000 tex; write 800 tex")
	default:
		*into = value
	}
}

// LoadFibre returns a built-in fibre; found is false for another name.
func LoadFibre(name string) (fibre Fibre, found bool, err error) {
	source, found := catalogue.Fibre(name)
	if !found {
		return Fibre{}, false, nil
	}
	evidence := map[string]Evidence{}
	fields := append([]document.Field{
		document.Text("name", &fibre.Name, document.Required(), document.Doc("of the fibre")),
		document.Text("description", &fibre.Description),
		evidenceField([]string{"density", "tex", "heat_capacity"}, evidence),
	}, fibre.Fields()...)
	if _, err := document.Read("catalogue/fibres/"+name+".yaml", source, fields); err != nil {
		return Fibre{}, true, err
	}
	fibre.Evidence = evidence
	fibre.Complete()
	return fibre, true, nil
}
