package fit

import (
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"strings"
	"testing"

	"potlife/kinetics/testrun"
	"potlife/resins"
)

// solved is the fit of a list of statements, not yet judged.
func solved(t testing.TB, list string) *Result {
	t.Helper()
	s, err := Read("x.yaml", []byte("name: club\nlike: epoxy-ipda\nstatements:\n"+list))
	if err != nil {
		t.Fatal(err)
	}
	prior, err := resins.Load(s.Like)
	if err != nil {
		t.Fatal(err)
	}
	f := &Result{Prior: prior, seen: func(Progress) {}}
	if f.model, _, err = newModel(prior, s.List); err != nil {
		t.Fatal(err)
	}
	if err := f.solve(); err != nil {
		t.Fatal(err)
	}
	return f
}

// mixed is so many invented statements of several kinds, with a noise of their own accuracy
// times so much.
func mixed(n int, noise float64, random *rand.Rand) string {
	var b strings.Builder
	for i := range n {
		celsius := 18 + 14*random.Float64()
		life := 110 * math.Exp(0.2-0.065*(celsius-23)+0.06*noise*random.NormFloat64())
		switch i % 6 {
		case 0, 1, 2:
			mass := 80 + 220*random.Float64()
			end, share := "gel", 1.0
			if i%6 == 1 {
				end, share = "doubled", 0.45
			}
			fmt.Fprintf(&b, "  - pot_life: {time: %.1f min, mass: %.0f g, at: %.1f °C, in: {cup: %d mm, stirred: %v}, end: %s}\n",
				life*share*math.Pow(100/mass, 0.3), mass, celsius, 60+10*random.IntN(4), i%2 == 0, end)
		case 3:
			fmt.Fprintf(&b, "  - viscosity: {value: %.0f mPa·s, at: %.1f °C}\n", 600*math.Exp(-0.07*(celsius-25)+0.085*noise*random.NormFloat64()), celsius)
		case 4:
			fmt.Fprintf(&b, "  - film_gel: {time: %.0f min, at: %.1f °C}\n", 2.6*life, celsius)
		case 5:
			fmt.Fprintf(&b, "  - conversion: {is: %.2f, after: {time: %.0f min, at: %.1f °C}}\n", math.Min(0.7, 0.5+0.02*noise*random.NormFloat64()), 2.2*life, celsius)
		}
	}
	return b.String()
}

// TestStepsStandForFits: what the others say of a statement by a step, where the step may stand,
// is what a fit of the others says: within 1 % of a figure and 0.2 of its σ, of which a fit
// itself leaves 0.9 % (settled, 0.03 σ of the rate's prior). Most steps stand, of statements
// that go together and of those that do not; that some do not shows that it is asked.
func TestStepsStandForFits(t *testing.T) {
	stood, bent, worst, surprised := 0, 0, 0.0, 0.0
	for i := range testrun.Count(4, 40) {
		random := rand.New(rand.NewPCG(uint64(i), 31))
		f := solved(t, mixed(3+3*(i%4), []float64{1, 4}[i%2], random))
		for k := range f.model.tests {
			rest, bends := f.stepWithout(k)
			if bends {
				bent++
				continue
			}
			stood++
			refit, err := f.model.solveNear(f.model.every().without(k), f.solution.X)
			if err != nil {
				t.Fatal(err)
			}
			quick, r, err := f.model.ask(k, rest.x)
			if err != nil {
				t.Fatal(err)
			}
			want, q, err := f.model.ask(k, refit.X)
			if err != nil {
				t.Fatal(err)
			}
			off := math.Abs(quick/want - 1)
			apart := math.Abs(distance(r, f.rows(k), rest.covariance) - distance(q, f.rows(k), refit.Covariance))
			worst, surprised = math.Max(worst, off), math.Max(surprised, apart)
			if !(off <= 0.01) || !(apart <= 0.2) {
				t.Errorf("case %d, %v: %g by a step, %g by a fit; %.2f σ apart", i, f.model.tests[k].Statement, quick, want, apart)
			}
		}
	}
	t.Logf("%d steps stand, %d do not; the worst is off by %.2f %%, %.2f σ", stood, bent, 100*worst, surprised)
	if !(stood > bent) || bent == 0 {
		t.Errorf("%d steps stand and %d do not", stood, bent)
	}
}

// TestAlikeShareARun: two people who watched the same cup for two ends, and one who saw the
// same end later, are answered by one run, with what each would have been told alone; another
// mass, room or vessel is another run.
func TestAlikeShareARun(t *testing.T) {
	const pot = "  - pot_life: {time: %s, mass: %s, at: 23 °C, in: {cup: 70 mm%s}, end: %s}\n"
	one := func(time, mass, in, end string) string { return fmt.Sprintf(pot, time, mass, in, end) }
	list := one("110 min", "100 g", "", "gel") + one("60 min", "100 g", "", "doubled") + one("130 min", "100 g", "", "gel") +
		one("110 min", "101 g", "", "gel") + one("110 min", "100 g", ", stirred: true", "gel") +
		"  - conversion: {is: 0.5, after: {time: 5 h, at: 25 °C}}\n  - glass: {is: 40 °C, after: {time: 5 h, at: 25 °C}}\n"
	f := solved(t, list)
	if n := len(f.model.runs); n != 4 || len(f.model.runs[0].tests) != 3 || len(f.model.runs[3].tests) != 2 {
		t.Fatalf("%d runs", n)
	}
	together, err := f.model.figures(f.solution.X)
	if err != nil {
		t.Fatal(err)
	}
	resin, err := f.model.resin(f.solution.X)
	if err != nil {
		t.Fatal(err)
	}
	for i := range f.model.tests {
		figure, r, err := f.model.ask(i, f.solution.X)
		if err != nil {
			t.Fatal(err)
		}
		alone := newRuns([]*test{{Statement: f.model.tests[i].Statement, count: 1}}, f.model.space)[0]
		p, err := alone.predict(&resin, f.model.space, f.solution.X)
		if err != nil || p.figures[0] != figure || figure != together[i] || p.residuals[0] != r[0] || r[0] != f.solution.Residuals[f.model.start[i]] {
			t.Errorf("%v: %g alone, %g and %g together, %v", f.model.tests[i].Statement, p.figures[0], figure, together[i], err)
		}
	}
}

// TestWorkIsLinear: four times as many statements take less than seven times the memory that
// is ever asked for, which goes with the simulations: a fit of all others for each statement
// took ten times as much. What a fit keeps is bounded for each statement.
func TestWorkIsLinear(t *testing.T) {
	films := func(n int) *Statements {
		random := rand.New(rand.NewPCG(7, 7))
		var b strings.Builder
		for range n {
			celsius := 18 + 14*random.Float64()
			fmt.Fprintf(&b, "  - conversion: {is: 0.5, after: {time: %.1f min, at: %.1f °C}}\n", 300*math.Exp(-0.07*(celsius-23)+0.05*random.NormFloat64()), celsius)
		}
		s, err := Read("x.yaml", []byte("name: club\nlike: epoxy-ipda\nstatements:\n"+b.String()))
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	prior, err := resins.Load("epoxy-ipda")
	if err != nil {
		t.Fatal(err)
	}
	measured := func(n int) (asked, kept float64) {
		s := films(n)
		var before, after runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&before)
		f, err := Fit(s, prior)
		if err != nil {
			t.Fatal(err)
		}
		runtime.GC()
		runtime.ReadMemStats(&after)
		runtime.KeepAlive(f)
		return float64(after.TotalAlloc - before.TotalAlloc), float64(after.HeapAlloc) - float64(before.HeapAlloc)
	}
	measured(10) // what is made once
	few, _ := measured(20)
	many, kept := measured(80)
	t.Logf("20 statements ask for %.1f MB, 80 for %.1f; 80 keep %.0f kB", few/1e6, many/1e6, kept/1e3)
	if !(many < 7*few) {
		t.Errorf("20 statements ask for %.1f MB, 80 for %.1f", few/1e6, many/1e6)
	}
	if !(kept < 80*40e3) {
		t.Errorf("80 statements keep %.0f kB", kept/1e3)
	}
}

// BenchmarkStatements fits pot lives, of which no two share a run, and all kinds mixed: the
// time of a fit goes with their number.
func BenchmarkStatements(b *testing.B) {
	prior, err := resins.Load("epoxy-ipda")
	if err != nil {
		b.Fatal(err)
	}
	for _, n := range []int{10, 100} {
		random := func() *rand.Rand { return rand.New(rand.NewPCG(1, 1)) }
		var pots strings.Builder
		for line := range strings.Lines(mixed(2*n, 1, random())) {
			if strings.Contains(line, "pot_life") {
				pots.WriteString(line)
			}
		}
		for _, c := range []struct{ name, list string }{{"pots", pots.String()}, {"mixed", mixed(n, 1, random())}} {
			s, err := Read("x.yaml", []byte("name: club\nlike: epoxy-ipda\nstatements:\n"+c.list))
			if err != nil {
				b.Fatal(err)
			}
			b.Run(fmt.Sprintf("%s-%d", c.name, len(s.List)), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if _, err := Fit(s, prior); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
