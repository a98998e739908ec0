package still_test

import (
	"fmt"
	"math"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/conduction"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

// steep is a law whose slope is infinite where nothing has cured, and where all has.
func steep() kinetics.Resin {
	r := medium()
	r.Vitrification = nil
	r.Cure = kinetics.KamalSourour{
		K1: kinetics.Arrhenius{A: 1, E: 56000}, K2: kinetics.Arrhenius{A: 9.065e5, E: 56000}, M: 0.5, N: 0.7,
	}
	return r
}

// jumpy is a room that goes from −5 to 45 °C in a minute and back an hour later, for a
// day.
func jumpy(t *testing.T) vessel.Series {
	t.Helper()
	var at []quantity.Time
	var is []quantity.Temperature
	for i := range 24 {
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

// An edge is a body at the end of what can be asked for.
type edge struct {
	name       string
	resin      kinetics.Resin
	body       still.Body
	room, wall vessel.Series
	from       float64
}

func edges(t *testing.T) []edge {
	loss := func(v quantity.HeatTransfer) vessel.Vessel { return vessel.Tray(0.3, 0.12, 10, v) }
	thin := conduction.Layer{Thickness: 2e-4, Conductivity: 0.6, Density: 1560, HeatCapacity: 1150, Resin: 480, Cells: 4}
	thick := thin
	thick.Thickness = 0.06
	bodies := []struct {
		name string
		body still.Body
	}{
		{"1 g in a tray", still.Tray{Vessel: loss(6), Mass: 1e-3}},
		{"50 kg in a tray", still.Tray{Vessel: loss(6), Mass: 50}},
		{"a jacketed tray", still.Tray{Vessel: loss(150), Mass: 0.5}},
		{"1 g in a cup", still.Cup{Mass: 1e-3, Diameter: 0.09, SurfaceLoss: 11, WallLoss: 11, FloorLoss: 11}},
		{"50 kg in a drum", still.Cup{Mass: 50, Diameter: 0.4, SurfaceLoss: 11, WallLoss: 11, FloorLoss: 11}},
		{"a film on a mandrel", still.Wall{Inner: 0.04, Length: 1, Inside: 5, Outside: 11, Layers: []conduction.Layer{thin}}},
		{"60 mm of laminate", still.Wall{Inner: 0.04, Length: 1, Inside: 5, Outside: 11, Layers: []conduction.Layer{thick}}},
	}
	climates := []struct {
		name       string
		room, wall vessel.Series
		from       float64
	}{
		{"at −20 °C", celsius(-20), celsius(-20), -20},
		{"mixed at 200 °C", celsius(23), celsius(23), 200},
		{"with 200 °C around it", celsius(200), celsius(200), 20},
		{"on a plate of 90 °C", celsius(10), celsius(90), 10},
		{"in a room that jumps", jumpy(t), jumpy(t), 20},
	}
	var list []edge
	for _, r := range []struct {
		name  string
		resin kinetics.Resin
	}{{"fast", fast()}, {"steep", steep()}, {"two-stage", twoStage()}} {
		for _, b := range bodies {
			for _, c := range climates {
				list = append(list, edge{fmt.Sprintf("%s of %s resin, %s", b.name, r.name, c.name), r.resin, b.body, c.room, c.wall, c.from})
			}
		}
	}
	return list
}

// mostWork is how many right-hand sides a day may cost: it bounds the work and not the time.
const mostWork = 20_000

// TestEdges: a day of every edge costs a bounded number of right-hand sides, stays between
// 0 and 1 and between the coldest surroundings and what all heat at once would give; on
// the same cells it gels when it does with steps held to a hundredth of
// the error, to a hundredth or half a minute, which is what a crew's figure may move.
func TestEdges(t *testing.T) {
	gelled := 0
	for _, e := range edges(t) {
		p := still.Working
		p.Cells, p.From = 5, quantity.Celsius(e.from)
		pot, err := still.New(e.resin, e.body, e.room, e.wall, p)
		if err != nil {
			t.Errorf("%s: %v", e.name, err)
			continue
		}
		start, err := pot.Uniform(fresh(e.from))
		if err != nil {
			t.Fatal(err)
		}
		samples, err := pot.Trace(start, 0, 24*hour, 10*minute)
		if err != nil {
			t.Errorf("%s: %v", e.name, err)
			continue
		}
		if n := pot.Evaluations(); n > mostWork {
			t.Errorf("%s: %d right-hand sides, more than %d", e.name, n, mostWork)
		}
		bounded(t, e, samples)
		if sameGel(t, e, pot, p) {
			gelled++
		}
	}
	if gelled < 40 {
		t.Errorf("%d of them gel: the test compares too few", gelled)
	}
}

func bounded(t *testing.T, e edge, samples []still.Sample) {
	t.Helper()
	lowest, highest := quantity.Celsius(min(-20, e.from)), max(e.room.Highest(), e.wall.Highest(), quantity.Celsius(e.from))
	// A front burns into resin that it has warmed before, and so gets hotter than all heat at
	// once would make it: most where it closes in on an axis, by an eighth of the rise on these
	// five cells, in small steps as in large ones. Ahead of it a polynomial through burnt and
	// unburnt resin swings below what is there, by a hundredth of the rise.
	rise := quantity.Temperature(e.resin.AdiabaticRise())
	lowest, highest = lowest-0.01*rise, highest+1.2*rise
	for _, s := range samples {
		for i, c := range s.Profile {
			// Within the errors that Working lets its steps sum up to.
			if !(c.Alpha >= -1e-3 && c.Alpha <= 1+1e-3) || !(c.Temperature >= lowest-1 && c.Temperature <= highest+1) {
				t.Errorf("%s: α = %g at %v in cell %d after %v", e.name, c.Alpha, c.Temperature, i, s.At)
				return
			}
		}
	}
}

// sameGel compares the gel of the first place with that of small steps and tells whether
// there is one.
func sameGel(t *testing.T, e edge, pot *still.Pot, p still.Precision) bool {
	t.Helper()
	p.Rel, p.Alpha, p.Temperature = p.Rel/100, p.Alpha/100, p.Temperature/100
	fine, err := still.New(e.resin, e.body, e.room, e.wall, p)
	if err != nil {
		t.Fatal(err)
	}
	var at [2]float64
	for i, of := range []*still.Pot{pot, fine} {
		gel, err := of.TimeTo(vessel.EndPoint{Gel: true}, fresh(e.from), 0, 24*hour)
		if err != nil {
			t.Errorf("%s: %v", e.name, err)
			return false
		}
		at[i] = float64(gel)
	}
	if at[0] != at[1] && !(math.Abs(at[0]-at[1]) <= max(0.01*at[1], 30)) {
		t.Errorf("%s: gels after %.1f s, in small steps after %.1f", e.name, at[0], at[1])
	}
	return !math.IsInf(at[1], 1)
}

// TestFinerMultipliesTheGrid: whoever checks a grid asks for times as many cells, of what
// was chosen or asked for.
func TestFinerMultipliesTheGrid(t *testing.T) {
	for _, cells := range []int{0, 7} {
		p := still.Working
		p.Cells = cells
		usual := inRoom(t, medium(), deepTray(), 25, p).Cells()
		p.Finer = 3
		if got := inRoom(t, medium(), deepTray(), 25, p).Cells(); got != 3*usual {
			t.Errorf("%d cells, want three times %d", got, usual)
		}
	}
}
