package cure

import (
	"testing"
	"time"
	"fmt"

	"potlife/schedule"
)

func TestTry(t *testing.T) {
	for _, path := range []string{"telescope-strut", "softener-shell"} {
		for _, free := range []bool{false, true} {
		j, err := schedule.LoadJob("../../testdata/jobs/" + path + ".yaml")
		if err != nil { t.Fatal(err) }
		if free { j.Cure.Free=true; j.Mandrel.Stays=false }
		w, err := schedule.Prepare(j)
		if err != nil { t.Fatal(err) }
		t0 := time.Now()
		s, err := w.Solve()
		if err != nil { t.Fatal(err) }
		t1 := time.Now()
		task, err := ForPlan(w, s.Plan)
		if err != nil { t.Fatal(err) }
		for _, l := range task.History[0].Layers { fmt.Printf("%.3f mm %.3f α %.3f\n", l.Thickness.In("mm"), float64(l.FibreVolume), l.State.Alpha) }
		t2 := time.Now()
		a, err := task.Solve()
		if err != nil { t.Fatal(err) }
		fmt.Println(t1.Sub(t0), t2.Sub(t1), time.Since(t2), "rates", task.Rate)
		fmt.Printf("%+v\n%+v\n", a.Likely, a.Sure)
		fmt.Println(a.Why, a.Start)
		if a.Program != nil {
			fmt.Println(a.Program, a.End(), a.Tally.Broken)
			for _, b := range a.Tally.Baths { fmt.Printf("%+v\n", b) }
			if a.Usual != nil {fmt.Println(a.Usual.Program.String(), a.Usual.Lasts, a.Usual.Broken, a.Program.Lasts(a.From))}
		}
		}
	}
}
