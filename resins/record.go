package resins

import (
	"potlife/kinetics"
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
)

// A Record is one resin system: what it does, what it is mixed from and what
// all that rests on.
type Record struct {
	Name        string
	Description string
	Caution     string // of its own, beside the usual ones; mostly empty
	Mix         Mix
	Kinetics    kinetics.Resin
	Valid       Range // temperatures within which the cure law may be trusted
	Spread      ensemble.Spread
	Evidence    map[string]Evidence // by block
	Calibrated  []string            // labels and tests that the record was rescaled to
	Source      []byte              // the file it was read from
	Renamed     []warning.Warning   // keys that it has under names of before
}

// A Range of temperatures, both ends included.
type Range struct{ From, To quantity.Temperature }

// Holds tells whether t lies in the range.
func (r Range) Holds(t quantity.Temperature) bool { return t >= r.From && t <= r.To }

// Evidence says what a block of a record rests on.
type Evidence struct {
	Kind Kind
	Note string
}

// Kind grades evidence.
type Kind string

// The grades, the strongest first.
const (
	Measured  Kind = "measured"  // on this very system
	Published Kind = "published" // printed in the source named
	Derived   Kind = "derived"   // computed from other values
	Typical   Kind = "typical"   // usual for its kind, or recalled
)

// Kinds are the grades as a record may name them.
var Kinds = []string{string(Measured), string(Published), string(Derived), string(Typical)}

// Generic tells whether nothing about the speed of this record was measured on
// the system itself, so that it needs a pot life or a cup test.
func (r *Record) Generic() bool {
	return r.Evidence["cure"].Kind != Measured
}

// Blocks are the blocks of a record that need evidence, in the order shown.
var Blocks = []string{"parts", "cure", "heat", "gel", "vitrification", "glass", "viscosity", "thermal"}
