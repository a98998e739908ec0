package report

import (
	"fmt"

	"potlife/kinetics/warning"
	"potlife/schedule/session"
	"potlife/schedule/session/inforce"
)

// sayPlan says the warnings about the plan in force.
func sayPlan(w warning.Warning) (string, bool) {
	switch w := w.(type) {
	case inforce.NoPlanLeft:
		name := "the plan of " + w.From.Format("15:04")
		if w.Why == session.AtStart {
			name = "the plan of the morning"
		}
		return name + " no longer keeps its limits, and no other plan does from here: potlife check says what to do now, potlife replan what helps", true
	case inforce.NotAsked:
		return fmt.Sprintf("e%d is logged; whether the plan still holds could not be checked: %s", w.Event, w.Problem), true
	case inforce.Overtaken:
		return "others logged meanwhile: the plan is checked again after the next event", true
	}
	return "", false
}
