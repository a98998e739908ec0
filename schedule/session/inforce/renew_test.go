package inforce

import (
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"potlife/kinetics/warning"
	"potlife/schedule/session"
	"potlife/schedule/session/daytest"
	"potlife/schedule/session/hazard"
	"potlife/schedule/session/replay"
)

// opened is the day as a session on disk.
func (d day) opened(t testing.TB) *session.Session {
	t.Helper()
	s, err := session.OpenFolder(d.Keep(t))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

func derive(j *replay.Journal) (err error) {
	j.Morning, err = Morning(j.Winding)
	return err
}

// tell logs an event and asks about the plan, as log does.
func (d day) tell(t testing.TB, s *session.Session, minutes float64, e session.Event) (session.Event, Renewal) {
	t.Helper()
	e.At, e.Logged = d.Clock(minutes), d.Clock(minutes)
	e, err := s.Log(e)
	if err != nil {
		t.Fatal(err)
	}
	return e, Renew(s, e, e.Logged, derive, harmless)
}

// filled is a day that has begun by its plan, whether its journal keeps it or not.
func filled(t testing.TB, keeps bool) day {
	t.Helper()
	d := day{daytest.New(prepared(t))}
	kept, err := Morning(d.W)
	if err != nil {
		t.Fatal(err)
	}
	if keeps {
		d.Keeps(kept)
	}
	d.Fill(0, first(kept))
	d.Begin(6, 1)
	return d
}

// TestRenew: a fault makes another plan with its reason, and takes it back with it; what changes
// nothing does not.
func TestRenew(t *testing.T) {
	for _, keeps := range []bool{true, false} {
		d := filled(t, keeps)
		s := d.opened(t)
		for _, e := range []session.Event{{Kind: session.Room, IsC: celsius(23)}, {Kind: session.Note, Text: "fine"}, {Kind: session.Pause, Text: "tow broke"}} {
			if _, r := d.tell(t, s, 8, e); r.Logged() || len(r.Warnings) > 0 {
				t.Fatalf("after %s: %+v", e.Kind, r)
			}
		}
		resume, r := d.tell(t, s, 75, session.Event{Kind: session.Resume})
		if !r.Logged() {
			t.Fatalf("the machine stood for an hour, and the plan stays: %+v", r)
		}
		if p := r.Event.Plan; p.Why != session.LimitBroken || p.Broke != resume.Seq || !p.From.Equal(resume.At) || p.Bath == nil || len(p.Pours) == 0 {
			t.Errorf("the plan is %+v", p)
		}
		if r.Event.Seq != resume.Seq+1 || r.Before.Plan.Why != session.AtStart {
			t.Errorf("event %d replaces %+v", r.Event.Seq, r.Before)
		}
		if _, r := d.tell(t, s, 76, session.Event{Kind: session.Room, IsC: celsius(23)}); r.Logged() {
			t.Errorf("the new plan is given up for %+v", r.Event.Plan)
		}
		if rule := inForce(t, s); rule.Seq != r.Event.Seq {
			t.Errorf("event %d is in force, not %d", rule.Seq, r.Event.Seq)
		}
		// Whoever takes the plan back wants the one before; nothing is asked.
		if _, r := d.tell(t, s, 77, session.Event{Kind: session.Undo, Of: r.Event.Seq}); r.Logged() || len(r.Warnings) > 0 {
			t.Errorf("after the undo of the plan: %+v", r)
		}
		if rule := inForce(t, s); keeps != (rule.Seq == 1) {
			t.Errorf("event %d is in force", rule.Seq)
		}
	}
}

// harmless is a day on which nothing is dangerous.
func harmless(*replay.Script) ([]hazard.Hazard, error) { return nil, nil }

func celsius(c float64) *float64 { return &c }

func inForce(t testing.TB, s *session.Session) session.Event {
	t.Helper()
	all, err := s.Events()
	if err != nil {
		t.Fatal(err)
	}
	e, _ := session.InForce(session.Active(all))
	return e
}

// TestAMisreadPlan: a reading near the limit gives a plan that changes the bath; with the
// reading taken back the plan before it is in force again, and holds.
func TestAMisreadPlan(t *testing.T) {
	d := filled(t, true)
	s := d.opened(t)
	wrong, r := d.tell(t, s, 20, session.Event{Kind: session.BathTemp, IsC: celsius(38)})
	if !r.Logged() || r.Event.Plan.Changes() == 0 {
		t.Fatalf("%+v", r)
	}
	if _, r := d.tell(t, s, 21, session.Event{Kind: session.Undo, Of: wrong.Seq}); r.Logged() || len(r.Warnings) > 0 {
		t.Errorf("the plan of the morning holds again: %+v", r)
	}
	if rule := inForce(t, s); rule.Seq != 1 {
		t.Errorf("event %d is in force", rule.Seq)
	}
}

// TestSuperseded: an event after which others logged what concerns the plan, or which was taken
// back, gets no plan of its own, though one is wanted: that is made for the last. A note in
// between changes nothing.
func TestSuperseded(t *testing.T) {
	for _, c := range []struct {
		name  string
		later session.Event
		plans bool
	}{
		{"a note", session.Event{Kind: session.Note, Text: "fine"}, true},
		{"a reading", session.Event{Kind: session.Room, IsC: celsius(23)}, false},
		{"its undo", session.Event{Kind: session.Undo}, false},
	} {
		d := filled(t, true)
		s := d.opened(t)
		log := func(minutes float64, e session.Event) session.Event {
			e.At, e.Logged = d.Clock(minutes), d.Clock(minutes)
			e, err := s.Log(e)
			if err != nil {
				t.Fatal(err)
			}
			return e
		}
		log(20, session.Event{Kind: session.BathTemp, IsC: celsius(38)}) // breaks the plan
		event := log(20, session.Event{Kind: session.Room, IsC: celsius(23)})
		if c.later.Kind == session.Undo {
			c.later.Of = event.Seq
		}
		later := log(21, c.later)
		if r := Renew(s, event, d.Clock(22), derive, harmless); r.Logged() != c.plans || len(r.Warnings) > 0 {
			t.Errorf("%s came after: %+v", c.name, r)
		}
		if r := Renew(s, later, d.Clock(22), derive, harmless); r.Logged() == c.plans || len(r.Warnings) > 0 {
			t.Errorf("for %s: %+v", c.name, r)
		}
	}
}

// TestNoPlanLeft: where nothing keeps the limits any more, the event is logged, the plan stays
// and it is said.
func TestNoPlanLeft(t *testing.T) {
	d := filled(t, true)
	s := d.opened(t)
	hot, r := d.tell(t, s, 20, session.Event{Kind: session.Room, IsC: celsius(45)})
	if r.Logged() || len(r.Warnings) != 1 {
		t.Fatalf("%+v", r)
	}
	if w, known := r.Warnings[0].(NoPlanLeft); !known || w.Why != session.AtStart || !w.From.Equal(d.Clock(0)) {
		t.Errorf("%+v", r.Warnings[0])
	}
	if all, _ := s.Events(); all[len(all)-1].Seq != hot.Seq || inForce(t, s).Seq != 1 {
		t.Errorf("the last event is %d", all[len(all)-1].Seq)
	}
}

// TestPlanningNeverFailsALog: where the copies cannot be read, the event stands and the rest is
// a warning.
func TestPlanningNeverFailsALog(t *testing.T) {
	d := filled(t, true)
	s := d.opened(t)
	if err := os.WriteFile(filepath.Join(s.Folder, session.ResinCopy), []byte("name: ["), 0o644); err != nil {
		t.Fatal(err)
	}
	e, r := d.tell(t, s, 20, session.Event{Kind: session.Pause, Text: "x"})
	if codes := warning.Codes(r.Warnings); r.Logged() || len(codes) != 1 || codes[0] != (NotAsked{}).Code() {
		t.Errorf("%+v", r)
	}
	if all, _ := s.Events(); len(all) != e.Seq {
		t.Errorf("%d events", len(all))
	}
}

// TestRenewTogether: two who log at once both get their events in, one new plan at most is made
// of each, and no plan was made from a journal that lacks an event before it.
func TestRenewTogether(t *testing.T) {
	d := filled(t, true)
	d.Pause(8)
	folder := d.Keep(t)
	var wait sync.WaitGroup
	for k := range 3 {
		wait.Go(func() {
			s, err := session.OpenFolder(folder)
			if err != nil {
				t.Error(err)
				return
			}
			defer s.Close()
			for i := range 3 {
				at := d.Clock(24 + 4*float64(i) + float64(k))
				now := at.Add(time.Hour) // of a clock that all three go by
				e, err := s.Log(session.Event{Kind: session.Room, IsC: celsius(23), At: at, Logged: now})
				if err != nil {
					t.Error(err)
					return
				}
				r := Renew(s, e, now, derive, harmless)
				for _, w := range r.Warnings {
					if _, overtaken := w.(Overtaken); !overtaken {
						t.Errorf("%+v", w)
					}
				}
			}
		})
	}
	wait.Wait()
	s, err := session.OpenFolder(folder)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	all, err := s.Events()
	if err != nil {
		t.Fatal(err)
	}
	own, plans := 0, 0
	for i, e := range all {
		switch {
		case e.Kind == session.Room:
			own++
		case e.Kind == session.Planned:
			plans++
			latest := time.Time{}
			for _, before := range all[:i] {
				if before.At.After(latest) {
					latest = before.At
				}
			}
			if !e.At.Equal(latest) {
				t.Errorf("plan %d is of %v, and event before it of %v", e.Seq, e.At, latest)
			}
		}
	}
	if own != 9 || plans == 0 {
		t.Errorf("%d readings and %d plans", own, plans)
	}
}

// TestRenewWhereClocksDiffer: no plan is made by a clock that is behind the events, whatever broke
// the one in force; by one that agrees it is.
func TestRenewWhereClocksDiffer(t *testing.T) {
	for behind, want := range map[time.Duration]bool{0: true, 2 * time.Minute: false, 10 * time.Hour: false} {
		d := filled(t, true)
		s, err := session.OpenFolder(d.Keep(t))
		if err != nil {
			t.Fatal(err)
		}
		defer s.Close()
		at := d.Clock(90)
		e, err := s.Log(session.Event{Kind: session.Pause, Text: "tow broke", At: at, Logged: at})
		if err != nil {
			t.Fatal(err)
		}
		if r := Renew(s, e, at.Add(-behind), derive, harmless); r.Logged() != want {
			t.Errorf("the clock is %v behind: a plan is logged %v, want %v (%v)", behind, r.Logged(), want, r.Warnings)
		}
	}
}
