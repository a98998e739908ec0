package still

import (
	"fmt"
	"math"

	"potlife/kinetics"
	"potlife/kinetics/conduction"
	"potlife/kinetics/quantity"
)

// A BodyError tells what in a body or a start cannot be computed with.
type BodyError struct {
	What string
	Is   float64 // in SI
	Mend string
}

func (e *BodyError) Error() string { return fmt.Sprintf("%s is %g; %s", e.What, e.Is, e.Mend) }

// A RunError tells when a computation of a body stopped and how hot it was; its
// cause is one of the sentinels of package ode.
type RunError struct {
	At      quantity.Time
	Hottest quantity.Temperature
	Cause   error
}

func (e *RunError) Error() string {
	return fmt.Sprintf("the still body could not be followed beyond %.0f s, hottest %.1f K: %v; check the rate law and the loss coefficients, or ask for a shorter time",
		float64(e.At), float64(e.Hottest), e.Cause)
}

func (e *RunError) Unwrap() error { return e.Cause }

// checkList collects the first thing that is wrong.
type checkList struct{ first error }

func (c *checkList) positive(what string, v float64, mend string) {
	if c.first == nil && !(v > 0 && !math.IsInf(v, 1)) {
		c.first = &BodyError{what, v, mend}
	}
}

// loss may be 0, and infinite for a face held at the temperature outside.
func (c *checkList) loss(what string, v quantity.HeatTransfer) {
	if c.first == nil && !(v >= 0) {
		c.first = &BodyError{what, float64(v), "give W/(m²·K), 0 for none"}
	}
}

func (c *checkList) resin(r *kinetics.Resin) {
	c.positive("the density of the resin", float64(r.Density), "give kg/m³ above 0")
	c.positive("the heat capacity of the resin", float64(r.HeatCapacity), "give J/(kg·K) above 0")
	c.positive("the conductivity of the resin", float64(r.Conductivity), "give W/(m·K) above 0; liquid epoxies have about 0.2")
}

func (b Tray) check(r *kinetics.Resin) error {
	var c checkList
	c.resin(r)
	c.positive("the mass in the tray", float64(b.Mass), "give kg above 0")
	c.positive("the area of the tray", b.Vessel.AreaM2, "give its length and width")
	c.loss("the surface loss of the tray", b.Vessel.SurfaceLoss)
	c.loss("the wall loss of the tray", b.Vessel.WallLoss)
	c.loss("the floor loss of the tray", b.Vessel.FloorLoss)
	return c.first
}

func (b Cup) check(r *kinetics.Resin) error {
	var c checkList
	c.resin(r)
	c.positive("the mass in the cup", float64(b.Mass), "give kg above 0")
	c.positive("the diameter of the cup", float64(b.Diameter), "give m above 0")
	c.loss("the surface loss of the cup", b.SurfaceLoss)
	c.loss("the wall loss of the cup", b.WallLoss)
	c.loss("the floor loss of the cup", b.FloorLoss)
	return c.first
}

func (b Wall) check(*kinetics.Resin) error {
	var c checkList
	c.positive("the length of the wall", float64(b.Length), "give m above 0; any length will do, 1 m for one")
	c.positive("the number of layers in the wall", float64(len(b.Layers)), "give at least one")
	if c.first == nil && !(b.Inner >= 0) {
		c.first = &BodyError{"the inner radius of the wall", float64(b.Inner), "give m, 0 for a solid core"}
	}
	c.loss("the loss inside the wall", b.Inside)
	c.loss("the loss outside the wall", b.Outside)
	for i, l := range b.Layers {
		c.layer(fmt.Sprintf("layer %d", i+1), l)
	}
	return c.first
}

func (c *checkList) layer(name string, l conduction.Layer) {
	c.positive("the thickness of "+name, float64(l.Thickness), "give m above 0")
	c.positive("the conductivity of "+name, float64(l.Conductivity), "give W/(m·K) above 0")
	c.positive("the density of "+name, float64(l.Density), "give kg/m³ above 0")
	c.positive("the heat capacity of "+name, float64(l.HeatCapacity), "give J/(kg·K) above 0")
	if c.first == nil && !(l.Resin >= 0 && l.Resin <= l.Density) {
		c.first = &BodyError{"the resin in a m³ of " + name, float64(l.Resin), "give kg, 0 for none and at most the layer's density"}
	}
}
