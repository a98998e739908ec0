package resins

import "potlife/kinetics/warning"

// A Generic stands in every answer from a record of whose speed nothing was measured on the
// system itself: until a label or a cup test says how fast it is, a bath may end in half the
// time or in twice.
type Generic struct {
	Record     string
	SpreadTime float64 // factor, 9 times in 10
}

// Code names the kind.
func (Generic) Code() string { return "generic-record" }

// Warnings are those that every answer from this record carries.
func (r *Record) Warnings() []warning.Warning {
	if !r.Generic() {
		return nil
	}
	return []warning.Warning{Generic{Record: r.Name, SpreadTime: r.Spread.Time}}
}

// Warnings holds one of each kind that this package finds.
var Warnings = []warning.Warning{Generic{Record: "epoxy-ipda", SpreadTime: 1.6}}
