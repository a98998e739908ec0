package vessel

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestCalmStaysBelow: a parabola called calm by three of its values is below zero
// at every other place of the step as well; and what is far below and quiet is
// called so, or the look inside each step would cost as much as the step.
func TestCalmStaysBelow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) float64 { return rapid.Float64Range(-2, 0.5).Draw(t, name) }
		before, middle, now := draw("before"), draw("middle"), draw("now")
		if !calm(before, middle, now) {
			return
		}
		for x := 0.0; x <= 1; x += 0.01 {
			between := before*(1-x)*(1-2*x) + 4*middle*x*(1-x) + now*x*(2*x-1)
			if !(between < 0) {
				t.Fatalf("%g, %g, %g is %g at %g of the step", before, middle, now, between, x)
			}
		}
	})
	if !calm(-1, -0.9, -0.8) || calm(-1, -0.01, -1) || calm(-1, math.NaN(), -1) {
		t.Error("a quiet margin is not calm, or a summit next to zero is")
	}
}
