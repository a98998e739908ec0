package fit

import (
	"fmt"
	"math"
	"path/filepath"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/resins/document"
	"potlife/resins/fit/leastsquares"
)

// A CoolingTest is warm water that cools in a vessel, with a thermometer in it.
type CoolingTest struct {
	File  string
	Water quantity.Mass
	Room  quantity.Temperature
	Log   *Log
}

// Cooling is the tests of one vessel.
type Cooling struct {
	In      resins.Container
	Covered bool // a foil lies on the water: nothing evaporates
	Tests   []CoolingTest
	Notes   []warning.Warning // of reading the logs
	Renamed []warning.Warning // keys that the file has under names of before
}

// Losses are the loss coefficients of a vessel as its cooling tests tell them.
type Losses struct {
	Surface, Wall quantity.HeatTransfer
	// Spread is that of both together, as a bath's loss_spread is.
	Spread float64
	// Split tells that the tests tell surface and wall apart, for which they need
	// two depths; otherwise both are the usual ones times one factor.
	Split    bool
	Residual float64 // root mean square, K
	Warnings []warning.Warning
}

// Water between 20 and 50 °C: textbook values, good to 1 %.
const (
	waterHeatCapacity = 4180.0 // J/(kg·K)
	waterDensity      = 993.0  // kg/m³
)

// Before a test a coefficient is known to a factor of 2: free convection of gases
// gives 2 to 25 W/(m²·K), and radiation some 5 (textbook range).
const lossSpreadBefore = 2.0

// Standard deviations of what a cooling test does not say exactly.
const (
	roomSigma = 0.5 // K
	// openSpread is what losses of an open water surface are good for at best:
	// evaporation carries off as much again as convection.
	openSpread = 1.3
)

// warmestWater is as warm as a vessel may be to lose about what it does with resin in it.
var warmestWater = quantity.Celsius(60)

// LoadCooling reads a file of cooling tests and the logs beside it. The error is
// a [*document.Faults], a [*LogFaults] or a [*resins.Unreadable].
func LoadCooling(path string) (*Cooling, error) {
	source, err := resins.ReadFile(path, "file of cooling tests")
	if err != nil {
		return nil, err
	}
	c, err := ReadCooling(path, source)
	if err != nil {
		return nil, err
	}
	for i := range c.Tests {
		t := &c.Tests[i]
		name := t.File
		if !filepath.IsAbs(name) {
			name = filepath.Join(filepath.Dir(path), name)
		}
		source, err := readLogFile(name, "log of a cooling test")
		if err != nil {
			return nil, err
		}
		if t.Log, err = ReadLog(t.File, source); err != nil {
			return nil, err
		}
		c.Notes = append(c.Notes, t.Log.Notes...)
	}
	return c, nil
}

// ReadCooling returns the tests in source, their logs not yet read. The error is a
// [*document.Faults].
//
//	in: {length: 300 mm, width: 120 mm}
//	covered: true
//	tests:
//	  - {file: ./full.csv, water: 1500 g, room: 21 °C}
//	  - {file: ./low.csv, water: 400 g, room: 21 °C}
func ReadCooling(filename string, source []byte) (*Cooling, error) {
	c := &Cooling{}
	doc, _ := document.Read(filename, source, c.fields())
	if doc.Has("in") {
		c.In.Check(doc, "in")
	}
	if doc.Sound("tests") && len(c.Tests) == 0 {
		doc.FaultAt("tests", "there are no tests", "add one, such as - {file: ./water.csv, water: 1500 g, room: 21 °C}")
	}
	if err := doc.Err(); err != nil {
		return nil, err
	}
	c.Renamed = doc.Renamed()
	return c, nil
}

// CoolingTable is the table by which files of cooling tests are read.
func CoolingTable() document.Field {
	return document.Mapping("", new(Cooling).fields(), document.Doc("warm water that cools in the crew's own bath"))
}

func (c *Cooling) fields() []document.Field {
	return []document.Field{
		document.Mapping("in", c.In.Fields(), document.Required(), c.In.Rule(), document.Doc("the vessel"), document.Example("{length: 300 mm, width: 120 mm}")),
		document.Bool("covered", &c.Covered, document.Doc("a foil lies on the water, so that nothing evaporates")),
		document.List("tests", &c.Tests, func(t *CoolingTest) document.Field {
			return document.Mapping("", []document.Field{
				document.Text("file", &t.File, document.Required(), document.Doc("the log, beside this file"), document.Example("./water.csv")),
				document.Quantity("water", &t.Water, document.Required(), document.Between(lightest, heaviest), document.Doc("in the vessel"), document.Example("1500 g")),
				document.Quantity("room", &t.Room, document.Required(), document.Between(coldest, quantity.Celsius(60)), document.Doc("temperature round the vessel"), document.Example("21 °C")),
			})
		}, document.Required(), document.Items(1, 0), document.Doc("at one depth or more"), document.Example("[{file: ./water.csv, water: 1500 g, room: 21 °C}]")),
	}
}

// cooled is one test as it is compared.
type cooled struct {
	at, is        []float64 // s, K
	room          float64   // K
	heat          float64   // m·cp, J/K
	surface, wall float64   // areas, m²
	floor         float64   // W/K of a floor that is known
}

// Losses fits the coefficients. Water of mass m follows
//
//	T = T_room + (T_0 − T_room)·exp(−t/τ),  τ = m·cp/(h_s·A + h_w·(A + perimeter·depth))
//
// which is (2) of package vessel without cure, stirred; the wall's coefficient is the floor's
// as well, unless the file says what that loses. The error is a test that shows no cooling.
func (c *Cooling) Losses() (*Losses, error) {
	usual := c.In
	usual.SurfaceLoss, usual.WallLoss = 0, 0
	v := usual.Vessel(false)
	var tests []cooled
	for i := range c.Tests {
		t, err := c.Tests[i].cooled(v, c.In.FloorSaid())
		if err != nil {
			return nil, err
		}
		tests = append(tests, t)
	}
	solution, err := solveCooling(tests, v)
	if err != nil {
		return nil, err
	}
	return c.losses(tests, v, solution), nil
}

func (t *CoolingTest) cooled(v vessel.Vessel, floorSaid bool) (cooled, error) {
	if t.Log == nil {
		return cooled{}, fmt.Errorf("the log %s has not been read", t.File)
	}
	depth := v.Depth(t.Water, waterDensity)
	d := cooled{
		room: float64(t.Room), heat: float64(t.Water) * waterHeatCapacity,
		surface: v.AreaM2, wall: float64(v.Perimeter) * float64(depth),
	}
	if floorSaid {
		d.floor = float64(v.FloorLoss) * v.AreaM2
	} else {
		d.wall += v.AreaM2
	}
	for _, i := range along(t.Log) {
		d.at, d.is = append(d.at, float64(t.Log.At[i])), append(d.is, float64(t.Log.Is[i]))
	}
	fall := d.is[0] - d.is[len(d.is)-1]
	if above := d.is[0] - d.room; !(above >= 5 && fall >= 0.2*above) {
		return cooled{}, &LogFaults{List: []LogFault{{
			File:    t.File,
			Problem: fmt.Sprintf("the water starts %.1f K above the room and falls by %.1f K, too little to tell the losses", above, fall),
			Mend:    "start 15 K or more above the room, and let it cool by a third of that",
		}}}
	}
	return d, nil
}

// solveCooling finds ln h_s, ln h_w against the usual ones and, for each test, the
// first temperature and the room, all in σ of the prior.
func solveCooling(tests []cooled, v vessel.Vessel) (*leastsquares.Result, error) {
	n, m := 2+2*len(tests), 0
	for _, t := range tests {
		m += len(t.at)
	}
	s := ensemble.Sigma(lossSpreadBefore)
	scale := make([]float64, n)
	for i := range scale {
		scale[i] = 1
	}
	return leastsquares.Minimise(leastsquares.Problem{
		Count: m + n, Start: make([]float64, n), Scale: scale,
		Residuals: func(x, r []float64) error {
			hs, hw := float64(v.SurfaceLoss)*math.Exp(s*x[0]), float64(v.WallLoss)*math.Exp(s*x[1])
			k := 0
			for i, t := range tests {
				first, room := t.is[0]+firstSigma*x[2+2*i], t.room+roomSigma*x[3+2*i]
				rate := (hs*t.surface + hw*t.wall + t.floor) / t.heat
				for j := range t.at {
					r[k] = (room + (first-room)*math.Exp(-rate*t.at[j]) - t.is[j]) / thermometerSigma
					k++
				}
			}
			copy(r[k:], x)
			return nil
		},
	}, leastsquares.Options{})
}

func (c *Cooling) losses(tests []cooled, v vessel.Vessel, solution *leastsquares.Result) *Losses {
	s := ensemble.Sigma(lossSpreadBefore)
	l := &Losses{
		Surface: v.SurfaceLoss * quantity.HeatTransfer(math.Exp(s*solution.X[0])),
		Wall:    v.WallLoss * quantity.HeatTransfer(math.Exp(s*solution.X[1])),
	}
	// The two together, weighed by what they carry off in the first test.
	a, b := float64(l.Surface)*tests[0].surface, float64(l.Wall)*tests[0].wall
	wa, wb := a/(a+b), b/(a+b)
	cov := solution.Covariance
	sigma := s * math.Sqrt(wa*wa*cov.At(0, 0)+2*wa*wb*cov.At(0, 1)+wb*wb*cov.At(1, 1))
	l.Spread = math.Max(smallestSpread, spreadOf(sigma))
	l.Split = math.Sqrt(math.Max(cov.At(0, 0), cov.At(1, 1))) <= told
	readings := 0
	for _, t := range tests {
		readings += len(t.at)
	}
	sum := 0.0
	for _, r := range solution.Residuals[:readings] {
		sum += r * r
	}
	l.Residual = thermometerSigma * math.Sqrt(sum/float64(readings))
	if !c.Covered {
		l.Spread = math.Max(l.Spread, openSpread)
		l.Warnings = append(l.Warnings, OpenWater{})
	}
	if !l.Split {
		l.Warnings = append(l.Warnings, NotToldApart{})
	}
	if l.Residual > 2*thermometerSigma {
		l.Warnings = append(l.Warnings, UnevenCooling{Residual: quantity.TemperatureDifference(l.Residual)})
	}
	start := quantity.Temperature(0)
	for _, t := range tests {
		start = max(start, quantity.Temperature(t.is[0]))
	}
	if start > warmestWater {
		l.Warnings = append(l.Warnings, TooWarmWater{Start: start, Limit: warmestWater})
	}
	return l
}
