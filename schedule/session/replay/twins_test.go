package replay

import (
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/testrun"
	"potlife/schedule"
	"potlife/schedule/batches"
	"potlife/schedule/session/daytest"
)

// A twin is a bath whose reactivity, loss and viscosity are hidden, and how warm it was mixed.
type twin struct {
	before, after estimate // without readings and with three of them
	left          float64  // what was really left, s
	rise          float64  // of the bath over its temperature when poured, K
	alive         bool
}

type estimate struct{ likely, sure float64 }

// readAt are the minutes at which the thermometer is read: every ten minutes.
var readAt = []float64{15, 25, 35}

// TestTwins: 2000 baths, hidden factors drawn from the record's spread, a thermometer with
// a standard deviation of 0.5 °C every ten minutes, none selected. The sure figure must hold
// in 87 to 94 of 100: 90 is what it promises, and the binomial error of 2000 is 0.7; the
// rest is the error of a 10 % quantile from an ensemble of finite size. Where the record is
// uncalibrated (spread 1.6), readings of baths that warm must halve the error of what is
// left.
func TestTwins(t *testing.T) {
	for _, c := range []struct {
		name  string
		label []string
		grams float64
		halve bool
	}{
		{"uncalibrated", nil, 560, true},
		{"calibrated", calibrated, 400, false},
		{"by drill", slices.Concat(calibrated, byDrill), 400, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			n := testrun.Count(100, 2000)
			// Of 100 the binomial error is 3.0: the bounds are three of it wider.
			slack := float64(testrun.Count(9, 0)) / 100
			twins := raise(t, daytest.Prepared(t, c.label...), c.grams, n)
			for _, which := range []struct {
				name string
				of   func(*twin) estimate
			}{
				{"before", func(w *twin) estimate { return w.before }},
				{"after", func(w *twin) estimate { return w.after }},
			} {
				holds := 0
				for i := range twins {
					if twins[i].left >= which.of(&twins[i]).sure-0.5 {
						holds++
					}
				}
				share := float64(holds) / float64(n)
				t.Logf("%s readings the sure figure holds in %.1f of 100", which.name, 100*share)
				if !(share >= 0.87-slack && share <= 0.94+slack) {
					t.Errorf("%s readings the sure figure holds in %.1f of 100, not in 87 to 94 ± %.0f", which.name, 100*share, 100*slack)
				}
			}
			var without, with []float64
			for i := range twins {
				if w := &twins[i]; w.alive && w.rise > 2 {
					without = append(without, math.Abs(w.before.likely-w.left))
					with = append(with, math.Abs(w.after.likely-w.left))
				}
			}
			if len(with) == 0 {
				t.Fatal("no twin warms by more than 2 K within three readings: the test asks nothing")
			}
			a, b := median(without)/60, median(with)/60
			t.Logf("%d twins warm by more than 2 K and live: median error of what is left %.1f min without, %.1f min with readings", len(with), a, b)
			if c.halve && !(b <= a/2) {
				t.Errorf("readings bring the median error from %.1f to %.1f min only, not to half", a, b)
			}
		})
	}
}

func median(x []float64) float64 {
	slices.Sort(x)
	return x[len(x)/2]
}

// raise makes twins and asks for what is left at 35 minutes, without the readings and with
// them.
func raise(t *testing.T, w *schedule.Winding, grams float64, n int) []twin {
	t.Helper()
	f := newFamily(t, w, grams)
	prior, err := f.day.script(t, readAt[2]).Play()
	if err != nil {
		t.Fatal(err)
	}
	before := leftOf(t, prior)
	// Truths from their own stream, not those of the ensemble.
	r := rand.New(rand.NewPCG(20261125, 3))
	spread := w.Task.Spread
	factor := func(f float64) float64 { return math.Exp(ensemble.Sigma(f) * r.NormFloat64()) }
	truths, noise := make([]ensemble.Member, n), make([][]float64, n)
	for i := range truths {
		truths[i] = ensemble.Member{Rate: factor(spread.Time), Viscosity: factor(spread.Viscosity), Loss: factor(spread.Loss), Weight: 1}
		if spread.Mixed > 0 {
			truths[i].Mixed = spread.Mixed * r.NormFloat64()
		}
		for range readAt {
			noise[i] = append(noise[i], 0.5*r.NormFloat64())
		}
	}
	twins := make([]twin, n)
	err = ensemble.Each(n, func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		var err error
		twins[i], err = f.live(t, truths[i], noise[i])
		twins[i].before = before
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return twins
}

// A family is what all twins have in common: the day, and the first round of their ensembles,
// which is drawn before anything is read.
type family struct {
	day   day
	read  *Script // the day with readings of any value when poured and at readAt
	known map[ensemble.Member]*World
	left  map[*World]float64 // of those known, which are not to be followed by several at once
}

func newFamily(t *testing.T, w *schedule.Winding, grams float64) *family {
	t.Helper()
	f := &family{day: newDay(w), left: map[*World]float64{}}
	f.day.Fill(0, grams)
	asked := f.readings(readAt, make([]float64, len(readAt)))
	script := asked.script(t, readAt[2])
	first := &lives{script: script, known: map[ensemble.Member]*World{}}
	worlds, err := first.of(ensemble.Draw(w.Task.Spread, script.Members(), batches.Seed))
	if err != nil {
		t.Fatal(err)
	}
	f.known = first.known
	for _, world := range worlds {
		if f.left[world], err = leftIn(world); err != nil {
			t.Fatal(err)
		}
	}
	f.read = f.readings(append([]float64{5}, readAt...), make([]float64, len(readAt)+1)).script(t, readAt[2])
	return f
}

// readings is the day with a thermometer read.
func (f *family) readings(minutes, celsius []float64) day {
	d := newDay(f.day.W)
	d.Events = slices.Clone(f.day.Events)
	for k := range minutes {
		d.Temperature(minutes[k], celsius[k])
	}
	return d
}

// live lets one twin be read, and asks for what is left.
func (f *family) live(t *testing.T, truth ensemble.Member, noise []float64) (twin, error) {
	world, err := f.read.World(truth)
	if err != nil {
		return twin{}, err
	}
	left, err := leftIn(world)
	if err != nil {
		return twin{}, err
	}
	celsius := make([]float64, len(readAt))
	for k := range celsius {
		celsius[k] = quantity.Temperature(world.says[k+1]).Celsius() + noise[k]
	}
	script := f.readings(readAt, celsius).script(t, readAt[2])
	played, err := script.playWith(&lives{script: script, known: maps.Clone(f.known)}, script.Members(), batches.Seed)
	if err != nil {
		return twin{}, err
	}
	return twin{
		after: leftKnown(t, played, f.left), left: left, alive: left > 0,
		rise: world.says[len(readAt)] - world.says[0],
	}, nil
}

func leftIn(w *World) (float64, error) {
	left, _, err := w.Ahead().Left(lifeHorizon)
	return float64(left), err
}

// leftOf is what an ensemble says is left.
func leftOf(t *testing.T, p *Played) estimate {
	t.Helper()
	return leftKnown(t, p, nil)
}

// leftKnown is leftOf where what is left in some worlds is known.
func leftKnown(t *testing.T, p *Played, known map[*World]float64) estimate {
	t.Helper()
	of := map[*World]float64{}
	for _, w := range p.Unique() {
		left, found := known[w]
		if !found {
			var err error
			if left, err = leftIn(w); err != nil {
				t.Error(err)
			}
		}
		of[w] = left
	}
	value := func(w *World) float64 { return of[w] }
	return estimate{likely: p.Likely(value), sure: p.Quantile(ensemble.SureQuantile, value)}
}
