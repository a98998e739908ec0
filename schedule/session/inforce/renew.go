package inforce

import (
	"errors"
	"slices"
	"time"

	"potlife/kinetics/vessel"
	"potlife/kinetics/warning"
	"potlife/schedule"
	"potlife/schedule/batches"
	"potlife/schedule/session"
	"potlife/schedule/session/hazard"
	"potlife/schedule/session/replay"
)

// A Renewal is what came of asking whether the plan in force still holds after an event.
type Renewal struct {
	Event    session.Event // that keeps the new plan; none: nothing was logged
	Before   session.Event // whose plan it replaces
	Mixed    []int         // events of the pots mixed when it was made
	Unused   []int         // numbers of the pots that stand and have no place in the new plan
	NextPot  int           // number of the next one
	Zone     *time.Location
	Warnings []warning.Warning
	// Dangers are what comes before any plan, none of which is made then, with the limits of the job.
	Dangers []hazard.Hazard
	Limits  vessel.Limits
}

// Logged tells whether a new plan was.
func (r *Renewal) Logged() bool { return r.Event.Plan != nil }

// attempts are how often a plan is made anew because others logged meanwhile.
const attempts = 3

// Renew asks, after an event that is on the disk, whether what is left of the plan in force
// still holds; where it does not, it logs a new one. derive gives the plan of the morning to a
// journal that kept none. Nothing that goes wrong makes the event less logged: it is a warning.
//
// dangers finds what is dangerous at a moment of a day: no plan is made beside that.
func Renew(s *session.Session, after session.Event, now time.Time, derive func(*replay.Journal) error, dangers func(*replay.Script) ([]hazard.Hazard, error)) Renewal {
	if !concerns(s, after) {
		return Renewal{}
	}
	for range attempts {
		r, err := renew(s, after, now, derive, dangers)
		if errors.Is(err, session.ErrOvertaken) {
			continue
		}
		if err != nil {
			return Renewal{Warnings: []warning.Warning{CannotAsk(after.Seq, err)}}
		}
		return r
	}
	return Renewal{Warnings: []warning.Warning{Overtaken{}}}
}

// concerns tells whether an event can change anything for a plan. One that takes a plan back
// brings back the one before, which whoever took it back wants.
func concerns(s *session.Session, e session.Event) bool {
	switch e.Kind {
	case session.Started, session.Note, session.Weighed, session.Planned:
		return false
	case session.Undo:
		all, err := s.Events()
		return err == nil && e.Of >= 1 && e.Of <= len(all) && all[e.Of-1].Kind != session.Planned && concerns(s, all[e.Of-1])
	}
	return true
}

// superseded tells whether an event is no longer the one to ask about the plan for: another came
// after it, its own undo perhaps, whose renewal asks of a journal that has both. A plan made for
// this one would name the wrong reason, and would go with it when it is taken back.
func superseded(s *session.Session, all []session.Event, after session.Event) bool {
	undone := session.TakenBack(all)
	return slices.ContainsFunc(all, func(e session.Event) bool {
		return e.Seq > after.Seq && undone[e.Seq] == 0 && concerns(s, e)
	})
}

// glance is how many baths are asked first, so that logging stays quick: where the plan clearly
// holds for them, all the others would say the same.
const glance = 100

// asked plays a day with so many baths and asks what is left of the plan.
func asked(s *replay.Script, members int) (*schedule.Winding, *Rest, error) {
	played, usable, err := lived(s, members)
	if err != nil {
		return nil, nil, err
	}
	rest := played.Begun(usable)
	kept, err := Of(played, rest)
	return rest, kept, err
}

// lived is a day played with so many baths, and its pots that can be used.
func lived(s *replay.Script, members int) (*replay.Played, []replay.Pot, error) {
	played, err := s.PlayWith(members, batches.Seed)
	if err != nil {
		return nil, nil, err
	}
	usable, err := played.Usable()
	return played, usable, err
}

// latest is the last moment of which the journal tells how it was; a note may be written later.
func latest(all []session.Event) time.Time {
	at := time.Time{}
	for _, e := range session.Active(all) {
		if e.Kind != session.Note && e.Kind != session.Weighed {
			at = e.At
		}
	}
	return at
}

// renew is one attempt. It reckons from the last moment that the journal knows, so that the same
// events make the same plan whenever they are logged.
func renew(s *session.Session, after session.Event, now time.Time, derive func(*replay.Journal) error, dangers func(*replay.Script) ([]hazard.Hazard, error)) (Renewal, error) {
	var none Renewal
	journal, err := replay.Read(s)
	if err != nil {
		return none, err
	}
	if superseded(s, journal.Events, after) {
		return none, nil
	}
	at := latest(journal.Events)
	script, err := journal.Script(at, 0)
	if err != nil {
		return none, err
	}
	over := script.Over()
	if script.Plan.Plan == nil && !journal.KeepsPlan() && !over {
		if err := derive(journal); err != nil {
			return none, err
		}
		script.Plan.Plan = journal.Morning
	}
	first, usable, err := lived(script, min(glance, script.Members()))
	if err != nil {
		return none, err
	}
	if hazard.Possible(first) {
		if list, err := dangers(script); err != nil || len(list) > 0 {
			return Renewal{Dangers: list, Limits: script.Task.Limits}, err
		}
	}
	// No pot is ordered by a clock that differs from that of the events.
	if _, differ := session.Differ(journal.Events, now); script.Plan.Plan == nil || over || differ {
		return none, nil
	}
	kept, err := Of(first, first.Begun(usable))
	if err != nil || kept.clearly() {
		return none, err
	}
	rest, kept, err := asked(script, script.Members())
	if err != nil || kept == nil || kept.Holds() {
		return none, err
	}
	solution, err := rest.Solve()
	if err != nil {
		return none, err
	}
	if !solution.Feasible() {
		return Renewal{Warnings: []warning.Warning{NoPlanLeft{Why: kept.Kept.Why, From: kept.Kept.From}}}, nil
	}
	plan, err := Keep(rest, solution, session.LimitBroken)
	if err != nil {
		return none, err
	}
	if after.Kind != session.Undo {
		plan.Broke = after.Seq
	}
	logged, err := s.LogAfter(len(journal.Events), session.Event{Kind: session.Planned, At: at, Logged: now, Plan: plan})
	r := Renewal{Event: logged, Before: script.Plan, NextPot: script.NextPot, Zone: script.Winding.Job.Zone}
	for i := range script.Pots {
		r.Mixed = append(r.Mixed, script.Pots[i].Seq)
	}
	for _, pot := range script.Standing() {
		if !plan.Uses(pot.Seq) {
			r.Unused = append(r.Unused, pot.Number)
		}
	}
	return r, err
}
