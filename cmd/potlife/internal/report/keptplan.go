package report

import (
	"fmt"
	"time"

	"potlife/schedule/session"
	"potlife/schedule/session/inforce"
)

// planMade says that a plan was made, why, and what it comes to.
func planMade(p *session.Plan) (text string) {
	defer shown(string(session.Planned), &text)
	switch {
	case p == nil:
		return string(session.Planned) // of another hand
	case p.Why == session.LimitBroken:
		return "new plan, the old one broke a limit: " + planSum(p)
	}
	return "plan taken: " + planSum(p)
}

// planSum is what a kept plan comes to in few words.
func planSum(p *session.Plan) string {
	text := plural(len(p.ToMix()), "pot") + ", "
	if n := p.Changes(); n > 0 {
		text += plural(n, "change") + ", "
	}
	return text + "end " + hand(p.End)
}

// CheckPlan is the plan in force and whether what is left of it holds.
type CheckPlan struct {
	Event int       `json:"event"` // that keeps it; 0: of a session that kept none
	Why   string    `json:"why"`
	From  time.Time `json:"from"`
	Holds bool      `json:"holds"`
}

func newCheckPlan(r *inforce.Rest) *CheckPlan {
	if r == nil {
		return nil
	}
	return &CheckPlan{Event: r.Seq, Why: string(r.Kept.Why), From: r.Kept.From, Holds: r.Holds()}
}

// Renewed adds what came of asking whether the plan in force still holds.
func (l *Logged) Renewed(r *inforce.Renewal) *Logged {
	if r.Logged() {
		l.unused = r.Unused
		l.Plan, l.Changes, l.next = &r.Event, changesOf(r.Before, r.Event.Plan, r.Mixed, r.NextPot, r.Zone), r.NextPot
	}
	if len(r.Dangers) > 0 {
		l.Hazards = newHazards(r.Dangers, newLimits(r.Limits))
	}
	return l
}

// renewal is the line that tells of it: what it comes to, and what is mixed next.
func (l *Logged) renewal() string {
	text := Happened(*l.Plan)
	zone := l.Plan.Plan.From.Location()
	if len(l.unused) > 0 { // before it is known what becomes of it nothing else is mixed
		names := make([]string, len(l.unused))
		for i, pot := range l.unused {
			names[i] = "pot " + number(pot)
		}
		is, it := " is", "it"
		if len(names) > 1 {
			is, it = " are", "them"
		}
		return text + "; " + listed(names) + is + " not in it: potlife check says what to do with " + it
	}
	if next := potsToMix(l.Plan.Plan, zone); len(next) > 0 {
		text += fmt.Sprintf("; next: pot %d, %s", l.next, next[0].words(l.Event.At.In(zone)))
	}
	return text
}
