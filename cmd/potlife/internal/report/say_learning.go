package report

import (
	"potlife/kinetics/warning"
	"potlife/schedule/learning"
)

// sayLearning tells the warnings of package learning.
func sayLearning(w warning.Warning) (string, bool) {
	switch w.(type) {
	case learning.PickUpNotLearned:
		return "no session tells the pick-up: weigh what is left in the bath before it is dumped, and log left-over", true
	case learning.ReactivityNotLearned:
		return "no session tells the reactivity: log bath-temp while the bath warms", true
	case learning.MinutesNotLearned:
		return "no session tells the minutes: log begin and done of each layer", true
	}
	return "", false
}
