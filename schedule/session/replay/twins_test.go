package replay

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/schedule"
	"potlife/schedule/session"
)

// A twin is a bath whose reactivity, loss and viscosity are hidden.
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
		label string
		grams float64
		halve bool
	}{
		{"uncalibrated", "", 560, true},
		{"calibrated", calibrated, 400, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			n := 2000
			if testing.Short() {
				n = 100
			}
			twins := raise(t, prepared(t, c.label), c.grams, n)
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
				if !testing.Short() && !(share >= 0.87 && share <= 0.94) {
					t.Errorf("%s readings the sure figure holds in %.1f of 100, not in 87 to 94", which.name, 100*share)
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
	day := newLog(w)
	day.fill(0, grams)
	blind := day.script(t, w, readAt[2])
	prior, err := blind.Play()
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
		for range readAt {
			noise[i] = append(noise[i], 0.5*r.NormFloat64())
		}
	}
	twins := make([]twin, n)
	err = ensemble.Each(n, func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		var err error
		twins[i], err = live(t, w, day, truths[i], noise[i])
		twins[i].before = before
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return twins
}

// live lets one twin be read, and asks for what is left.
func live(t *testing.T, w *schedule.Winding, day *log, truth ensemble.Member, noise []float64) (twin, error) {
	seen := *day
	seen.events = slices.Clone(day.events)
	var first, last quantity.Temperature
	for k, minutes := range readAt {
		world, err := day.script(t, w, minutes).World(truth)
		if err != nil {
			return twin{}, err
		}
		if last = world.Bath.Temperature; k == 0 {
			poured, err := day.script(t, w, 5).World(truth)
			if err != nil {
				return twin{}, err
			}
			first = poured.Bath.Temperature
		}
		celsius := last.Celsius() + noise[k]
		seen.add(minutes, session.Event{Kind: session.BathTemp, IsC: &celsius})
	}
	world, err := day.script(t, w, readAt[2]).World(truth)
	if err != nil {
		return twin{}, err
	}
	left, _, err := world.Ahead().Left(lifeHorizon)
	if err != nil {
		return twin{}, err
	}
	played, err := seen.script(t, w, readAt[2]).Play()
	if err != nil {
		return twin{}, err
	}
	return twin{after: leftOf(t, played), left: float64(left), rise: float64(last - first), alive: left > 0}, nil
}

// leftOf is what an ensemble says is left.
func leftOf(t *testing.T, p *Played) estimate {
	t.Helper()
	left := func(w *World) float64 {
		l, _, err := w.Ahead().Left(lifeHorizon)
		if err != nil {
			t.Error(err)
		}
		return float64(l)
	}
	of := map[*World]float64{}
	for _, w := range p.Unique() {
		of[w] = left(w)
	}
	value := func(w *World) float64 { return of[w] }
	return estimate{likely: p.Likely(value), sure: p.Quantile(ensemble.SureQuantile, value)}
}
