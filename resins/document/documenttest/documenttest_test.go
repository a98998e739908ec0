package documenttest

import (
	"math"
	"reflect"
	"testing"

	"potlife/kinetics/quantity"
)

// TestUnbounded: a value that is not finite is found wherever it hides, and none where
// there is none.
func TestUnbounded(t *testing.T) {
	type inner struct{ hidden quantity.Time }
	type outer struct {
		List []inner
		Map  map[string]*inner
		Any  any
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		one := inner{quantity.Time(bad)}
		for want, value := range map[string]any{
			".List[1].hidden": outer{List: []inner{{}, one}},
			".Map[x].hidden":  outer{Map: map[string]*inner{"x": &one}},
			".Any":            outer{Any: bad},
		} {
			if at, found := unbounded(reflect.ValueOf(value), "", 0); !found || at != want {
				t.Errorf("%g: found %v at %q, want %q", bad, found, at, want)
			}
		}
	}
	sound := inner{3}
	if at, found := unbounded(reflect.ValueOf(outer{List: []inner{sound}, Map: map[string]*inner{"x": &sound, "y": nil}, Any: 1.5}), "", 0); found {
		t.Errorf("found at %s where all is finite", at)
	}
}

// TestAmiss: every number is replaced, those of comments and words are not.
func TestAmiss(t *testing.T) {
	var got []string
	for text := range Amiss("a1: 2.5 mm # 3\n- [-4, 5e3 Hz]\n") {
		got = append(got, text)
	}
	if len(got) != 3*len(slips) || got[0] != "a1: 0 mm # 3\n- [-4, 5e3 Hz]\n" || got[2*len(slips)+1] != "a1: 2.5 mm # 3\n- [-4, -1 Hz]\n" {
		t.Errorf("%d texts: %q", len(got), got)
	}
}
