package report

import (
	"slices"
	"strings"
	"testing"
	"time"

	"potlife/cmd/potlife/internal/sheet"
	"potlife/kinetics/quantity"
	"potlife/schedule"
	"potlife/schedule/batches"
	"potlife/schedule/session/daytest"
)

// papersOf are those of a winding.
func papersOf(t *testing.T, w *schedule.Winding) *Papers {
	t.Helper()
	s, err := w.Solve()
	if err != nil || !s.Feasible() {
		t.Fatal(s, err)
	}
	likely, err := w.LikelyViscosities(s.Plan)
	if err != nil {
		t.Fatal(err)
	}
	late, err := batches.Late(w.Task, s.Plan, s.Tally)
	if err != nil {
		t.Fatal(err)
	}
	return NewPapers(NewPlan(w, s, likely, nil).Late(w, s.Plan, late), w, s)
}

func potsOf(page *sheet.Page) []*sheet.Pot {
	var pots []*sheet.Pot
	for _, row := range page.Rows {
		if row.Pot != nil {
			pots = append(pots, row.Pot)
		}
	}
	return pots
}

// TestPapersOfStandingCups: a cup that stands is poured and not mixed, so the sheet gives it
// the number that it has and the calendar no event; the pot mixed beside it goes on from those of the
// day, and may not come late, since the cup would wait for it.
func TestPapersOfStandingCups(t *testing.T) {
	w := lastLayer(t, 0.05)
	w.Task.Bath.Lowest = 0.25
	w.Task.Begin.Cups = []batches.MixedPot{{MixAt: 5100, Pot: w.Task.Mix.Weigh(0.12, w.Task.Pots.Step), Seq: 3}}
	d := papersOf(t, w)
	d.plan.numberPots(5, map[int]int{3: 2})
	pots := potsOf(d.Sheet())
	if len(pots) != 2 {
		t.Fatalf("%d pots, want the cup and one more", len(pots))
	}
	if p := pots[0]; p.Number != "2" || p.Mix != "stands" || p.MixBy != "" || p.PourBy != "" {
		t.Errorf("the cup: %+v", p)
	}
	if p := pots[1]; p.Number != "5" || p.MixBy != "latest "+p.Mix || p.PourBy != "latest "+p.Pour {
		t.Errorf("the pot beside it: %+v", p)
	}
	c := d.Calendar(time.Now())
	if c == nil || len(c.Events) != 1 || !strings.HasPrefix(c.Events[0].Summary, "Pot 5: ") {
		t.Errorf("the calendar: %+v", c)
	}
}

// TestPapersWithoutPots: the sheet has its layers; there is no calendar of nothing.
func TestPapersWithoutPots(t *testing.T) {
	d := papersOf(t, lastLayer(t, 0.5))
	if page := d.Sheet(); len(page.Rows) != 1 || page.Rows[0].Layer == nil || page.Rows[0].Pot != nil {
		t.Errorf("%+v", page.Rows)
	}
	if c := d.Calendar(time.Now()); c != nil {
		t.Errorf("%+v", c)
	}
}

// TestIdentities: the fourth pot of a job and a day is the same event whether it is planned
// in the morning or later; another day, or another job, has others.
func TestIdentities(t *testing.T) {
	uid := func(change func(*schedule.Job), mixed int) string {
		w := lastLayer(t, 0.05)
		w.Task.Begin.Filled = true
		change(w.Job)
		d := papersOf(t, w)
		d.plan.numberPots(mixed+1, nil)
		c := d.Calendar(time.Now())
		if c == nil {
			t.Fatal("no pot")
		}
		return c.Events[0].UID
	}
	same := func(*schedule.Job) {}
	first := uid(same, 3)
	if again := uid(same, 3); again != first {
		t.Errorf("%s and %s for one pot", first, again)
	}
	for what, other := range map[string]string{
		"pot": uid(same, 4),
		"day": uid(func(j *schedule.Job) { j.Start = j.Start.AddDate(0, 0, 1) }, 3),
		"job": uid(func(j *schedule.Job) { j.Name = "Other" }, 3),
	} {
		if other == first {
			t.Errorf("another %s has the same identity", what)
		}
	}
	if moved := uid(func(j *schedule.Job) { j.Start = j.Start.Add(time.Hour) }, 3); moved != first {
		t.Error("an hour later is another event: the calendar would keep both")
	}
}

// TestLatestIsNeverTooLate: in whole minutes, rounded down, yet not before the planned one.
func TestLatestIsNeverTooLate(t *testing.T) {
	d := papersOf(t, lastLayer(t, 0.5)) // begins its day at 09:00
	for _, c := range []struct {
		at, late quantity.Time
		want     string
	}{
		{3600, 0, "latest 10:00"},
		{3640, 0, "latest 10:01"}, // which is the planned one, 10:00:40 rounded
		{3600, 659, "latest 10:10"},
		{3640, 640, "latest 10:11"},
	} {
		if got := d.latest(c.at, c.late); got != c.want {
			t.Errorf("%v and %v: %s, want %s", c.at, c.late, got, c.want)
		}
	}
}

// TestSheetTellsAll: every pot and layer of the answer, beside each other as they belong.
func TestSheetTellsAll(t *testing.T) {
	job, err := schedule.LoadJob("../../../../testdata/jobs/softener-shell.yaml")
	if err != nil {
		t.Fatal(err)
	}
	w, err := schedule.Prepare(job)
	if err != nil {
		t.Fatal(err)
	}
	d := papersOf(t, w)
	page := d.Sheet()
	pots := potsOf(page)
	if len(pots) != len(d.plan.Pots) || len(pots) < 5 {
		t.Fatalf("%d pots of %d", len(pots), len(d.plan.Pots))
	}
	for i, pot := range pots {
		if want := clock(d.plan.Pots[i].MixAt, d.plan.Start); pot.Mix != want || pot.Number != number(i+1) {
			t.Errorf("pot %d: %+v", i+1, pot)
		}
	}
	layers := 0
	for _, row := range page.Rows {
		if row.Layer == nil {
			continue
		}
		if row.Layer.Name != d.plan.Layers[layers].Name {
			t.Errorf("layer %d is %s", layers, row.Layer.Name)
		}
		// A pot goes in before the layer beside it begins.
		if row.Pot != nil && row.Pot.Pour >= row.Layer.Begin {
			t.Errorf("pot %s, poured at %s, beside %s", row.Pot.Number, row.Pot.Pour, row.Layer.Name)
		}
		layers++
	}
	if layers != len(d.plan.Layers) {
		t.Errorf("%d layers of %d", layers, len(d.plan.Layers))
	}
	if page.Mix != "100 resin : 30 hardener by mass" || len(page.Care) < 3 || len(page.Limits) != 5 {
		t.Errorf("%+v", page)
	}
}

// TestSheetOverMidnight: the new day stands once, above the first line that begins in it.
func TestSheetOverMidnight(t *testing.T) {
	job, err := schedule.LoadJob("../../../../testdata/jobs/telescope-strut.yaml")
	if err != nil {
		t.Fatal(err)
	}
	job.Start = job.Start.Add(13*time.Hour + 40*time.Minute)
	w, err := schedule.Prepare(job)
	if err != nil {
		t.Fatal(err)
	}
	last, days := "", 0
	for _, row := range papersOf(t, w).Sheet().Rows {
		begins := row.Layer.Begin
		if row.Pot != nil {
			begins = row.Pot.Mix
		}
		if wraps := begins < last; wraps != (row.Day != "") {
			t.Errorf("%s after %s under %q", begins, last, row.Day)
		}
		if row.Day != "" {
			days++
			if row.Day != "Sunday 29 November 2026" {
				t.Errorf("the day is %s", row.Day)
			}
		}
		last = begins
	}
	if days != 1 {
		t.Errorf("%d days begin", days)
	}
}

// TestASecondPotIsAdded: of two pots of one fill or change only the first says what is done to
// the bath, on the sheet, in the calendar, in the table and in the spreadsheet. JSON says of
// each what its pour is, as ever.
func TestASecondPotIsAdded(t *testing.T) {
	for into, first := range map[batches.Into]string{batches.Fill: "fill", batches.Change: "change: dump, wipe, fill"} {
		w := daytest.Demo(t, "softener-shell.yaml") // its first bath takes two pots
		s, err := w.Solve()
		if err != nil || len(s.Plan.Pours[0].Pots) != 2 {
			t.Fatal(s, err)
		}
		s.Plan.Pours[0].Into = into
		d := NewPapers(NewPlan(w, s, make([]quantity.Viscosity, len(w.Task.Units)), nil).Late(w, s.Plan, make([]quantity.Time, len(s.Plan.Pours))), w, s)
		pots := potsOf(d.Sheet())
		if pots[0].Into != first || pots[1].Into != "add" || pots[2].Into != "top up" {
			t.Errorf("%s: the sheet says %q, %q, %q", into, pots[0].Into, pots[1].Into, pots[2].Into)
		}
		events := d.Calendar(time.Date(2026, 11, 28, 9, 0, 0, 0, time.UTC)).Events
		if !strings.Contains(events[0].Description, ": "+first+", ") || !strings.Contains(events[1].Description, ": add, ") {
			t.Errorf("%s: the calendar says %q and %q", into, events[0].Description, events[1].Description)
		}
		column := slices.Index(d.plan.Tables()[0].Head, "into")
		rows, cells := d.plan.Tables()[0].Rows, d.plan.potTable().rows
		if rows[0][column] != string(into) || rows[1][column] != "add" || cells[0][4] != string(into) || cells[1][4] != "add" {
			t.Errorf("%s: the tables say %q and %q, %q and %q", into, rows[0][column], rows[1][column], cells[0][4], cells[1][4])
		}
		if d.plan.Pots[0].Into != string(into) || d.plan.Pots[1].Into != string(into) {
			t.Errorf("%s: JSON says %q and %q", into, d.plan.Pots[0].Into, d.plan.Pots[1].Into)
		}
	}
}

// TestThePlanHasTheSheetsLatest: the text of a plan says the latest times at which the sheet
// has pots begun, JSON has them, and its lines still fit the page.
func TestThePlanHasTheSheetsLatest(t *testing.T) {
	d := papersOf(t, daytest.Demo(t, "softener-shell.yaml"))
	table := d.plan.potTable()
	for i, pot := range potsOf(d.Sheet()) {
		said, in := table.rows[i][latestColumn], d.plan.Pots[i].MixLatest
		if strings.HasPrefix(pot.MixBy, "after pot ") {
			if said != "" || in != nil {
				t.Errorf("pot %d: the sheet says %q, the plan %q, JSON %v", i+1, pot.MixBy, said, in)
			}
			continue
		}
		if in == nil || in.Before(d.plan.Pots[i].MixAt) || pot.MixBy != "latest "+said {
			t.Errorf("pot %d: the sheet says %q, the plan %q, JSON %v", i+1, pot.MixBy, said, in)
		}
		if by := d.plan.Pots[i].PourLatest; by == nil || by.Before(d.plan.Pots[i].PourAt) {
			t.Errorf("pot %d: JSON has it poured by %v", i+1, by)
		}
	}
	if n := table.width(); n > Width {
		t.Errorf("the table of pots is %d wide", n)
	}
}
