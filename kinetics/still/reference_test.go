package still_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

var notWord = regexp.MustCompile(`[^a-z0-9]+`)

// TestReference compares times within 0.3 %, temperatures within 1 K and degrees
// of cure within 0.005, on the grid that the package chooses and at its working
// precision: what a user gets.
func TestReference(t *testing.T) {
	var cases struct{ Cases []referenceCase }
	var results referenceResults
	readReference(t, "still_cases.json", &cases)
	readReference(t, "still_results.json", &results)
	if len(cases.Cases) != 10 || len(results.Cases) != 10 {
		t.Fatalf("%d cases and %d results, want 10", len(cases.Cases), len(results.Cases))
	}
	for i, c := range cases.Cases {
		want := results.Cases[i]
		if c.Name != want.Name {
			t.Fatalf("case %d is %s, its result %s", i, c.Name, want.Name)
		}
		t.Run(c.Name, func(t *testing.T) { c.compare(t, want) })
	}
}

func (c referenceCase) compare(t *testing.T, want referenceResult) {
	pot, horizon := c.pot(t, still.Working), quantity.Time(c.Duration)
	m, err := pot.Milestones(c.start(), 0, horizon)
	if err != nil {
		t.Fatal(err)
	}
	until := func(end vessel.EndPoint) float64 {
		at, err := pot.TimeTo(end, c.start(), 0, horizon)
		if err != nil {
			t.Fatal(err)
		}
		return float64(at)
	}
	for _, one := range []struct {
		what string
		got  float64
		want *float64
	}{
		{"gel", float64(m.Gel), want.Gel},
		{"gel as an end", until(vessel.EndPoint{Gel: true}), want.Gel},
		{"viscosity limit", until(vessel.EndPoint{Viscosity: quantity.Viscosity(c.Limits.Viscosity)}), want.Viscosity},
		{"temperature limit", until(vessel.EndPoint{Temperature: quantity.Temperature(c.Limits.Temperature)}), want.Temperature},
		{"peak", float64(m.PeakAt), &want.PeakAt},
	} {
		if one.want == nil {
			t.Fatalf("%s: the reference never reaches it", one.what)
		}
		near(t, one.what, one.got, *one.want, 3e-3)
		t.Logf("%s: %.2f s, reference %.2f s, off by %.1e", one.what, one.got, *one.want, one.got / *one.want - 1)
	}
	outside.Check(t, outside.Row{
		ID: "libraries/still/" + strings.Trim(notWord.ReplaceAllString(strings.ToLower(c.Name), "-"), "-"), Subject: outside.Libraries,
		Source: "scipy", Mark: outside.Derived, What: "gel of a still body, case " + c.Name, Printed: strconv.FormatFloat(*want.Gel, 'f', 1, 64), Unit: "s",
		Within: 3e-3 * *want.Gel, Why: "0.3 %, on the grid that a user gets",
	}, float64(m.Gel))
	if d := float64(m.Peak) - want.Peak; !(math.Abs(d) <= 1) {
		t.Errorf("the peak is %.2f K, reference %.2f K", float64(m.Peak), want.Peak)
	} else {
		t.Logf("peak %.2f K off by %.2f K; %d cells", want.Peak, d, pot.Cells())
	}
	c.compareEnd(t, pot, want)
}

func (c referenceCase) compareEnd(t *testing.T, pot *still.Pot, want referenceResult) {
	start, err := pot.Uniform(c.start())
	if err != nil {
		t.Fatal(err)
	}
	end, err := pot.Advance(start, 0, quantity.Time(c.Duration))
	if err != nil {
		t.Fatal(err)
	}
	mean := end.Mean()
	for _, one := range []struct {
		what             string
		got, want, bound float64
	}{
		{"hottest, K", float64(end.Hottest().Temperature), want.End.Hottest, 1},
		{"mean temperature, K", float64(mean.Temperature), want.End.Mean, 1},
		{"mean α", mean.Alpha, want.End.MeanAlpha, 0.005},
		{"most α", end.Foremost().Alpha, want.End.MostAlpha, 0.005},
	} {
		if !(math.Abs(one.got-one.want) <= one.bound) {
			t.Errorf("at the end %s is %.6g, reference %.6g", one.what, one.got, one.want)
		}
	}
}
