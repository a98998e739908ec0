package fit

import (
	"potlife/kinetics/quantity"
	"potlife/resins"
	"potlife/resins/document"
)

// mixBlock is the parts mapping as written.
type mixBlock struct {
	seen            bool
	resin, hardener resins.Part
	byVolume        [2]float64
	volume          bool
}

func (m *mixBlock) field() document.Field {
	part := func(name string, p *resins.Part, volume *float64) document.Field {
		return document.Mapping(name, []document.Field{
			document.Number("by_mass", &p.ByMass, document.Positive(), document.Doc("share in parts by mass"), document.Example("100")),
			document.Number("by_volume", volume, document.Positive(), document.Doc("share in parts by volume"), document.Example("100")),
			document.Quantity("density", &p.Density, document.Required(), document.Between[quantity.Density](500, 3000), document.Doc("of this part"), document.Example("1.13 g/cm³")),
		}, document.Required(), document.Ruled(document.Rule{OneOf: [][]string{{"by_mass"}, {"by_volume"}}}), document.Doc("its share of the mix"))
	}
	return document.Mapping("parts", []document.Field{
		part("resin", &m.resin, &m.byVolume[0]), part("hardener", &m.hardener, &m.byVolume[1]),
	}, document.Seen(&m.seen), document.Doc("the mix ratio; missing: that of the nearest system"))
}

// check settles the ratio: both by mass, or both by volume.
func (m *mixBlock) check(doc *document.Document) {
	if !m.seen {
		return
	}
	mass, volume := 0, 0
	for _, path := range []string{"parts.resin", "parts.hardener"} {
		byMass, byVolume := doc.Has(path+".by_mass"), doc.Has(path+".by_volume")
		switch {
		case byMass && byVolume:
			doc.FaultAt(path+".by_volume", "the ratio is given twice", "keep by_mass or by_volume")
		case byMass:
			mass++
		case byVolume:
			volume++
		case doc.Has(path):
			doc.FaultAt(path, "the part has no share", "add by_mass: 100, or by_volume: 100")
		}
	}
	if mass > 0 && volume > 0 {
		doc.FaultAt("parts", "one part by mass, the other by volume", "give both by mass or both by volume")
	}
	m.volume = volume > 0
	if mix := m.mix(); doc.Sound("parts") {
		if problem := mix.Implausible(); problem != "" {
			doc.FaultAt("parts", problem, "check the shares of both parts")
		}
	}
}

func (m *mixBlock) mix() resins.Mix {
	mix := resins.Mix{Resin: m.resin, Hardener: m.hardener}
	if m.volume {
		mix.Resin.ByMass = m.byVolume[0] * float64(m.resin.Density) / 1000
		mix.Hardener.ByMass = m.byVolume[1] * float64(m.hardener.Density) / 1000
	}
	return mix
}
