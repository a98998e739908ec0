package fit

import (
	"fmt"
	"math"
	"slices"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/kinetics/warning"
	"potlife/resins"
)

// mostReadings of a log are compared; more cost time and tell nothing new.
const mostReadings = 60

// thinned is a log as it is compared: some readings of temperature with their σ,
// and readings of viscosity.
type thinned struct {
	begins            float64   // s after mixing
	first             float64   // K
	at, is            []float64 // s after the first reading, K
	sigma             []float64 // K
	thickAt, logThick []float64 // s, ln(Pa·s)
}

// thin picks readings evenly along the curve, where time and temperature count
// the same, and gives them the σ of (3) of the package comment.
func thin(s *Statement, density quantity.Density) (*thinned, []warning.Warning, error) {
	l := s.Log
	if l == nil {
		return nil, nil, fmt.Errorf("the log %s has not been read", s.File)
	}
	t := &thinned{begins: float64(s.Begins), first: float64(l.Is[0])}
	if s.Begins == 0 {
		t.begins = float64(l.Begins)
	}
	for _, i := range along(l) {
		t.at, t.is = append(t.at, float64(l.At[i])), append(t.is, float64(l.Is[i]))
	}
	t.sigma = make([]float64, len(t.at))
	for i := range t.at {
		t.sigma[i] = thermometerSigma
	}
	warnings, err := t.thicken(s, density)
	return t, warnings, err
}

// along returns the indices of at most mostReadings readings, the first and the
// last among them.
func along(l *Log) []int {
	n := len(l.At)
	if n <= mostReadings {
		all := make([]int, n)
		for i := range all {
			all[i] = i
		}
		return all
	}
	low, high := slices.Min(l.Is), slices.Max(l.Is)
	length := make([]float64, n)
	for i := 1; i < n; i++ {
		time := float64((l.At[i] - l.At[i-1]) / l.Span())
		rise := math.Abs(float64(l.Is[i]-l.Is[i-1])) / math.Max(float64(high-low), 5)
		length[i] = length[i-1] + math.Hypot(time, rise)
	}
	picked := []int{0}
	for i := 1; i < n; i++ {
		if length[i] >= length[n-1]*float64(len(picked))/(mostReadings-1) && len(picked) < mostReadings {
			picked = append(picked, i)
		}
	}
	if picked[len(picked)-1] != n-1 {
		picked[len(picked)-1] = n - 1
	}
	return picked
}

// thicken takes the viscosities over, those of flow times through their cup.
func (t *thinned) thicken(s *Statement, density quantity.Density) ([]warning.Warning, error) {
	add := func(at quantity.Time, v quantity.Viscosity) {
		t.thickAt, t.logThick = append(t.thickAt, float64(at)), append(t.logThick, math.Log(float64(v)))
	}
	for _, v := range s.Log.Viscosities {
		add(v.At, v.Is)
	}
	if len(s.Log.FlowTimes) == 0 {
		return nil, nil
	}
	cup, err := resins.FlowCupNamed(s.FlowCup)
	if err != nil {
		return nil, err
	}
	outside := 0
	for _, f := range s.Log.FlowTimes {
		v, err := cup.Viscosity(f.Took, density)
		if err != nil {
			outside++
			continue
		}
		add(f.At, v)
	}
	if outside > 0 {
		return []warning.Warning{FlowTimesOutside{File: s.File, Outside: outside, All: len(s.Log.FlowTimes), Cup: cup.Name}}, nil
	}
	return nil, nil
}

// samplesOfLog is how finely a predicted cup is sampled: a five-hundredth of the
// span is a fifth of what its clock is taken for.
const samplesOfLog = 500

// predict follows the cup from mixing to the last reading and compares every
// reading with the whole curve.
func (t *thinned) predict(r *kinetics.Resin, s *Statement, losses, first float64, into []float64) (float64, error) {
	// The curve goes on beyond the last reading: one that ended there would let a
	// late runaway miss that reading by its height alone.
	last := t.last()
	samples, err := t.follow(r, s, losses, first, last+beyond*t.late(last))
	if err != nil {
		return 0, err
	}
	at, warm := make([]float64, len(samples)), make([]float64, len(samples))
	for i, s := range samples {
		at[i], warm[i] = float64(s.At), float64(s.Temperature)
	}
	c := curve{at: at, is: warm}
	for i := range t.at {
		into[i] = c.distance(t.at[i], t.is[i], t.late(t.at[i]), t.sigma[i])
	}
	if len(t.thickAt) > 0 {
		thick := make([]float64, len(samples))
		for i, s := range samples {
			thick[i] = s.LogViscosity(r)
		}
		c := curve{at: at, is: thick}
		for i := range t.thickAt {
			into[len(t.at)+i] = c.distance(t.thickAt[i], t.logThick[i], t.late(t.thickAt[i]), viscositySigma)
		}
	}
	end, _ := slices.BinarySearch(at, last*(1+1e-9))
	return t.figure(at[:end], warm[:end]), nil
}

// beyond is how many σ of its time the curve goes on after the last reading.
const beyond = 3

// follow simulates the cup; times count from the first reading.
func (t *thinned) follow(r *kinetics.Resin, s *Statement, losses, first, until float64) ([]vessel.Sample, error) {
	pot := resins.PotTest{
		In: s.container(r.Density), Mass: s.Mass, Room: s.Room,
		From: quantity.Temperature(t.first + first), Losses: losses, Coarse: true,
	}
	from, to := quantity.Time(-t.begins), quantity.Time(until)
	return pot.Trace(*r, from, to, (to-from)/samplesOfLog)
}

// late is the σ of the time of a reading, s.
func (t *thinned) late(at float64) float64 { return clockSigma*(at+t.begins) + leastLate }

func (t *thinned) last() float64 {
	last := t.at[len(t.at)-1]
	if n := len(t.thickAt); n > 0 {
		last = math.Max(last, t.thickAt[n-1])
	}
	return last
}

// leastRise is the rise in K from which on its half has a time of its own.
const leastRise = 3.0

// figure stands for a log in a report: the time after mixing at which a curve
// reaches half of the log's own rise, or its last temperature where the log
// hardly rises.
func (t *thinned) figure(at, is []float64) float64 {
	if !t.rises() {
		return is[len(is)-1]
	}
	half := (t.first + slices.Max(t.is)) / 2
	for i := 1; i < len(is); i++ {
		if is[i] >= half {
			share := 1.0
			if is[i] > is[i-1] {
				share = math.Max(0, (half-is[i-1])/(is[i]-is[i-1]))
			}
			return t.begins + at[i-1] + share*(at[i]-at[i-1])
		}
	}
	return math.Inf(1)
}

func (t *thinned) rises() bool { return slices.Max(t.is)-t.first >= leastRise }
