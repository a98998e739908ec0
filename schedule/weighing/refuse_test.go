package weighing_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/resins"
	"potlife/schedule/weighing"
)

func kg(m float64) weighing.Known[quantity.Mass] { return weighing.Of(quantity.Mass(m)) }

// TestImpossible: what cannot be is refused by the name of the input, with what
// to do.
func TestImpossible(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(*weighing.Input)
		input string
	}{
		"part lighter than its fibre":        {func(in *weighing.Input) { in.Part = kg(3.2 + 0.7) }, "part"},
		"part as light as its fibre":         {func(in *weighing.Input) { in.Part, in.Trimmings = kg(3.2+0.8), kg(0) }, "part"},
		"negative left-over":                 {func(in *weighing.Input) { in.LeftOver = kg(-0.01) }, "left over"},
		"negative cups":                      {func(in *weighing.Input) { in.Cups = kg(-0.01) }, "cups"},
		"mixed less than on the part":        {func(in *weighing.Input) { in.Mixed = kg(0.4); in.LeftOver = kg(0) }, "mixed"},
		"mixed less than left over":          {func(in *weighing.Input) { in.LeftOver = kg(0.9) }, "left over"},
		"mixed less than found":              {func(in *weighing.Input) { in.Rags = kg(0.6) }, "rags"},
		"mandrel heavier than part":          {func(in *weighing.Input) { in.Mandrel = kg(5) }, "mandrel"},
		"mandrel as heavy as part":           {func(in *weighing.Input) { in.Mandrel = in.Part }, "mandrel"},
		"spool after heavier than before":    {func(in *weighing.Input) { in.SpoolAfter = kg(3) }, "spool after"},
		"residue above coupon":               {func(in *weighing.Input) { in.Residue = kg(3e-3) }, "residue"},
		"no residue":                         {func(in *weighing.Input) { in.Residue = kg(0) }, "residue"},
		"heavier in water than in air":       {func(in *weighing.Input) { in.Water = kg(6e-3) }, "water"},
		"floating":                           {func(in *weighing.Input) { in.Water = kg(-1e-3) }, "water"},
		"part not a number":                  {func(in *weighing.Input) { in.Part = kg(math.NaN()) }, "part"},
		"endless spool":                      {func(in *weighing.Input) { in.SpoolBefore = kg(math.Inf(1)) }, "spool before"},
		"doubt not a number":                 {func(in *weighing.Input) { in.Mixed.U = quantity.Mass(math.NaN()) }, "mixed"},
		"negative doubt":                     {func(in *weighing.Input) { in.Mixed.U = -1 }, "mixed"},
		"density in the wrong unit":          {func(in *weighing.Input) { in.FibreDensity.Value = 1.8 }, "fibre density"},
		"resin of lead":                      {func(in *weighing.Input) { in.ResinDensity.Value = 11340 }, "resin density"},
		"tex in the wrong unit":              {func(in *weighing.Input) { in.Tex.Value = 800 }, "tex"},
		"no tow":                             {func(in *weighing.Input) { in.Tow.Value = 0 }, "tow"},
		"negative tows":                      {func(in *weighing.Input) { in.Tows = -4 }, "tows"},
		"negative plies":                     {func(in *weighing.Input) { in.Plies = -8 }, "plies"},
		"wall thinner than its fibre":        {func(in *weighing.Input) { in.Thickness.Value = 1e-3 }, "thickness"},
		"no wall":                            {func(in *weighing.Input) { in.Thickness.Value = 0 }, "thickness"},
		"hot water":                          {func(in *weighing.Input) { in.WaterTemperature.Value = quantity.Celsius(60) }, "water temperature"},
		"ice":                                {func(in *weighing.Input) { in.WaterTemperature.Value = quantity.Celsius(-5) }, "water temperature"},
		"negative scale":                     {func(in *weighing.Input) { in.Scale = -1 }, "scale"},
		"scale not a number":                 {func(in *weighing.Input) { in.Scale = quantity.Mass(math.NaN()) }, "scale"},
		"endless balance":                    {func(in *weighing.Input) { in.Balance = quantity.Mass(math.Inf(1)) }, "balance"},
		"target of everything":               {func(in *weighing.Input) { in.Target.Value = 1 }, "target"},
		"target not a number":                {func(in *weighing.Input) { in.Target.Value = quantity.Fraction(math.NaN()) }, "target"},
		"target without basis":               {func(in *weighing.Input) { in.Target.Basis = "" }, "target"},
		"negative band":                      {func(in *weighing.Input) { in.Band = -0.02 }, "band"},
		"tolerance of everything":            {func(in *weighing.Input) { in.Tolerances.Tex = 1 }, "tolerance"},
		"tolerance not a number":             {func(in *weighing.Input) { in.Tolerances.Thickness = quantity.Length(math.NaN()) }, "tolerance"},
		"more trimmings than fibre can make": {func(in *weighing.Input) { in.Part.Given, in.Mandrel.Given = false, false; in.Trimmings = kg(2) }, "trimmings"},
	} {
		t.Run(name, func(t *testing.T) {
			in := carbonTube().everything()
			c.spoil(&in)
			_, err := weighing.Weigh(in)
			var refused *weighing.Impossible
			if !errors.As(err, &refused) {
				t.Fatalf("not refused: %v", err)
			}
			if refused.Input != c.input || refused.Problem == "" || refused.Mend == "" || strings.Contains(err.Error(), "%!") {
				t.Errorf("refused %q, want %q: %v", refused.Input, c.input, err)
			}
		})
	}
}

// TestNearlyImpossible: what the scale's own doubt allows is not refused.
func TestNearlyImpossible(t *testing.T) {
	c := carbonTube()
	in := c.withSpool(c.scales())
	in.Mixed, in.LeftOver, in.Cups, in.Rags, in.Drips = kg(c.laid()-c.fibre-0.0005), kg(0), kg(0), kg(0), kg(0)
	if r := weigh(t, in); !(r.Unaccounted.Value < 0) || len(r.Disagreements) != 0 {
		t.Errorf("unaccounted %v, %v", r.Unaccounted.Value, r.Disagreements)
	}
}

// TestMissing: an error says what is missing and what would do instead.
func TestMissing(t *testing.T) {
	c := carbonTube()
	for name, x := range map[string]struct {
		in   weighing.Input
		says string
	}{
		"nothing":         {weighing.Input{}, "coupon and residue"},
		"only a part":     {weighing.Input{Part: kg(1)}, "spool before and spool after"},
		"only fibre":      {weighing.Input{Fibre: kg(1)}, "part (with mandrel"},
		"no part":         {weighing.Input{Mandrel: kg(1)}, "part to go with mandrel"},
		"no tex":          {weighing.Input{Part: kg(1), Tow: weighing.Of(quantity.Length(100)), Tows: 1}, "tex to go with tow"},
		"no tows":         {weighing.Input{Part: kg(1), Tow: weighing.Of(quantity.Length(100)), Tex: weighing.Of(quantity.LinearDensity(8e-4))}, "number of tows"},
		"no after":        {weighing.Input{Part: kg(1), SpoolBefore: kg(2)}, "spool after to go with spool before"},
		"no before":       {weighing.Input{Part: kg(1), SpoolAfter: kg(2)}, "spool before to go with spool after"},
		"no residue":      {weighing.Input{Coupon: kg(1)}, "residue to go with coupon"},
		"no coupon":       {weighing.Input{Residue: kg(1)}, "coupon to go with residue"},
		"no water":        {weighing.Input{Air: kg(1)}, "water to go with air"},
		"no air":          {weighing.Input{Water: kg(1)}, "air to go with water"},
		"no plies":        {weighing.Input{Part: kg(1), Fibre: kg(0.6), ArealWeight: weighing.Of(quantity.ArealWeight(0.2))}, "number of plies"},
		"volumes by what": {weighing.Input{Part: kg(1), Fibre: kg(0.6), Target: resins.FibreFraction{Value: 0.5, Basis: resins.ByVolume}}, "fibre density and resin density"},
		"wall, no plies":  {weighing.Input{Thickness: c.withWall(c.scales()).Thickness}, "thickness with plies"},
	} {
		_, err := weighing.Weigh(x.in)
		var missing *weighing.Missing
		if !errors.As(err, &missing) || !strings.Contains(err.Error(), x.says) || len(missing.Alternatives) == 0 {
			t.Errorf("%s: %v", name, err)
		}
	}
}
