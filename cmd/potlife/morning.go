package main

import (
	"potlife/schedule/session"
	"potlife/schedule/session/inforce"
	"potlife/schedule/session/replay"
)

// A morning derives the plan of a session that kept none, once: such a plan takes a whole
// search, and a board or a watch asks again and again. Its zero value is ready.
type morning struct {
	known bool
	plan  *session.Plan
}

// derive gives a journal that kept no plan that of its start.
func (m *morning) derive(j *replay.Journal) error {
	if j.KeepsPlan() {
		return nil
	}
	if !m.known {
		plan, err := inforce.Morning(j.Winding)
		if err != nil {
			return err
		}
		m.known, m.plan = true, plan
	}
	j.Morning = m.plan
	return nil
}
