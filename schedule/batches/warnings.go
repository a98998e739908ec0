package batches

import (
	"slices"

	"potlife/kinetics/warning"
)

// PlanCoarse stands beside the plan of a long winding, which is searched in coarse steps:
// one with a change or a pot less may exist.
type PlanCoarse struct{}

// Code names the kind.
func (PlanCoarse) Code() string { return "plan-coarse" }

// SearchCoarse stands where such a search found no plan: it may have missed one.
type SearchCoarse struct{}

// Code names the kind.
func (SearchCoarse) Code() string { return "search-coarse" }

// HelpsPartial stands where what helps was worked out on a part of the winding.
type HelpsPartial struct{}

// Code names the kind.
func (HelpsPartial) Code() string { return "helps-partial" }

// Warnings are those of a solution and of what would help it.
func (s *Solution) Warnings(helps []Help) []warning.Warning {
	var list []warning.Warning
	if s.Plan != nil && s.Plan.Coarse {
		list = append(list, PlanCoarse{})
	}
	if s.Plan == nil && s.Coarse {
		list = append(list, SearchCoarse{})
	}
	if slices.ContainsFunc(helps, func(h Help) bool { return h.Part }) {
		list = append(list, HelpsPartial{})
	}
	return list
}

// Warnings has one of each kind.
var Warnings = []warning.Warning{
	PlanCoarse{},
	SearchCoarse{},
	HelpsPartial{},
}
