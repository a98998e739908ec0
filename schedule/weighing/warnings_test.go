package weighing_test

import (
	"slices"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/schedule/weighing"
)

// TestWarnings: each warning stands where its input is missing, and not where it is there.
func TestWarnings(t *testing.T) {
	c := carbonTube()
	whole := c.everything()
	for _, row := range []struct {
		want warning.Warning
		in   weighing.Input
	}{
		{weighing.MixedNotWeighed{}, func(in weighing.Input) weighing.Input { in.Mixed.Given = false; return in }(whole)},
		{weighing.VoidsNeedDensities{}, func(in weighing.Input) weighing.Input { in.ResinDensity.Given = false; return in }(whole)},
		{weighing.VolumeWithoutPart{}, func(in weighing.Input) weighing.Input {
			in.Volume = weighing.Of(quantity.Volume(1e-3))
			return in
		}(c.withCoupon(weighing.Input{}))},
		{weighing.WallWithoutVoids{}, c.withWall(weighing.Input{FibreDensity: whole.FibreDensity, ResinDensity: whole.ResinDensity})},
	} {
		if got := weigh(t, row.in).Warnings; !slices.Contains(got, row.want) {
			t.Errorf("%s is not among %+v", row.want.Code(), got)
		}
		if got := weigh(t, whole).Warnings; slices.Contains(got, row.want) {
			t.Errorf("%s stands with every input", row.want.Code())
		}
	}
}

// TestAssumed: what an input leaves out is told with the figure taken, and what it says is not.
func TestAssumed(t *testing.T) {
	in := carbonTube().withWater(carbonTube().withSpool(carbonTube().scales()))
	in.Scale, in.WaterTemperature.Given = 0, false
	got := weigh(t, in).Assumed
	for _, want := range []warning.Warning{
		weighing.ScaleAssumed{Step: 0.001},
		weighing.BandAssumed{Band: 0.02},
		weighing.WaterTemperatureAssumed{Water: quantity.Celsius(23), Within: 4},
	} {
		if !slices.Contains(got, want) {
			t.Errorf("%+v is not among %+v", want, got)
		}
	}
	in = carbonTube().withTow(carbonTube().scales())
	in.Band, in.Trimmings = 0.01, weighing.Known[quantity.Mass]{}
	in.Tolerances = weighing.Tolerances{Tex: 0.01, Tow: 0.01, FibreDensity: 0.01, ResinDensity: 0.01}
	if got := weigh(t, in).Assumed; len(got) != 0 {
		t.Errorf("assumed %+v", got)
	}
}
