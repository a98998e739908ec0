package fit

import (
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"strings"
	"sync"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/testrun"
	"potlife/resins"
)

func parsed(t testing.TB, list string) (*Statements, *resins.Record) {
	t.Helper()
	s, err := Read("x.yaml", []byte("name: club\nlike: epoxy-ipda\nstatements:\n"+list))
	if err != nil {
		t.Fatal(err)
	}
	prior, err := resins.Load(s.Like)
	if err != nil {
		t.Fatal(err)
	}
	return s, prior
}

// solved is the fit of statements, not yet judged.
func solved(t testing.TB, s *Statements, prior *resins.Record) *Result {
	t.Helper()
	f := &Result{Prior: prior, seen: func(Progress) {}}
	var err error
	if f.model, _, err = newModel(prior, s.List); err != nil {
		t.Fatal(err)
	}
	if err := f.solve(); err != nil {
		t.Fatal(err)
	}
	return f
}

// mixed is so many invented statements of several kinds of one hidden resin, with so many times
// the noise that statements have.
func mixed(t testing.TB, n int, noise float64, random *rand.Rand) (*Statements, *resins.Record) {
	t.Helper()
	var b strings.Builder
	for i := range n {
		celsius := 18 + 14*random.Float64()
		switch i % 6 {
		case 0, 1, 2:
			fmt.Fprintf(&b, "  - pot_life: {time: 60 min, mass: %.0f g, at: %.1f °C, in: {cup: %d mm, stirred: %v}, end: %s}\n",
				80+220*random.Float64(), celsius, 60+10*random.IntN(4), i%2 == 0, []string{"gel", "doubled"}[i%2])
		case 3:
			fmt.Fprintf(&b, "  - viscosity: {value: 600 mPa·s, at: %.1f °C}\n", celsius)
		case 4:
			fmt.Fprintf(&b, "  - film_gel: {time: 5 h, at: %.1f °C}\n", celsius)
		case 5:
			fmt.Fprintf(&b, "  - conversion: {is: 0.5, after: {time: %.0f min, at: %.1f °C}}\n", 100+200*random.Float64(), celsius)
		}
	}
	s, prior := parsed(t, b.String())
	m, _, err := newModel(prior, s.List)
	if err != nil {
		t.Fatal(err)
	}
	hidden := make([]float64, len(m.active))
	for i := range hidden {
		hidden[i] = 0.7 * random.NormFloat64()
	}
	says, err := m.figures(hidden)
	if err != nil {
		t.Fatal(err)
	}
	for i := range s.List {
		off := noise * random.NormFloat64()
		switch st := &s.List[i]; st.Kind {
		case Viscosity:
			st.Value = quantity.Viscosity(says[i] * math.Exp(viscositySigma*off))
		case Conversion:
			st.Is = says[i] + conversionSigma*off
		default:
			st.Time = quantity.Time(says[i] * math.Exp(timeSigma*off))
		}
	}
	return s, prior
}

// TestStepsStandForFits: what the others say of a statement by a step, where the step may stand,
// is what a fit of the others says: within 1 % of a figure and 0.2 of its σ, of which a fit
// itself leaves 0.9 % (settled, 0.03 σ of the rate's prior). Most steps stand, of statements
// that go together and of those that do not; that some do not shows that it is asked.
func TestStepsStandForFits(t *testing.T) {
	stood, bent, worst, surprised := 0, 0, 0.0, 0.0
	for i := range testrun.Count(2, 12) {
		random := rand.New(rand.NewPCG(uint64(i), 31))
		s, prior := mixed(t, fewTests+1+4*(i%4), []float64{1, 4}[i%2], random)
		f := solved(t, s, prior)
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
// same end later, are answered by one run, with what each would have been told alone; so is one
// who cannot have seen it, since a test is followed 20 times as long as it says. Another
// mass, room or vessel is another run.
func TestAlikeShareARun(t *testing.T) {
	const pot = "  - pot_life: {time: %s, mass: %s, at: 23 °C, in: {cup: 70 mm%s}, end: %s}\n"
	one := func(time, mass, in, end string) string { return fmt.Sprintf(pot, time, mass, in, end) }
	list := one("110 min", "100 g", "", "gel") + one("60 min", "100 g", "", "doubled") + one("130 min", "100 g", "", "gel") + one("1 min", "100 g", "", "gel") +
		one("110 min", "101 g", "", "gel") + one("110 min", "100 g", ", stirred: true", "gel") +
		"  - conversion: {is: 0.5, after: {time: 5 h, at: 25 °C}}\n  - glass: {is: 40 °C, after: {time: 5 h, at: 25 °C}}\n"
	s, prior := parsed(t, list)
	f := solved(t, s, prior)
	if n := len(f.model.runs); n != 4 || len(f.model.runs[0].tests) != 4 || len(f.model.runs[3].tests) != 2 {
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
		s, _ := parsed(t, b.String())
		return s
	}
	_, prior := parsed(t, "  - heat: 430 J/g\n")
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

// TestProgressTogether: a fit tells the steps of its search and then its statements, each once
// and all of them, although it judges several at a time.
func TestProgressTogether(t *testing.T) {
	const n = 20
	s, prior := parsed(t, strings.Repeat("  - film_gel: {time: 5 h, at: 25 °C}\n  - viscosity: {value: 650 mPa·s, at: 25 °C}\n", n/2))
	var mu sync.Mutex
	steps, judged := 0, map[int]bool{}
	_, err := FitSeen(s, prior, func(p Progress) {
		mu.Lock()
		defer mu.Unlock()
		if p.Statements != n || p.Step > 0 && (p.Judged > 0 || len(judged) > 0 || p.Step != steps+1) {
			t.Errorf("%+v after step %d", p, steps)
		}
		steps = max(steps, p.Step)
		if p.Step == 0 {
			judged[p.Judged] = true
		}
	})
	if err != nil || steps == 0 || len(judged) != n || !judged[n] {
		t.Errorf("%d steps, judged %v, %v", steps, judged, err)
	}
}

// BenchmarkStatements fits all kinds mixed: the time of a fit goes with their number.
func BenchmarkStatements(b *testing.B) {
	for _, n := range []int{10, 100} {
		s, prior := mixed(b, n, 1, rand.New(rand.NewPCG(1, 1)))
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Fit(s, prior); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
