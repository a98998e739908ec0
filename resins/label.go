package resins

import (
	"fmt"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins/document"
)

// A Label is what a data sheet says of a system: a pot life, a viscosity, or
// both. A pot life is five figures: time, mass, temperature, container and
// end-point.
type Label struct {
	HasPotLife bool
	Time       quantity.Time
	Mass       quantity.Mass
	At         quantity.Temperature // of room and resin
	In         Container
	HasIn      bool
	End        vessel.EndPoint
	EndText    string

	HasViscosity bool
	Viscosity    quantity.Viscosity
	ViscosityAt  quantity.Temperature
}

// Fields describes the datasheet mapping; call [Label.Check] after reading.
func (l *Label) Fields() []document.Field {
	return []document.Field{
		document.Mapping("pot_life", []document.Field{
			document.Quantity("time", &l.Time, document.Required(), document.Between[quantity.Time](10, 30*86400), document.Doc("until the end-point"), document.Example("45 min")),
			document.Quantity("mass", &l.Mass, document.Required(), document.Between[quantity.Mass](1e-3, 50), document.Doc("of the mix"), document.Example("100 g")),
			document.Quantity("at", &l.At, document.Required(), document.Between(quantity.Celsius(-20), quantity.Celsius(150)), document.Doc("temperature of room and resin"), document.Example("23 °C")),
			document.Mapping("in", l.In.Fields(), document.Seen(&l.HasIn), l.In.Rule(), document.Doc("the container; missing: a cup as deep as wide"), document.Example("{cup: 60 mm}")),
			document.Custom("end", "an end-point", l.readEnd, document.Required(), document.ReadLike(
				document.Choice("", new(string), []string{"gel", "doubled"}), document.Quantity("", new(quantity.Temperature)), document.Quantity("", new(quantity.Viscosity), document.Positive()),
			), document.Doc("gel, doubled, a temperature or a viscosity"), document.Example("gel")),
		}, document.Seen(&l.HasPotLife), document.Doc("how long a mass of the mix lasts")),
		document.Mapping("viscosity", []document.Field{
			document.Quantity("value", &l.Viscosity, document.Required(), document.Between[quantity.Viscosity](1e-3, 1e4), document.Doc("of the fresh mix"), document.Example("650 mPa·s")),
			document.Quantity("at", &l.ViscosityAt, document.Required(), document.Between(quantity.Celsius(-20), quantity.Celsius(150)), document.Doc("at which it was measured"), document.Example("25 °C")),
		}, document.Seen(&l.HasViscosity), document.Doc("how thick the fresh mix is")),
	}
}

// Rule is what [Label.Check] holds the mapping to: it says something.
func (l *Label) Rule() document.Option {
	return document.Ruled(document.Rule{AnyOf: []string{"pot_life", "viscosity"}})
}

// Check adds the faults that tie the label's keys together; at is the path of
// the datasheet mapping, empty where it is the whole document.
func (l *Label) Check(doc *document.Document, at string) {
	potLife := "pot_life"
	if at != "" {
		potLife = at + ".pot_life"
	}
	if l.HasIn {
		l.In.Check(doc, potLife+".in")
	}
	if !l.HasPotLife && !l.HasViscosity {
		doc.FaultAt(at, "the data sheet says nothing", "give pot_life, viscosity or both, or take datasheet out")
	}
	if l.HasPotLife && l.End.Temperature > 0 && l.End.Temperature <= l.At && doc.Sound(potLife) {
		doc.FaultAt(potLife+".end", "the test ends at a temperature that it starts above", "give an end above the room, such as 40 °C")
	}
}

func (l *Label) readEnd(n document.Node) {
	text, ok := n.Scalar()
	if !ok {
		return
	}
	end, err := ParseEndPoint(text)
	if err != nil {
		n.Refuse(err)
		return
	}
	l.End, l.EndText = end, text
}

// Bounds of the temperature at which a pot-life test ends, which only a slip of the pen
// exceeds.
var coldestEnd, hottestEnd = quantity.Celsius(-20), quantity.Celsius(300)

// ParseEndPoint reads the end of a pot-life test: gel, doubled, a temperature
// or a viscosity.
func ParseEndPoint(text string) (vessel.EndPoint, error) {
	switch text {
	case "gel":
		return vessel.EndPoint{Gel: true}, nil
	case "doubled":
		return vessel.EndPoint{Doubled: true}, nil
	}
	if t, err := quantity.Parse[quantity.Temperature](text); err == nil {
		if !(t >= coldestEnd && t <= hottestEnd) {
			return vessel.EndPoint{}, &quantity.Error{
				Text: text, Problem: fmt.Sprintf("no test of a pot ends at %v", t), Mend: "write the temperature that the label names, such as 40 °C",
			}
		}
		return vessel.EndPoint{Temperature: t}, nil
	}
	v, err := quantity.Parse[quantity.Viscosity](text)
	if err != nil || !(v > 0) {
		return vessel.EndPoint{}, &quantity.Error{
			Text: text, Problem: "not an end-point",
			Mend: "write gel, doubled, a temperature such as 40 °C, or a viscosity such as 1500 mPa·s",
		}
	}
	return vessel.EndPoint{Viscosity: v}, nil
}

// String is the pot life in one line.
func (l *Label) String() string {
	in := "no container named"
	if l.HasIn {
		in = l.In.String()
	}
	return fmt.Sprintf("%v for %v at %v, %s, to %s", l.Time, l.Mass, l.At, in, l.EndText)
}

// String describes the container in words.
func (c Container) String() string {
	if c.Cup > 0 {
		return fmt.Sprintf("in a cup of %v", c.Cup)
	}
	return fmt.Sprintf("in a tray of %v by %v", c.Length, c.Width)
}
