package schedule_test

import (
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/resins/document"
	"potlife/schedule"
)

func prepare(t *testing.T, j *schedule.Job) *schedule.Winding {
	t.Helper()
	w, err := schedule.Prepare(j)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// TestUsualLimits: 1500 and 3000 mPa·s, 40 °C, or 12 K above a water jacket
// (the trade's rules); what the job states stands.
func TestUsualLimits(t *testing.T) {
	const stated = "limits: {bath_viscosity: 1500 mPa·s, laid_viscosity: 3000 mPa·s, bath_temperature: 40 °C, reserve: 10 min}\n"
	for _, c := range []struct {
		limits, jacket string
		bath, laid     float64 // mPa·s
		celsius        float64
		reserve        quantity.Time
	}{
		{"", "", 1500, 3000, 40, 600},
		{"", ", jacket: 35 °C", 1500, 3000, 47, 600},
		{"", ", jacket: 20 °C", 1500, 3000, 32, 600},
		{"", ", jacket: [{at: 09:00, is: 30 °C}, {at: 11:00, is: 36 °C}]", 1500, 3000, 48, 600},
		{"limits: {bath_temperature: 38 °C}\n", ", jacket: 35 °C", 1500, 3000, 38, 600},
		{"limits: {bath_viscosity: 900 mPa·s, reserve: 0 min}\n", "", 900, 3000, 40, 0},
		{"limits: {laid_viscosity: 2 Pa·s, reserve: 25 min}\n", "", 1500, 2000, 40, 1500},
	} {
		task := prepare(t, soundJob(t, stated, c.limits, ", drum: {turns: always}", ", drum: {turns: always}"+c.jacket)).Task
		if l := task.Limits; !near(l.BathViscosity, quantity.Viscosity(c.bath/1000)) || !near(l.LaidViscosity, quantity.Viscosity(c.laid/1000)) ||
			!near(l.BathTemperature, quantity.Celsius(c.celsius)) || !near(task.Reserve, c.reserve) {
			t.Errorf("%q %q: limits %v, %v, %v, reserve %v", c.limits, c.jacket, l.BathViscosity, l.LaidViscosity, l.BathTemperature, task.Reserve)
		}
	}
}

// TestSurroundings: a mandrel without a temperature has the room's, walls have
// the jacket's if there is one.
func TestSurroundings(t *testing.T) {
	const room = "room: [{at: 09:00, is: 18 °C}, {at: 11:00, is: 26 °C}]"
	task := prepare(t, soundJob(t, "room: 22 °C", room, ", temperature: 22 °C", "")).Task
	if got := task.Limits.Mandrel.At(3600).Celsius(); !(math.Abs(got-22) <= 1e-9) {
		t.Errorf("mandrel without a temperature: %g °C, the room has 22", got)
	}
	if got := task.Wall.At(3600).Celsius(); !(math.Abs(got-22) <= 1e-9) {
		t.Errorf("wall without a jacket: %g °C, the room has 22", got)
	}
	task = prepare(t, soundJob(t, "room: 22 °C", room, ", drum: {turns: always}", ", drum: {turns: always}, jacket: 30 °C")).Task
	if got := task.Wall.At(3600).Celsius(); !(math.Abs(got-30) <= 1e-9) {
		t.Errorf("wall with a jacket of 30 °C: %g °C", got)
	}
	// The usual loss to water, where the job states none for the wall.
	free := prepare(t, soundJob(t, ", wall_loss: 6 W/(m²·K)", ", jacket: 30 °C")).Task.Bath.Vessel
	if !near(free.WallLoss, 150) || !near(free.SurfaceLoss, 10) {
		t.Errorf("losses %v and %v", free.SurfaceLoss, free.WallLoss)
	}
}

// TestUnitsAddUp: split at circuits, a job winds the same time, resin and fibre
// as split at layers, in eight stretches of whole circuits a layer; sums of a few
// terms lose 1e-13.
func TestUnitsAddUp(t *testing.T) {
	layers := prepare(t, soundJob(t)).Task.Units
	circuits := prepare(t, soundJob(t, "refill: layers", "refill: circuits")).Task.Units
	if len(layers) != 6 || len(circuits) != 6*8 {
		t.Fatalf("%d layers, %d circuits", len(layers), len(circuits))
	}
	var time, resin, fibre [6]float64
	ends := 0
	for _, u := range circuits {
		time[u.Layer] += float64(u.Time)
		resin[u.Layer] += float64(u.Resin)
		fibre[u.Layer] += float64(u.FibreWeight)
		if u.EndsLayer {
			ends++
		}
	}
	for i, u := range layers {
		if !near(quantity.Time(time[i]/float64(u.Time)), 1) || !near(resin[i]/float64(u.Resin), 1) || !near(fibre[i]/float64(u.FibreWeight), 1) {
			t.Errorf("layer %d: %g s, %g kg, %g kg, want %v", i+1, time[i], resin[i], fibre[i], u)
		}
	}
	if ends != 6 {
		t.Errorf("%d circuits end a layer", ends)
	}
}

// TestCarriedResin: resin carried is fibre·(1 − w_f)/w_f·pick-up, at 62 % by
// mass 0.6129 g to the gram of fibre (derived).
func TestCarriedResin(t *testing.T) {
	for pickUp, want := range map[string]float64{"1.0": 0.38 / 0.62, "1.2": 1.2 * 0.38 / 0.62} {
		for _, l := range prepare(t, soundJob(t, "pick_up: 1.0", "pick_up: "+pickUp)).Laid {
			if got := float64(l.Resin / l.Fibre); !near(got, want) {
				t.Errorf("%s carries %g, want %g", l.Name, got, want)
			}
		}
	}
}

// TestFaultsAfterReading: what only shows with the resin at hand is told at its
// place in the job's file, with the line and a mend.
func TestFaultsAfterReading(t *testing.T) {
	for _, c := range []struct {
		old, new      string
		line, column  int
		problem, mend string
	}{
		{"resin: epoxy-ipda", "resin: epoxy-ipa", 2, 8, "no built-in system is called epoxy-ipa", "epoxy-ipda"},
		{"resin: epoxy-ipda", "resin: ./none.yaml", 2, 8, "there is no resin record", "it was looked for in"},
		{"scale: 0.1 g", "scale: 1 g", 19, 18, "a pot of 80 g on a scale of 1 g can miss the ratio by 4.0 %, more than 2 %", "make it 161 g or more, or use a scale that reads 0.2 g or finer"},
		{"scale: 0.1 g", "scale: 5 g", 19, 18, "can miss the ratio by 20.0 %", "use a scale that reads 0.2 g or finer"},
		{"end: gel", "end: 300 mPa·s", 4, 13, "however fast or slow, epoxy-ipda cannot give this pot life", "check time, mass"},
	} {
		_, err := schedule.Prepare(soundJob(t, c.old, c.new))
		var faults *document.Faults
		if !errors.As(err, &faults) || len(faults.List) != 1 {
			t.Errorf("%s: %v", c.new, err)
			continue
		}
		f := faults.List[0]
		if f.File != exampleFile || f.Line != c.line || f.Column != c.column || !strings.Contains(f.Problem, c.problem) || !strings.Contains(f.Mend, c.mend) {
			t.Errorf("%s: %v", c.new, err)
		}
		if !strings.Contains(f.Excerpt, strings.SplitN(c.new, " ", 2)[0]) && !strings.Contains(f.Excerpt, "pots:") && !strings.Contains(f.Excerpt, "pot_life") {
			t.Errorf("%s: shows %s", c.new, f.Excerpt)
		}
	}
}

// TestTooManyStops: circuits without end are told at refill.
func TestTooManyStops(t *testing.T) {
	_, err := schedule.Prepare(soundJob(t, "refill: layers", "refill: circuits",
		"  - {helical: 25 deg}\n  - {helical: 25 deg}\n", "  - {hoop: true, repeat: 3000}\n"))
	var faults *document.Faults
	if !errors.As(err, &faults) || faults.List[0].Line != 11 || !strings.Contains(faults.List[0].Mend, "refill: layers") {
		t.Errorf("got %v", err)
	}
}

// TestFaultyRecordOfAJob: the faults of a crew's own record are told in its own
// file.
func TestFaultyRecordOfAJob(t *testing.T) {
	_, err := schedule.Prepare(soundJob(t, "resin: epoxy-ipda", "resin: ../resins/bad/spread-below-one.yaml"))
	var faults *document.Faults
	if !errors.As(err, &faults) || !strings.HasSuffix(faults.List[0].File, "spread-below-one.yaml") {
		t.Errorf("got %v", err)
	}
}

// TestDoubts: each doubt of a job is told once, and a sound job has none.
func TestDoubts(t *testing.T) {
	const label = "datasheet:\n  pot_life: {time: 60 min, mass: 100 g, at: 23 °C, in: {cup: 70 mm}, end: gel}\n  viscosity: {value: 600 mPa·s, at: 25 °C}\n"
	const closer = "datasheet:\n  pot_life: {time: 150 min, mass: 100 g, at: 23 °C, in: {cup: 70 mm}, end: gel}\n  viscosity: {value: 600 mPa·s, at: 25 °C}\n"
	trusted := resins.Range{From: quantity.Celsius(15), To: quantity.Celsius(80)}
	for _, c := range []struct {
		replace []string
		want    warning.Warning // nil: none
	}{
		{[]string{label, closer}, nil},
		{[]string{label, ""}, resins.Generic{Record: "epoxy-ipda", SpreadTime: 1.6}},
		{[]string{label, closer, "room: 22 °C", "room: 10 °C"}, schedule.OutsideData{Site: schedule.SiteRoom, At: quantity.Celsius(10), Trusted: trusted, Resin: "epoxy-ipda"}},
		{[]string{label, closer, "62 % by mass", "40 % by mass"}, schedule.FibreFractionUnusual{ByMass: 0.4, Lowest: 0.55, Highest: 0.72, Fibre: "carbon"}},
	} {
		got := prepare(t, soundJob(t, c.replace...)).Warnings
		if c.want == nil && len(got) > 0 || c.want != nil && (len(got) != 1 || !cmp.Equal(got[0], c.want, alike(1e-9))) {
			t.Errorf("%q: %+v, want %+v", c.replace, got, c.want)
		}
	}
}

// alike compares quantities of every kind to a part of themselves.
func alike(part float64) cmp.Option {
	figure := func(p cmp.Path) bool { t := p.Last().Type(); return t != nil && t.Kind() == reflect.Float64 }
	return cmp.FilterPath(figure, cmp.Comparer(func(x, y any) bool {
		a, b := reflect.ValueOf(x).Float(), reflect.ValueOf(y).Float()
		return math.Abs(a-b) <= part*math.Max(math.Abs(a), math.Abs(b))
	}))
}
