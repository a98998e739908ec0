package schedule_test

import (
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/schedule"
	"potlife/schedule/batches"
)

func alarms(t *testing.T, w *schedule.Winding, s *batches.Solution) *schedule.Alarms {
	t.Helper()
	a, err := w.Alarms(s)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// TestForgottenPotsAndBaths: the demo's pots and its bath run away if they are
// forgotten, which is told with what would not; a job of small pots and a shallow
// bath is told nothing.
func TestForgottenPotsAndBaths(t *testing.T) {
	w := demo(t, "telescope-strut.yaml")
	s := solved(t, w.Task)
	a := alarms(t, w, s)
	if !a.Pot.Runs() || !near(a.Pot.Mass, 0.2393) || !(a.Pot.Safe > 0 && a.Pot.Depth > 0) || !a.Bath.Runs() || len(a.Warnings) != 0 {
		t.Fatalf("%+v, %+v, %+v", a.Pot, a.Bath, a.Warnings)
	}
	// The heaviest pot does run away in the nominal world already.
	room := quantity.Celsius(23)
	d := still.Danger{
		Resin: w.Task.Resin, Room: room, Wall: room, From: room, Precision: still.Searching,
		Body: func(m quantity.Mass) still.Body { return still.CupOf(w.Task.Pots.Cup, m) },
	}
	if runs, err := d.RunsAway(0.239); err != nil || !runs {
		t.Errorf("it does not: %v", err)
	}
	small := *s
	plan := *s.Plan
	plan.Pours = append([]batches.Pour(nil), plan.Pours...)
	small.Plan = &plan
	tally := *s.Tally
	tally.Pours = append([]batches.PourTally(nil), tally.Pours...)
	small.Tally = &tally
	for i := range plan.Pours {
		plan.Pours[i].Pots = []batches.MixedPot{plan.Pours[i].Pots[0]}
		plan.Pours[i].Pots[0].Pot = w.Record.Mix.Weigh(0.03, 1e-4)
		tally.Pours[i].Bath = 0.1
	}
	if a := alarms(t, w, &small); a.Pot.Runs() || a.Bath.Runs() {
		t.Errorf("pots of 30 g in a bath of 100 g: %+v, %+v", a.Pot, a.Bath)
	}
}

// TestCupsThatEnd: a pot that was mixed an hour before it is poured does not last in
// its cup with the reserve, which is told once, with its time; those of the plan do.
func TestCupsThatEnd(t *testing.T) {
	w := demo(t, "telescope-strut.yaml")
	s := solved(t, w.Task)
	plan := *s.Plan
	plan.Pours = append([]batches.Pour(nil), plan.Pours...)
	pots := append([]batches.MixedPot(nil), plan.Pours[1].Pots...)
	pots[0].MixAt -= 3600
	plan.Pours[1].Pots = pots
	early := *s
	early.Plan = &plan
	a := alarms(t, w, &early)
	if len(a.Warnings) != 1 {
		t.Fatalf("%+v", a.Warnings)
	}
	told, known := a.Warnings[0].(schedule.PotEndsInCup)
	if !known || !near(told.Pot, 0.1766) || !told.Begun.Equal(w.Job.Clock(pots[0].MixAt)) || told.Reserve != w.Task.Reserve || !(told.Lasts < told.Stands+told.Reserve) {
		t.Errorf("%+v", a.Warnings[0])
	}
	if a := alarms(t, w, &batches.Solution{}); a.Pot != nil || a.Bath != nil || len(a.Warnings) != 0 {
		t.Errorf("no plan: %+v", a)
	}
}
