package weighing

import (
	"potlife/kinetics/quantity"
	"potlife/resins"
	"potlife/schedule/weighing/budget"
)

// byCoupon is the fibre fraction by mass of a coupon, (16).
func byCoupon(x []float64) float64 { return x[residue] / x[coupon] }

// hasThickness tells whether the wall tells the fibre fraction.
func (m *model) hasThickness() bool {
	return m.has(thickness, arealWeight, fibreDensity, resinDensity) && m.plies > 0
}

// byThickness is the fibre fraction by mass of a wall, (17): with the density
// of the piece if it is known, else as if there were no voids.
func (m *model) byThickness(x []float64) float64 {
	v := FibreByThickness(m.plies, quantity.ArealWeight(x[arealWeight]), quantity.Density(x[fibreDensity]), quantity.Length(x[thickness]))
	if m.hasDensity() {
		return float64(v) * x[fibreDensity] / m.density(x)
	}
	share := resins.FibreFraction{Value: v, Basis: resins.ByVolume}
	return float64(share.OfMass(quantity.Density(x[fibreDensity]), quantity.Density(x[resinDensity])))
}

// hung and sized are the two ways to the density of the piece.
func (m *model) hasHung() bool    { return m.has(air, water, waterTemperature) }
func (m *model) hasSized() bool   { return m.has(part, volume) }
func (m *model) hasDensity() bool { return m.hasHung() || m.hasSized() }

func (m *model) density(x []float64) float64 {
	if m.hasHung() {
		return hung(x)
	}
	return m.sized(x)
}

func hung(x []float64) float64 {
	bath := quantity.Density(waterDensity(quantity.Temperature(x[waterTemperature]).Celsius()))
	return float64(HungDensity(quantity.Mass(x[air]), quantity.Mass(x[water]), bath))
}

func (m *model) sized(x []float64) float64 { return m.part(x) / x[volume] }

// hasVoids tells whether voids can be told.
func (m *model) hasVoids() bool { return m.hasDensity() && m.has(fibreDensity, resinDensity) }

// ofPiece is the fibre fraction of the piece whose density is known: the
// coupon's if there is one and it was hung.
func (m *model) ofPiece() budget.Func {
	if m.hasHung() && m.has(coupon, residue) {
		return byCoupon
	}
	return m.byMass
}

// voids returns the void fraction for a way to the fibre fraction by mass.
func (m *model) voids(byMass budget.Func) budget.Func {
	return func(x []float64) float64 {
		return float64(VoidFraction(quantity.Fraction(byMass(x)), quantity.Density(m.density(x)), quantity.Density(x[fibreDensity]), quantity.Density(x[resinDensity])))
	}
}

// volumes returns one of the shares of (12).
func (m *model) volumes(pick func(Volumes) quantity.Fraction) budget.Func {
	byMass := m.ofPiece()
	return func(x []float64) float64 {
		return float64(pick(VolumesOf(quantity.Fraction(byMass(x)), quantity.Density(m.density(x)), quantity.Density(x[fibreDensity]), quantity.Density(x[resinDensity]))))
	}
}

// A way is a route to the fibre fraction by mass with its formula.
type way struct {
	route  Route
	byMass budget.Func
}

// ways lists the independent ways to the fibre fraction by mass.
func (m *model) ways() []way {
	list := []way{}
	if m.given[part] {
		for _, e := range m.estimates {
			list = append(list, way{e.route, func(x []float64) float64 { return e.mass(x) / m.laid(x) }})
		}
	}
	if m.has(coupon, residue) {
		list = append(list, way{Coupon, byCoupon})
	}
	if m.hasThickness() {
		list = append(list, way{Thickness, m.byThickness})
	}
	return list
}

// choose takes the route that the results rest on: the scales weigh the whole
// part, a coupon is a piece of it, and a wall is a place on it. The error is a
// [*Missing].
func (m *model) choose() error {
	const coupons, wall = "{coupon} and {residue}", "{thickness} with {plies}, {areal weight}, {fibre density} and {resin density}"
	ways := []string{"{fibre}", "{tow} with {tex} and {tows}", "{spool before} and {spool after}"}
	switch {
	case m.given[part] && len(m.estimates) > 0:
		m.answer = Scales
	case m.has(coupon, residue):
		m.answer = Coupon
	case m.hasThickness():
		m.answer = Thickness
	case m.given[part]:
		return &Missing{What: "the fibre in the part", Alternatives: append(ways, coupons, wall)}
	case len(m.estimates) > 0:
		return &Missing{What: "the weight of the part", Alternatives: []string{"{part} (with {mandrel} if it is on it)", coupons, wall}}
	default:
		return &Missing{What: "what the fibre fraction rests on", Alternatives: []string{"{part} and its fibre ({fibre}, {tow} with {tex} and {tows}, or {spool before} and {spool after})", coupons, wall}}
	}
	return nil
}

// missingPartner refuses a reading that says nothing without another.
func (m *model) missingPartner() error {
	for _, pair := range []struct{ has, needs key }{
		{mandrel, part},
		{tow, tex},
		{spoolBefore, spoolAfter},
		{spoolAfter, spoolBefore},
		{coupon, residue},
		{residue, coupon},
		{air, water},
		{water, air},
	} {
		if m.given[pair.has] && !m.given[pair.needs] {
			return &Missing{What: pair.needs.String(), Alternatives: []string{"{" + pair.needs.String() + "} to go with {" + pair.has.String() + "}", "neither"}}
		}
	}
	if m.given[tow] && m.tows == 0 {
		return &Missing{What: "tows", Alternatives: []string{"{tows}, the number of tows that ran side by side"}}
	}
	if m.given[arealWeight] && m.plies == 0 {
		return &Missing{What: "plies", Alternatives: []string{"{plies}, the number of plies through the wall, two for a helical layer", "no {areal weight}"}}
	}
	if m.target.Basis == resins.ByVolume && m.target.Value != 0 && !m.has(fibreDensity, resinDensity) {
		return &Missing{What: "a density for a target by volume", Alternatives: []string{"{fibre density} and {resin density}", "the {target} by mass"}}
	}
	return nil
}
