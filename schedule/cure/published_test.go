package cure

import (
	"fmt"
	"math"
	"testing"

	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// A thick laminate on a tool, whose temperatures somebody printed:
//
//	S. A. Niaki, E. Haghighat, T. Campbell, A. Poursartip, R. Vaziri, Comput. Methods Appl. Mech. Eng. 384
//	(2021) 113959, arXiv 2011.13511. Seen: its abstract, and the authors' open notebook and tables (repository
//	saniaki/sequential_PINN, commit 16bbdb1, MIT licence), from which are all constants, the cycle and the printed
//	values. The law's formula and the diffusivities worked out: seen once more in the open code of a later study
//	(repository XPIDON-Composites, 2025). Not seen: the paper itself.
//
// 30 mm of carbon/epoxy on 20 mm of iron-nickel alloy, from 20 to 180 °C in 52 min and held for 120: with air on
// both sides, and with both outer faces held at the cycle. The inputs are the last two of wall_cases.json. What is
// printed was computed as well: the authors' finite elements, 16 of laminate and 12 of tool, told every 15 s.
//
// Not told: whether these had the notebook's constants, which are its formulas at 100 °C and a degree of cure of
// 0.5, or let them follow the temperature; and how long their steps were. With air, the printed values show a
// resistance under the outermost half millimetre that no constant names, some 1e-3 m²·K/W: at 83.6 min 1.8 K over
// 0.47 mm, where 1050 W/m² by conduction make 0.8 K.
type printedWall struct {
	name string
	// The hottest printed value, where and when.
	peakC, peakDepth, peakMin float64
	moments                   []printedTemperature
	endAlpha                  []printedAlpha
}

// Depths in mm from the free side of the tool, as printed.
type (
	printedTemperature struct{ min, depth, celsius float64 }
	printedAlpha       struct{ depth, alpha float64 }
)

var printedWalls = []printedWall{
	{
		name: "laminate-on-tool-2021-air", peakC: 202.595869, peakDepth: 36.875, peakMin: 83.5503921,
		moments: []printedTemperature{
			{4.09915775, 10, 21.0417488},
			{4.09915775, 35, 20.7413844},
			{75.1561798, 35, 188.78623},
			{78.2651473, 36.875, 197.754165},
			{83.5503921, 10, 178.043367},
			{83.5503921, 27.5, 195.926114},
			{83.5503921, 42.5, 199.685091},
			{90.2893731, 35, 198.956937},
			{95.0535718, 35, 195.537802},
			{222.109595, 35, 82.7453749},
		},
		endAlpha: []printedAlpha{{20.010, 0.831396477}, {27.5, 0.840793493}, {35, 0.844650218}, {42.5, 0.841199273}, {49.990, 0.831703561}},
	},
	{
		name: "laminate-on-tool-2021-held", peakC: 217.033685, peakDepth: 35, peakMin: 61.6868721,
		moments: []printedTemperature{
			{4.09915775, 35, 22.1164768},
			{4.09915775, 42.5, 24.8254358},
			{59.7665666, 35, 213.491385},
			{61.6868721, 27.5, 208.921845},
			{61.6868721, 42.5, 206.271334},
			{66.7619676, 35, 206.473256},
			{70.8036253, 35, 196.48801},
		},
		endAlpha: []printedAlpha{{20.010, 0.827124448}, {27.5, 0.834857199}, {35, 0.838364648}, {42.5, 0.833911959}, {49.990, 0.826194473}},
	},
}

// printedProperties are the notebook's formulas: conductivity across and heat capacity of 57.4 % fibre at a
// temperature in °C and a degree of cure. The first is equation B.70 of A. A. Johnston's thesis, 1997.
func printedProperties(celsius, alpha float64) (conductivity quantity.Conductivity, capacity quantity.HeatCapacity) {
	const fibre = 0.574
	kf := 2.4 + 1.560e-2*celsius
	kr := 0.148 + 3.430e-4*celsius + 6.070e-2*alpha
	b, c := 2*(kr/kf-1), math.Sqrt(fibre/math.Pi)
	d := math.Sqrt(1 - b*b*c*c)
	k := kr * (1 - 2*c + (math.Pi-4/d*math.Atan(d/(1+b*c)))/b)
	cp := (1-fibre)*(1005+3.74*(celsius-20)) + fibre*(750+2.05*(celsius-20))
	return quantity.Conductivity(k), quantity.HeatCapacity(cp)
}

// TestPublishedThickLaminate tells how far the printed temperatures are from ours, and holds what the source's
// unknowns allow:
//
//   - The printed peak lies between ours with the formulas at 100 °C, which the notebook takes, and at 180 °C,
//     the hold, in temperature and in time.
//   - It is off by no more than twice what the source's own grid and steps of 15 s do to the peak of the same
//     equations by the backward Euler method (wall.py); its true method is not told.
//   - Moments, 6 K: two minutes, by which the peak's time is off, of the steepest rise, 3 K/min.
//   - Degree of cure at the end, 0.003: the cure stops where the resin turns to glass, and 0.003 is half a
//     kelvin of that line.
//
// Seen: with air the peak is 0.9 K above the printed one and 2.0 min before it, held 2.3 K and 0.4 min; up to
// 5 K on the way up, 1.4 K on the way down, 2.5 K after 50 min of cooling; degrees of cure at the end within 0.0005.
// TestWallReference has both cases within 0.02 K of SciPy's solution of the same equations: the difference lies
// in what the source put into its own, and in its steps.
func TestPublishedThickLaminate(t *testing.T) {
	var cases struct{ Cases []*referenceWall }
	var results struct{ Cases []referenceWallResult }
	readWalls(t, "wall_cases.json", &cases)
	readWalls(t, "wall_results.json", &results)
	for _, printed := range printedWalls {
		found := false
		for i, c := range cases.Cases {
			if c.Name == printed.name {
				found = true
				t.Run(c.Name, func(t *testing.T) { printed.compare(t, c, &results.Cases[i]) })
			}
		}
		if !found {
			t.Errorf("wall_cases.json has no case %s", printed.name)
		}
	}
}

func (w *printedWall) compare(t *testing.T, c *referenceWall, scipy *referenceWallResult) {
	k, cp := printedProperties(100, 0.5)
	laminate := &c.Layers[1]
	for _, one := range []struct {
		what      string
		got, want float64
	}{
		{"conductivity", laminate.Conductivity, float64(k)},
		{"heat capacity", laminate.HeatCapacity, float64(cp)},
		{"diffusivity, as printed", laminate.Conductivity / (laminate.Density * laminate.HeatCapacity), 3.7388048e-07},
		{"diffusivity of the tool, as printed", c.Layers[0].Conductivity / (c.Layers[0].Density * c.Layers[0].HeatCapacity), 3.1276314e-06},
	} {
		if !(math.Abs(one.got/one.want-1) <= 1e-6) {
			t.Errorf("%s %.8g, want %.8g", one.what, one.got, one.want)
		}
	}
	ours := c.course(t)
	w.comparePeak(t, ours, c, scipy)
	for _, m := range w.moments {
		d := ours.celsius(m.min, m.depth) - m.celsius
		t.Logf("%6.1f min, %6.3f mm: printed %.2f °C, ours %+.2f K", m.min, m.depth, m.celsius, d)
		if !(math.Abs(d) <= 6) {
			t.Errorf("at %.1f min, %g mm ours is %+.2f K from the printed %.2f °C", m.min, m.depth, d, m.celsius)
		}
	}
	for _, m := range w.endAlpha {
		is := ours.endAlpha(m.depth)
		d := is - m.alpha
		t.Logf("at the end, %6.3f mm: printed α %.5f, ours %+.5f", m.depth, m.alpha, d)
		if !(math.Abs(d) <= 0.003) {
			t.Errorf("at the end, %g mm, α is %+.5f from the printed %.5f", m.depth, d, m.alpha)
		}
		if m.depth == middleDepth {
			row := w.row("degree of cure in the middle at the end of the cycle", "alpha", fmt.Sprintf("%.5f", m.alpha), "", 0.003,
				"half a kelvin of the line at which the resin turns to glass and its cure stops")
			outside.Check(t, row, is)
		}
	}
}

func (w *printedWall) comparePeak(t *testing.T, ours *wallCourse, c *referenceWall, scipy *referenceWallResult) {
	peak, at := ours.peak(w.peakDepth)
	steps := math.Abs(scipy.Coarse - scipy.Peak)
	d := peak - w.peakC
	t.Logf("peak at %g mm: printed %.2f °C at %.2f min, ours %+.2f K and %+.2f min; the source's steps make %.2f K",
		w.peakDepth, w.peakC, w.peakMin, d, at-w.peakMin, steps)
	if !(math.Abs(d) <= 2*steps) {
		t.Errorf("the peak is %+.2f K from the printed one, more than twice the %.2f K of the source's steps", d, steps)
	}
	row := w.row(fmt.Sprintf("hottest %g mm below the tool's free face", w.peakDepth), "peak", fmt.Sprintf("%.2f", w.peakC), "°C", round(2*steps, 2),
		"twice what the source's grid and steps of 15 s do to the peak of the same equations")
	row.Anchored = "the bound was chosen when the difference had been seen"
	outside.Check(t, row, peak)
	hot := *c
	hot.Layers = append(hot.Layers[:0:0], c.Layers...)
	k, cp := printedProperties(180, 0.5)
	hot.Layers[1].Conductivity, hot.Layers[1].HeatCapacity = float64(k), float64(cp)
	lower, later := hot.course(t).peak(w.peakDepth)
	t.Logf("with the properties of 180 °C: %.2f °C at %.2f min", lower, later)
	if !(lower <= w.peakC && w.peakC <= peak) || !(at <= w.peakMin && w.peakMin <= later) {
		t.Errorf("the printed peak, %.2f °C at %.2f min, is not between %.2f at %.2f and %.2f at %.2f", w.peakC, w.peakMin, peak, at, lower, later)
	}
}

// middleDepth is the middle of the laminate, mm.
const middleDepth = 35

// row is one comparison of this wall for the page of checks.
func (w *printedWall) row(what, id, printed, unit string, within float64, why string) outside.Row {
	faces := map[string]string{"laminate-on-tool-2021-air": "air on both sides", "laminate-on-tool-2021-held": "both faces held at the cycle"}[w.name]
	return outside.Row{
		ID: "wall/" + w.name + "/" + id, Subject: outside.Libraries,
		What:   "30 mm of carbon/epoxy on a metal tool, " + faces + ": " + what,
		Source: "niaki2021", Mark: outside.Seen,
		Printed: printed, Unit: unit, Within: within, Why: why,
	}
}

func round(x float64, digits int) float64 {
	shift := math.Pow10(digits)
	return math.Round(x*shift) / shift
}

// A wallCourse is a case followed strictly, on the referee's grid, a glance every 6 s.
type wallCourse struct {
	depth  []float64   // of every cell, mm
	first  int         // the first cell of the laminate
	kelvin [][]float64 // of every glance
	alpha  []float64   // at the end
}

const courseMin = 0.1 // between two glances

func (c *referenceWall) course(t *testing.T) *wallCourse {
	t.Helper()
	var at []quantity.Time
	var is []quantity.Temperature
	for _, point := range c.Air {
		at, is = append(at, quantity.Time(point[0])), append(is, quantity.Temperature(point[1]))
	}
	air, err := vessel.NewSeries(at, is)
	if err != nil {
		t.Fatal(err)
	}
	w := c.wall(2)
	pot, err := w.pot(c.resin(), air, quantity.HeatTransfer(c.OuterLoss), Strict)
	if err != nil {
		t.Fatal(err)
	}
	profile, err := pot.ByLayer(w.states)
	if err != nil {
		t.Fatal(err)
	}
	course := wallCourse{first: w.first}
	from := 0.0
	for _, l := range w.body.Layers {
		for i := range l.Cells {
			course.depth = append(course.depth, 1e3*(from+float64(l.Thickness)*(float64(i)+0.5)/float64(l.Cells)))
		}
		from += float64(l.Thickness)
	}
	_, _, err = pot.Follow(profile, 0, quantity.Time(c.Duration), courseMin*60, func(_ quantity.Time, alpha, kelvin []float64) bool {
		course.kelvin = append(course.kelvin, append([]float64(nil), kelvin...))
		course.alpha = append(course.alpha[:0], alpha...)
		return false
	})
	if err != nil {
		t.Fatal(err)
	}
	return &course
}

// read reads between the cells, and on beyond the outermost two.
func (c *wallCourse) read(of []float64, depth float64) float64 {
	i := 1
	for i < len(c.depth)-1 && c.depth[i] < depth {
		i++
	}
	f := (depth - c.depth[i-1]) / (c.depth[i] - c.depth[i-1])
	return of[i-1] + f*(of[i]-of[i-1])
}

func (c *wallCourse) celsius(minutes, depth float64) float64 {
	n := minutes / courseMin
	i := min(int(n), len(c.kelvin)-2)
	a, b := c.read(c.kelvin[i], depth), c.read(c.kelvin[i+1], depth)
	return a + (n-float64(i))*(b-a) - float64(quantity.Celsius(0))
}

// endAlpha reads in the laminate alone.
func (c *wallCourse) endAlpha(depth float64) float64 {
	laminate := wallCourse{depth: c.depth[c.first:]}
	return laminate.read(c.alpha[c.first:], depth)
}

func (c *wallCourse) peak(depth float64) (celsius, minutes float64) {
	for i := range c.kelvin {
		if v := c.celsius(float64(i)*courseMin, depth); v > celsius {
			celsius, minutes = v, float64(i)*courseMin
		}
	}
	return celsius, minutes
}
