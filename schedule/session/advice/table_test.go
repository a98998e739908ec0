package advice

import (
	"testing"

	"potlife/schedule/session/hazard"
)

// inputs are how many values each input of the table has, in the order of [situation].
var inputs = []int{3, 3, 2, 2, 2, 2, 2, 4, 2, 2, 2, 4, 2, 4, 2, 2, 2}

// situation is the one with so many steps of each input.
func situation(at []int) Situation {
	on := func(i int) bool { return at[i] == 1 }
	return Situation{
		Hazard: hazard.Stage(at[0]), BathHazard: hazard.Stage(at[1]), Silent: on(2), Wound: on(3), Emptied: on(4), Running: on(5), InHand: on(6),
		Bath: []BathState{Empty, Thick, Sound, Past}[at[7]], Off: on(8), Dry: on(9), Pot: on(10), Step: Step(at[11]), InForce: on(12), Fit: Fit(at[13]),
		TopUp: on(14), Change: on(15), Ahead: on(16),
	}
}

// every walks the whole input space of the table, but for a bath that is a worse hazard than the
// worst of all.
func every(yield func(Situation)) {
	at := make([]int, len(inputs))
	for {
		if s := situation(at); s.BathHazard <= s.Hazard {
			yield(s)
		}
		i := 0
		for ; i < len(at); i++ {
			if at[i]++; at[i] < inputs[i] {
				break
			}
			at[i] = 0
		}
		if i == len(at) {
			return
		}
	}
}

// TestEverySituationHasItsAdvice: no state without advice, none that carries on past a limit,
// with an empty bath, one that cannot be wound from or a part that is wound, and none that
// begins a layer on the reserve.
func TestEverySituationHasItsAdvice(t *testing.T) {
	seen := map[Rule]int{}
	states := 0
	every(func(s Situation) {
		states++
		first, rule := s.Advise()
		seen[rule]++
		dangerous := s.Hazard != hazard.None
		if dangerous != (first == KeepAway || first == Spread) || !dangerous && s.Ahead != (first == SetClock) || !dangerous && !s.Ahead && s.Silent != (first == Log) {
			t.Fatalf("%+v: %s by %s comes first", s, first, rule)
		}
		advice, rule := s.Machine()
		seen[rule]++
		if ends := advice == Stop || advice == EmptyOut || advice == Nothing; s.Ahead && advice != SetClock && !ends {
			t.Fatalf("%+v: %s by %s, and how old the bath is is not known", s, advice, rule)
		}
		switch advice {
		case SetClock:
			if !s.Ahead || s.BathHazard != hazard.None || s.Running && s.Bath == Past {
				t.Fatalf("%+v: %s by %s", s, advice, rule)
			}
		case CarryOn:
			if s.BathHazard != hazard.None || s.Bath != Sound || s.Wound || s.Off || s.Fit == FitsNot && s.Step != GoesOn {
				t.Errorf("%+v: %s by %s", s, advice, rule)
			}
			if s.Dry && s.Running {
				t.Errorf("%+v: the tow is to run through a bath that is all but empty", s)
			}
			if rule == OnReserve && !s.InHand {
				t.Errorf("%+v: begins a layer on the reserve", s)
			}
		case TopUp:
			if s.Bath != Sound || s.Off || !s.TopUp && !s.Pot && s.Step != PlanTopUp {
				t.Errorf("%+v: a top-up into a bath that is not sound, or that does not help", s)
			}
		case Change:
			if s.BathHazard != hazard.None || s.Running && s.Bath != Empty {
				t.Errorf("%+v: a change while the tow runs, or of a bath that nobody touches", s)
			}
			if s.Wound {
				t.Errorf("%+v: a change with nothing left to wind", s)
			}
		case Stop:
			if !s.Running && s.BathHazard == hazard.None && s.Bath != Thick {
				t.Errorf("%+v: told to stop a machine that stands", s)
			}
		case EmptyOut, Nothing:
			if !s.Wound || s.Emptied != (advice == Nothing) {
				t.Errorf("%+v: %s", s, advice)
			}
		default:
			t.Errorf("%+v: no advice, but %q", s, advice)
		}
	})
	const want = 6 * 2 * 2 * 2 * 2 * 2 * 4 * 2 * 2 * 2 * 4 * 2 * 4 * 2 * 2 * 2 // 6: three stages, the bath's no worse than the worst
	if states != want {
		t.Errorf("%d situations walked, not %d", states, want)
	}
	for _, line := range table {
		if seen[line.rule] == 0 {
			t.Errorf("rule %s is never reached", line.rule)
		}
	}
}

// TestBetterIsNeverStricter: what makes a situation better never makes the advice stricter.
func TestBetterIsNeverStricter(t *testing.T) {
	strict := map[Advice]int{CarryOn: 0, TopUp: 1, Change: 2, Stop: 2, EmptyOut: 2, Nothing: 2, SetClock: 2}
	every(func(s Situation) {
		better := s
		if s.Fit < FitsWhole {
			better.Fit++
		}
		if better.Fit == FitsOnReserve && !s.InHand { // that is said of a layer in hand
			better.Fit++
		}
		before, _ := s.Machine()
		after, _ := better.Machine()
		if strict[after] > strict[before] {
			t.Errorf("%+v: %s, with a better fit %s", s, before, after)
		}
	})
}
