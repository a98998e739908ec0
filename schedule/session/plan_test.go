package session

import (
	"encoding/json"
	"errors"
	"reflect"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// planned logs a plan.
func planned(t *testing.T, s *Session, minute int, p Plan) Event {
	t.Helper()
	if p.From.IsZero() {
		p.From, p.End, p.MadeFor = after(minute), after(minute), PlanMember{1, 1, 1}
	}
	e, err := say(s, Planned, minute, func(e *Event) { e.Plan = &p })
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// planOf is a plan of log's that says nothing.
func planOf(minute int) *Plan {
	return &Plan{Why: LimitBroken, From: after(minute), End: after(minute), MadeFor: PlanMember{1, 1, 1}}
}

// ruling is the event whose plan is in force, 0 for none.
func ruling(t *testing.T, s *Session) int {
	t.Helper()
	all, err := s.Events()
	if err != nil {
		t.Fatal(err)
	}
	e, _ := InForce(Active(all))
	return e.Seq
}

// TestPlanInForce: the last plan rules that was not taken back, and one that log made itself
// only while the event stands that made it do so.
func TestPlanInForce(t *testing.T) {
	s := newSession(t)
	if got := ruling(t, s); got != 0 {
		t.Errorf("event %d rules where no plan was kept", got)
	}
	first := planned(t, s, 1, Plan{Why: Taken})
	misread, err := say(s, Room, 2, func(e *Event) { e.IsC = new(float64) })
	if err != nil {
		t.Fatal(err)
	}
	second := planned(t, s, 2, Plan{Why: LimitBroken, Broke: misread.Seq})
	if got := ruling(t, s); got != second.Seq {
		t.Errorf("event %d rules, not the later plan", got)
	}
	// Without a number undo means what a person logged last.
	undone, err := say(s, Undo, 3, nil)
	if err != nil || undone.Of != misread.Seq {
		t.Errorf("undo takes back %d: %v", undone.Of, err)
	}
	if got := ruling(t, s); got != first.Seq {
		t.Errorf("the reading is taken back and event %d rules", got)
	}
	third := planned(t, s, 4, Plan{Why: LimitBroken})
	if _, err := say(s, Undo, 5, func(e *Event) { e.Of = third.Seq }); err != nil {
		t.Fatal(err)
	}
	if got := ruling(t, s); got != first.Seq {
		t.Errorf("the plan is taken back and event %d rules", got)
	}
	if undone, err = say(s, Undo, 6, nil); err != nil || undone.Of != first.Seq {
		t.Errorf("undo takes back %d, not the plan that was taken: %v", undone.Of, err)
	}
	if got := ruling(t, s); got != 0 {
		t.Errorf("all plans are taken back and event %d rules", got)
	}
}

// TestPlanHappensInOrder: a plan lies neither before the start nor after the finish, and is
// logged by its own command.
func TestPlanHappensInOrder(t *testing.T) {
	s := newSession(t)
	if _, err := say(s, Planned, -5, func(e *Event) { e.Plan = &Plan{} }); err == nil {
		t.Error("a plan before the start")
	}
	if _, err := say(s, Finish, 2, nil); err != nil {
		t.Fatal(err)
	}
	if _, err := say(s, Planned, 3, func(e *Event) { e.Plan = &Plan{} }); err == nil {
		t.Error("a plan after the finish")
	}
	var refusal *Refusal
	if _, err := Read(Setting{}, Told{Words: []string{"plan"}, Now: after(1)}); !errors.As(err, &refusal) {
		t.Errorf("told in words: %v", err)
	}
}

// TestLogAfter: what was worked out from a journal that has grown since is not logged, whoever
// let it grow.
func TestLogAfter(t *testing.T) {
	s := newSession(t)
	other, err := OpenFolder(s.Folder)
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	plan := Event{Kind: Planned, At: after(2), Logged: after(2), Plan: planOf(2)}
	if _, err := say(other, Note, 1, func(e *Event) { e.Text = "meanwhile" }); err != nil {
		t.Fatal(err)
	}
	if err := s.TryAfter(1, plan); !errors.Is(err, ErrOvertaken) {
		t.Errorf("a stale plan is tried: %v", err)
	}
	if _, err := s.LogAfter(1, plan); !errors.Is(err, ErrOvertaken) {
		t.Errorf("a stale plan: %v", err)
	}
	if all, err := s.Events(); err != nil || len(all) != 2 {
		t.Errorf("%d events, %v: the note of the other is read, the plan is not logged", len(all), err)
	}
	early := plan
	early.At = early.Logged.Add(time.Hour)
	var refusal *Refusal
	if err := s.TryAfter(2, early); !errors.As(err, &refusal) {
		t.Errorf("a plan of an hour ahead is tried: %v", err)
	}
	if err := s.TryAfter(2, plan); err != nil || len(s.Journal.Entries()) != 2 {
		t.Errorf("a plan that fits is tried: %v, and %d lines", err, len(s.Journal.Entries()))
	}
	logged, err := s.LogAfter(2, plan)
	if err != nil || logged.Seq != 3 {
		t.Errorf("event %d: %v", logged.Seq, err)
	}
}

// TestPlanIsKept: every field of a plan comes back from its line of the journal, and what is not
// told is left out.
func TestPlanIsKept(t *testing.T) {
	full := Plan{
		Why: Taken, From: after(1), Broke: 1, Bath: &PlanBath{MassG: 1, TemperatureC: 2, Alpha: 0.3}, MadeFor: PlanMember{1, 2, 3},
		Chance: 0.9, Coarse: true, End: after(9), Tightest: PlanTightest{At: after(4), LeftS: 5, ReserveS: 6, EndsBy: "gel"},
		Pours:  []PlanPour{{Into: "change", Layer: 2, Circuits: 7, At: after(3), Pots: []PlanPot{{after(2), 80, 20, 0}, {after(1), 81, 19, 1}}}},
		Layers: []PlanLayer{{Layer: 2, Start: after(4), End: after(8)}},
	}
	for i := range reflect.TypeFor[Plan]().NumField() {
		if reflect.ValueOf(full).Field(i).IsZero() {
			t.Errorf("%s is not tried", reflect.TypeFor[Plan]().Field(i).Name)
		}
	}
	s := newSession(t)
	e := planned(t, s, 2, full)
	if diff := cmp.Diff(full, *e.Plan); diff != "" { // times as moments: zones have several names
		t.Errorf("- given, + kept\n%s", diff)
	}
	if got := full.Changes(); got != 1 {
		t.Errorf("%d changes", got)
	}
	if mix := full.ToMix(); len(mix) != 1 || mix[0].ResinG != 80 {
		t.Errorf("to be mixed: %+v", mix)
	}
	line, err := json.Marshal(Event{Kind: Note, Text: "x"})
	if err != nil || string(line) != `{"at":"0001-01-01T00:00:00Z","logged":"0001-01-01T00:00:00Z","kind":"note","text":"x"}` {
		t.Errorf("%s, %v", line, err)
	}
}
