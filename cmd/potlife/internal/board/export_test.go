package board

import (
	"testing"

	"potlife/cmd/potlife/internal/report"
)

// SetHazards has all answers know of hazards.
func SetHazards(t *testing.T, stand func() []Hazard) {
	before := hazardsOf
	hazardsOf = func(*report.Check) []Hazard { return stand() }
	t.Cleanup(func() { hazardsOf = before })
}
