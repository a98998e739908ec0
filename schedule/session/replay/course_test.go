package replay

import (
	"math"
	"slices"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule/session/daytest"
)

// hidden is the bath that the readings of changedDay are taken from.
var hidden = ensemble.Member{Rate: 1.15, Viscosity: 1.1, Loss: 0.9, Weight: 1}

// changedDay has a layer from one bath, a change, and a layer from another, with readings of
// both kinds.
func changedDay(t *testing.T) day {
	t.Helper()
	d := newDay(daytest.Prepared(t, calibrated...))
	bath := func(minutes float64) *World {
		t.Helper()
		world, err := d.script(t, minutes).World(hidden)
		if err != nil {
			t.Fatal(err)
		}
		return world
	}
	d.Events[0].At = d.Clock(-15)
	d.Fill(-10, 300) // before the start of the job
	d.Begin(0, 1)
	d.Temperature(10, bath(10).Bath.Temperature.Celsius())
	d.Pause(20)
	d.Resume(25)
	d.Viscosity(30, float64(bath(30).Viscosity()))
	d.Done(40, 1)
	d.Changed(42)
	d.Fill(45, 300)
	d.Begin(55, 2)
	d.Temperature(60, bath(60).Bath.Temperature.Celsius())
	d.Done(90, 2)
	return d
}

// TestCourseIsTheDayOfItsMembers holds the course of a member against the same member played
// without stops. Stops only restart the integrator: followed strictly, what is left is far
// below 1e-4 K and 1e-5 of ln η. With the precision of a replay each lies within what that
// lets a step err by, which says nothing of the course.
func TestCourseIsTheDayOfItsMembers(t *testing.T) {
	usual := vessel.Working
	vessel.Working = vessel.Strict
	t.Cleanup(func() { vessel.Working = usual })
	d := changedDay(t)
	s := d.script(t, 90)
	at := s.Moments(300)
	for _, m := range ensemble.Draw(s.Task.Spread, 6, 3) {
		stopped, err := s.course(m, at)
		if err != nil {
			t.Fatal(err)
		}
		through, err := s.World(m)
		if err != nil {
			t.Fatal(err)
		}
		last := len(at) - 1
		if d := math.Abs(stopped.temperature[last] - float64(through.Bath.Temperature)); !(d <= 1e-4) {
			t.Errorf("temperature is %g K off", d)
		}
		if d := math.Abs(math.Log(stopped.viscosity[last] / float64(through.Viscosity()))); !(d <= 1e-5) {
			t.Errorf("viscosity is %g off", d)
		}
		for k, r := range s.Readings {
			says := through.says[k]
			if r.Viscous {
				says = math.Exp(says)
			}
			if d := math.Abs(stopped.says[k]/says - 1); !(d <= 1e-5) {
				t.Errorf("reading %d: says %g with stops, %g without", r.Seq, stopped.says[k], says)
			}
		}
	}
}

func TestCourseShowsStepsAndGaps(t *testing.T) {
	d := changedDay(t)
	p, err := d.script(t, 200).Play()
	if err != nil {
		t.Fatal(err)
	}
	ends := []quantity.Time{40 * 60, 90 * 60}
	at := p.Script.Moments(120)
	c, err := p.Course(at)
	if err != nil {
		t.Fatal(err)
	}
	if c.Index(7*60+0.1) != -1 {
		t.Error("a moment that is not there has an index")
	}
	if !slices.IsSorted(at) || at[0] != -5*60 || at[len(at)-1] != 90*60 || len(c.Temperature) != len(at) || len(c.Readings) != 3 {
		t.Fatalf("%d moments from %v to %v, %d temperatures, %d readings", len(at), at[0], at[len(at)-1], len(c.Temperature), len(c.Readings))
	}
	for k, moment := range at {
		// A pour's first moment is before it.
		before := k+1 < len(at) && at[k+1] == moment
		empty := moment == -5*60 && before || moment >= 42*60 && moment < 50*60 && !(moment == 42*60 && before) || moment == 50*60 && before
		v, temp := c.Viscosity[k], c.Temperature[k]
		if got := math.IsNaN(float64(v.Likely)) && math.IsNaN(float64(temp.High)); got != empty {
			t.Errorf("at %v s: empty is %v, want %v", float64(moment), got, empty)
		}
		if !empty && (!(v.Low <= v.Likely && v.Likely <= v.High) || !(temp.Low <= temp.Likely && temp.Likely <= temp.High)) {
			t.Errorf("at %v s: quantiles out of order: %v, %v", float64(moment), v, temp)
		}
	}
	for _, twice := range []quantity.Time{-5 * 60, 42 * 60, 50 * 60} {
		i, _ := slices.BinarySearch(at, twice)
		if at[i+1] != twice || c.Index(twice) != i+1 {
			t.Errorf("%v s is not there twice", float64(twice))
		}
	}
	for _, end := range ends {
		if i := c.Index(end); i < 0 || at[i] != end {
			t.Errorf("the end of a layer, %v s, is not among the moments", float64(end))
		}
	}
	// The members were weighed by the readings: what they likely say is within twice the
	// standard deviation of each.
	for k, r := range p.Script.Readings {
		says := c.Readings[k].Likely
		if r.Viscous {
			says = math.Log(says)
		}
		if d := r.deviation(says); !(math.Abs(d) <= 2) {
			t.Errorf("reading %d lies %.1f standard deviations from what is likely", r.Seq, d)
		}
	}
}

func TestCourseOfADayWithoutAPour(t *testing.T) {
	d := newDay(daytest.Prepared(t))
	p, err := d.script(t, 5).Play()
	if err != nil {
		t.Fatal(err)
	}
	at := p.Script.Moments(10)
	c, err := p.Course(at)
	if err != nil || len(at) != 0 || len(c.Temperature) != 0 {
		t.Errorf("%d moments, %v", len(at), err)
	}
}

func BenchmarkCourseLongDay(b *testing.B) {
	d := longDay(b)
	p, err := d.script(b, 980).Play()
	if err != nil {
		b.Fatal(err)
	}
	at := p.Script.Moments(300)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := p.Course(at); err != nil {
			b.Fatal(err)
		}
	}
}
