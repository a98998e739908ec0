package still_test

import (
	"math"
	"strconv"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

// slabDanger looks for the greatest safe depth of a wide tray with both faces alike.
func slabDanger(r kinetics.Resin, loss quantity.HeatTransfer) *still.Danger {
	p := still.Searching
	p.Rel, p.Alpha, p.Temperature, p.Cells = 1e-3, 1, 1e-2, 11
	return &still.Danger{
		Resin: r, Room: explosionKelvin, Wall: explosionKelvin, From: explosionKelvin, Highest: 500, Precision: p,
		Body: func(m quantity.Mass) still.Body {
			return still.Tray{Vessel: vessel.Vessel{AreaM2: 1, SurfaceLoss: loss, WallLoss: loss, FloorLoss: loss}, Mass: m}
		},
	}
}

func greatest(t *testing.T, d *still.Danger) float64 {
	t.Helper()
	m, err := d.GreatestSafe()
	if err != nil {
		t.Fatal(err)
	}
	return float64(m)
}

// TestGreatestSafeSlab: where the reactant is not used up, the greatest safe depth
// 2L is Frank-Kamenetskii's, δ = (L/half)² here, for a fixed wall and, after P. H.
// Thomas, for convective ones at the Biot number of that depth; the sources stand
// beside TestFrankKamenetskii. 2 %: the bracket of 0.5 % of a mass is 1 % of δ, and
// 1 % is what that test asks of the grid.
func TestGreatestSafeSlab(t *testing.T) {
	r := explosive(1, half)
	for _, h := range []float64{2, 10, 50, math.Inf(1)} {
		depth := greatest(t, slabDanger(r, quantity.HeatTransfer(h))) / float64(r.Density)
		delta, biot := math.Pow(depth/2/half, 2), h*depth/2/float64(r.Conductivity)
		near(t, "δ of the greatest safe depth", delta, slabCritical(biot), 0.02)
	}
}

// TestGreatestSafeCylinder: the same of a cup as deep as wide with a fixed wall,
// against the fold computed by SciPy, see TestFiniteCylinder.
func TestGreatestSafeCylinder(t *testing.T) {
	var results referenceResults
	readReference(t, "still_results.json", &results)
	r := explosive(1, half)
	d := slabDanger(r, 0)
	fixed := quantity.HeatTransfer(math.Inf(1))
	width := func(m float64) float64 { return math.Cbrt(4 * m / (math.Pi * float64(r.Density))) }
	d.Precision.Cells, d.Highest = 9, 2
	d.Body = func(m quantity.Mass) still.Body {
		return still.Cup{Mass: m, Diameter: quantity.Length(width(float64(m))), SurfaceLoss: fixed, WallLoss: fixed, FloorLoss: fixed}
	}
	near(t, "δ of the greatest safe cup", math.Pow(width(greatest(t, d))/2/half, 2), results.Critical.Cylinder, 0.02)
}

// TestGreatestSafeUndepleted: without burn-off and without resistance inside, the
// greatest safe depth is Semenov's with Arrhenius's law in full. With ε = R·T/E
// stationary states obey ψ = θ·exp(−θ/(1 + εθ)), ψ = H·ρ·k·depth/(2h·unit), which
// is greatest where (1 + εθ)² = θ (derived; for ε = 0 it is F. A. Williams, Combustion
// Theory, app. B: 1/e at θ = 1). k is the rate of the medium system at the degree of
// cure where k1 + k2·α times (1 − α)² is greatest: α = (1 − 2·k1/k2)/3 (derived).
func TestGreatestSafeUndepleted(t *testing.T) {
	const kelvin, h = 296.15, 8.0
	r := medium()
	law := r.Cure.(kinetics.KamalSourour)
	r.Conductivity = 2000
	d := slabDanger(r, h)
	d.Precision.Cells = 3 // one temperature: more only lose digits
	d.Room, d.Wall, d.From, d.Undepleted = kelvin, kelvin, kelvin, true
	depth := greatest(t, d) / float64(r.Density)
	ratio := float64(law.K1.A / law.K2.A)
	if law.K1.E != law.K2.E || law.M != 1 || law.N != 2 {
		t.Fatal("the closed form is that of one activation energy, m 1 and n 2")
	}
	rate := law.Rate((1-2*ratio)/3, kelvin)
	epsilon := 8.314462618 * kelvin / float64(law.K1.E)
	theta := (1 - 2*epsilon - math.Sqrt(1-4*epsilon)) / (2 * epsilon * epsilon)
	want := theta * math.Exp(-theta/(1+epsilon*theta))
	got := float64(r.Heat) * float64(r.Density) * rate * depth / (2 * h * epsilon * kelvin)
	near(t, "ψ of the greatest safe depth", got, want, 0.01) // 0.5 % of the bracket, 0.5 % of α in steps
	outside.Check(t, outside.Row{
		ID: "selfheating/semenov/arrhenius", Subject: outside.SelfHeating, Source: "williams", Mark: outside.Derived,
		What: "critical Semenov number of the greatest safe depth without burn-off, Arrhenius's law in full", Printed: strconv.FormatFloat(want, 'f', 4, 64),
		Within: 0.01 * want, Why: "1 %: the bracket of the search and steps of conversion",
	}, got)
	d.Undepleted = false
	if burns := greatest(t, d) / float64(r.Density); !(burns > depth*1.1) {
		t.Errorf("counting burn-off %.1f mm are safe, without %.1f mm", 1e3*burns, 1e3*depth)
	}
}

// TestGreatestSafeGrid: five cells across stay within 1 % below and 0.5 % above what 13 find,
// the bracket included.
func TestGreatestSafeGrid(t *testing.T) {
	for _, diameter := range []quantity.Length{0.05, 0.09, 0.15} {
		d := &still.Danger{
			Resin: medium(), Room: 296.15, Wall: 296.15, From: 296.15, Highest: 2, Precision: still.Searching,
			Body: func(m quantity.Mass) still.Body {
				return still.Cup{Mass: m, Diameter: diameter, SurfaceLoss: 11, WallLoss: 11, FloorLoss: 11}
			},
		}
		coarse := greatest(t, d)
		d.Precision = still.Working
		d.Precision.Cells = 13
		if ratio := coarse / greatest(t, d); !(ratio >= 0.99 && ratio <= 1.005) {
			t.Errorf("%v: %.4f kg, %.4f of the fine grid's", diameter, coarse, ratio)
		}
		for _, m := range []float64{coarse * 0.98, coarse * 1.03} {
			if runs, err := d.RunsAway(quantity.Mass(m)); err != nil || runs != (m > coarse) {
				t.Errorf("%v: %.4f kg runs away: %v, %v", diameter, m, runs, err)
			}
		}
	}
}

// TestGreatestSafeNear: wherever the search begins it ends within the two brackets of the same mass; a
// coarse one ends below it by no more than its share, and the peak of what is safe is below that of
// what is not.
func TestGreatestSafeNear(t *testing.T) {
	d := &still.Danger{
		Resin: medium(), Room: 296.15, Wall: 296.15, From: 296.15, Highest: 2, Precision: still.Searching,
		Body: func(m quantity.Mass) still.Body {
			return still.Cup{Mass: m, Diameter: 0.09, SurfaceLoss: 11, WallLoss: 11}
		},
	}
	want := quantity.Mass(greatest(t, d))
	for _, times := range []quantity.Mass{1e-6, 0.01, 0.5, 0.95, 1, 1.001, 1.2, 3, 1e6} {
		d.Near = want * times
		if got := quantity.Mass(greatest(t, d)); !(got >= want/(1+still.SafeWithin) && got <= want*(1+still.SafeWithin)) {
			t.Errorf("%v from %v on, %v from nowhere", got, d.Near, want)
		}
	}
	d.Near = 0
	coarse, err := d.GreatestSafeWithin(0.1)
	if err != nil || !(coarse <= want*(1+still.SafeWithin) && coarse >= want/1.1) {
		t.Errorf("%v to a tenth, %v closely; %v", coarse, want, err)
	}
	limit := d.Room + quantity.Temperature(still.RunawayRise)
	cool, err := d.FirstPeak(want)
	hot, hotErr := d.FirstPeak(want * (1 + 2*still.SafeWithin))
	if err != nil || hotErr != nil || !(cool < limit && hot > limit) {
		t.Errorf("peaks %v and %v about %v; %v, %v", cool, hot, limit, err, hotErr)
	}
	d.Highest, d.Near = want/2, want/4 // nothing there runs away
	if m, err := d.GreatestSafe(); err != nil || !math.IsInf(float64(m), 1) {
		t.Errorf("all is safe: %v, %v", m, err)
	}
}

// TestGreatestSafeEnds: resin that nothing holds is never safe, resin that hardly
// reacts always, and a body that cannot be computed with is an error.
func TestGreatestSafeEnds(t *testing.T) {
	d := slabDanger(medium(), 10)
	d.Room, d.Wall, d.From = 296.15, 296.15, 296.15
	d.Highest = 1
	if m, err := d.GreatestSafe(); err != nil || !math.IsInf(float64(m), 1) {
		t.Errorf("a millimetre: %v, %v", m, err)
	}
	d.Resin.Cure = d.Resin.Cure.Scaled(1e6)
	d.Highest = 500
	if m, err := d.GreatestSafe(); err != nil || m != 0 {
		t.Errorf("a millionfold rate: %v, %v", m, err)
	}
	d.Resin.Conductivity = 0
	if _, err := d.GreatestSafe(); err == nil {
		t.Error("a resin without conductivity is no error")
	}
}
