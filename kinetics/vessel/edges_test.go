package vessel_test

import (
	"fmt"
	"math"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// steep is a law whose slope is infinite where nothing has cured, and where all has.
func steep(k1 float64) kinetics.Resin {
	r := medium()
	r.Vitrification = nil
	r.Cure = kinetics.KamalSourour{
		K1: kinetics.Arrhenius{A: quantity.Rate(k1), E: 56000}, K2: kinetics.Arrhenius{A: 9.065e5, E: 56000}, M: 0.5, N: 0.7,
	}
	return r
}

// jumpy is a room that goes from −5 to 45 °C in a minute and back an hour later, all
// week.
func jumpy(t *testing.T) vessel.Series {
	t.Helper()
	var at []quantity.Time
	var is []quantity.Temperature
	for i := range 7 * 24 {
		from, to := -5.0, 45.0
		if i%2 == 1 {
			from, to = to, from
		}
		jump := quantity.Time(i)*hour + 30*minute
		at = append(at, jump, jump+minute)
		is = append(is, quantity.Celsius(from), quantity.Celsius(to))
	}
	s, err := vessel.NewSeries(at, is)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// An edge is a bath at the end of what can be asked for.
type edge struct {
	name       string
	resin      kinetics.Resin
	vessel     vessel.Vessel
	room, wall vessel.Series
	start      vessel.State
}

// edges are all laws, vessels and masses in all climates.
func edges(t *testing.T) []edge {
	var list []edge
	climates := []struct {
		name       string
		room, wall vessel.Series
		from       float64
	}{
		{"at −20 °C", constant(-20), constant(-20), -20},
		{"mixed at 200 °C", constant(23), constant(23), 200},
		{"at 200 °C", constant(200), constant(200), 200},
		{"in a jacket of 90 °C", constant(10), constant(90), 10},
		{"in a room that jumps", jumpy(t), jumpy(t), 20},
	}
	for _, r := range []struct {
		name  string
		resin kinetics.Resin
	}{{"fast", fast()}, {"slow", slow()}, {"steep", steep(9e4)}, {"two-stage", twoStage(430e3)}} {
		for _, v := range []struct {
			name   string
			vessel vessel.Vessel
		}{{"tray", tray()}, {"jacketed tray", vessel.Tray(0.3, 0.12, 10, 150)}, {"cup", vessel.Cup(0.09, 11, 11)}, {"no loss", vessel.Cup(0.09, 0, 0)}} {
			for _, mass := range []quantity.Mass{1e-3, 0.3, 50} {
				for _, c := range climates {
					list = append(list, edge{
						name:  fmt.Sprintf("%v of %s in a %s %s", mass, r.name, v.name, c.name),
						resin: r.resin, vessel: v.vessel, room: c.room, wall: c.wall, start: fresh(mass, c.from),
					})
				}
			}
		}
	}
	return list
}

func constant(celsius float64) vessel.Series { return vessel.Constant(quantity.Celsius(celsius)) }

// mostWork is how many right-hand sides a week may cost. The dearest is a gram in a room
// that jumps every hour: it follows each jump within half a minute, some 430 right-hand
// sides a jump, 73 000 in all.
const mostWork = 80_000

// TestEdges: a week of every edge costs a bounded number of right-hand sides, stays
// between 0 and 1 and between the coldest surroundings and what all heat at once would
// give, and gels when it does strictly. Working precision promises 1e-4 of what comes
// slowly; resin mixed at 200 °C that is cold a minute later is off by four times that.
func TestEdges(t *testing.T) {
	const week = 7 * 24 * hour
	gelled := 0
	for _, e := range edges(t) {
		b := vessel.New(e.resin, e.vessel, e.room, e.wall, vessel.Working)
		end, samples, err := b.Trace(e.start, 0, week, hour, vessel.Tow{})
		if err != nil {
			t.Errorf("%s: %v", e.name, err)
			continue
		}
		if n := b.Evaluations(); n > mostWork {
			t.Errorf("%s: %d right-hand sides, more than %d", e.name, n, mostWork)
		}
		lowest := min(coldest(e.room), coldest(e.wall), e.start.Temperature)
		highest := max(e.room.Highest(), e.wall.Highest(), e.start.Temperature) + quantity.Temperature(e.resin.AdiabaticRise())
		for _, s := range samples {
			// Within the absolute errors that Working lets its steps sum up to.
			if !(s.Alpha >= 0 && s.Alpha <= 1+1e-4) || !(s.Temperature >= lowest-0.5 && s.Temperature <= highest+0.5) {
				t.Errorf("%s: α = %g at %v", e.name, s.Alpha, s.Temperature)
				break
			}
		}
		if end.Mass != e.start.Mass {
			t.Errorf("%s: the mass becomes %v", e.name, end.Mass)
		}
		if sameGel(t, e, b) {
			gelled++
		}
	}
	if gelled < 100 {
		t.Errorf("%d of them gel: the test compares too few", gelled)
	}
}

func coldest(s vessel.Series) quantity.Temperature {
	low := s.At(0)
	for _, at := range s.Times() {
		low = min(low, s.At(at))
	}
	return low
}

// sameGel compares the gel time with that of a strict run and tells whether there is one.
func sameGel(t *testing.T, e edge, b *vessel.Bath) bool {
	t.Helper()
	const week = 7 * 24 * hour
	got, err := b.TimeTo(vessel.EndPoint{Gel: true}, e.start, 0, week)
	if err != nil {
		t.Errorf("%s: %v", e.name, err)
		return false
	}
	strict := vessel.New(e.resin, e.vessel, e.room, e.wall, vessel.Strict)
	want, err := strict.TimeTo(vessel.EndPoint{Gel: true}, e.start, 0, week)
	if err != nil {
		t.Errorf("%s, strictly: %v", e.name, err)
		return false
	}
	// A gel within seconds is found to a hundredth of one.
	if got != want && !(math.Abs(float64(got-want)) <= 5e-4*float64(want)+0.01) {
		t.Errorf("%s: gels after %.3f s, strictly after %.3f", e.name, float64(got), float64(want))
	}
	return !math.IsInf(float64(want), 1)
}

// TestSteepStart: with a power of α below 1 the slope at 0 is infinite. With k1 it
// begins at once, and the time to half of gel is that of the integral ∫dα/rate, computed
// here with α = x⁴, which takes the slope away. To 2e-3, a fifth of what a crew's figure may
// move: a step's error of 2e-6 in α counts as its root here. Without k1 nothing begins: resin that has
// not reacted at all stays so, and one that has by a millionth does not.
func TestSteepStart(t *testing.T) {
	for _, k1 := range []float64{9e4, 1, 1e-3} {
		r := steep(k1)
		r.Heat = 0
		b := inRoom(r, tray(), 23)
		end, err := b.TimeTo(vessel.EndPoint{Gel: true}, fresh(0.3, 23), 0, 400*hour)
		if err != nil {
			t.Fatal(err)
		}
		const pieces = 20000
		top, sum := math.Sqrt(math.Sqrt(r.Gel)), 0.0
		for i := range pieces {
			x := top * (float64(i) + 0.5) / pieces
			sum += 4 * x * x * x / r.CureRate(x*x*x*x, float64(quantity.Celsius(23))) * top / pieces
		}
		if !(math.Abs(float64(end)/sum-1) <= 2e-3) {
			t.Errorf("k1 = %g: gels after %.2f s, the integral is %.2f", k1, float64(end), sum)
		}
	}
	b := inRoom(steep(0), tray(), 23)
	for _, c := range []struct {
		alpha float64
		gels  bool
	}{{0, false}, {1e-6, true}} {
		s := fresh(0.3, 23)
		s.Alpha = c.alpha
		at, err := b.TimeTo(vessel.EndPoint{Gel: true}, s, 0, 400*hour)
		if err != nil {
			t.Fatal(err)
		}
		if gels := !math.IsInf(float64(at), 1); gels != c.gels {
			t.Errorf("without k1, from α = %g: gels %v, want %v", c.alpha, gels, c.gels)
		}
	}
}

// TestDraws: the tow takes nothing, a breath, nearly all there is, or cools the bath with
// more fibre than anyone winds: the bath is followed to the end, the work is bounded, what
// is left is what was not drawn, and nothing gets colder than the room.
func TestDraws(t *testing.T) {
	room := constant(23)
	for _, c := range []struct {
		name string
		tow  vessel.Tow
		left quantity.Mass
	}{
		{"none", vessel.Tow{}, 0.75},
		{"a breath", vessel.Tow{DrawKgPerS: 1e-9, FibreKgPerS: 1e-8, HeatCapacity: 750}, 0.75 - 7200e-9},
		{"to the last gram", vessel.Tow{DrawKgPerS: 0.749 / 7200, FibreKgPerS: 1e-3, HeatCapacity: 750}, 0.001},
		{"a torrent of fibre", vessel.Tow{FibreKgPerS: 10, HeatCapacity: 750}, 0.75},
	} {
		b := vessel.New(fast(), tray(), room, room, vessel.Working)
		end, samples, err := b.Trace(fresh(0.75, 40), 0, 2*hour, 0.6, c.tow)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if n := b.Evaluations(); n > mostWork {
			t.Errorf("%s: %d right-hand sides", c.name, n)
		}
		if !(math.Abs(float64(end.Mass-c.left)) <= 1e-9) {
			t.Errorf("%s: %v left, want %v", c.name, end.Mass, c.left)
		}
		for _, s := range samples {
			if !(s.Temperature >= quantity.Celsius(22.9)) {
				t.Errorf("%s: %v is colder than the room", c.name, s.Temperature)
				break
			}
		}
	}
}
