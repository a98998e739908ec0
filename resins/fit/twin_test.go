package fit_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/testrun"
	"potlife/kinetics/vessel"
	"potlife/resins"
	"potlife/resins/fit"
)

func load(t testing.TB, name string) *resins.Record {
	t.Helper()
	r, err := resins.Load(name)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// A twin is a hidden system: a built-in one with its rate, activation energy,
// viscosity, heat and cup loss changed by as much as the catalogue claims not to
// know.
type twin struct {
	like  *resins.Record
	resin kinetics.Resin
	loss  float64
	dE    float64
}

// about turns an Arrhenius constant about 23 °C.
func about(k kinetics.Arrhenius, factor, dE float64) kinetics.Arrhenius {
	pivot := float64(quantity.Celsius(23))
	k.A *= quantity.Rate(factor * math.Exp(dE/(kinetics.GasConstant*pivot)))
	k.E += quantity.MolarEnergy(dE)
	return k
}

func newTwin(t testing.TB, name string, random *rand.Rand) *twin {
	h := &twin{like: load(t, name)}
	h.resin = h.like.Kinetics
	h.dE = 4e3 * random.NormFloat64()
	law := h.resin.Cure.(kinetics.KamalSourour)
	factor := math.Exp(ensemble.Sigma(h.like.Spread.Time) * random.NormFloat64())
	law.K1, law.K2 = about(law.K1, factor, h.dE), about(law.K2, factor, h.dE)
	h.resin.Cure = law
	thick := h.resin.Viscosity.(kinetics.CastroMacosko)
	thick.Value *= quantity.Viscosity(math.Exp(ensemble.Sigma(h.like.Spread.Viscosity) * random.NormFloat64()))
	thick.Activation += quantity.MolarEnergy(6e3 * random.NormFloat64())
	h.resin.Viscosity = thick
	h.resin.Heat *= quantity.SpecificEnergy(math.Exp(0.06 * random.NormFloat64()))
	h.loss = math.Exp(ensemble.Sigma(ensemble.UsualSpread) * random.NormFloat64())
	return h
}

// life of the twin in a stirred cup as deep as wide; +Inf beyond a week.
func (h *twin) life(t testing.TB, mass quantity.Mass, celsius float64) float64 {
	t.Helper()
	at := quantity.Celsius(celsius)
	cup := vessel.UsualCup(mass, h.resin.Density).LossesTimes(h.loss)
	bath := vessel.New(h.resin, cup, vessel.Constant(at), vessel.Constant(at), vessel.Strict)
	s, err := bath.TimeTo(vessel.EndPoint{Gel: true}, vessel.State{Mass: mass, Temperature: at}, 0, 7*86400)
	if err != nil {
		t.Fatal(err)
	}
	return float64(s)
}

func stirredCup(mass quantity.Mass, density quantity.Density) resins.Container {
	v := vessel.UsualCup(mass, density)
	return resins.Container{Cup: v.Perimeter / math.Pi, Drum: resins.Turning}
}

func (h *twin) potLife(t testing.TB, mass quantity.Mass, celsius, noise float64) fit.Statement {
	return fit.Statement{
		Kind: fit.PotLife, Mass: mass, At: quantity.Celsius(celsius), In: stirredCup(mass, h.resin.Density),
		Time: quantity.Time(h.life(t, mass, celsius) * math.Exp(noise)), End: vessel.EndPoint{Gel: true}, EndText: "gel",
	}
}

// TestTwins: three noisy statements (±10 % 9 times in 10, so σ = ln 1.1/1.645)
// of a hidden system at two temperatures, one of them its viscosity to 1.15. The
// life of another mass, within a factor of 3, at a temperature between, or within
// 3 K outside, is to be within 15 % in 90 of 100 and inside its stated spread in
// 85 to 95 of 100, both asked by the project's owner. The shares of n twins stray
// by √(0.9·0.1/n), 2 % for 200: the bounds are those asked, for the seed fixed
// here; in the default suite, 40 twins, they are 3 such deviations wider.
func TestTwins(t *testing.T) {
	n, slack := 200, 0.0
	if !testrun.IsLong() {
		n, slack = 40, 3*math.Sqrt(0.9*0.1/40)
	}
	systems := []string{"epoxy-teta", "epoxy-ipda", "epoxy-polyetheramine-ipda", "epoxy-polyetheramine"}
	var near, covered, recordCovered, contradicted, done int
	logSpread := 0.0
	for i := range n {
		random := rand.New(rand.NewPCG(uint64(i), 17))
		h := newTwin(t, systems[i%len(systems)], random)
		low := 18 + 4*random.Float64()
		high := low + 4 + 6*random.Float64()
		mass := quantity.Mass(0.1 * math.Exp(random.Float64()))
		sigma := ensemble.Sigma(1.1)
		statements := &fit.Statements{Name: "hidden", Like: h.like.Name, List: []fit.Statement{
			h.potLife(t, mass, low, sigma*random.NormFloat64()),
			h.potLife(t, mass, high, sigma*random.NormFloat64()),
			h.potLife(t, 1.5*mass, high, sigma*random.NormFloat64()),
			{Kind: fit.Viscosity, At: quantity.Celsius(25), Value: quantity.Viscosity(math.Exp(
				h.resin.Viscosity.LogFresh(float64(quantity.Celsius(25))) + ensemble.Sigma(1.15)*random.NormFloat64()))},
		}}
		celsius := low - 3 + (high-low+6)*random.Float64()
		held := mass * quantity.Mass(math.Exp(math.Log(3)*(2*random.Float64()-1)))
		truth := h.life(t, held, celsius)
		if math.IsInf(truth, 1) || math.IsInf(float64(statements.List[0].Time), 1) {
			continue
		}
		got, err := fit.Fit(statements, h.like)
		if err != nil {
			t.Errorf("%s %d: %v", h.like.Name, i, err)
			continue
		}
		p, err := got.Life(stirredCup(held, h.resin.Density), false, held, quantity.Celsius(celsius), vessel.EndPoint{Gel: true})
		if err != nil {
			t.Fatal(err)
		}
		off := math.Abs(math.Log(truth / float64(p.Likely)))
		done++
		if off <= math.Log(1.15) {
			near++
		}
		if off <= math.Log(p.Spread) {
			covered++
		}
		if off <= math.Log(got.Record.Spread.Time) {
			recordCovered++
		}
		logSpread += math.Log(got.Record.Spread.Time)
		contradicted += len(got.Contradictions)
	}
	share := func(k int) float64 { return float64(k) / float64(done) }
	t.Logf("%d twins: within 15 %% %.3f, inside the prediction's spread %.3f, inside the record's %.3f (mean spread %.3f); %d pairs called contradictory",
		done, share(near), share(covered), share(recordCovered), math.Exp(logSpread/float64(done)), contradicted)
	if !(done >= n*9/10) {
		t.Errorf("only %d twins of %d", done, n)
	}
	if !(share(near) >= 0.90-slack) {
		t.Errorf("within 15 %% in %.3f", share(near))
	}
	for _, s := range []float64{share(covered), share(recordCovered)} {
		if !(s >= 0.85-slack && s <= 0.95+slack) {
			t.Errorf("spread covers the truth in %.3f", s)
		}
	}
}

// cupLog simulates the twin's cup at intervals and adds the thermometer's noise.
func (h *twin) cupLog(t testing.TB, mass quantity.Mass, celsius float64, interval, span quantity.Time, noise func() float64) fit.Statement {
	t.Helper()
	at := quantity.Celsius(celsius)
	in := stirredCup(mass, h.resin.Density)
	bath := vessel.New(h.resin, in.Vessel(false).LossesTimes(h.loss), vessel.Constant(at), vessel.Constant(at), vessel.Strict)
	_, samples, err := bath.Trace(vessel.State{Mass: mass, Temperature: at}, 0, span, interval, vessel.Tow{})
	if err != nil {
		t.Fatal(err)
	}
	l := &fit.Log{}
	for _, s := range samples {
		l.At = append(l.At, s.At)
		l.Is = append(l.Is, s.Temperature+quantity.Temperature(noise()))
	}
	return fit.Statement{Kind: fit.CupLog, File: fmt.Sprintf("%g.csv", celsius), Mass: mass, In: in, Room: at, Log: l}
}

// TestCupLogs: two cups of 200 g 10 K apart, a thermometer good to 0.5 K, the
// loss free: each rate within 3 %, the activation energy within 4 kJ/mol, asked
// by the project's owner. Rates are those at 23 and 33 °C and at conversion 0.
func TestCupLogs(t *testing.T) {
	n := testrun.Count(8, 40)
	systems := []string{"epoxy-teta", "epoxy-ipda", "epoxy-polyetheramine-ipda"}
	worstRate, worstE, good, contradicted := 0.0, 0.0, 0, 0
	for i := range n {
		random := rand.New(rand.NewPCG(uint64(i), 23))
		h := newTwin(t, systems[i%len(systems)], random)
		statements := &fit.Statements{Name: "hidden", Like: h.like.Name}
		for _, celsius := range []float64{22, 32} {
			life := quantity.Time(h.life(t, 0.2, celsius))
			statements.List = append(statements.List, h.cupLog(t, 0.2, celsius, life/300, 1.5*life, func() float64 { return 0.5 * random.NormFloat64() }))
		}
		got, err := fit.Fit(statements, h.like)
		if err != nil {
			t.Fatalf("%s %d: %v", h.like.Name, i, err)
		}
		offRate := 0.0
		for _, celsius := range []float64{22, 32} {
			kelvin := float64(quantity.Celsius(celsius))
			offRate = math.Max(offRate, math.Abs(got.Record.Kinetics.Cure.Rate(0.2, kelvin)/h.resin.Cure.Rate(0.2, kelvin)-1))
		}
		dE := math.Abs(float64(got.Record.Kinetics.Cure.(kinetics.KamalSourour).K1.E-h.resin.Cure.(kinetics.KamalSourour).K1.E)) / 1e3
		worstRate, worstE = math.Max(worstRate, offRate), math.Max(worstE, dE)
		if offRate <= 0.03 && dE <= 4 {
			good++
		}
		contradicted += len(got.Contradictions)
	}
	t.Logf("%d pairs of logs: %d good, worst rate %.2f %%, worst activation energy %.2f kJ/mol, %d called contradictory", n, good, 100*worstRate, worstE, contradicted)
	if !(float64(good) >= 0.95*float64(n)) {
		t.Errorf("%d of %d within 3 %% and 4 kJ/mol", good, n)
	}
	// By chance, one pair in 370 may be called contradictory.
	if contradicted > 1 {
		t.Errorf("%d of %d true pairs are called contradictory", contradicted, n)
	}
}
