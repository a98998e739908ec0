package schedule_test

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/schedule"
)

// TestContradictions: two figures of a job that no plan can bring together are told
// with both of them, and such a job has no plan; nor is there anything of the kind in a
// sound one, or in one that only looks hard.
func TestContradictions(t *testing.T) {
	for _, c := range []struct {
		name    string
		replace []string
		want    warning.Warning // with what follows from the resin at 0
	}{
		{"a sound job", nil, nil},
		{
			"a limit below the resin",
			[]string{"bath_temperature: 40 °C", "bath_temperature: 15 °C"},
			schedule.WarmerThanLimit{Site: schedule.SiteResin, At: quantity.Celsius(20), Limit: quantity.Celsius(15), From: schedule.FromJob},
		},
		{
			"a limit below the room",
			[]string{"bath_temperature: 40 °C", "bath_temperature: 21 °C"},
			schedule.WarmerThanLimit{Site: schedule.SiteRoom, At: quantity.Celsius(22), Limit: quantity.Celsius(21), From: schedule.FromJob},
		},
		{
			"a jacket above the limit",
			[]string{"drum: {turns: always}", "drum: {turns: always}, jacket: 60 °C"},
			schedule.WarmerThanLimit{Site: schedule.SiteJacket, At: quantity.Celsius(60), Limit: quantity.Celsius(40), From: schedule.FromJob},
		},
		{
			"a jacket so cold that the usual limit is below the resin",
			[]string{"drum: {turns: always}", "drum: {turns: always}, jacket: 5 °C", "bath_temperature: 40 °C, ", ""},
			schedule.WarmerThanLimit{Site: schedule.SiteResin, At: quantity.Celsius(20), Limit: quantity.Celsius(17), From: schedule.FromJacket},
		},
		{
			"a room above the usual limit",
			[]string{"room: 22 °C", "room: 60 °C", "bath_temperature: 40 °C, ", ""},
			schedule.WarmerThanLimit{Site: schedule.SiteRoom, At: quantity.Celsius(60), Limit: quantity.Celsius(40), From: schedule.FromUse},
		},
		{
			"a viscosity below that of fresh resin",
			[]string{"bath_viscosity: 1500", "bath_viscosity: 200"},
			schedule.NeverThins{Limit: 0.2, Mixing: 300},
		},
		{
			"a laid viscosity below that of fresh resin",
			[]string{"laid_viscosity: 3000", "laid_viscosity: 200"},
			schedule.TooThickOnMandrel{Limit: 0.2, Mandrel: quantity.Celsius(22), Mixing: 300},
		},
		{
			"a mandrel out of the cold store",
			[]string{", temperature: 22 °C", ", temperature: -20 °C"},
			schedule.TooThickOnMandrel{Limit: 3, Mandrel: quantity.Celsius(-20), Mixing: 300},
		},
		{
			"a reserve longer than any life",
			[]string{"reserve: 10 min", "reserve: 24 h"},
			schedule.FreshBathTooShort{Reserve: 86400, EndsBy: vessel.BathViscosity},
		},
		{
			"mixing that ages the resin",
			[]string{"mixing: 5 min", "mixing: 90 min"},
			schedule.TooThickOnMandrel{Limit: 3, Mandrel: quantity.Celsius(22), Mixing: 5400},
		},
		{
			"mixing that outlasts the resin",
			[]string{"mixing: 5 min", "mixing: 120 min", "resin_at: 20 °C", "resin_at: 35 °C"},
			schedule.PotGelsInMixing{Pot: 0.08, Mixing: 7200},
		},
		{
			"resin out of an oven",
			[]string{"resin_at: 20 °C", "resin_at: 150 °C", "bath_temperature: 40 °C", "bath_temperature: 160 °C"},
			schedule.PotGelsInMixing{Pot: 0.08, Mixing: 300},
		},
		{"warm resin that cools in its cup", []string{"resin_at: 20 °C", "resin_at: 34 °C", "bath_temperature: 40 °C", "bath_temperature: 33.9 °C"}, nil},
		{"resin that must thin first", []string{"resin_at: 20 °C", "resin_at: 8 °C"}, nil},
		{"a hot mandrel", []string{", temperature: 22 °C", ", temperature: 80 °C"}, nil},
		{"a room that gets too warm at noon", []string{"room: 22 °C", "room: [{at: 09:00, is: 22 °C}, {at: 12:00, is: 50 °C}]"}, nil},
	} {
		w := prepare(t, soundJob(t, c.replace...))
		told := w.Contradictions
		if len(told) > 1 || (len(told) == 1) != (c.want != nil) {
			t.Errorf("%s: told %+v", c.name, told)
			continue
		}
		if c.want == nil {
			continue
		}
		if got := fixed(t, told[0]); !cmp.Equal(got, c.want, alike(1e-9)) {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
		if !slices.Contains(w.Warnings, told[0]) {
			t.Errorf("%s: the warnings are %+v", c.name, w.Warnings)
		}
		if s, err := w.Solve(); err != nil || s.Feasible() {
			t.Errorf("%s: there is a plan all the same, or %v", c.name, err)
		}
	}
}

// fixed is a contradiction without what follows from the resin, which is on the wrong side
// of the job's figure.
func fixed(t *testing.T, found warning.Warning) warning.Warning {
	t.Helper()
	wrong := false
	switch w := found.(type) {
	case schedule.NeverThins:
		wrong = w.Viscosity > w.Limit && w.At > 0
		w.Viscosity, w.At = 0, 0
		found = w
	case schedule.TooThickOnMandrel:
		wrong = w.Viscosity > w.Limit
		w.Viscosity = 0
		found = w
	case schedule.FreshBathTooShort:
		wrong = w.Lasts < w.Reserve
		w.Lasts = 0
		found = w
	default:
		return found
	}
	if !wrong {
		t.Errorf("%+v is none", found)
	}
	return found
}

// TestDoubtsOfSizes: sizes and measured figures that the file format allows and no
// workshop has are doubted, each with both figures; those near the usual are not.
func TestDoubtsOfSizes(t *testing.T) {
	cup := func(across quantity.Length) resins.Container { return resins.Container{Cup: across} }
	trusted := resins.Range{From: quantity.Celsius(15), To: quantity.Celsius(80)}
	const layer = "4 helical 45°"
	for _, c := range []struct {
		replace []string
		want    warning.Warning // nil: no doubt; what follows from laying the layer is 0
	}{
		{nil, nil},
		{[]string{"cup: 90 mm", "cup: 5 mm"}, schedule.VesselTooDeep{Mass: 0.25, In: cup(0.005)}},
		{[]string{"length: 300 mm, width: 120 mm", "length: 10 m, width: 10 m"}, schedule.VesselTooShallow{Mass: 0.12, In: resins.Container{Length: 10, Width: 10}}},
		{[]string{"length: 300 mm, width: 120 mm", "length: 10 mm, width: 10 mm"}, schedule.VesselTooDeep{Mass: 0.7, In: resins.Container{Length: 0.01, Width: 0.01}}},
		{[]string{"tow: 240 m", "tow: 24 km"}, schedule.TowDoubtful{Layer: layer, Measured: 24000, Computed: 239}},
		{[]string{"tow: 240 m", "tow: 240 mm"}, schedule.TowDoubtful{Layer: layer, Measured: 0.24, Computed: 239}},
		{[]string{"time: 24 min", "time: 24 s"}, schedule.TimeDoubtful{Layer: layer, Measured: 24, Tow: 240, Machine: 0.25}},
		{[]string{"time: 24 min, tow: 240 m", "time: 4 min"}, schedule.TimeDoubtful{Layer: layer, Measured: 240, Tow: 239, Machine: 0.25}},
		{[]string{"time: 24 min", "time: 40 min"}, nil},
		{[]string{"tow: 240 m", "tow: 200 m"}, nil},
		{[]string{", temperature: 22 °C}", ", temperature: 110 °C}"}, schedule.OutsideData{Site: schedule.SiteMandrel, At: quantity.Celsius(110), Trusted: trusted, Resin: "epoxy-ipda"}},
		{[]string{", temperature: 22 °C}", ", temperature: 75 °C}"}, schedule.LayerGelsUnderWay{Mandrel: quantity.Celsius(75)}},
		{[]string{"room: 22 °C", "room: [{at: 09:00, is: 22 °C}, {at: 09:20, is: 95 °C}, {at: 09:40, is: 22 °C}]"}, schedule.OutsideData{Site: schedule.SiteRoom, At: quantity.Celsius(95), Trusted: trusted, Resin: "epoxy-ipda"}},
	} {
		w := prepare(t, soundJob(t, c.replace...))
		told := w.Warnings[len(w.Label):] // those of the example's own label
		found := false
		for _, doubt := range told {
			// Half a metre of 239 m is what the sentence would round away.
			found = found || cmp.Equal(plain(t, w, doubt), c.want, alike(2e-3), cmpopts.IgnoreFields(resins.Container{}, "Drum", "SurfaceLoss", "WallLoss", "StandsOn"))
		}
		if found != (c.want != nil) || c.want == nil && len(told) > 0 {
			t.Errorf("%q: told %+v, want %+v", c.replace, told, c.want)
		}
	}
}

// plain is a doubt without what follows from the resin and from laying, which agrees with
// the rest of it.
func plain(t *testing.T, w *schedule.Winding, found warning.Warning) warning.Warning {
	t.Helper()
	deep := func(mass quantity.Mass, in resins.Container, depth quantity.Length) {
		if want := in.Vessel(false).Depth(mass, w.Record.Kinetics.Density); !near(depth, want) {
			t.Errorf("%v %v stands %v deep, not %v", mass, in, depth, want)
		}
	}
	switch d := found.(type) {
	case schedule.VesselTooDeep:
		deep(d.Mass, d.In, d.Depth)
		d.Depth = 0
		return d
	case schedule.VesselTooShallow:
		deep(d.Mass, d.In, d.Depth)
		d.Depth = 0
		return d
	case schedule.LayerGelsUnderWay:
		if !(d.Gels > 0 && d.Gels < d.Takes) || d.Layer == "" {
			t.Errorf("%+v does not gel under way", d)
		}
		return schedule.LayerGelsUnderWay{Mandrel: d.Mandrel}
	}
	return found
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
	// Upright walls are left out, so that width does not count; the bracket of 0.5 % at both
	// ends is left.
	a, b := depth["{length: 400 mm, width: 400 mm}"], depth["{length: 10 m, width: 10 m}"]
	if !(math.Abs(a/b-1) < 0.01) {
		t.Errorf("%g and %g m deep are safe, want the same", a, b)
	}
}
