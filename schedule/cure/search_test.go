package cure

import (
	"math/rand/v2"
	"slices"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/testrun"
	"potlife/kinetics/warning"
	"potlife/schedule"
)

// thick is 20 mm of glass-like laminate of a fast system in an oven that turns: its exotherm binds.
func thick(t *Task) {
	t.Cure.Oven.Turns = true
	t.Cure.Oven.Highest, t.Cure.Exotherm = quantity.Celsius(90), quantity.Celsius(95)
	t.Fibre.Conductivity = 1
}

// searched are parts whose limits bind in different ways.
func searched(t *testing.T) map[string]*Task {
	return map[string]*Task{
		"strut on its mandrel": demo(t, "telescope-strut"),
		"strut free":           demo(t, "telescope-strut", freeJob),
		"shell on its liner":   demo(t, "softener-shell"),
		"shell free":           demo(t, "softener-shell", freeJob),
		"thick, turning":       made(t, "epoxy-ipda", 40, thick),
	}
}

// TestGridFindsNothingFaster walks a grid of all programs of one and two ramps and many more between, with
// the search's own simulation but none of its logic: none that keeps the limits is faster by more than 3 % and one step
// of the last hold.
func TestGridFindsNothingFaster(t *testing.T) {
	for name, task := range searched(t) {
		t.Run(name, func(t *testing.T) {
			a := solved(t, task)
			stages, err := task.stages(a.Start, working)
			if err != nil {
				t.Fatal(err)
			}
			s := task.newSearch(stages, a.From, firstGuard)
			found := a.Program.Lasts(a.From)
			limit := (found - holdStep) * 0.97
			shapes := append(gridOf(s), strays(s, 20_000)...)
			if !testrun.IsLong() { // one in fifty of them, from anywhere
				rand.New(rand.NewPCG(3, 4)).Shuffle(len(shapes), func(i, j int) { shapes[i], shapes[j] = shapes[j], shapes[i] })
				shapes = shapes[:len(shapes)/50]
			}
			trials, err := s.each(len(shapes), func(i int) (trial, error) { return s.try(shapes[i], limit) })
			if err != nil {
				t.Fatal(err)
			}
			kept, broke := 0, 0
			for _, one := range trials {
				switch one.verdict {
				case keeps:
					kept++
					p := s.program(one.shape, one.last)
					t.Errorf("%+v takes %v, the program found %+v %v", p.Steps, one.total, a.Program.Steps, found)
				case breaks:
					broke++
				}
			}
			t.Logf("%+v, %v: of %d programs %d break a limit, %d are faster", a.Program.Steps, found, len(shapes), broke, kept)
		})
	}
}

// gridOf are programs 4 K, and rates at most a third, apart.
func gridOf(s *search) []shape {
	var rates []int
	last := 0.0
	for i, r := range s.rates {
		if float64(r) >= 1.3*last || i == len(s.rates)-1 {
			rates, last = append(rates, i), float64(r)
		}
	}
	var list []shape
	for t2 := s.top; t2 >= s.lowest; t2 -= 4 {
		for _, r1 := range rates {
			list = append(list, shape{t2: t2, r1: r1})
			for t1 := t2 - 4; t1 >= s.lowest; t1 -= 4 {
				for _, hold := range []int{0, 6, 18, 48} {
					for _, r2 := range rates {
						list = append(list, shape{two: true, t1: t1, r1: r1, hold1: hold, t2: t2, r2: r2})
					}
				}
			}
		}
	}
	return list
}

// strays are programs anywhere, the same each time.
func strays(s *search, n int) []shape {
	draw := rand.New(rand.NewPCG(1, 2))
	list := make([]shape, n)
	for i := range list {
		t1 := s.lowest + draw.IntN(s.top-s.lowest)
		list[i] = shape{
			two: true, t1: t1, r1: draw.IntN(len(s.rates)), hold1: draw.IntN(60),
			t2: t1 + 1 + draw.IntN(s.top-t1), r2: draw.IntN(len(s.rates)),
		}
	}
	return list
}

// TestUsualRule: a searched program is faster than 10 K/h and a hold to the same temperature, or that
// rule breaks a limit.
func TestUsualRule(t *testing.T) {
	for name, task := range searched(t) {
		a := solved(t, task)
		if lasts := a.Program.Lasts(a.From); !(lasts < a.Usual.Lasts) && !a.Usual.Broken {
			t.Errorf("%s: %v by %+v, and the usual rule takes %v and keeps every limit", name, lasts, a.Program.Steps, a.Usual.Lasts)
		}
		t.Logf("%s: %v in the oven, the usual rule %v, breaks a limit: %v", name, a.Program.Lasts(a.From), a.Usual.Lasts, a.Usual.Broken)
	}
}

// TestSearchIsReproducible: goroutines share the work, and the answer does not depend on them.
func TestSearchIsReproducible(t *testing.T) {
	first := solved(t, made(t, "epoxy-ipda", 12, free))
	for range testrun.Count(1, 3) {
		if again := solved(t, made(t, "epoxy-ipda", 12, free)); !slices.Equal(again.Program.Steps, first.Program.Steps) {
			t.Errorf("%+v and %+v", first.Program.Steps, again.Program.Steps)
		}
	}
}

// TestNoProgram: what cannot be reached is said with its reason, not searched for in vain.
func TestNoProgram(t *testing.T) {
	for name, c := range map[string]struct {
		task *Task
		is   func(t *Task, why warning.Warning) bool
	}{
		"glass beyond the resin": {made(t, "epoxy-ipda", 4, func(t *Task) { t.Cure.Degree, t.Cure.Glass = 0, quantity.Celsius(130) }), func(t *Task, why warning.Warning) bool {
			return why == GlassNeverReached{Cured: t.Resin.Glass.Cured, Asked: quantity.Celsius(130)}
		}},
		"oven too cold": {made(t, "epoxy-ipda", 4, func(t *Task) { t.Cure.Oven.Highest, t.Cure.Degree = quantity.Celsius(50), 0.95 }), coldAt(50)},
		"liner too soft": {made(t, "epoxy-ipda", 4, func(t *Task) {
			t.Mandrel.Material, _ = schedule.MaterialNamed("pvc")
			t.Cure.Degree = 0.97
		}), func(t *Task, why warning.Warning) bool { return coldAt(t.Mandrel.Material.Highest.Celsius())(t, why) }},
		"never gels": {made(t, "epoxy-mpda", 4, func(t *Task) { t.Resin.Gel = 0.9 }), func(_ *Task, why warning.Warning) bool { return why == NeverGels{} }},
		"exotherm": {made(t, "epoxy-teta", 100, func(t *Task) {
			t.Cure.Oven.Turns, t.Cure.Exotherm, t.Cure.Oven.Highest = true, quantity.Celsius(62), quantity.Celsius(60)
			t.Cure.Degree = 0.7
		}), func(_ *Task, why warning.Warning) bool {
			w, is := why.(AlwaysTooHot)
			return is && w.Air == quantity.Celsius(60) && w.Allowed == quantity.Celsius(62) && w.Peak > w.Allowed
		}},
	} {
		a, err := c.task.Solve()
		if err != nil {
			t.Fatal(err)
		}
		if a.Feasible() || a.Program != nil || !c.is(c.task, a.Why) {
			t.Errorf("%s: %v, %+v", name, a.Program, a.Why)
		}
	}
}

// coldAt is an oven or a mandrel that allows too little for the target.
func coldAt(celsius float64) func(*Task, warning.Warning) bool {
	return func(t *Task, why warning.Warning) bool {
		w, is := why.(CureNeverReached)
		return is && w.Air == quantity.Celsius(celsius) && w.Asked == t.Cure.Degree && w.Degree < w.Asked && w.Glass == t.Resin.Glass.At(w.Degree)
	}
}

// BenchmarkCure is a demo from its plan to the refereed program.
func BenchmarkCure(b *testing.B) {
	for _, name := range []string{"telescope-strut", "softener-shell"} {
		for mode, change := range map[string][]func(*schedule.Job){"mandrel": nil, "free": {freeJob}} {
			b.Run(name+"-"+mode, func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					task := demo(b, name, change...)
					solved(b, task)
				}
			})
		}
	}
}
