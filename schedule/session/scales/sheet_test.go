package scales_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/schedule/session"
	"potlife/schedule/session/daytest"
	"potlife/schedule/session/scales"
	"potlife/schedule/weighing"
)

// path is what the job's three layers take of each tow, worked anew from the
// unrolled cylinder (derived): a hoop of L/b turns is √((πD)² + b²) a turn, a closed
// ±α layer ceil(πD·cosα/b) circuits of 2L/cosα; every layer has 4 m of ends.
func path(layers ...float64) float64 {
	total := 0.0
	for _, metres := range layers {
		total += metres + 4
	}
	return total
}

func hoop(diameter float64) float64 { return 1.6 / 0.008 * math.Hypot(math.Pi*diameter, 0.008) }

func helical(diameter float64) float64 {
	cos := math.Cos(25 * math.Pi / 180)
	return math.Ceil(math.Pi*diameter*cos/0.008) * 2 * 1.6 / cos
}

// TestFromTheSession: tow, tex, tows, densities, target, plies and pots are those of
// the job and the journal.
func TestFromTheSession(t *testing.T) {
	w := job(t, "0 %", "layer")
	d := wound(w, 450)
	d.Mixed(41, 80) // stands
	d.LeftOver(42, 96)
	d.Weighed(43, session.Weights{PartG: of(4130), MandrelG: of(3500)})
	a, err := sheet(t, d).Weigh()
	if err != nil {
		t.Fatal(err)
	}
	in := a.Input
	second, third := float64(w.Laid[1].Diameter), float64(w.Laid[2].Diameter)
	near(t, "tow, m", float64(in.Tow.Value), path(hoop(0.09), helical(second), hoop(third)), 1e-9)
	near(t, "tex", in.Tex.Value.In("tex"), 800, 1e-9)
	near(t, "mixed, g", in.Mixed.Value.In("g"), 530, 1e-9)
	near(t, "mixed, u, g: two readings of 0.1 g", in.Mixed.U.In("g"), 0.1*math.Sqrt(2./12), 1e-12)
	near(t, "in cups, g", in.Cups.Value.In("g"), 80, 1e-9)
	near(t, "left over, g", in.LeftOver.Value.In("g"), 96, 1e-9)
	near(t, "left over, u, g: a reading of 1 g", in.LeftOver.U.In("g"), 1/math.Sqrt(12), 1e-12)
	near(t, "fibre density", in.FibreDensity.Value.In("g/cm³"), 1.80, 1e-12)
	near(t, "resin density, that of the liquid", float64(in.ResinDensity.Value), float64(w.Record.Kinetics.Density), 0)
	near(t, "resin density, u: within 5 %", float64(in.ResinDensity.U/in.ResinDensity.Value), 0.05/math.Sqrt(3), rounding)
	if in.Tows != 2 || in.Plies != 4 || in.Target != (resins.FibreFraction{Value: 0.62, Basis: resins.ByMass}) {
		t.Errorf("%d tows, %d plies, target %v; want 2, 4 and 62 %% by mass", in.Tows, in.Plies, in.Target)
	}
	fibre := (hoop(0.09) + helical(second) + hoop(third)) * 2 * 800e-6
	area := math.Pi * 1.6 * (0.09 + 2*second + third)
	near(t, "ply, kg/m²", float64(in.ArealWeight.Value), fibre/area, 1e-9)
	for _, want := range []warning.Warning{
		scales.TowAssumed{Tow: in.Tow.Value, Layers: 3},
		scales.TexAssumed{Tows: 2, Tex: in.Tex.Value},
		scales.FibreDensityAssumed{Density: in.FibreDensity.Value},
		scales.ResinDensityAssumed{Resin: w.Record.Name, Density: in.ResinDensity.Value, Within: 0.05},
		scales.PliesAssumed{Plies: 4, Ply: in.ArealWeight.Value},
		scales.CupsAssumed{Pots: 1},
	} {
		if !slices.Contains(a.Assumed, want) {
			t.Errorf("%+v is not among what was assumed: %+v", want, a.Assumed)
		}
	}
	if len(a.Expected) != 1 || a.Expected[0].What != scales.LeftInCups || !(math.Abs(a.Expected[0].Mass.In("g")-9) <= 1e-9) {
		t.Errorf("2 %% of the 450 g poured should stay in cups: %+v", a.Expected)
	}
}

// TestHoopPly: a hoop alone is a ply of tows·tex/band, 200 g/m², but for the slant of
// its turns, (b/πD)²/2 of it (derived).
func TestHoopPly(t *testing.T) {
	for _, per := range []string{"layer", "circuit"} {
		d := daytest.New(job(t, "0 %", per))
		d.Fill(0, 3000)
		d.Layer(1, 6, 9)
		s := sheet(t, d)
		s.Add(session.Weights{PartG: of(1600)})
		a, err := s.Weigh()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "ply, g/m², ends per "+per, a.Input.ArealWeight.Value.In("g/m²"), 200*math.Hypot(1, 0.008/(math.Pi*0.09)), 1e-9)
		if a.Input.Plies != 1 || !slices.Contains(a.Warnings, warning.Warning(scales.LayersNotDone{Done: 1, Layers: 3})) {
			t.Errorf("%d plies, and warned %+v", a.Input.Plies, a.Warnings)
		}
	}
}

// TestLeftOver: a weighing of the bath counts where nothing was poured or wound after
// it, once for each bath.
func TestLeftOver(t *testing.T) {
	rows := map[string]struct {
		day     func(d *daytest.Day)
		want    float64                   // g; NaN: not known
		unknown scales.LeftOverNotWeighed // zero: none
	}{
		"at the end":         {func(d *daytest.Day) { d.LeftOver(10, 96) }, 96, scales.LeftOverNotWeighed{}},
		"the last one":       {func(d *daytest.Day) { d.LeftOver(10, 96); d.LeftOver(11, 94) }, 94, scales.LeftOverNotWeighed{}},
		"none":               {func(*daytest.Day) {}, math.NaN(), scales.LeftOverNotWeighed{Baths: 1, Of: 1}},
		"nothing left":       {func(d *daytest.Day) { d.LeftOver(10, 0) }, 0, scales.LeftOverNotWeighed{}},
		"before a pour":      {func(d *daytest.Day) { d.LeftOver(10, 96); d.Fill(11, 100) }, math.NaN(), scales.LeftOverNotWeighed{Baths: 1, Of: 1}},
		"before a layer":     {func(d *daytest.Day) { d.LeftOver(10, 96); d.Layer(2, 11, 12) }, math.NaN(), scales.LeftOverNotWeighed{Baths: 1, Of: 1}},
		"then dumped":        {func(d *daytest.Day) { d.LeftOver(10, 96); d.Changed(11) }, 96, scales.LeftOverNotWeighed{}},
		"after dumping":      {func(d *daytest.Day) { d.Changed(10); d.LeftOver(11, 90) }, 90, scales.LeftOverNotWeighed{}},
		"two baths":          {func(d *daytest.Day) { d.LeftOver(10, 96); d.Changed(11); d.Fill(12, 200); d.LeftOver(18, 50) }, 146, scales.LeftOverNotWeighed{}},
		"the first unknown":  {func(d *daytest.Day) { d.Changed(10); d.Fill(11, 200); d.LeftOver(17, 50) }, 50, scales.LeftOverNotWeighed{Baths: 1, Of: 2}},
		"the second unknown": {func(d *daytest.Day) { d.LeftOver(10, 96); d.Changed(11); d.Fill(12, 200) }, 96, scales.LeftOverNotWeighed{Baths: 1, Of: 2}},
		"taken back":         {func(d *daytest.Day) { d.LeftOver(10, 96); d.Undo(11, len(d.Events)) }, math.NaN(), scales.LeftOverNotWeighed{Baths: 1, Of: 1}},
		"in a pause": {func(d *daytest.Day) {
			d.Begin(10, 2)
			d.Pause(11)
			d.LeftOver(12, 96)
			d.Resume(13)
			d.Done(14, 2)
		}, math.NaN(), scales.LeftOverNotWeighed{Baths: 1, Of: 1}},
	}
	w := job(t, "0 %", "layer")
	for name, row := range rows {
		t.Run(name, func(t *testing.T) {
			d := daytest.New(w)
			d.Fill(0, 400)
			d.Layer(1, 6, 9)
			row.day(d)
			s := sheet(t, d)
			s.Add(session.Weights{PartG: of(300)})
			a, err := s.Weigh()
			if err != nil {
				t.Fatal(err)
			}
			if given := !math.IsNaN(row.want); a.Input.LeftOver.Given != given {
				t.Errorf("given: %v, want %v", a.Input.LeftOver.Given, given)
			} else if given {
				near(t, "left over, g", a.Input.LeftOver.Value.In("g"), row.want, 1e-9)
			}
			var warned scales.LeftOverNotWeighed
			for _, w := range a.Warnings {
				if one, is := w.(scales.LeftOverNotWeighed); is {
					warned = one
				}
			}
			if warned != row.unknown {
				t.Errorf("warned of a bath not weighed: %+v, want %+v", warned, row.unknown)
			}
		})
	}
}

// TestOneOverTheOther: the session, then what was logged, the latest of each, then what
// is said now; one that was taken back counts no more.
func TestOneOverTheOther(t *testing.T) {
	d := wound(job(t, "0 %", "layer"), 450)
	d.LeftOver(41, 96)
	d.Weighed(42, session.Weights{PartG: of(640), LeftOverG: of(90), CupsG: of(4)})
	d.Weighed(43, session.Weights{PartG: of(630)})
	wrong := d.Weighed(44, session.Weights{PartG: of(1), CupsG: of(400)})
	d.Finish(45)
	d.Undo(46, wrong)
	d.Weighed(47, session.Weights{RagsG: of(3)}) // after the finish
	s := sheet(t, d)
	s.Add(session.Weights{CupsG: of(7), Tex: of(810), Plies: new(int)})
	*s.Weights.Plies = 5
	a, err := s.Weigh()
	if err != nil {
		t.Fatal(err)
	}
	in := a.Input
	near(t, "part: logged last", in.Part.Value.In("g"), 630, 1e-9)
	near(t, "left over: logged over the session's", in.LeftOver.Value.In("g"), 90, 1e-9)
	near(t, "cups: said now", in.Cups.Value.In("g"), 7, 1e-9)
	near(t, "rags: after the finish", in.Rags.Value.In("g"), 3, 1e-9)
	near(t, "tex: said now", in.Tex.Value.In("tex"), 810, 1e-9)
	near(t, "mixed: the session's", in.Mixed.Value.In("g"), 450, 1e-9)
	if in.Plies != 5 {
		t.Errorf("%d plies, want 5", in.Plies)
	}
	if len(a.Expected) != 0 {
		t.Errorf("what was weighed is still expected: %+v", a.Expected)
	}
	for _, note := range a.Assumed {
		if _, is := note.(scales.TexAssumed); is {
			t.Errorf("tex was said, and yet %+v", note)
		}
	}
}

// TestWithoutASession: what is said is all there is.
func TestWithoutASession(t *testing.T) {
	s := &scales.Sheet{}
	if _, err := s.Weigh(); !errors.As(err, new(*weighing.Missing)) {
		t.Errorf("nothing was weighed: %v", err)
	}
	s.Add(session.Weights{PartG: of(1000), FibreG: of(620), WaterC: of(21)})
	s.Target, s.Band = resins.FibreFraction{Value: 0.62, Basis: resins.ByMass}, 0.01
	a, err := s.Weigh()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "fibre by mass", float64(a.ByMass.Value), 0.62, rounding)
	near(t, "water, °C", a.Input.WaterTemperature.Value.Celsius(), 21, 1e-9)
	if a.Verdict.Word != weighing.OnTarget || a.Verdict.Band != 0.01 {
		t.Errorf("verdict %+v", a.Verdict)
	}
}

// TestWeighIfPossible: a day's report leaves out a part whose weights say too little or
// cannot be true, and warns of it.
func TestWeighIfPossible(t *testing.T) {
	d := wound(job(t, "0 %", "layer"), 450)
	for name, row := range map[string]struct {
		weights session.Weights
		want    []warning.Warning
		answer  bool
	}{
		"nothing":    {session.Weights{}, nil, false},
		"too little": {session.Weights{VolumeML: of(500)}, []warning.Warning{scales.PartIncomplete{Missing: "the weight of the part"}}, false},
		"impossible": {session.Weights{PartG: of(0)}, []warning.Warning{scales.PartImpossible{Input: "part", Problem: "it is nothing"}}, false},
		"possible":   {session.Weights{PartG: of(630)}, nil, true},
	} {
		s := sheet(t, d)
		s.Add(row.weights)
		a, warned, err := s.WeighIfPossible()
		if err != nil || (a != nil) != row.answer || !slices.Equal(warned, row.want) {
			t.Errorf("%s: %v, %+v, %v", name, a != nil, warned, err)
		}
	}
}

// TestALayerGivenUp: of the layer that was in hand at the finish only its share counts: of the
// tow, of the fibre that makes the plies heavier, and of what is wiped off.
func TestALayerGivenUp(t *testing.T) {
	w := job(t, "6 %", "layer")
	d := daytest.New(w)
	d.Fill(0, 450)
	d.Layer(1, 10, 10+float64(w.Laid[0].Time)/60) // as planned, so that the pace of the day is 1
	begun := d.Last() + 5
	d.Begin(begun, 2)
	const share = 0.43
	d.Finish(begun + share*float64(w.Laid[1].Time)/60)
	d.Weighed(d.Last()+1, session.Weights{PartG: of(4130), MandrelG: of(3500), MixedG: of(450)})
	a, err := sheet(t, d).Weigh()
	if err != nil {
		t.Fatal(err)
	}
	second := helical(float64(w.Laid[1].Diameter)) // without its ends
	// A crew logs whole seconds, one of which is 1e-3 of a layer or less.
	near(t, "tow, m", float64(a.Input.Tow.Value), path(hoop(0.09))+share*path(second), 1e-3*path(second))
	fibre := (hoop(0.09) + share*second) * 2 * 800e-6
	near(t, "ply, kg/m²", float64(a.Input.ArealWeight.Value), fibre/(math.Pi*1.6*0.09), 1e-3*fibre/(math.Pi*1.6*0.09))
	if a.Input.Plies != 1 {
		t.Errorf("%d plies are whole, want 1", a.Input.Plies)
	}
	wiped := 0.06 * float64(w.Laid[0].Resin+share*w.Laid[1].Resin)
	i := slices.IndexFunc(a.Expected, func(l scales.Loss) bool { return l.What == scales.WipedOff })
	if i < 0 {
		t.Fatalf("nothing is wiped off: %+v", a.Expected)
	}
	near(t, "wiped off, kg", float64(a.Expected[i].Mass), wiped, 1e-3*wiped)
	said := false
	for _, one := range a.Warnings {
		if given, ok := one.(scales.LayersNotDone); ok {
			said = given.Done == 1 && given.GivenUp == 2 && math.Abs(given.Share-share) <= 1e-3
		}
	}
	if !said {
		t.Errorf("it does not warn of the layer given up: %+v", a.Warnings)
	}
}
