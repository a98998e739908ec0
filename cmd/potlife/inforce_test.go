package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"potlife/cmd/potlife/internal/report"
	"potlife/kinetics/testrun"
	"potlife/schedule/session"
	"potlife/schedule/session/daytest"
	"potlife/schedule/session/inforce"
)

// dayOnDisk is the strut wound by its plan, in a folder.
func dayOnDisk(t *testing.T) (folder string, d *daytest.Day, plan *session.Plan) {
	t.Helper()
	w := daytest.Demo(t, "telescope-strut.yaml")
	d = daytest.New(w)
	d.AsPlanned(daytest.Planned(t, w).Plan)
	plan, err := inforce.Morning(w)
	if err != nil {
		t.Fatal(err)
	}
	d.Keeps(plan)
	return d.Keep(t), d, plan
}

// tellsJSON runs a command that answers in JSON.
func tellsJSON[T any](t *testing.T, args ...string) *T {
	t.Helper()
	var out, errOut bytes.Buffer
	if code := run(append(args, "--json"), &out, &errOut); code != exitDone {
		t.Fatalf("%v: exit %d: %s", args, code, errOut.String())
	}
	answer := new(T)
	if err := json.Unmarshal(out.Bytes(), answer); err != nil {
		t.Fatal(err)
	}
	return answer
}

// TestOnePlanOnEveryScreen: on a day that goes by its plan check, replan, the board and the
// sheet tell the same next pot, gram for gram and to the minute, and it is the plan's. None of
// them writes.
func TestOnePlanOnEveryScreen(t *testing.T) {
	folder, d, plan := dayOnDisk(t)
	setClock(t, d.Clock(10*24*60).Format(time.RFC3339))
	journal := filepath.Join(folder, session.Name)
	before, err := os.ReadFile(journal)
	if err != nil {
		t.Fatal(err)
	}
	end := plan.End.Sub(d.Clock(0)).Minutes()
	page := filepath.Join(t.TempDir(), "rest.html")
	moments := testrun.Count(4, 10)
	for i := range moments {
		now := d.Clock(2 + float64(i)*end/(float64(moments)+0.5))
		var next *session.PlanPot
		into := ""
		for _, pour := range plan.Pours {
			for k := range pour.Pots {
				if next == nil && pour.Pots[k].MixAt.After(now) {
					next, into = &pour.Pots[k], pour.Into
				}
			}
		}
		at := now.Format(time.RFC3339)
		check := tellsJSON[report.Check](t, "check", "--session", folder, "--at", at)
		looked, err := lookedAt(folder, &checkOptions{at: at}, clock())
		if err != nil {
			t.Fatal(err)
		}
		replan := tellsJSON[report.Replan](t, "replan", "--session", folder, "--at", at, "--sheet", page)
		if len(replan.Changes) > 0 {
			t.Errorf("%s: replan changes %+v", at, replan.Changes)
		}
		if next == nil {
			continue
		}
		for who, pour := range map[string]*report.NextPour{"check": check.Next, "board": looked.Next} {
			if pour == nil || len(pour.Mix) == 0 {
				continue // it is in its cup by now
			}
			if !sameGrams(pour.Mix[0].ResinG, next.ResinG) || !sameGrams(pour.Mix[0].HardenerG, next.HardenerG) || pour.Into != into || pour.MixAt.Sub(next.MixAt).Abs() > time.Second {
				t.Errorf("%s: %s tells %+v, the plan has %s, %+v", at, who, pour, into, next)
			}
		}
		for _, pot := range replan.Pots {
			if pot.Seq > 0 {
				continue
			}
			if !sameGrams(pot.ResinG, next.ResinG) || pot.MixAt.Sub(next.MixAt).Abs() > time.Second {
				t.Errorf("%s: replan tells %+v, the plan has %+v", at, pot, next)
			}
			break
		}
		sheet, err := os.ReadFile(page)
		if err != nil {
			t.Fatal(err)
		}
		if grams, when := fmt.Sprintf("%.1f", next.ResinG), next.MixAt.Round(time.Minute).Format("15:04"); !strings.Contains(string(sheet), grams) || !strings.Contains(string(sheet), when) {
			t.Errorf("%s: the sheet does not tell %s g at %s", at, grams, when)
		}
	}
	if _, err := drawnSoFar(folder, d.Clock(d.Last())); err != nil {
		t.Fatal(err)
	}
	after, err := os.ReadFile(journal)
	if err != nil || !bytes.Equal(before, after) {
		t.Errorf("the journal has changed: %v", err)
	}
}

func sameGrams(a, b float64) bool { return math.Abs(a-b) <= 1e-6 }

// TestAnOldJournalGoesByItsMorning: a session that kept no plan tells the same as one that did.
func TestAnOldJournalGoesByItsMorning(t *testing.T) {
	folder, d, _ := dayOnDisk(t)
	d.Keeps(nil)
	old := d.Keep(t)
	setClock(t, d.Clock(10*24*60).Format(time.RFC3339))
	at := d.Clock(20).Format(time.RFC3339)
	a, b := tellsJSON[report.Check](t, "check", "--session", folder, "--at", at), tellsJSON[report.Check](t, "check", "--session", old, "--at", at)
	if a.Plan.Event != 1 || b.Plan.Event != 0 || !a.Plan.Holds || !b.Plan.Holds || !a.Plan.From.Equal(b.Plan.From) {
		t.Errorf("by %+v, and by %+v", a.Plan, b.Plan)
	}
	x, _ := json.Marshal(a.Next)
	y, _ := json.Marshal(b.Next)
	if string(x) != string(y) {
		t.Errorf("next %s, and %s", x, y)
	}
}
