package replay

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/schedule/session/daytest"
)

// leftAt is what is likely left, and what is surely.
func leftAt(t *testing.T, d day, minutes float64) (estimate, *Played) {
	t.Helper()
	p := played(t, d, minutes)
	return leftOf(t, p), p
}

// readTruth logs what a hidden bath would read, kelvin higher.
func readTruth(t *testing.T, d day, truth ensemble.Member, kelvin float64, minutes ...float64) {
	t.Helper()
	var is []float64
	for _, m := range minutes {
		world, err := d.script(t, m).World(truth)
		if err != nil {
			t.Fatal(err)
		}
		is = append(is, world.Bath.Temperature.Celsius()+kelvin)
	}
	for i, m := range minutes {
		d.Temperature(m, is[i])
	}
}

// TestAnOutlierIsLeftOut: a slip of the pen, 42 for 24 °C, is reported, and what is left
// moves by less than 2 %: by the errors of an ensemble of 240 that is drawn again. As the last
// reading it is the bath's, and less is left.
func TestAnOutlierIsLeftOut(t *testing.T) {
	w := daytest.Prepared(t)
	for _, at := range []int{0, 1, 2, 3} {
		plain := newDay(w)
		plain.Fill(0, 560)
		readTruth(t, plain, ensemble.Member{Rate: 1.1, Viscosity: 1, Loss: 1, Weight: 1}, 0, 12, 18, 24)
		want, p := leftAt(t, plain, 30)
		if len(p.Doubts) > 0 {
			t.Fatalf("good readings are doubted: %+v", p.Doubts)
		}
		plain.Temperature([]float64{8, 15, 21, 29}[at], 42)
		got, p := leftAt(t, plain, 30)
		if len(p.Doubts) != 1 || p.Doubts[0].Reading.Seq != len(plain.Events) || !(p.Doubts[0].High < 315) {
			t.Errorf("reading %d: doubts %+v", at, p.Doubts)
		}
		if at == 3 {
			if !(got.likely < want.likely/2) {
				t.Errorf("the last reading says 42 °C, and %.1f min are left, without it %.1f", got.likely/60, want.likely/60)
			}
			continue
		}
		if !(math.Abs(got.likely/want.likely-1) < 0.02) || !(math.Abs(got.sure/want.sure-1) < 0.02) {
			t.Errorf("reading %d: with the outlier %.1f min are left, surely %.1f, without %.1f and %.1f",
				at, got.likely/60, got.sure/60, want.likely/60, want.sure/60)
		}
	}
}

// TestAColdReadingIsLeftOut: the last reading is not believed where it is colder than what is reckoned,
// since more would be left than is known. What is left moves by less than 2 %, as above.
func TestAColdReadingIsLeftOut(t *testing.T) {
	d := newDay(daytest.Prepared(t))
	d.Fill(0, 560)
	readTruth(t, d, ensemble.Member{Rate: 1.1, Viscosity: 1, Loss: 1, Weight: 1}, 0, 12, 18, 24)
	want, _ := leftAt(t, d, 30)
	d.Temperature(29, 8)
	got, p := leftAt(t, d, 30)
	if len(p.Doubts) != 1 || p.Doubts[0].Reading.Seq != len(d.Events) || !(p.Doubts[0].Low > 290) {
		t.Errorf("doubts %+v", p.Doubts)
	}
	if !(math.Abs(got.likely/want.likely-1) < 0.02) || !(math.Abs(got.sure/want.sure-1) < 0.02) {
		t.Errorf("%.1f min are left, surely %.1f, without it %.1f and %.1f", got.likely/60, got.sure/60, want.likely/60, want.sure/60)
	}
}

// TestConsistentReadingsPull: readings that no bath of the record gives, 3 K hotter than one
// beyond its 95 % quantile, are believed when there are ten of them that agree: the more
// kelvins, the more reactive the bath is taken to be and the less is left.
func TestConsistentReadingsPull(t *testing.T) {
	w := daytest.Prepared(t, calibrated...)
	d := newDay(w)
	d.Fill(0, 300)
	last, prior := leftAt(t, d, 35)
	rate := func(p *Played) float64 { return p.Likely(func(w *World) float64 { return w.Member.Rate }) }
	reactive := rate(prior)
	var minutes []float64
	for i := range 10 {
		minutes = append(minutes, 8+3*float64(i))
	}
	hot := ensemble.Member{Rate: 1.25, Viscosity: 1, Loss: 0.8, Weight: 1} // the spread of time is 1.2, of loss 1.3
	for _, kelvin := range []float64{0, 1, 2, 3} {
		d := newDay(w)
		d.Fill(0, 300)
		readTruth(t, d, hot, kelvin, minutes...)
		now, p := leftAt(t, d, 35)
		if !(now.likely < last.likely && now.sure <= now.likely) || !(rate(p) > reactive) {
			t.Errorf("%g K hotter than the hottest, %.1f min are left, surely %.1f, where it was %.1f; rate %.2f, where it was %.2f",
				kelvin, now.likely/60, now.sure/60, last.likely/60, rate(p), reactive)
		}
		if len(p.Doubts) > 0 {
			t.Errorf("%g K hotter: %d of ten readings that agree are doubted", kelvin, len(p.Doubts))
		}
		last, reactive = now, rate(p)
	}
}

// TestReadingsAroundATopUp belong to the bath of their moment: readings of a twin before and
// after a top-up are explained, and find its rate; the same readings logged on the wrong side
// of the pour are not.
func TestReadingsAroundATopUp(t *testing.T) {
	w := daytest.Prepared(t)
	truth := ensemble.Member{Rate: 1.35, Viscosity: 1, Loss: 0.95, Weight: 1}
	day := func() day {
		d := newDay(w)
		d.Fill(0, 500)
		d.Fill(50, 400) // poured at 55
		return d
	}
	d := day()
	readTruth(t, d, truth, 0, 20, 40, 54, 55, 56, 70)
	_, p := leftAt(t, d, 75)
	rate := func(w *World) float64 { return w.Member.Rate }
	// The thermometer's half kelvin on some 7 K of rise by reaction, six times.
	if got := p.Likely(rate); len(p.Doubts) > 0 || !(math.Abs(math.Log(got/truth.Rate)) < 0.1) {
		t.Errorf("rate %.3f, not %.3f; %+v", got, truth.Rate, p.Doubts)
	}
	cold, hot := day(), day()
	readTruth(t, cold, truth, 0, 54.9)
	readTruth(t, hot, truth, 0, 55.1)
	jump := *cold.Events[len(cold.Events)-1].IsC - *hot.Events[len(hot.Events)-1].IsC
	if !(jump > 2) {
		t.Fatalf("the pour cools the bath by %.1f K only: nothing is asked", jump)
	}
	// In the second of the pour a reading is of what was logged before it.
	for _, before := range []bool{true, false} {
		d := newDay(w)
		d.Fill(0, 500)
		pot := d.Mixed(50, 400)
		if before {
			d.Temperature(55, 30)
		}
		d.Poured(55, pot)
		if !before {
			d.Temperature(55, 30)
		}
		world, err := d.script(t, 56).World(truth)
		if err != nil {
			t.Fatal(err)
		}
		says := world.says[0] - 273.15
		want := *cold.Events[len(cold.Events)-1].IsC
		if !before {
			want = *hot.Events[len(hot.Events)-1].IsC
		}
		if !(math.Abs(says-want) < 0.3) { // of the tenth of a minute between
			t.Errorf("logged before the pour %v: the bath has %.1f °C, not about %.1f", before, says, want)
		}
	}
}

// TestViscosityReadings sharpen the viscosity to about what a cup repeats to, and a
// temperature does not.
func TestViscosityReadings(t *testing.T) {
	w := daytest.Prepared(t)
	truth := ensemble.Member{Rate: 1.1, Viscosity: 1.25, Loss: 1, Weight: 1}
	d := newDay(w)
	d.Fill(0, 560)
	_, prior := leftAt(t, d, 40)
	readTruth(t, d, truth, 0, 10, 20, 30)
	_, tempered := leftAt(t, d, 40)
	for _, m := range []float64{10, 20, 30} {
		world, err := d.script(t, m).World(truth)
		if err != nil {
			t.Fatal(err)
		}
		d.Viscosity(m, float64(world.Viscosity()))
	}
	_, sharp := leftAt(t, d, 40)
	spread := func(p *Played) float64 {
		of := func(w *World) float64 { return math.Log(w.Member.Viscosity) }
		return p.Quantile(0.9, of) - p.Quantile(0.1, of)
	}
	if !(spread(tempered) > 0.8*spread(prior)) || !(spread(sharp) < 0.6*spread(prior)) {
		t.Errorf("the viscosity is known to %.2f, with temperatures to %.2f, with viscosities to %.2f", spread(prior), spread(tempered), spread(sharp))
	}
	likely := sharp.Likely(func(w *World) float64 { return w.Member.Viscosity })
	// Three cups of 10 %: 6 %, and two of these.
	if !(math.Abs(math.Log(likely/truth.Viscosity)) < 0.12) || len(sharp.Doubts) > 0 {
		t.Errorf("viscosity %.3f, not %.3f; %+v", likely, truth.Viscosity, sharp.Doubts)
	}
}

// TestAGelledBathIsRead: a viscosity that can be read says that the bath has not gelled; where
// every member has gelled it is doubted, and nothing breaks.
func TestAGelledBathIsRead(t *testing.T) {
	w := daytest.Prepared(t)
	d := newDay(w)
	d.Fill(0, 700)
	d.Viscosity(600, 2)
	d.Temperature(601, 24)
	_, p := leftAt(t, d, 602)
	if len(p.Doubts) != 1 || !p.Doubts[0].Reading.Viscous || !math.IsInf(p.Doubts[0].High, 1) {
		t.Errorf("doubts %+v", p.Doubts)
	}
	// In the minutes in which some have gelled and some not, those that have are ruled out.
	gelled := func(w *World) float64 {
		if w.Bath.Alpha >= w.Gel() {
			return 1
		}
		return 0
	}
	share := func(p *Played) float64 {
		sum, all := 0.0, 0.0
		for i, w := range p.Worlds {
			weight := p.Cloud.Members[i].Weight
			sum, all = sum+weight*gelled(w), all+weight
		}
		return sum / all
	}
	for m := 60.0; m < 600; m += 10 {
		d := newDay(w)
		d.Fill(0, 700)
		_, before := leftAt(t, d, m)
		if was := share(before); was > 0.3 && was < 0.7 {
			likely := math.NaN()
			for _, w := range before.Worlds { // the thickest that has not gelled
				if gelled(w) == 0 {
					likely = float64(w.Viscosity())
				}
			}
			d.Viscosity(m, likely)
			if _, after := leftAt(t, d, m); !(share(after) < 0.1) {
				t.Errorf("after %.0f min %.2f of the worlds have gelled, and %.2f after a viscosity was read", m, was, share(after))
			}
			return
		}
	}
	t.Error("there is no moment at which half of the worlds have gelled")
}

// TestManyReadings: however many, they count as twelve, (5) of the package comment: the width
// of what is known is that of twelve, and a thousand are weighed as fast as two dozen.
func TestManyReadings(t *testing.T) {
	w := daytest.Prepared(t)
	truth := ensemble.Member{Rate: 1.2, Viscosity: 1, Loss: 1, Weight: 1}
	world, err := func() (*World, error) {
		d := newDay(w)
		d.Fill(0, 560)
		return d.script(t, 30).World(truth)
	}()
	if err != nil {
		t.Fatal(err)
	}
	width := func(n int) (float64, *Played) {
		d := newDay(w)
		d.Fill(0, 560)
		for range n { // all at once: the same that all say
			d.Temperature(30, world.Bath.Temperature.Celsius())
		}
		p := played(t, d, 31)
		of := func(w *World) float64 { return float64(w.Bath.Temperature) }
		return p.Quantile(0.9, of) - p.Quantile(0.1, of), p
	}
	three, _ := width(3)
	twelve, _ := width(12)
	many, p := width(1000)
	// A width from a hundred effective members is known to about a tenth.
	if !(math.Abs(many/twelve-1) < 0.25) || !(three > 1.5*twelve) {
		t.Errorf("the bath is known to %.2f K by 3 readings, %.2f by 12, %.2f by 1000", three, twelve, many)
	}
	if len(p.Doubts) > 0 {
		t.Errorf("%d are doubted", len(p.Doubts))
	}
	// Exactly: what 24 readings say of a member is what twelve say.
	likelihoods := func(n int) []float64 {
		d := newDay(w)
		d.Fill(0, 560)
		for range n {
			d.Temperature(30, 27)
		}
		s := d.script(t, 31)
		of := &lives{script: s, known: map[ensemble.Member]*World{}}
		logs, err := of.likelihood(ensemble.Draw(w.Task.Spread, 20, 3))
		if err != nil {
			t.Fatal(err)
		}
		return logs
	}
	a, b, half := likelihoods(12), likelihoods(24), likelihoods(6)
	for i := range a {
		if !(math.Abs(a[i]-b[i]) <= 1e-9*math.Abs(a[i])) || !(math.Abs(a[i]-2*half[i]) <= 1e-9*math.Abs(a[i])) {
			t.Errorf("member %d: ln L is %g by 6, %g by 12, %g by 24 readings", i, half[i], a[i], b[i])
		}
	}
}

// TestNothingIsUncertain: where all spreads are 1 the answer is that of the record, with
// readings or without, and one that does not fit is doubted.
func TestNothingIsUncertain(t *testing.T) {
	w := daytest.Prepared(t)
	task := *w.Task
	task.Spread = ensemble.Spread{Time: 1, Viscosity: 1, Loss: 1}
	certain := *w
	certain.Task = &task
	d := newDay(&certain)
	d.Fill(0, 560)
	check := func(doubts int) {
		t.Helper()
		p := played(t, d, 40)
		got := leftOf(t, p)
		world, err := p.Script.World(nominal())
		if err != nil {
			t.Fatal(err)
		}
		want, _, err := world.Ahead().Left(lifeHorizon)
		if err != nil {
			t.Fatal(err)
		}
		if got.likely != float64(want) || got.sure != float64(want) || len(p.Doubts) != doubts {
			t.Errorf("left %+v, not %g; doubts %+v", got, float64(want), p.Doubts)
		}
		if few := p.Few(100); len(few) != 1 || few[0].Weight != 100 {
			t.Errorf("%d worlds stand for the one", len(few))
		}
	}
	check(0)
	readTruth(t, d, nominal(), 0.3, 10, 20)
	check(0)
	d.Temperature(30, 60)
	check(1)
}

// TestLateFill: a bath that was filled while the machine was logged as running, as happens
// when resume is told before poured, is wound from, also where older baths are not replayed.
func TestLateFill(t *testing.T) {
	w := daytest.Prepared(t)
	for _, readings := range []int{0, 2 * enoughReadings} {
		d := newDay(w)
		d.Fill(0, 560)
		d.Begin(6, 1)
		d.Pause(10)
		d.Changed(11)
		d.Resume(12)
		d.Fill(10, 500) // poured at 15
		r := rand.New(rand.NewPCG(1, 1))
		for range readings {
			d.Temperature(16+r.Float64(), 22)
		}
		s := d.script(t, 20)
		all, err := s.World(nominal())
		if err != nil {
			t.Fatal(err)
		}
		recent, err := s.recent(nominal())
		if err != nil {
			t.Fatal(err)
		}
		if (s.weighFrom > 0) != (readings > 0) {
			t.Errorf("with %d readings the weighing begins at step %d", readings, s.weighFrom)
		}
		if all.Bath != recent.Bath || !(all.Bath.Mass < 0.5*0.98-0.005) {
			t.Errorf("the bath is %+v, by the steps since its fill %+v", all.Bath, recent.Bath)
		}
		if !slices.Equal(all.says, recent.says) {
			t.Error("they say other things to the readings")
		}
	}
}

// TestALateRoomReading: a thermometer in the room that is read for the first time late in the
// morning, four kelvin colder than the job says, does not turn round what was read of the bath
// before.
func TestALateRoomReading(t *testing.T) {
	w := daytest.Prepared(t, "resin: epoxy-ipda", "resin: epoxy-polyetheramine", "resin_at: 21 °C\n", "", "room: 23 °C", "room: 21 °C", "temperature: 23 °C}", "temperature: 21 °C}")
	d := newDay(w)
	d.Fill(10, 500)
	d.Begin(16, 1)
	readTruth(t, d, nominal(), 0, 35, 65)
	before := played(t, d, 74)
	d.Room(74, 17)
	after := played(t, d, 74)
	if len(after.Doubts) > 0 {
		t.Errorf("readings of the bath are thrown out: %+v", after.Doubts)
	}
	bath := func(p *Played) float64 {
		return p.Likely(func(w *World) float64 { return w.Bath.Temperature.Celsius() })
	}
	// The room cooled by 4 K over the 74 min, and a bath of half a kilogram follows it within
	// some two hours: less than half of that, and it is still warmer than the room.
	if was, is := bath(before), bath(after); !(is > was-2 && is < was && is > 19) {
		t.Errorf("the bath has %.1f °C, before the room was read %.1f °C", is, was)
	}
}
