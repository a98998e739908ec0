package report

import (
	"fmt"
	"math"

	"potlife/kinetics/warning"
	"potlife/schedule/batches"
)

// sayBatches says what a plan may have missed.
func sayBatches(w warning.Warning) (string, bool) {
	switch w.(type) {
	case batches.PlanCoarse:
		return "a long winding, planned in coarse steps: a plan with a change or a pot less may exist", true
	case batches.SearchCoarse:
		return "a long winding, searched in coarse steps: a plan that it missed may exist", true
	case batches.HelpsPartial:
		return "a long winding: what helps is worked out on a part of it only", true
	}
	return "", false
}

// remedyWords say what is done otherwise.
func remedyWords(r batches.Remedy) (text string) {
	defer shown(string(r.Kind), &text)
	by := fmt.Sprintf("%g K warmer", float64(r.By))
	if r.By < 0 {
		by = fmt.Sprintf("%g K cooler", -float64(r.By))
	}
	switch r.Kind {
	case batches.ResinTemperature:
		return "resin " + by + " when mixed"
	case batches.RoomTemperature:
		return "room " + by
	case batches.PotSize:
		return "pots and bath " + partWords(1-r.Times) + " smaller"
	case batches.HardenerRate:
		return "a hardener " + partWords(r.Times) + " as fast"
	case batches.TowSpeed:
		return "tow " + partWords(r.Times-1) + " faster"
	case batches.StopsInside:
		return "refill: circuits, inside the layers"
	}
	panic("report: no words for " + string(r.Kind))
}

// partWords say a share as people do.
func partWords(share float64) string {
	for _, part := range []struct {
		share float64
		words string
	}{{1.0 / 2, "half"}, {1.0 / 3, "a third"}, {1.0 / 4, "a quarter"}} {
		if math.Abs(share-part.share) < 1e-6 {
			return part.words
		}
	}
	return fmt.Sprintf("%.0f %%", 100*share)
}
