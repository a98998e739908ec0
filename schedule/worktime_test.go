package schedule_test

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"potlife/kinetics"
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/schedule"
)

// TestReadVessel: a flag takes the bath mapping of a job, of which only the
// vessel counts.
func TestReadVessel(t *testing.T) {
	for text, want := range map[string]schedule.Bath{
		"{cup: 90 mm}":                               {Container: resins.Container{Cup: 0.09}},
		"cup: 90 mm":                                 {Container: resins.Container{Cup: 0.09}},
		"{cup: 90 mm, drum: {turns: always}}":        {Container: resins.Container{Cup: 0.09, Drum: resins.Turning}},
		"{length: 300 mm, width: 12 cm, drum: none}": {Container: resins.Container{Length: 0.3, Width: 0.12}},
		"{length: 300 mm, width: 120 mm, lowest: 120 g, highest: 700 g, change: 15 min, pour: 1 min, surface_loss: 10 W/(m²·K), wall_loss: 6 W/(m²·K)}": {
			Container: resins.Container{Length: 0.3, Width: 0.12, Drum: resins.Drum{Turns: resins.WithTow}, SurfaceLoss: 10, WallLoss: 6},
		},
	} {
		got, _, err := schedule.ReadVessel("--vessel", text)
		if err != nil || !near(got.Cup, want.Cup) || !near(got.Length, want.Length) || !near(got.Width, want.Width) ||
			got.Drum != want.Drum || !near(got.SurfaceLoss, want.SurfaceLoss) || !near(got.WallLoss, want.WallLoss) || got.HasJacket {
			t.Errorf("%s is read as %+v, %v", text, got, err)
		}
	}
	jacketed, _, err := schedule.ReadVessel("--vessel", "{cup: 90 mm, jacket: 35 °C}")
	series, known := jacketed.Jacket.Series()
	if err != nil || !jacketed.HasJacket || !known || !near(series.At(0), quantity.Celsius(35)) {
		t.Errorf("a jacket is read as %+v, %v", jacketed, err)
	}
	for text, want := range map[string]string{
		"":                             "--vessel:1:1: nothing is written here",
		"{cup: 90}":                    "--vessel:1:7: 90 has no unit",
		"{length: 300 mm}":             "--vessel:1:1: the vessel has no size",
		"{cup: 90 mm, length: 300 mm}": "--vessel:1:7: a vessel is a cup or a tray, not both",
		"{cupp: 90 mm}":                "--vessel:1:2: unknown key cupp",
		"90 mm":                        "--vessel:1:1: a single value stands here",
		"{cup: -90 mm}":                "--vessel:1:7: -90 mm is not above zero",
		"{cup: 90 mm, jacket: 500 °C}": "--vessel:1:22: 500 °C is above 200 °C",
	} {
		if _, _, err := schedule.ReadVessel("--vessel", text); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%q: %v, want %s", text, err, want)
		}
	}
}

// TestReadLimits: the limits mapping of a job; the reserve is the usual one if
// left out.
func TestReadLimits(t *testing.T) {
	got, _, err := schedule.ReadLimits("--limits", "{bath_viscosity: 900 mPa·s, bath_temperature: 38 °C}")
	if err != nil || !near(got.BathViscosity, 0.9) || !near(got.BathTemperature, quantity.Celsius(38)) || got.LaidViscosity != 0 || !near(got.Reserve, 600) {
		t.Errorf("%+v, %v", got, err)
	}
	if _, _, err := schedule.ReadLimits("--limits", "{bath_viscosity: 0 mPa·s}"); err == nil || !strings.HasPrefix(err.Error(), "--limits:1:18:") {
		t.Errorf("a limit of zero: %v", err)
	}
}

// TestReadLabel: the datasheet mapping of a job, its container and its end-point
// checked as in a job.
func TestReadLabel(t *testing.T) {
	got, _, err := schedule.ReadLabel("--datasheet", "{pot_life: {time: 45 min, mass: 100 g, at: 23 °C, in: {cup: 70 mm}, end: 40 °C}}")
	if err != nil || !near(got.Time, 2700) || !near(got.In.Cup, 0.07) || !near(got.End.Temperature, quantity.Celsius(40)) || got.HasViscosity {
		t.Errorf("%+v, %v", got, err)
	}
	for text, want := range map[string]string{
		"{pot_life: {time: 45 min, mass: 100 g, at: 23 °C, in: {drum: {turns: always}}, end: gel}}": "--datasheet:1:55: the vessel has no size",
		"{pot_life: {time: 45 min, mass: 100 g, at: 23 °C, end: 20 °C}}":                            "--datasheet:1:56: the test ends at a temperature that it starts above",
		"{pot_life: {time: 45 min, at: 23 °C, end: gel}}":                                           "--datasheet:1:12: the key mass is missing",
		"{}": "--datasheet:1:1: the data sheet says nothing",
	} {
		if _, _, err := schedule.ReadLabel("--datasheet", text); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
	}
}

// standing is 250 g of the medium system, still in a cup of 90 mm at 22 °C, with
// one thing changed.
func standing(t *testing.T, change func(*schedule.Standing)) *schedule.Lasting {
	t.Helper()
	record, err := resins.Load("epoxy-ipda")
	if err != nil {
		t.Fatal(err)
	}
	s := &schedule.Standing{
		Record: record, Mass: 0.25, Room: quantity.Celsius(22),
		Bath: schedule.Bath{Container: resins.Container{Cup: 0.09}, LossSpread: ensemble.UsualSpread},
	}
	if change != nil {
		change(s)
	}
	l, err := s.Last()
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// TestLastingIsInOrder: the sure life is not above the likely one, both are
// positive, the limit comes before gel, the peak of a runaway after its gel is
// no sooner than the life's end.
func TestLastingIsInOrder(t *testing.T) {
	l := standing(t, nil)
	if !(l.Sure > 0 && l.Sure <= l.Likely && l.Likely < l.Milestones.Gel) {
		t.Errorf("sure %v, likely %v, gel %v", l.Sure, l.Likely, l.Milestones.Gel)
	}
	if !(l.Milestones.Doubled > 0 && l.Milestones.Doubled < l.Milestones.Gel) {
		t.Errorf("doubled %v, gel %v", l.Milestones.Doubled, l.Milestones.Gel)
	}
	if l.EndsBy == vessel.NoLimit || l.EndsBy == vessel.TooThick {
		t.Errorf("ends by %q", l.EndsBy)
	}
	if !(l.Milestones.Peak > quantity.Celsius(22) && l.Milestones.PeakAt > l.Likely) {
		t.Errorf("peak %v at %v, likely %v", l.Milestones.Peak, l.Milestones.PeakAt, l.Likely)
	}
	// Fresh viscosity at 22 °C: 0.6·exp(70000/R·(1/295.15 − 1/298.15)) = 0.7995
	// Pa·s (derived from the record's flow law).
	if want := 0.6 * math.Exp(70000/8.314462618*(1/295.15-1/298.15)); !near(float64(l.Initial), want) {
		t.Errorf("fresh %v, want %g Pa·s", l.Initial, want)
	}
}

// TestWhatShortensLife: warmer, larger, warmer when mixed and better insulated
// all shorten the working life and the time to gel; none of them is close.
func TestWhatShortensLife(t *testing.T) {
	base := standing(t, nil)
	for name, change := range map[string]func(*schedule.Standing){
		"warmer room":   func(s *schedule.Standing) { s.Room = quantity.Celsius(30) },
		"warmer resin":  func(s *schedule.Standing) { s.From = quantity.Celsius(35) },
		"larger pot":    func(s *schedule.Standing) { s.Mass = 0.5 },
		"insulated cup": func(s *schedule.Standing) { s.Bath.SurfaceLoss, s.Bath.WallLoss = 4, 4 },
	} {
		l := standing(t, change)
		if !(l.Likely < base.Likely*0.95 && l.Sure < base.Sure*0.95 && l.Milestones.Gel < base.Milestones.Gel*0.95) {
			t.Errorf("%s: likely %v, sure %v, gel %v; without %v, %v, %v", name, l.Likely, l.Sure, l.Milestones.Gel, base.Likely, base.Sure, base.Milestones.Gel)
		}
	}
}

// TestSpreadSeparatesSureFromLikely: without any spread of the record only the
// loss of the vessel is uncertain; with the record's, sure and likely lie
// further apart.
func TestSpreadSeparatesSureFromLikely(t *testing.T) {
	certain := standing(t, func(s *schedule.Standing) { s.Record.Spread.Time, s.Record.Spread.Viscosity = 1, 1 })
	base := standing(t, nil)
	if !(certain.Sure/certain.Likely > base.Sure/base.Likely) {
		t.Errorf("certain record %v of %v, uncertain %v of %v", certain.Sure, certain.Likely, base.Sure, base.Likely)
	}
}

// TestLimitsEndLife: the limit that is set low is the one that ends it, and none
// lengthens it.
func TestLimitsEndLife(t *testing.T) {
	base := standing(t, nil)
	for _, c := range []struct {
		limits schedule.Limits
		want   vessel.Limit
		tray   bool // wide, so that the resin stays as cool as the room
	}{
		{schedule.Limits{BathTemperature: quantity.Celsius(24)}, vessel.BathTemperature, false},
		{schedule.Limits{BathViscosity: 0.85}, vessel.BathViscosity, true},
		{schedule.Limits{LaidViscosity: 0.9, BathViscosity: 100}, vessel.LaidViscosity, false},
		{schedule.Limits{BathViscosity: 0.1}, vessel.TooThick, false},
	} {
		l := standing(t, func(s *schedule.Standing) {
			if s.Limits = c.limits; c.tray {
				s.Bath = schedule.Bath{Container: resins.Container{Length: 0.3, Width: 0.3, Drum: resins.Turning}}
			}
		})
		if l.EndsBy != c.want {
			t.Errorf("%+v: ends by %s after %v, want %s", c.limits, l.EndsBy, l.Likely, c.want)
		}
		if !(l.Likely < base.Likely) {
			t.Errorf("%+v: likely %v, without %v", c.limits, l.Likely, base.Likely)
		}
		if c.want == vessel.TooThick && l.Likely != 0 {
			t.Errorf("too thick from mixing, yet %v left", l.Likely)
		}
	}
}

// TestDoubtsOfStandingResin: a generic record and a room outside the data are told;
// that a vessel is still is no doubt.
func TestDoubtsOfStandingResin(t *testing.T) {
	got := standing(t, func(s *schedule.Standing) { s.Room = quantity.Celsius(10) }).Warnings
	outside := schedule.OutsideData{At: quantity.Celsius(10), Trusted: resins.Range{From: quantity.Celsius(15), To: quantity.Celsius(80)}, Resin: "epoxy-ipda"}
	if want := []warning.Warning{resins.Generic{Record: "epoxy-ipda", SpreadTime: 1.6}, outside}; !cmp.Equal(got, want, alike(1e-9)) {
		t.Errorf("%+v, want %+v", got, want)
	}
	for _, stirred := range []bool{false, true} {
		quiet := standing(t, func(s *schedule.Standing) {
			s.Record.Evidence["cure"] = resins.Evidence{Kind: resins.Measured, Note: "a cup test"}
			s.Bath.Drum = turning(stirred)
		})
		if len(quiet.Warnings) > 0 {
			t.Errorf("a measured bath, stirred %v: %+v", stirred, quiet.Warnings)
		}
	}
}

// TestGelEndsLife: resin that stays thin and cool enough for its limits until it
// gels ends by gel. A growth of a millionth of the cure stands for such a resin.
func TestGelEndsLife(t *testing.T) {
	l := standing(t, func(s *schedule.Standing) {
		flow := kinetics.Flow{At: quantity.Celsius(25), Value: 0.6, Activation: 70e3}
		s.Record.Kinetics.Viscosity = kinetics.DualArrhenius{Flow: flow, Growth: kinetics.Arrhenius{A: 0.1, E: 56e3}}
		s.Limits.BathTemperature = quantity.Celsius(200)
	})
	// The median of 400 baths against the nominal one: both are quantiles of the
	// same spread of 1.6, σ = 0.29, so the medians differ by some σ/√400·1.25.
	if off := float64(l.Likely/l.Milestones.Gel) - 1; l.EndsBy != vessel.Gel || !(math.Abs(off) <= 0.05) {
		t.Errorf("ends by %s after %v, gels after %v", l.EndsBy, l.Likely, l.Milestones.Gel)
	}
}

// TestStillEndsSooner: left to stand, resin is hotter inside, ends and gels sooner and
// gets hotter than stirred, in a cup and in a deep tray; as a film of 5 mm it makes no
// difference: 1 %, for an ensemble of coarse cups against one of stirred ones.
func TestStillEndsSooner(t *testing.T) {
	pair := func(in resins.Container, mass quantity.Mass) (alone, mixed *schedule.Lasting) {
		of := func(stirred bool) *schedule.Lasting {
			return standing(t, func(s *schedule.Standing) {
				s.Mass, s.Bath.Container = mass, in
				s.Bath.Drum = turning(stirred)
			})
		}
		return of(false), of(true)
	}
	for name, in := range map[string]resins.Container{"cup": {Cup: 0.09}, "tray": {Length: 0.1, Width: 0.1}} {
		alone, mixed := pair(in, 0.4)
		if !(alone.Likely < 0.95*mixed.Likely && alone.Sure < 0.95*mixed.Sure &&
			alone.Milestones.Gel < 0.95*mixed.Milestones.Gel && alone.Milestones.Peak > mixed.Milestones.Peak+10) {
			t.Errorf("%s: likely %v, sure %v, %+v; stirred %v, %v, %+v", name, alone.Likely, alone.Sure, alone.Milestones, mixed.Likely, mixed.Sure, mixed.Milestones)
		}
	}
	alone, mixed := pair(resins.Container{Cup: 0.2}, 0.17)
	if off := float64(alone.Likely/mixed.Likely) - 1; !(math.Abs(off) <= 0.01) {
		t.Errorf("5 mm deep: likely %v, stirred %v", alone.Likely, mixed.Likely)
	}
}

// TestLikelyIsTheNominalCups: with no doubt left every member is the nominal cup on
// the ensemble's coarse grid: its life is that of the still model on 13 cells within 1 %.
func TestLikelyIsTheNominalCups(t *testing.T) {
	l := standing(t, func(s *schedule.Standing) {
		s.Record.Spread.Time, s.Record.Spread.Viscosity, s.Bath.LossSpread = 1, 1, 1
	})
	record, err := resins.Load("epoxy-ipda")
	if err != nil {
		t.Fatal(err)
	}
	room := vessel.Constant(quantity.Celsius(22))
	p := still.Working
	p.Cells = 13
	pot, err := still.New(record.Kinetics, still.Cup{Mass: 0.25, Diameter: 0.09, SurfaceLoss: 11, WallLoss: 11}, room, room, p)
	if err != nil {
		t.Fatal(err)
	}
	want, err := pot.Life(vessel.State{Temperature: quantity.Celsius(22)}, 0, l.Limits, 86400)
	if err != nil || l.EndsBy != want.EndsBy || !(math.Abs(float64(l.Likely/want.Left)-1) <= 0.01) || l.Sure != l.Likely {
		t.Errorf("likely %v, sure %v by %s, the still cup %+v, %v", l.Likely, l.Sure, l.EndsBy, want, err)
	}
}

// turning is a drum that turns always, or none.
func turning(stirred bool) resins.Drum {
	if stirred {
		return resins.Turning
	}
	return resins.Drum{}
}
