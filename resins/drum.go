package resins

import (
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins/document"
)

// When a drum turns.
const (
	Always  = "always"
	WithTow = "with-tow" // and stands while the tow does
)

// A Drum is what stirs a bath; the zero value is none.
type Drum struct {
	Length quantity.Length // along the bath; 0: as long as the bath
	Turns  string          // Always, WithTow, or empty: there is no drum
}

// none is written for no drum.
const none = "none"

// Turning is a drum that stirs all of a bath all the time.
var Turning = Drum{Turns: Always}

// field describes the key.
func (d *Drum) field() document.Field {
	return document.Union("drum", []document.Field{
		document.Mapping("", []document.Field{
			document.Quantity("length", &d.Length, document.Positive(), document.AtMost[quantity.Length](20), document.Doc("of the part that dips in; as long as the bath if left out"), document.Example("280 mm")),
			document.Choice("turns", &d.Turns, []string{WithTow, Always}, document.Doc("with-tow: it stops when the tow stops")),
		}),
		document.Choice("", &d.Turns, []string{none}),
	}, document.Doc("what stirs the resin: from where it does not reach, or while it stops, the hottest place decides"), document.Example("{turns: with-tow}"))
}

// before describes the key that said so before.
func (d *Drum) before() document.Field {
	return document.Custom("stirred", "true or false", func(n document.Node) {
		turns := false
		n.Read(document.Bool("", &turns))
		if *d = (Drum{}); turns {
			*d = Turning
		}
	}, document.ReadLike(document.Bool("", new(bool))), document.Doc("as files before drum have it: true is drum: {turns: always}, false is drum: none"))
}

// check settles the drum.
func (d *Drum) check(doc *document.Document, drum, stirred string) {
	if d.Turns == none {
		d.Turns = ""
	} else if doc.Has(drum) && d.Turns == "" {
		d.Turns = WithTow
	}
	switch by := "drum: none"; {
	case !doc.Sound(stirred):
	case doc.Has(drum):
		doc.FaultAt(stirred, "drum says what stirs the resin, and stirred as well", "delete stirred and its value")
	default:
		if d.Turns == Always {
			by = "drum: {turns: always}"
		}
		doc.Replaced(stirred, by)
	}
}

// reach is how far beyond its ends a drum stirs, in depths of the resin (our assumption).
const reach = 1.0

// Stirs is when all the resin of a mass is stirred.
func (c Container) Stirs(mass quantity.Mass, density quantity.Density) vessel.Drum {
	within := c.Drum.Length
	if within > 0 {
		within += 2 * reach * c.Vessel(false).Depth(mass, density)
	}
	switch {
	case c.Drum.Turns == "" || within > 0 && within < max(c.Length, c.Cup):
		return vessel.NoDrum
	case c.Drum.Turns == Always:
		return vessel.DrumAlways
	}
	return vessel.DrumWithTow
}
