package advice

import "testing"

// every walks the whole input space of the table.
func every(yield func(Situation)) {
	flags := []bool{false, true}
	for _, wound := range flags {
		for _, running := range flags {
			for _, inHand := range flags {
				for _, bath := range []BathState{Empty, Thick, Sound, Past} {
					for _, fit := range []Fit{FitsNot, FitsOnReserve, FitsWell} {
						for _, topUp := range flags {
							for _, change := range flags {
								for _, dry := range flags {
									yield(Situation{wound, running, inHand, bath, dry, fit, topUp, change})
								}
							}
						}
					}
				}
			}
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
		advice, rule := s.Advise()
		seen[rule]++
		switch advice {
		case CarryOn:
			if s.Bath != Sound || s.Wound || s.Fit == FitsNot {
				t.Errorf("%+v: %s by %s", s, advice, rule)
			}
			if s.Dry && s.Running {
				t.Errorf("%+v: the tow is to run through a bath that is all but empty", s)
			}
			if s.Fit == FitsOnReserve && !s.InHand {
				t.Errorf("%+v: begins a layer on the reserve", s)
			}
		case TopUp:
			if s.Bath != Sound || !s.TopUp {
				t.Errorf("%+v: a top-up into a bath that is not sound, or that does not help", s)
			}
		case Change:
			if s.Running && s.Bath != Empty {
				t.Errorf("%+v: a change while the tow runs", s)
			}
			if s.Wound {
				t.Errorf("%+v: a change with nothing left to wind", s)
			}
		case Stop:
			if !s.Running && !s.Wound && s.Bath != Thick {
				t.Errorf("%+v: told to stop a machine that stands", s)
			}
		default:
			t.Errorf("%+v: no advice, but %q", s, advice)
		}
	})
	if want := 2 * 2 * 2 * 4 * 2 * 3 * 2 * 2; states != want {
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
	strict := map[Advice]int{CarryOn: 0, TopUp: 1, Change: 2, Stop: 2}
	every(func(s Situation) {
		better := s
		if s.Fit < FitsWell {
			better.Fit++
		}
		before, _ := s.Advise()
		after, _ := better.Advise()
		if strict[after] > strict[before] {
			t.Errorf("%+v: %s, with a better fit %s", s, before, after)
		}
	})
}
