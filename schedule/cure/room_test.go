package cure

import (
	"fmt"
	"math"
	"testing"

	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/schedule"
)

// TestColdCureGlass: after 7 and 28 days at 23 °C the glass temperature of a cold-cured part is 15 to
// 37 K above the room, and below that of the fully cured resin (common practice). Each built-in system
// that is sold for the room, as the trade winds it.
func TestColdCureGlass(t *testing.T) {
	for _, system := range []string{"epoxy-teta", "epoxy-ipda", "epoxy-polyetheramine-ipda", "epoxy-polyetheramine"} {
		usual, _, err := made(t, system, 4).InRoom()
		if err != nil {
			t.Fatal(err)
		}
		room := quantity.Celsius(23)
		week, month := float64(usual.Week.Glass-room), float64(usual.Month.Glass-room)
		t.Logf("%s: 7 days %.1f K, 28 days %.1f K above the room", system, week, month)
		if !(week >= 15 && week <= 37) || !(month >= 15 && month <= 37) || !(month > week) {
			t.Errorf("%s: %.1f and %.1f K above the room, want 15 to 37", system, week, month)
		}
		for days, above := range map[int]float64{7: week, 28: month} {
			outside.Check(t, outside.Row{
				ID: fmt.Sprintf("anchored/cold-glass/%s-%d", system, days), Subject: outside.Trade, Mark: outside.CommonPractice,
				What:    fmt.Sprintf("glass temperature of %s above a room of 23 °C after %d days", system, days),
				Printed: "15", To: "37", Unit: "K", Anchored: "shift and sharpness of vitrification were set for this range",
			}, above)
		}
	}
}

// TestPullTheMandrel: half an hour before the mandrel can be pulled, some point of the wall
// has a glass temperature less than the margin above its own temperature or the room's;
// half an hour after, none has. The course is looked at so often.
func TestPullTheMandrel(t *testing.T) {
	task := made(t, "epoxy-ipda", 20)
	usual, _, err := task.InRoom()
	if err != nil {
		t.Fatal(err)
	}
	if !(usual.Demould > usual.Through+hour) {
		t.Fatalf("stiff %v, gelled %v: gel decides", usual.Demould, usual.Through)
	}
	part, err := task.newPart(likely, finer, still.Working)
	if err != nil {
		t.Fatal(err)
	}
	lead := func(at quantity.Time) float64 {
		profile, err := part.pot.Advance(part.start, 0, at)
		if err != nil {
			t.Fatal(err)
		}
		least := math.Inf(1)
		for _, s := range profile[part.wall.first:] {
			least = min(least, float64(task.Resin.Glass.At(s.Alpha)-max(s.Temperature, quantity.Celsius(23))))
		}
		return least
	}
	margin := float64(task.Cure.DemouldMargin)
	if before, after := lead(usual.Demould-hour/2), lead(usual.Demould+hour/2); !(before < margin && after >= margin) {
		t.Errorf("%.2f K half an hour before, %.2f K after; the margin is %g K", before, after, margin)
	}
}

// TestStopTurning: in a thin wall at the room's temperature, the moment at which the viscosity of the
// youngest layer has passed the limit is that of a film, integrated by Runge-Kutta: α at that moment
// solves η(α) = limit. Laid in one age and so thin that it makes no heat of its own worth 0.01 K; 0.3 %
// of the time is what its own heat and the look at 400 moments may cost.
func TestStopTurning(t *testing.T) {
	task := made(t, "epoxy-ipda", 1, func(t *Task) {
		for _, h := range t.History {
			h.Layers[0].Thickness = 1e-4
		}
	})
	usual, _, err := task.InRoom()
	if err != nil {
		t.Fatal(err)
	}
	room := func(quantity.Time) quantity.Temperature { return quantity.Celsius(23) }
	alpha := film(task, task.History[likely].Layers[0].State.Alpha, room, usual.StopTurning, 10)
	viscosity := task.Resin.ViscosityAt(alpha, 0, quantity.Celsius(23))
	later := film(task, task.History[likely].Layers[0].State.Alpha, room, usual.StopTurning*1.003, 10)
	if !(viscosity < task.Cure.NoSag*1.02) || !(task.Resin.ViscosityAt(later, 0, quantity.Celsius(23)) > task.Cure.NoSag) {
		t.Errorf("stops turning at %v with %v, and 0.3 %% later with %v; want %v", usual.StopTurning, viscosity,
			task.Resin.ViscosityAt(later, 0, quantity.Celsius(23)), task.Cure.NoSag)
	}
	gel := film(task, task.History[likely].Layers[0].State.Alpha, room, usual.Through, 10)
	near(t, "α of a film when the wall gels", gel, task.Resin.Gel, 1e-3)
}

// TestThinWallIsAFilm: a wall so thin and in air moved so fast that it has the oven's temperature cures
// like a film in the oven's air, to 2e-4.
func TestThinWallIsAFilm(t *testing.T) {
	task := made(t, "epoxy-ipda", 1, free, func(t *Task) {
		for _, h := range t.History {
			h.Layers[0].Thickness, h.Layers[0].State.Alpha = 1e-4, 0.6
		}
	})
	task.Cure.Oven.Loss, task.Mandrel.Bore = 5000, 5000
	p := program(ramp(70, 30), hold(2*hour))
	air, err := p.Air(0, quantity.Celsius(23))
	if err != nil {
		t.Fatal(err)
	}
	stages, err := task.stages(0, working)
	if err != nil {
		t.Fatal(err)
	}
	until := p.Lasts(quantity.Celsius(23))
	open := bounds{exotherm: forbidden, mandrel: forbidden, lead: quantity.TemperatureDifference(math.Inf(-1)), aim: math.Inf(1)}
	c, err := stages[likely].follow(task.Resin, air, task.Cure.Oven.Loss, until, minute, open, still.Working)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "degree of cure", c.laziest, film(task, 0.6, air.At, until, 5), 2e-4)
}

// TestEnergy: through a program, the heat that the cure gives is in wall and mandrel or has left by the
// surfaces. 2e-6 of it is the error of Simpson's rule between glances and of the steps.
func TestEnergy(t *testing.T) {
	task := made(t, "epoxy-ipda", 20)
	air, err := program(ramp(80, 60), hold(2*hour), cool(40, 60)).Air(0, quantity.Celsius(23))
	if err != nil {
		t.Fatal(err)
	}
	part, err := task.newPart(likely, finer, still.Working)
	if err != nil {
		t.Fatal(err)
	}
	pot, err := part.wall.pot(task.Resin, air, 25, still.Precision{Alpha: 1e-8, Temperature: 1e-5, FirstStep: 1})
	if err != nil {
		t.Fatal(err)
	}
	net, lost, given, held := pot.Network(), 0.0, 0.0, 0.0
	const interval quantity.Time = 2
	end := 4 * hour
	n := 0
	sum := func(alpha, kelvin []float64) (heat, cured float64) {
		for i := range kelvin {
			heat += net.Capacity[i] * kelvin[i]
			cured += net.Resin[i] * float64(task.Resin.Heat) * alpha[i]
		}
		return heat, cured
	}
	var heat0, cured0 float64
	_, _, err = pot.Follow(part.start, 0, end, interval, func(at quantity.Time, alpha, kelvin []float64) bool {
		heat, cured := sum(alpha, kelvin)
		if n == 0 {
			heat0, cured0 = heat, cured
		}
		held, given = heat-heat0, cured-cured0
		weight := 2.0 + 2*float64(n%2)
		if n == 0 || at >= end {
			weight = 1
		}
		for i, k := range kelvin {
			lost += weight * (net.ToRoom[i] + net.ToWall[i]) * (k - float64(air.At(at)))
		}
		n++
		return false
	})
	if err != nil {
		t.Fatal(err)
	}
	lost *= float64(interval) / 3
	if n != int(end/interval)+1 || !(math.Abs(given-held-lost) <= 2e-6*given) {
		t.Errorf("%d glances: %.9g J given, %.9g held, %.9g lost: off by %.2g", n, given, held, lost, (given-held-lost)/given)
	}
}

// TestTurningOven: a hot-cure system that hardly gels in the room goes into an oven that turns at once, gels
// there, and is told when.
func TestTurningOven(t *testing.T) {
	task := made(t, "epoxy-mthpa", 6, func(t *Task) {
		t.Cure.Oven = schedule.Oven{Highest: quantity.Celsius(120), Ramp: kelvinPerHour(120), Cooling: kelvinPerHour(120), Loss: 25, Turns: true}
		t.Cure.Exotherm, t.Cure.Degree = quantity.Celsius(140), 0.9
	})
	a := solved(t, task)
	if a.Start != 0 || !(a.Tally.Slow().GelAt < a.Program.Lasts(a.From)) || !(a.Sure.Through > 24*hour) {
		t.Errorf("starts %v, gels %v in the oven and %v in the room", a.Start, a.Tally.Slow().GelAt, a.Sure.Through)
	}
}

// TestWidened: within the record's range nothing widens; beyond, by exp(ΔE/R·(1/T_v − 1/T)): 353.15 to
// 393.15 K with 5 kJ/mol is a factor of 1.189 (derived by hand: 601.4·(2.83166e-3 − 2.54356e-3) = 0.17326).
func TestWidened(t *testing.T) {
	task := made(t, "epoxy-ipda", 1)
	if got := task.Widened(quantity.Celsius(60)); got != 1 {
		t.Errorf("inside the range: %g", got)
	}
	near(t, "at 120 °C", task.Widened(quantity.Celsius(120)), 1.1892, 2e-4)
	slow, fast := task.inOven(slow, quantity.Celsius(120)), task.inOven(fast, quantity.Celsius(120))
	ratio := fast.CureRate(0.3, 350) / slow.CureRate(0.3, 350)
	near(t, "fast over slow", ratio, 1.15*1.15*1.1892*1.1892, 2e-3)
}
