package cure

import (
	"slices"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/schedule"
)

func program(steps ...Step) *Program { return &Program{Steps: steps} }

func ramp(c, perHour float64) Step {
	return Step{Kind: Ramp, To: quantity.Celsius(c), Rate: kelvinPerHour(perHour)}
}

func hold(t quantity.Time) Step { return Step{Kind: Hold, Hold: t} }

func cool(c, perHour float64) Step {
	return Step{Kind: Cool, To: quantity.Celsius(c), Rate: kelvinPerHour(perHour)}
}

// TestRefereeObjects: each promise that a program breaks is named, and only those.
func TestRefereeObjects(t *testing.T) {
	liner := func(t *Task) {
		t.Mandrel.Material, _ = schedule.MaterialNamed("polyethylene")
	}
	turning := func(t *Task) { t.Cure.Oven.Turns = true }
	for _, c := range []struct {
		name  string
		task  *Task
		start quantity.Time
		p     *Program
		want  func(*Task, *Tally) []warning.Warning
	}{
		{"sound", made(t, "epoxy-ipda", 4), 12 * hour, program(ramp(80, 30), hold(2*hour), cool(40, 60)), nothing},
		{"short", made(t, "epoxy-ipda", 4), 12 * hour, program(ramp(60, 30), hold(hour), cool(40, 60)), func(t *Task, y *Tally) []warning.Warning {
			return []warning.Warning{TargetMissed{Degree: y.Slow().Laziest.Degree, Glass: y.Slow().Laziest.Glass, Asked: t.Cure.Degree}}
		}},
		{"too hot", made(t, "epoxy-ipda", 4), 12 * hour, program(ramp(95, 30), hold(2*hour), cool(40, 60)), func(*Task, *Tally) []warning.Warning {
			return []warning.Warning{AirTooHot{Air: quantity.Celsius(95), Highest: quantity.Celsius(90)}}
		}},
		{"too fast", made(t, "epoxy-ipda", 4), 12 * hour, program(ramp(80, 120), hold(2*hour), cool(40, 90)), func(*Task, *Tally) []warning.Warning {
			return []warning.Warning{
				StepTooFast{Step: 1, Rate: kelvinPerHour(120), Allowed: kelvinPerHour(60)},
				StepTooFast{Step: 3, Rate: kelvinPerHour(90), Allowed: kelvinPerHour(60)},
			}
		}},
		{"not gelled", made(t, "epoxy-ipda", 4), hour, program(ramp(80, 30), hold(2*hour), cool(40, 60)), byEach(func(h Hardener, _ *Task, _ *BathTally) warning.Warning { return NotGelled{h} })},
		{"turns", made(t, "epoxy-ipda", 4, turning), hour, program(ramp(80, 30), hold(2*hour), cool(40, 60)), nothing},
		{"liner", made(t, "epoxy-ipda", 4, liner), 12 * hour, program(ramp(80, 30), hold(2*hour), cool(40, 60)), byEach(func(h Hardener, t *Task, y *BathTally) warning.Warning {
			return MandrelTooHot{Hardener: h, Material: "polyethylene", Peak: y.Mandrel, Allowed: t.Mandrel.Material.Highest}
		})},
		{"softens", made(t, "epoxy-ipda", 4, free), 12 * hour, program(ramp(80, 60), hold(2*hour), cool(40, 60)), byEach(func(h Hardener, _ *Task, y *BathTally) warning.Warning {
			return FreePartSoftens{Hardener: h, At: y.LeadAt, Lead: y.Lead, Margin: 5}
		})},
		{"exotherm", made(t, "epoxy-ipda", 40, turning), 0, program(ramp(90, 60), hold(2*hour), cool(40, 60)), byEach(func(h Hardener, _ *Task, y *BathTally) warning.Warning {
			return PartTooHot{Hardener: h, Peak: y.Peak, Allowed: quantity.Celsius(110)}
		})},
	} {
		tally, err := c.task.Referee(c.p, c.start)
		if err != nil {
			t.Fatal(err)
		}
		if want := c.want(c.task, tally); !slices.Equal(tally.Broken, want) {
			t.Errorf("%s: breaks %+v, want %+v", c.name, tally.Broken, want)
		}
	}
}

func nothing(*Task, *Tally) []warning.Warning { return nil }

// byEach is a promise that all three hardeners break.
func byEach(one func(Hardener, *Task, *BathTally) warning.Warning) func(*Task, *Tally) []warning.Warning {
	return func(t *Task, y *Tally) []warning.Warning {
		return []warning.Warning{one(likely, t, y.Likely()), one(slow, t, y.Slow()), one(fast, t, y.Fast())}
	}
}

// TestTargetIsOfTheLeastCured: a target that only a part of the wall has reached is not
// reached. The targets lie on both sides of what the least-cured point of the slow bath has.
func TestTargetIsOfTheLeastCured(t *testing.T) {
	task := made(t, "epoxy-ipda", 20)
	p := program(ramp(80, 60), hold(10*minute), cool(40, 60))
	tally, err := task.Referee(p, 12*hour)
	if err != nil {
		t.Fatal(err)
	}
	least, most := tally.Slow().Laziest.Degree, tally.Slow().Hottest.Degree
	if !(most-least > 100*degreeRounding) {
		t.Fatalf("the wall has cured to %g and %g: alike", least, most)
	}
	for target, broken := range map[float64]int{least: 0, (least + most) / 2: 1} {
		task.Cure.Degree = target
		if tally, err = task.Referee(p, 12*hour); err != nil {
			t.Fatal(err)
		}
		if len(tally.Broken) != broken {
			t.Errorf("least %g, most %g, target %g: %+v", least, most, target, tally.Broken)
		}
	}
}

// TestBathsAreInOrder: a slow hardener is later in everything and never further cured.
func TestBathsAreInOrder(t *testing.T) {
	task := made(t, "epoxy-polyetheramine-ipda", 10)
	a := solved(t, task)
	slow, likely, fast := a.Tally.Slow(), a.Tally.Likely(), a.Tally.Fast()
	if !(slow.GelAt > likely.GelAt && likely.GelAt > fast.GelAt) || !(slow.TurnUntil > likely.TurnUntil && likely.TurnUntil > fast.TurnUntil) {
		t.Errorf("gel %v %v %v, no sag %v %v %v", slow.GelAt, likely.GelAt, fast.GelAt, slow.TurnUntil, likely.TurnUntil, fast.TurnUntil)
	}
	if !(slow.Laziest.Degree < likely.Laziest.Degree && likely.Laziest.Degree < fast.Laziest.Degree) {
		t.Errorf("cured %v %v %v", slow.Laziest, likely.Laziest, fast.Laziest)
	}
	if !(a.Likely.StopTurning <= a.Likely.Through && a.Likely.Gel <= a.Likely.Through && a.Likely.Through <= a.Likely.Demould) {
		t.Errorf("out of order: %+v", a.Likely)
	}
}

// TestRoomAndRefereeAgree: two ways of finding gel and no sag, one by events and one by looking every
// minute: a minute apart at most.
func TestRoomAndRefereeAgree(t *testing.T) {
	task := made(t, "epoxy-ipda", 8)
	a := solved(t, task)
	near(t, "gel of the slow bath", float64(a.Tally.Slow().GelAt), float64(a.Sure.Through), 61)
	near(t, "gel of the likely bath", float64(a.Tally.Likely().GelAt), float64(a.Likely.Through), 61)
	near(t, "first gel", float64(a.Tally.Likely().FirstGel), float64(a.Likely.Gel), 61)
}
