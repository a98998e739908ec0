package schedule

import (
	"potlife/kinetics/vessel"
	"potlife/resins/document"
)

// A draught stands for the loss at a bath's surface where a crew has no figure for it.
const (
	noDraught     = "none"
	someDraught   = "some"
	strongDraught = "strong"
)

// strongAir is the speed of air that lifts a sheet of paper off a bench, in m/s (common practice).
const strongAir = 2

func (b *Bath) draughtField() document.Field {
	return document.Choice("draught", &b.Draught, []string{noDraught, someDraught, strongDraught},
		document.Doc("air over a tray, instead of surface_loss: none in a closed room, some is the usual, strong lifts paper"))
}

// settleDraught gives the bath the loss that its draught stands for; at is the path of the mapping
// that holds it. None is below the usual loss, some is that, and strong is what air along the
// longer side takes, the least of what it can; a cup's rim keeps air off what is in it.
func (b *Bath) settleDraught(doc *document.Document, at string) {
	key := func(name string) string {
		if at == "" {
			return name
		}
		return at + "." + name
	}
	if !doc.Has(key("draught")) || !doc.Sound(key("draught")) {
		return
	}
	switch {
	case doc.Has(key("surface_loss")):
		doc.FaultAt(key("draught"), "a draught stands for surface_loss, and that is given too", "keep either draught, or surface_loss")
		return
	case doc.Has(key("cup")):
		doc.FaultAt(key("draught"), "a draught is for trays: a cup's rim keeps the air off", "take draught out, or give surface_loss")
		return
	}
	switch b.Draught {
	case noDraught:
		b.SurfaceLoss = vessel.StillAirLoss
	case someDraught:
		b.SurfaceLoss = vessel.UsualTraySurfaceLoss
	case strongDraught:
		if side := max(b.Length, b.Width); side > 0 {
			b.SurfaceLoss = max(vessel.UsualTraySurfaceLoss, vessel.DraughtLoss(strongAir, side))
		}
	}
}
