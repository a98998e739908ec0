package schedule_test

import (
	"math"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
	"potlife/resins"
	"potlife/schedule"
)

// TestFloorsOfAJob: a pot stands on wood unless its job says otherwise; a bath on its frame
// loses through its floor as through its wall, as it always did.
func TestFloorsOfAJob(t *testing.T) {
	const cup = "cup: 90 mm"
	for _, c := range []struct {
		replace []string
		pots    quantity.HeatTransfer
		bath    quantity.HeatTransfer
	}{
		{nil, 4.5, 6},
		{[]string{cup, cup + ", stands_on: foam"}, 1.5, 6},
		{[]string{cup, cup + ", stands_on: air"}, vessel.UsualCupLoss, 6},
		{[]string{cup, cup + ", floor_loss: 7 W/(m²·K)"}, 7, 6},
		{[]string{", wall_loss: 6 W/(m²·K)", ", stands_on: cardboard"}, 4.5, 4},
		{[]string{", wall_loss: 6 W/(m²·K)", ", jacket: 30 °C"}, 4.5, 150},
	} {
		task := prepare(t, soundJob(t, c.replace...)).Task
		if p, b := task.Pots.Cup.FloorLoss, task.Bath.Vessel.FloorLoss; !near(p, c.pots) || !near(b, c.bath) {
			t.Errorf("%q: the floor of a pot loses %v, of the bath %v", c.replace, p, b)
		}
		if p := task.Pots.Cup; p.WallLoss != vessel.UsualCupLoss {
			t.Errorf("%q: the wall of a pot loses %v", c.replace, p.WallLoss)
		}
	}
}

// TestFloorOfAFlag: so does a cup that worktime asks about, unless its wall's loss was measured.
func TestFloorOfAFlag(t *testing.T) {
	for text, want := range map[string]quantity.HeatTransfer{
		"{cup: 90 mm}":                                         4.5,
		"{cup: 90 mm, wall_loss: 8 W/(m²·K)}":                  8,
		"{cup: 90 mm, wall_loss: 8 W/(m²·K), stands_on: wood}": 4.5,
		"{cup: 90 mm, floor_loss: 3 W/(m²·K)}":                 3,
		"{cup: 90 mm, jacket: 35 °C}":                          150,
		"{length: 300 mm, width: 120 mm}":                      6,
	} {
		b, _, err := schedule.ReadVessel("--vessel", text)
		if err != nil {
			t.Fatal(err)
		}
		if got := b.Vessel(b.HasJacket).FloorLoss; !near(got, want) {
			t.Errorf("%s: the floor loses %v, want %v", text, got, want)
		}
	}
}

// TestLeftAlone: the minutes that are told beside a mass that runs away are those of the worst
// of ten baths: of an ensemble drawn from the record's spread a tenth is sooner at the limit of
// temperature or at gel. From 400 draws that is 7 to 13 in 100, two standard errors.
func TestLeftAlone(t *testing.T) {
	for name, in := range map[string]resins.Container{
		"cup":  {Cup: 0.09, StandsOn: vessel.Wood},
		"tray": {Length: 0.3, Width: 0.12},
	} {
		var s *schedule.Standing
		l := standing(t, func(one *schedule.Standing) { one.Bath.Container, one.Mass, s = in, 0.4, one })
		if !l.Danger.Runs() || !(l.Danger.In > 0) {
			t.Fatalf("%s: %+v", name, l.Danger)
		}
		spread := s.Record.Spread
		spread.Loss = s.Bath.LossSpread
		room, sooner := vessel.Constant(s.Room), 0
		cloud := ensemble.Prior(spread, schedule.UsualSampling.Members, schedule.UsualSampling.Seed)
		for _, m := range cloud.Members {
			pot, err := still.New(s.Record.Kinetics.Adjusted(m.Rate, m.Viscosity), in.Body(s.Mass, m.Loss, false), room, room, in.Grid(5, s.Room))
			if err != nil {
				t.Fatal(err)
			}
			times, err := pot.TimesTo([]vessel.EndPoint{{Gel: true}, {Temperature: l.Limits.BathTemperature}}, vessel.State{Temperature: s.Room}, 0, schedule.WorktimeHorizon)
			if err != nil {
				t.Fatal(err)
			}
			if min(times[0], times[1]) < l.Danger.In {
				sooner++
			}
		}
		share := float64(sooner) / float64(len(cloud.Members))
		t.Logf("%s: %v, %.1f in 100 are sooner", name, l.Danger.In, 100*share)
		if !(math.Abs(share-0.1) <= 0.03) {
			t.Errorf("%s: %.1f in 100 baths are over before the %v told", name, 100*share, l.Danger.In)
		}
	}
	if d := standing(t, func(s *schedule.Standing) { s.Mass = 0.02 }).Danger; d.Runs() || d.In != 0 {
		t.Errorf("what cannot run away has minutes: %+v", d)
	}
}

// TestFloorsMakeDanger: less loss below leaves less that is safe, and less time.
func TestFloorsMakeDanger(t *testing.T) {
	on := func(floor vessel.Floor) *schedule.Danger {
		return standing(t, func(s *schedule.Standing) { s.Bath.StandsOn = floor }).Danger
	}
	last := on(vessel.Stone)
	for _, floor := range []vessel.Floor{vessel.Air, vessel.Wood, vessel.Foam} {
		d := on(floor)
		t.Logf("%s: %v are safe, 250 g last %v", floor, d.Safe, d.In)
		if !(d.Safe < last.Safe && d.In < last.In) {
			t.Errorf("on %s %v are safe and 250 g last %v, on what loses more %v and %v", floor, d.Safe, d.In, last.Safe, last.In)
		}
		last = d
	}
}
