package schedule

import (
	"fmt"

	"potlife/kinetics/quantity"
	"potlife/resins/document"
)

// Mandrel is what is wound on; a Temperature of 0 means the room's. What it is made of
// matters once the part is to be cured on it.
type Mandrel struct {
	Diameter, Length quantity.Length
	Temperature      quantity.Temperature

	Material Material
	Wall     quantity.Length       // of a tube; 0 with Solid
	Solid    bool                  // a bar
	Bore     quantity.HeatTransfer // lost inside a tube
	Stays    bool                  // a liner, which is not drawn
	Stated   bool                  // the job says what it is made of
}

// Material is what a mandrel is made of.
type Material struct {
	Name         string
	Density      quantity.Density
	HeatCapacity quantity.HeatCapacity
	Conductivity quantity.Conductivity
	Highest      quantity.Temperature // that it bears; 0: more than any oven for epoxies has
}

// materials are those known by name, with handbook values at 20 °C from memory, metals
// to 5 %, the others to 20 %. The highest temperatures are common practice: where the
// material softens (plastics), chars (paper) or loses its water (plaster).
var materials = []Material{
	{Name: "steel", Density: 7850, HeatCapacity: 480, Conductivity: 50},
	{Name: "stainless", Density: 7900, HeatCapacity: 500, Conductivity: 15},
	{Name: "aluminium", Density: 2700, HeatCapacity: 900, Conductivity: 180, Highest: quantity.Celsius(180)},
	{Name: "glass", Density: 2500, HeatCapacity: 800, Conductivity: 1.0, Highest: quantity.Celsius(150)},
	{Name: "glass-epoxy", Density: 1900, HeatCapacity: 1000, Conductivity: 0.35, Highest: quantity.Celsius(110)},
	{Name: "pvc", Density: 1400, HeatCapacity: 1000, Conductivity: 0.17, Highest: quantity.Celsius(60)},
	{Name: "polyethylene", Density: 950, HeatCapacity: 1900, Conductivity: 0.45, Highest: quantity.Celsius(70)},
	{Name: "polypropylene", Density: 905, HeatCapacity: 1800, Conductivity: 0.22, Highest: quantity.Celsius(90)},
	{Name: "paper", Density: 700, HeatCapacity: 1400, Conductivity: 0.12, Highest: quantity.Celsius(120)},
	{Name: "plaster", Density: 1000, HeatCapacity: 1090, Conductivity: 0.4, Highest: quantity.Celsius(60)},
}

// MaterialNames are the materials that a job may name.
func MaterialNames() []string {
	names := make([]string, len(materials))
	for i, m := range materials {
		names[i] = m.Name
	}
	return names
}

// MaterialNamed returns a material of the list.
func MaterialNamed(name string) (Material, bool) {
	for _, m := range materials {
		if m.Name == name {
			return m, true
		}
	}
	return Material{}, false
}

// UsualBoreLoss is that of air in a tube that nothing moves: the low end of free
// convection with some radiation between its walls (textbook range, memory).
const UsualBoreLoss quantity.HeatTransfer = 5

// UsualWall is that of a mandrel whose job says nothing of it: a steel tube, by far
// the most usual (common practice).
const UsualWall quantity.Length = 3e-3

func (m *Mandrel) fields() []document.Field {
	own := &m.Material
	return []document.Field{
		document.Quantity("diameter", &m.Diameter, document.Required(), document.Between[quantity.Length](1e-3, 10), document.Doc("outer diameter"), document.Example("90 mm")),
		document.Quantity("length", &m.Length, document.Required(), document.Between[quantity.Length](5e-3, 100), document.Doc("of the wound cylinder"), document.Example("1600 mm")),
		document.Quantity("temperature", &m.Temperature, document.Between(coldest, hottest), document.Doc("of its surface; the room's if left out"), document.Example("22 °C")),
		document.Union("material", []document.Field{
			document.Choice("material", &m.Material.Name, MaterialNames()),
			document.Mapping("material", []document.Field{
				document.Quantity("density", &own.Density, document.Required(), document.Between[quantity.Density](10, 25000), document.Doc("of the material"), document.Example("7.85 g/cm³")),
				document.Quantity("heat_capacity", &own.HeatCapacity, document.Required(), document.Between[quantity.HeatCapacity](50, 5000), document.Doc("of the material"), document.Example("0.48 J/(g·K)")),
				document.Quantity("conductivity", &own.Conductivity, document.Required(), document.Between[quantity.Conductivity](0.01, 500), document.Doc("of the material"), document.Example("50 W/(m·K)")),
				document.Quantity("highest", &own.Highest, document.Between(coldest, hottestOven), document.Doc("temperature that it bears"), document.Example("110 °C")),
			}),
		}, document.Seen(&m.Stated), document.Doc("what it is made of; a steel tube if left out"), document.Example("steel")),
		document.Quantity("wall", &m.Wall, document.Between[quantity.Length](1e-4, 5), document.Doc("of a tube"), document.Example("3 mm")),
		document.Bool("solid", &m.Solid, document.Doc("a bar, not a tube")),
		document.Quantity("bore_loss", &m.Bore, document.Between[quantity.HeatTransfer](0, 500), document.Doc("heat lost inside a tube"), document.Example("5 W/(m²·K)")),
		document.Bool("stays", &m.Stays, document.Doc("a liner that stays in the part")),
	}
}

// check settles the material and adds the faults that tie the mandrel's keys together.
func (m *Mandrel) check(doc *document.Document) {
	if known, found := MaterialNamed(m.Material.Name); found {
		m.Material = known
	} else if m.Material.Density > 0 {
		m.Material.Name = "own"
	} else {
		m.Material = materials[0]
	}
	if !doc.Has("mandrel.bore_loss") {
		m.Bore = UsualBoreLoss
	}
	switch {
	case m.Solid && m.Wall > 0:
		doc.FaultAt("mandrel.solid", "a solid mandrel has no wall", "give wall for a tube, or solid: true for a bar")
	case doc.Sound("mandrel.wall") && doc.Sound("mandrel.diameter") && m.Wall >= m.Diameter/2:
		doc.FaultAt("mandrel.wall", fmt.Sprintf("a wall of %v fills a mandrel of %v", m.Wall, m.Diameter), "give a thinner wall, or solid: true")
	case !m.Solid && m.Wall == 0 && doc.Sound("mandrel.material"):
		doc.FaultAt("mandrel.material", "how thick the mandrel is is missing", "give wall: 3 mm for a tube, or solid: true for a bar")
	case !m.Solid && m.Wall == 0:
		m.Wall = min(UsualWall, m.Diameter/4)
	}
}
