package schedule

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"time"

	"potlife/kinetics/quantity"
	"potlife/resins"
	"potlife/resins/document"
	"potlife/schedule/winding"
)

func list(words []string) string { return strings.Join(words, ", ") }

// check settles what was kept as written and adds the faults that tie fields
// together.
func (f *jobFile) check(doc *document.Document) {
	j := &f.job
	j.Circuits = f.refill == "circuits"
	f.checkClock(doc)
	if f.fibreNamed {
		j.Fibre.Name = "own"
		j.Fibre.Complete()
	}
	if f.place.Fibre != nil {
		j.Fibre = *f.place.Fibre
	}
	if j.HasLabel {
		j.Label.Check(doc, "datasheet")
	}
	if doc.Has("bath") {
		j.Bath.Check(doc, "bath")
		checkJacket(doc, "bath.")
		j.Bath.settleDraught(doc, "bath")
	}
	resins.CheckFloor(doc, func(key string) string { return "pots." + key })
	if j.FibreFraction.Value > 0 && j.FibreFraction.OfMass(1800, 1150) > 0.95 {
		doc.FaultAt("fibre_fraction", "so little resin fills no laminate", "wet winding reaches 60 to 75 % by mass")
	}
	if j.FibreFraction.Value > 0 && j.FibreFraction.OfMass(1800, 1150) < 0.05 {
		doc.FaultAt("fibre_fraction", "so little fibre makes no laminate", "wet winding reaches 60 to 75 % by mass")
	}
	f.checkMasses(doc)
	j.Mandrel.check(doc)
	j.Cure.check(doc)
	if j.Cure.Free && j.Mandrel.Stays {
		doc.FaultAt("cure.free", "a liner that stays is never drawn", "leave free or mandrel.stays out")
	}
	f.checkLayers(doc)
}

// checkJacket adds the fault of a floor beside a jacket, which covers floor and walls.
func checkJacket(doc *document.Document, at string) {
	for _, key := range []string{"stands_on", "floor_loss"} {
		if doc.Has(at+"jacket") && doc.Has(at+key) {
			doc.FaultAt(at+key, "a jacket covers floor and walls", "leave "+key+" out; wall_loss is that of the jacket")
		}
	}
}

// jacketRule is what [checkJacket] holds a bath to.
func jacketRule() document.Option {
	return document.Ruled(document.Rule{NotBoth: []string{"jacket", "stands_on", "floor_loss"}})
}

func (f *jobFile) checkClock(doc *document.Document) {
	j := &f.job
	zone, err := f.place.zoneOf(f.zone)
	if err != nil {
		doc.FaultAt("zone", "no time zone is called "+f.zone, "write local, or an IANA name such as Europe/Berlin")
		zone = time.UTC
	}
	j.Zone = zone
	if !doc.Sound("start") {
		return
	}
	start, err := parseStart(f.start, zone)
	if refusal := (*quantity.Error)(nil); errors.As(err, &refusal) {
		doc.FaultAt("start", refusal.Problem, refusal.Mend)
		return
	}
	j.Start, j.startTwice = start, ShownTwice(f.start, start)
	for path, t := range map[string]*Temperature{"room": &j.Room, "bath.jacket": &j.Bath.Jacket} {
		if !doc.Sound(path) {
			continue
		}
		t.settle(start, zone, func(i int, problem, mend string) {
			doc.FaultAt(fmt.Sprintf("%s[%d].at", path, i), problem, mend)
		})
	}
}

func (f *jobFile) checkMasses(doc *document.Document) {
	b, p := &f.job.Bath, &f.job.Pots
	if doc.Sound("bath.lowest") && doc.Sound("bath.highest") && b.Lowest >= b.Highest {
		doc.FaultAt("bath.highest", fmt.Sprintf("the bath holds at most %v and needs at least %v", b.Highest, b.Lowest), "give highest above lowest")
	}
	if doc.Sound("pots.smallest") && doc.Sound("pots.largest") && p.Smallest > p.Largest {
		doc.FaultAt("pots.largest", fmt.Sprintf("the largest pot, %v, is smaller than the smallest, %v", p.Largest, p.Smallest), "give largest at or above smallest")
	}
	if doc.Sound("pots.scale") && doc.Sound("pots.largest") && p.Scale*20 > p.Largest {
		doc.FaultAt("pots.scale", fmt.Sprintf("a scale that reads in steps of %v cannot weigh pots of %v", p.Scale, p.Largest), "use a finer scale: 0.1 g is usual")
	}
}

// checkLayers turns the layers as written into layers to wind.
func (f *jobFile) checkLayers(doc *document.Document) {
	if doc.Has("layers") && len(f.layers) == 0 && doc.Sound("layers") {
		doc.FaultAt("layers", "there is nothing to wind", "add a layer: [{helical: 25 deg}]")
	}
	m := &f.job
	if doc.Sound("machine.band") && doc.Sound("mandrel.diameter") && float64(m.Machine.Band) >= math.Pi*float64(m.Mandrel.Diameter) {
		doc.FaultAt("machine.band", fmt.Sprintf("a band of %v goes round a mandrel of %v more than once", m.Machine.Band, m.Mandrel.Diameter),
			"give the width that all tows lay together, such as 4 mm")
		return
	}
	asked := 0
	for i, l := range f.layers {
		path := fmt.Sprintf("layers[%d]", i)
		if !doc.Sound(path) {
			continue
		}
		hoop := l.word == "hoop" || l.hoop
		switch {
		case hoop && l.helical > 0:
			doc.FaultAt(path, "a layer is helical or a hoop, not both", "write hoop, or {helical: 25 deg}")
			continue
		case !hoop && l.helical == 0:
			doc.FaultAt(path, "the layer has no angle", "write hoop, or {helical: 25 deg}")
			continue
		case !hoop && !f.windable(l.helical):
			doc.FaultAt(path+".helical", fmt.Sprintf("%.1f deg cannot be wound as a closed helix with this band", l.helical.In("deg")),
				"give an angle from the axis between 3 deg and that of a hoop, or write hoop")
			continue
		}
		asked += l.repeat
		for range min(l.repeat, mostLayers-len(f.job.Layers)) {
			// The name begins with the number, since the pots name the layers that they follow by it.
			f.job.Layers = append(f.job.Layers, winding.Layer{
				Name: fmt.Sprintf("%d %s", len(f.job.Layers)+1, called(l)), Called: called(l), Hoop: hoop, Angle: l.helical, Time: l.time, Tow: l.tow,
			})
		}
	}
	if asked > mostLayers {
		doc.FaultAt("layers", fmt.Sprintf("%d layers are more than this tool plans", asked), fmt.Sprintf("split the job: at most %d", mostLayers))
	}
}

// mostLayers bounds the work that a slip of the pen can cause.
const mostLayers = 10_000

// flattest is the smallest angle wound without pins at the ends (common
// practice).
const flattest = 3 * math.Pi / 180

func (f *jobFile) windable(angle quantity.Angle) bool {
	if f.job.Mandrel.Diameter == 0 || f.job.Machine.Band == 0 {
		return true // at fault elsewhere
	}
	s := winding.Setup{Band: f.job.Machine.Band}
	return angle >= flattest && angle < s.GreatestAngle(f.job.Mandrel.Diameter)
}

// called is what a layer is called beside its number.
func called(l layerText) string {
	switch {
	case l.name != "":
		return l.name
	case l.helical > 0:
		return fmt.Sprintf("helical %.4g°", l.helical.In("deg"))
	}
	return "hoop"
}
