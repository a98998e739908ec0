package schedule_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/testrun"
	"potlife/kinetics/vessel"
	"potlife/resins"
	"potlife/schedule"
)

// left is resin left to stand, in °C.
type left struct {
	system     string
	mass       quantity.Mass
	in         resins.Container
	from, room float64
	limits     vessel.Limits
}

func (l left) String() string {
	return fmt.Sprintf("%g kg of %s in %+v, from %.1f °C in %.1f °C, limits %+v", float64(l.mass), l.system, l.in, l.from, l.room, l.limits)
}

// anyLeft draws a system, a vessel, a room, which may be warmer than the resin by half a
// hundred kelvin, and limits, which may be so wide that gel comes first.
func anyLeft(random *rand.Rand) left {
	pick := func(of ...float64) float64 { return of[random.IntN(len(of))] }
	systems := []string{"epoxy-ipda", "epoxy-mpda", "epoxy-mthpa", "epoxy-polyetheramine-ipda", "epoxy-polyetheramine", "epoxy-teta"}
	l := left{system: systems[random.IntN(len(systems))], room: 15 + 75*random.Float64()}
	l.from = l.room - math.Max(0, pick(0, 5, 15, 30, 55)*random.Float64())
	if random.IntN(4) == 0 {
		l.in, l.mass = resins.Container{Length: 0.3, Width: 0.12}, quantity.Mass(pick(0.3, 1, 3))
	} else {
		l.in.Cup = quantity.Length(pick(0.05, 0.07, 0.095, 0.14, 0.2))
		l.mass = quantity.Mass(1000 * math.Pow(float64(l.in.Cup), 3) * pick(0.15, 0.4, 0.9, 1.3))
	}
	l.limits = vessel.Limits{
		BathViscosity: quantity.Viscosity(pick(1.5, 8, 1000)), LaidViscosity: quantity.Viscosity(pick(3, 20, 1000)),
		BathTemperature: quantity.Celsius(pick(40, 80, 150)),
	}
	return l
}

func (l left) standing(t *testing.T) *schedule.Standing {
	t.Helper()
	record, err := resins.Load(l.system)
	if err != nil {
		t.Fatal(err)
	}
	s := &schedule.Standing{
		Record: record, Mass: l.mass, Room: quantity.Celsius(l.room), From: quantity.Celsius(l.from),
		Bath: schedule.Bath{Container: l.in, LossSpread: ensemble.UsualSpread}, Sampling: schedule.Sampling{Members: 100, Seed: 1},
	}
	s.Limits.BathViscosity, s.Limits.LaidViscosity, s.Limits.BathTemperature = l.limits.BathViscosity, l.limits.LaidViscosity, l.limits.BathTemperature
	return s
}

// TestLifeEndsByGel: whatever stands wherever, its working life ends before it gels or with
// it, and the life of 9 in 10 no later. And with no doubt left the life is that of the
// nominal resin on a fine grid: no more than 2 % or 5 s longer, and no more than 4 % or 5 s
// shorter, which the skin of a cold bucket makes it. Cells that lay inside it made it a sixth
// longer, and said of cold resin that it was good beyond its gel.
func TestLifeEndsByGel(t *testing.T) {
	cases := []left{
		{"epoxy-mthpa", 1, resins.Container{Cup: 0.095}, 23, 80, vessel.Limits{BathViscosity: 1000, LaidViscosity: 1000, BathTemperature: quantity.Celsius(150)}},
		{"epoxy-ipda", 0.4, resins.Container{Cup: 0.095}, 20, 70, vessel.Limits{BathViscosity: 1000, LaidViscosity: 1000, BathTemperature: quantity.Celsius(150)}},
	}
	random := rand.New(rand.NewPCG(16, 3))
	for range testrun.Draws(4, 150) {
		cases = append(cases, anyLeft(random))
	}
	byGel := 0
	for _, c := range cases {
		s := c.standing(t)
		l, err := s.Last()
		if err != nil {
			t.Fatalf("%v: %v", c, err)
		}
		if gel := l.Milestones.Gel; !(l.Likely <= gel && l.Sure <= l.Likely) {
			t.Errorf("%v: good for %v, 9 in 10 for %v, gels after %v", c, l.Likely, l.Sure, gel)
		}
		s.Record.Spread.Time, s.Record.Spread.Viscosity, s.Bath.LossSpread = 1, 1, 1
		s.Sampling.Members = 1
		if l, err = s.Last(); err != nil {
			t.Fatalf("%v: %v", c, err)
		}
		want := c.onFineGrid(t, s, l.Limits)
		if l.Likely != want.Left && !(l.Likely <= max(1.02*want.Left, want.Left+5) && l.Likely >= min(0.96*want.Left, want.Left-5)) {
			t.Errorf("%v: good for %v, on a fine grid for %v by %s", c, l.Likely, want.Left, want.EndsBy)
		}
		if want.EndsBy != vessel.BathTemperature {
			byGel++
		}
	}
	if byGel < 2 {
		t.Errorf("%d of them end by the cure: the test compares too few", byGel)
	}
}

func (c left) onFineGrid(t *testing.T, s *schedule.Standing, limits vessel.Limits) vessel.Life {
	t.Helper()
	p, room := still.Working, vessel.Constant(s.Room)
	p.Cells, p.From = 11, s.From
	pot, err := still.New(s.Record.Kinetics, c.in.Body(c.mass, 1, false), room, room, p)
	if err != nil {
		t.Fatal(err)
	}
	life, err := pot.Life(vessel.State{Mass: c.mass, Temperature: s.From}, 0, limits, schedule.WorktimeHorizon)
	if err != nil {
		t.Fatal(err)
	}
	return life
}
