package schedule_test

import (
	"math"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
	"potlife/resins"
	"potlife/schedule"
)

// peak is how far above a room of 23 °C a forgotten mass gets.
func peak(t *testing.T, r *resins.Record, in resins.Container, mass quantity.Mass) float64 {
	t.Helper()
	at := quantity.Celsius(23)
	room := vessel.Constant(at)
	pot, err := still.New(r.Kinetics, in.Body(mass, 1, false), room, room, still.Searching)
	if err != nil {
		t.Fatal(err)
	}
	m, err := pot.Milestones(vessel.State{Temperature: at}, 0, 7*86400)
	if err != nil {
		t.Fatal(err)
	}
	return float64(m.Peak - at)
}

// TestRunawayIsWhereThePeakRisesFastest: with burn-off, criticality is where the
// peak rises steepest with the mass, ln over ln (the inflection, as the theory of
// parametric sensitivity has it; that it is taken so is common practice, no clause
// seen). Wherever there is such a place worth the name, with a slope above 3, the
// greatest mass that [still.RunawayRise] calls safe is within 10 % of it, as far as
// a crew can tell a pot's mass. Where the slope is less, the burn is slow and nothing
// decides; there the mass is only asked to be finite.
func TestRunawayIsWhereThePeakRisesFastest(t *testing.T) {
	for _, name := range []string{"epoxy-teta", "epoxy-ipda", "epoxy-polyetheramine-ipda", "epoxy-polyetheramine"} {
		r, err := resins.Load(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, in := range []resins.Container{{Cup: 0.06}, {Cup: 0.09}, {Cup: 0.14}, {Length: 0.3, Width: 0.12}} {
			d := still.Danger{
				Resin: r.Kinetics, Room: quantity.Celsius(23), Wall: quantity.Celsius(23), From: quantity.Celsius(23), Precision: still.Searching,
				Highest: 8, Body: func(m quantity.Mass) still.Body { return in.Body(m, 1, false) },
			}
			safe, err := d.GreatestSafe()
			if err != nil || !(safe > 0 && safe < 8) {
				t.Fatal(name, in, safe, err)
			}
			const stride = 0.05
			steepest, at, rise := 0.0, 0.0, 0.0
			low := math.NaN()
			for ln := -0.6; ln < 0.4; ln += stride {
				high := peak(t, r, in, safe*quantity.Mass(math.Exp(ln+stride)))
				if slope := math.Log(high/low) / stride; slope > steepest {
					steepest, at, rise = slope, ln+stride/2, math.Sqrt(low*high)
				}
				low = high
			}
			t.Logf("%s %v: safe %.0f g; steepest, %.1f, at %.2f of it, %.0f K", name, in, safe.In("g"), steepest, math.Exp(at), rise)
			if steepest > 3 && !(math.Abs(math.Exp(at)-1) <= 0.1) {
				t.Errorf("%s %v: safe %.0f g, the peak rises steepest at %.0f g", name, in, safe.In("g"), safe.In("g")*math.Exp(at))
			}
		}
	}
}

// TestDangerOfStandingResin: what worktime tells of a mass is true of the resin on
// the bad side: the ways out hold, the mass asked about does not.
func TestDangerOfStandingResin(t *testing.T) {
	l := standing(t, nil)
	d := l.Danger
	if !d.Runs() || !(d.Safe > 0 && d.Safe < 0.25) || !(d.SafeUndepleted > 0 && d.SafeUndepleted < d.Safe) {
		t.Fatalf("%+v", d)
	}
	if each := 0.25 / float64(d.Vessels); d.Vessels == 0 || each > float64(d.Safe) || 0.25/float64(d.Vessels-1) <= float64(d.Safe) {
		t.Errorf("split into %d, of %v each at most", d.Vessels, d.Safe)
	}
	// Spread so it is as deep as said: m = ρ·side²·depth.
	if m := 1110 * math.Pow(float64(d.Side), 2) * float64(d.Depth); !near(m, 0.25) {
		t.Errorf("%.3f kg in a tray of %v, %v deep", m, d.Side, d.Depth)
	}
	// A mass within what is safe is no danger, and asks no way out.
	small := standing(t, func(s *schedule.Standing) { s.Mass = d.Safe * 0.99 })
	if small.Danger.Runs() || small.Danger.Vessels != 0 || small.Danger.Safe != d.Safe {
		t.Errorf("%v: %+v", d.Safe*0.99, small.Danger)
	}
	// So is the same mass in a tray of that side with usual losses.
	wide := standing(t, func(s *schedule.Standing) {
		s.Bath.Container = resins.Container{Length: d.Side * 1.01, Width: d.Side * 1.01}
	})
	if wide.Danger.Runs() {
		t.Errorf("spread in %v: %+v", d.Side, wide.Danger)
	}
	// A drum that stirs may stop.
	stirred := standing(t, func(s *schedule.Standing) { s.Bath.Drum = resins.Turning })
	if stirred.Danger.Safe != d.Safe {
		t.Errorf("stirred: %v are safe, still %v", stirred.Danger.Safe, d.Safe)
	}
	// The peak of the nominal cup tells the same in between: the bad side is worse.
	r, err := resins.Load("epoxy-ipda")
	if err != nil {
		t.Fatal(err)
	}
	if rise := peak(t, r, resins.Container{Cup: 0.09}, d.Safe); !(rise < float64(still.RunawayRise)/2) {
		t.Errorf("what is safe for 99 in 100 warms by %.0f K in the middle one", rise)
	}
}

// TestWhatMakesDanger: a warmer room, warmer resin, less loss and a larger doubt each
// leave less that is safe.
func TestWhatMakesDanger(t *testing.T) {
	base := standing(t, nil).Danger.Safe
	for name, change := range map[string]func(*schedule.Standing){
		"warmer room":   func(s *schedule.Standing) { s.Room = quantity.Celsius(30) },
		"warmer resin":  func(s *schedule.Standing) { s.From = quantity.Celsius(45) },
		"insulated cup": func(s *schedule.Standing) { s.Bath.SurfaceLoss, s.Bath.WallLoss = 5, 5 },
		"more doubt":    func(s *schedule.Standing) { s.Record.Spread.Time = 2.5 },
		"narrower cup":  func(s *schedule.Standing) { s.Bath.Cup = 0.06 },
		"warm jacket": func(s *schedule.Standing) {
			jacketed, _, err := schedule.ReadVessel("", "{cup: 90 mm, jacket: 60 °C}")
			if err != nil {
				t.Fatal(err)
			}
			s.Bath = jacketed
		},
	} {
		if safe := standing(t, change).Danger.Safe; !(safe < base*0.97) {
			t.Errorf("%s: %v are safe, %v without", name, safe, base)
		}
	}
}
