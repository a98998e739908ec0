package report

import (
	"fmt"

	"potlife/kinetics/warning"
	"potlife/schedule/learning"
)

// sayLearning tells the warnings of package learning.
func sayLearning(w warning.Warning) (string, bool) {
	switch w := w.(type) {
	case learning.PickUpNotLearned:
		return "no session tells the pick-up: weigh what is left in the bath before it is dumped, and log left-over", true
	case learning.ReactivityNotLearned:
		return "no session tells the reactivity: log bath-temp while the bath warms", true
	case learning.MinutesNotLearned:
		return "no session tells the minutes: log begin and done of each layer", true
	case learning.BalanceRefuted:
		return fmt.Sprintf("%s: the resin mixed and left over cannot be true beside the weight of the part, so it teaches nothing; potlife weigh says which weight to check", w.Session), true
	}
	return "", false
}
