package cure

import (
	"strings"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/schedule"
)

func contains(text, part string) bool { return part != "" && strings.Contains(text, part) }

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
		says  []string
	}{
		{"sound", made(t, "epoxy-ipda", 4), 12 * hour, program(ramp(80, 30), hold(2*hour), cool(40, 60)), nil},
		{"short", made(t, "epoxy-ipda", 4), 12 * hour, program(ramp(60, 30), hold(hour), cool(40, 60)), []string{"laziest place of a slow hardener"}},
		{"too hot", made(t, "epoxy-ipda", 4), 12 * hour, program(ramp(95, 30), hold(2*hour), cool(40, 60)), []string{"the oven has 90 °C"}},
		{"too fast", made(t, "epoxy-ipda", 4), 12 * hour, program(ramp(80, 120), hold(2*hour), cool(40, 90)), []string{"step 1 asks", "step 3 asks"}},
		{"not gelled", made(t, "epoxy-ipda", 4), hour, program(ramp(80, 30), hold(2*hour), cool(40, 60)), []string{"likely hardener has not gelled", "slow hardener has not gelled", "fast hardener has not gelled"}},
		{"turns", made(t, "epoxy-ipda", 4, turning), hour, program(ramp(80, 30), hold(2*hour), cool(40, 60)), nil},
		{"liner", made(t, "epoxy-ipda", 4, liner), 12 * hour, program(ramp(80, 30), hold(2*hour), cool(40, 60)), []string{"likely hardener the mandrel (polyethylene)", "slow hardener the mandrel", "fast hardener the mandrel"}},
		{"softens", made(t, "epoxy-ipda", 4, free), 12 * hour, program(ramp(80, 60), hold(2*hour), cool(40, 60)), []string{"(likely hardener)", "(slow hardener)", "(fast hardener)"}},
		{"exotherm", made(t, "epoxy-ipda", 40, turning), 0, program(ramp(90, 60), hold(2*hour), cool(40, 60)), []string{"place of a likely hardener reaches", "place of a slow hardener reaches", "place of a fast hardener reaches"}},
	} {
		tally, err := c.task.Referee(c.p, c.start)
		if err != nil {
			t.Fatal(err)
		}
		if len(tally.Broken) != len(c.says) {
			t.Errorf("%s: %d promises broken, want %d: %q", c.name, len(tally.Broken), len(c.says), tally.Broken)
			continue
		}
		for i, words := range c.says {
			if !contains(tally.Broken[i], words) {
				t.Errorf("%s: %q does not say %q", c.name, tally.Broken[i], words)
			}
		}
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
			t.Errorf("least %g, most %g, target %g: %q", least, most, target, tally.Broken)
		}
	}
}

// TestSmokeAndFire: no figure stands for a temperature that only means danger.
func TestSmokeAndFire(t *testing.T) {
	task := made(t, "epoxy-teta", 120, func(t *Task) {
		t.Cure.Oven.Turns, t.Fibre.Conductivity = true, 1
		for _, h := range t.History {
			for i := range h.Layers {
				h.Layers[i].FibreVolume = 0.1
			}
		}
	})
	tally, err := task.Referee(program(ramp(90, 60), hold(hour), cool(40, 60)), 0)
	if err != nil {
		t.Fatal(err)
	}
	all := strings.Join(tally.Broken, "; ")
	if !(tally.Fast().Peak > smokeAndFire) || !contains(all, "over 200 °C (smoke, fire)") {
		t.Errorf("peak %v: %s", tally.Fast().Peak, all)
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
