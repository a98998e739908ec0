package schedule_test

import (
	"math"
	"strings"
	"testing"

	"potlife/kinetics/vessel"
	"potlife/schedule"
)

// TestContradictions: two figures of a job that no plan can bring together are told
// with both of them, and such a job has no plan; nor is there anything of the kind in a
// sound one, or in one that only looks hard.
func TestContradictions(t *testing.T) {
	for _, c := range []struct {
		name    string
		replace []string
		want    []string // all of them in the one that is told
	}{
		{"a sound job", nil, nil},
		{
			"a limit below the resin",
			[]string{"bath_temperature: 40 °C", "bath_temperature: 15 °C"},
			[]string{"resin is mixed at 20 °C", "limits.bath_temperature, 15 °C", "give a higher"},
		},
		{
			"a limit below the room",
			[]string{"bath_temperature: 40 °C", "bath_temperature: 21 °C"},
			[]string{"the room is at 22 °C", "limits.bath_temperature, 21 °C"},
		},
		{
			"a jacket above the limit",
			[]string{"stirred: true", "stirred: true, jacket: 60 °C"},
			[]string{"the jacket is at 60 °C", "limits.bath_temperature, 40 °C"},
		},
		{
			"a jacket so cold that the usual limit is below the resin",
			[]string{"stirred: true", "stirred: true, jacket: 5 °C", "bath_temperature: 40 °C, ", ""},
			[]string{"resin is mixed at 20 °C", "17 °C, 12 K above the jacket"},
		},
		{
			"a room above the usual limit",
			[]string{"room: 22 °C", "room: 60 °C", "bath_temperature: 40 °C, ", ""},
			[]string{"the room is at 60 °C", "40 °C, the usual limit"},
		},
		{
			"a viscosity below that of fresh resin",
			[]string{"bath_viscosity: 1500", "bath_viscosity: 200"},
			[]string{"when mixing ends, after 5 min", "never thins to limits.bath_viscosity, 200 mPa·s"},
		},
		{
			"a laid viscosity below that of fresh resin",
			[]string{"laid_viscosity: 3000", "laid_viscosity: 200"},
			[]string{"at the mandrel's 22 °C", "limits.laid_viscosity is 200 mPa·s"},
		},
		{
			"a mandrel out of the cold store",
			[]string{", temperature: 22 °C", ", temperature: -20 °C"},
			[]string{"at the mandrel's -20 °C", "warm the mandrel"},
		},
		{
			"a reserve longer than any life",
			[]string{"reserve: 10 min", "reserve: 24 h"},
			[]string{"a fresh bath likely lasts", "limits.reserve, 24 h", "a lower reserve"},
		},
		{
			"mixing that ages the resin",
			[]string{"mixing: 5 min", "mixing: 120 min"},
			[]string{"when mixing ends, after 120 min", "limits.laid_viscosity"},
		},
		{
			"mixing that outlasts the resin",
			[]string{"mixing: 5 min", "mixing: 120 min", "resin_at: 20 °C", "resin_at: 35 °C"},
			[]string{"a pot of 80 g gels in its cup", "120 min that mixing takes", "pots.mixing"},
		},
		{
			"resin out of an oven",
			[]string{"resin_at: 20 °C", "resin_at: 150 °C", "bath_temperature: 40 °C", "bath_temperature: 160 °C"},
			[]string{"a pot of 80 g gels in its cup"},
		},
		{"warm resin that cools in its cup", []string{"resin_at: 20 °C", "resin_at: 34 °C", "bath_temperature: 40 °C", "bath_temperature: 33.9 °C"}, nil},
		{"resin that must thin first", []string{"resin_at: 20 °C", "resin_at: 8 °C"}, nil},
		{"a hot mandrel", []string{", temperature: 22 °C", ", temperature: 80 °C"}, nil},
		{"a room that gets too warm at noon", []string{"room: 22 °C", "room: [{at: 09:00, is: 22 °C}, {at: 12:00, is: 50 °C}]"}, nil},
	} {
		w := prepare(t, soundJob(t, c.replace...))
		told := said(w.Contradictions)
		if len(told) > 1 || (len(told) == 1) != (c.want != nil) {
			t.Errorf("%s: told %q", c.name, told)
			continue
		}
		for _, want := range c.want {
			if !strings.Contains(told[0], want) {
				t.Errorf("%s: %q does not say %q", c.name, told[0], want)
			}
		}
		if c.want == nil {
			continue
		}
		if !holds(said(w.Warnings), told[0]) {
			t.Errorf("%s: the warnings are %q", c.name, w.Warnings)
		}
		if s, err := w.Solve(); err != nil || s.Feasible() {
			t.Errorf("%s: there is a plan all the same, or %v", c.name, err)
		}
	}
}

func holds(list []string, wanted string) bool {
	for _, text := range list {
		if text == wanted {
			return true
		}
	}
	return false
}

// TestDoubtsOfSizes: sizes and measured figures that the file format allows and no
// workshop has are doubted, each with both figures; those near the usual are not.
func TestDoubtsOfSizes(t *testing.T) {
	for _, c := range []struct {
		replace []string
		want    string // empty: no doubt
	}{
		{nil, ""},
		{[]string{"cup: 90 mm", "cup: 5 mm"}, "mm deep in a cup of 5 mm: are the sizes right?"},
		{[]string{"length: 300 mm, width: 120 mm", "length: 10 m, width: 10 m"}, "120 g would stand 0.001 mm deep in a tray of 10 m by 10 m"},
		{[]string{"length: 300 mm, width: 120 mm", "length: 10 mm, width: 10 mm"}, "deep in a tray of 10 mm by 10 mm"},
		{[]string{"tow: 240 m", "tow: 24 km"}, "layer 4 helical 45° has 24000 m of tow as measured, its geometry takes 239 m"},
		{[]string{"tow: 240 m", "tow: 240 mm"}, "layer 4 helical 45° has 0.24 m of tow as measured"},
		{[]string{"time: 24 min", "time: 24 s"}, "layer 4 helical 45° is wound in 24 s as measured, 240 m of tow at 40 times the machine's 15 m/min"},
		{[]string{"time: 24 min, tow: 240 m", "time: 4 min"}, "at 3.99 times the machine's"},
		{[]string{"time: 24 min", "time: 40 min"}, ""},
		{[]string{"tow: 240 m", "tow: 200 m"}, ""},
		{[]string{", temperature: 22 °C}", ", temperature: 110 °C}"}, "the mandrel at 110 °C lies outside"},
		{[]string{", temperature: 22 °C}", ", temperature: 75 °C}"}, "its end is wound onto what has set"},
		{[]string{"room: 22 °C", "room: [{at: 09:00, is: 22 °C}, {at: 09:20, is: 95 °C}, {at: 09:40, is: 22 °C}]"}, "the room at 95 °C lies outside"},
	} {
		var told []string
		for _, doubt := range said(prepare(t, soundJob(t, c.replace...)).Warnings) {
			if !strings.HasPrefix(doubt, "the label's pot life is") { // of the example itself
				told = append(told, doubt)
			}
		}
		found := false
		for _, doubt := range told {
			found = found || c.want != "" && strings.Contains(doubt, c.want)
		}
		if found != (c.want != "") || c.want == "" && len(told) > 0 {
			t.Errorf("%q: told %q, want %q", c.replace, told, c.want)
		}
	}
}

// TestFlatTraysAreSafe: in a tray as wide as a room a film of resin cannot run away,
// however the search for the greatest safe mass begins; what is safe there is as deep
// as in any other wide tray.
func TestFlatTraysAreSafe(t *testing.T) {
	record := prepare(t, soundJob(t)).Resolved
	depth := map[string]float64{}
	for _, text := range []string{"{length: 400 mm, width: 400 mm}", "{length: 10 m, width: 10 m}"} {
		bath, _, err := schedule.ReadVessel("--vessel", text)
		if err != nil {
			t.Fatal(err)
		}
		s := schedule.Standing{Record: record, Mass: 0.25, Bath: bath, Room: 295.15}
		l, err := s.Last()
		if err != nil {
			t.Fatal(err)
		}
		if l.Danger.Runs() {
			t.Errorf("%s: 250 g run away, %v are safe", text, l.Danger.Safe)
		}
		depth[text] = float64(bath.Vessel(false).Depth(l.Danger.Safe, record.Kinetics.Density))
	}
	// The upright walls of the small tray cool it too: by a share of what floor and surface
	// lose, and what is safe is deeper by that share where it is thin enough to be of one
	// temperature. The bracket of 0.5 % at both ends is left.
	a, b := depth["{length: 400 mm, width: 400 mm}"], depth["{length: 10 m, width: 10 m}"]
	walls := func(side, depth float64) float64 {
		return 4 * side * depth * float64(vessel.UsualTrayWallLoss) / (side * side * float64(vessel.UsualTrayWallLoss+vessel.UsualTraySurfaceLoss))
	}
	if want := (1 + walls(0.4, a)) / (1 + walls(10, b)); !(math.Abs(a/b/want-1) < 0.01) {
		t.Errorf("%g and %g m deep are safe, want %g times", a, b, want)
	}
}
