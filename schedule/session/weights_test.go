package session

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"
)

// TestWeightsOver: every field replaces the one below where it is given, and only then.
func TestWeightsOver(t *testing.T) {
	kind := reflect.TypeFor[Weights]()
	for i := range kind.NumField() {
		name := kind.Field(i).Name
		filled := func() (w Weights) {
			field := reflect.ValueOf(&w).Elem().Field(i)
			field.Set(reflect.New(field.Type().Elem()))
			return w
		}
		upper, lower := filled(), filled()
		if upper.Empty() {
			t.Errorf("%s alone is nothing", name)
		}
		at := func(w Weights) any { return reflect.ValueOf(w).Field(i).Interface() }
		if got := upper.Over(lower); at(got) != at(upper) || at(got) == at(lower) {
			t.Errorf("%s is not replaced", name)
		}
		if got := (Weights{}).Over(lower); got != lower {
			t.Errorf("%s is lost: %+v", name, got)
		}
		if got := upper.Over(Weights{}); got != upper {
			t.Errorf("%s is not taken: %+v", name, got)
		}
	}
	if !(Weights{}).Empty() {
		t.Error("nothing is something")
	}
}

// TestWeighed: weights are kept after the finish too, by their names and nothing more,
// the latest of each counts, and undo takes them back.
func TestWeighed(t *testing.T) {
	s := newSession(t)
	part, again, cups := 1534.5, 1530.0, 0.0
	keep := func(minute int, w Weights) Event {
		e, err := say(s, Weighed, minute, func(e *Event) { e.Weights = &w })
		if err != nil {
			t.Fatal(err)
		}
		return e
	}
	keep(1, Weights{PartG: &part, CupsG: &cups})
	if _, err := say(s, Finish, 2, nil); err != nil {
		t.Fatal(err)
	}
	later := keep(3, Weights{PartG: &again})
	now := func() Weights {
		all, err := s.Events()
		if err != nil {
			t.Fatal(err)
		}
		return WeightsOf(all)
	}
	if w := now(); *w.PartG != again || w.CupsG == nil || *w.CupsG != 0 || w.MandrelG != nil {
		t.Errorf("weighed: %+v", w)
	}
	line, err := json.Marshal(later)
	if err != nil || !strings.Contains(string(line), `"kind":"weighed","weights":{"part_g":1530}`) {
		t.Errorf("%s, %v", line, err)
	}
	if _, err := say(s, Undo, 4, nil); err != nil {
		t.Fatal(err)
	}
	if w := now(); *w.PartG != part {
		t.Errorf("the later one was taken back, and the part is %v g", *w.PartG)
	}
	if _, err := say(s, Mixed, 5, func(e *Event) { e.MassG = 100 }); err == nil {
		t.Error("a pot was mixed after the finish")
	}
}
