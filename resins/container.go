package resins

import (
	"fmt"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins/document"
)

// A Container is a tray or a cup as a file or a flag gives it: {cup: 90 mm} or
// {length: 300 mm, width: 120 mm}, with its loss coefficients if known.
type Container struct {
	Cup           quantity.Length // diameter; 0 for a tray
	Length, Width quantity.Length // of a tray
	Drum          Drum
	SurfaceLoss   quantity.HeatTransfer // 0: the usual one
	WallLoss      quantity.HeatTransfer // 0: the usual one
	// StandsOn says what is under it, and FloorLoss what is lost there; without either the
	// floor loses as the wall does.
	StandsOn  vessel.Floor
	FloorLoss quantity.HeatTransfer
}

// narrowest is less across than any vessel for resin; only a slip of the pen is below.
const narrowest quantity.Length = 1e-3

// Fields describes the container's keys; a caller may add keys of its own and
// must call [Container.Check] after reading.
func (c *Container) Fields() []document.Field {
	return append([]document.Field{
		document.Quantity("cup", &c.Cup, document.Positive(), document.AtMost[quantity.Length](2), document.Doc("inner diameter of a round vessel"), document.Example("90 mm")),
		document.Quantity("length", &c.Length, document.Positive(), document.AtMost[quantity.Length](20), document.Doc("inner length of a tray"), document.Example("300 mm")),
		document.Quantity("width", &c.Width, document.Positive(), document.AtMost[quantity.Length](20), document.Doc("inner width of a tray"), document.Example("120 mm")),
		c.Drum.field(),
		c.Drum.before(),
		document.Quantity("surface_loss", &c.SurfaceLoss, document.Positive(), document.AtMost[quantity.HeatTransfer](5000), document.Doc("heat loss at the free surface"), document.Example("10 W/(m²·K)")),
		document.Quantity("wall_loss", &c.WallLoss, document.Positive(), document.AtMost[quantity.HeatTransfer](5000), document.Doc("heat loss through the walls, and the floor unless that is said"), document.Example("6 W/(m²·K)")),
	}, FloorFields(&c.StandsOn, &c.FloorLoss)...)
}

// FloorFields are the keys that say what is lost through a floor.
func FloorFields(on *vessel.Floor, loss *quantity.HeatTransfer) []document.Field {
	return []document.Field{
		document.Choice("stands_on", (*string)(on), vessel.Floors, document.Doc("what is under the vessel: wood loses 4.5 W/(m²·K), cardboard 4, foam 1.5, steel 15, stone 12; air is none, as through the wall")),
		document.Quantity("floor_loss", loss, document.Positive(), document.AtMost[quantity.HeatTransfer](5000), document.Doc("heat loss through the floor, in place of stands_on"), document.Example("4.5 W/(m²·K)")),
	}
}

// FloorRule is what [CheckFloor] holds a mapping to.
func FloorRule() document.Option {
	return document.Ruled(document.Rule{NotBoth: []string{"stands_on", "floor_loss"}})
}

// FloorSaid tells whether the floor loses otherwise than the wall.
func (c Container) FloorSaid() bool {
	return c.FloorLoss > 0 || c.StandsOn != "" && c.StandsOn != vessel.Air
}

// CheckFloor adds the fault of a floor that is told twice; key makes a path of a name.
func CheckFloor(doc *document.Document, key func(string) string) {
	if doc.Has(key("stands_on")) && doc.Has(key("floor_loss")) {
		doc.FaultAt(key("floor_loss"), "stands_on and floor_loss both say what the floor loses", "keep one of them")
	}
}

// Rule is what [Container.Check] holds the mapping to: it is a cup or a tray.
func (c *Container) Rule() document.Option {
	return document.Ruled(document.Rule{OneOf: [][]string{{"cup"}, {"length", "width"}}, NotBoth: []string{"stands_on", "floor_loss"}})
}

// Check adds the faults that tie the container's keys together; at is the
// path of the mapping that holds them.
func (c *Container) Check(doc *document.Document, at string) {
	key := func(name string) string {
		if at == "" {
			return name
		}
		return at + "." + name
	}
	for _, size := range []struct {
		name string
		is   quantity.Length
	}{{"cup", c.Cup}, {"length", c.Length}, {"width", c.Width}} {
		if size.is > 0 && size.is < narrowest {
			doc.FaultAt(key(size.name), fmt.Sprintf("no vessel is as narrow as %v", size.is), "give its inner size, at least "+narrowest.String())
		}
	}
	c.Drum.check(doc, key("drum"), key("stirred"))
	if length := key("drum") + ".length"; doc.Sound(length) && max(c.Length, c.Cup) > 0 && c.Drum.Length > max(c.Length, c.Cup) {
		doc.FaultAt(length, "the drum is longer than the bath", "give the length that dips into the resin")
	}
	CheckFloor(doc, key)
	tray := doc.Has(key("length")) || doc.Has(key("width"))
	switch {
	case doc.Has(key("cup")) && tray:
		doc.FaultAt(key("cup"), "a vessel is a cup or a tray, not both", "keep either cup, or length and width")
	case doc.Has(key("cup")):
	case (!doc.Has(key("length")) || !doc.Has(key("width"))) && doc.Sound(at): // not merely misspelt
		doc.FaultAt(at, "the vessel has no size", "write {cup: 90 mm}, or {length: 300 mm, width: 120 mm}")
	}
}

// Vessel returns the container for the simulation; a jacketed one has the usual
// loss to water at its wall unless the file says otherwise.
func (c Container) Vessel(jacketed bool) vessel.Vessel {
	or := func(value, usual quantity.HeatTransfer) quantity.HeatTransfer {
		if value > 0 {
			return value
		}
		return usual
	}
	surface, wall := vessel.UsualTraySurfaceLoss, vessel.UsualTrayWallLoss
	if c.Cup > 0 {
		surface, wall = vessel.UsualCupLoss, vessel.UsualCupLoss
	}
	if jacketed {
		wall = vessel.UsualJacketLoss
	}
	surface, wall = or(c.SurfaceLoss, surface), or(c.WallLoss, wall)
	floor := or(c.FloorLoss, c.StandsOn.Loss(wall))
	if c.Cup > 0 {
		return vessel.Cup(c.Cup, surface, wall).OnFloor(floor)
	}
	return vessel.Tray(c.Length, c.Width, surface, wall).OnFloor(floor)
}
