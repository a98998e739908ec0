package vessel_test

import (
	"encoding/json"
	"os"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// The cases of testdata/reference/bath_cases.json and what bath.py there makes
// of them with SciPy, by an explicit method of order 8 and an implicit one of
// order 5 that agree to 1e-8 at worst.

type referenceCase struct {
	Name string
	Cure struct {
		A1   float64 `json:"A1_per_s"`
		E1   float64 `json:"E1_J_per_mol"`
		A2   float64 `json:"A2_per_s"`
		E2   float64 `json:"E2_J_per_mol"`
		M, N float64
		Heat float64 `json:"heat_J_per_kg"`
		Gel  float64
	}
	Vitrification *struct {
		Shift     float64 `json:"shift_K"`
		Sharpness float64
	}
	Glass struct {
		Uncured float64 `json:"uncured_K"`
		Cured   float64 `json:"cured_K"`
		Lambda  float64
	}
	Viscosity struct {
		Law              string
		Ref              float64 `json:"ref_K"`
		Value            float64 `json:"value_Pa_s"`
		Activation       float64 `json:"activation_J_per_mol"`
		Gel, A, B        float64
		Growth           float64 `json:"growth_per_s"`
		GrowthActivation float64 `json:"growth_activation_J_per_mol"`
	}
	Thermal struct {
		Density      float64 `json:"density_kg_per_m3"`
		HeatCapacity float64 `json:"heat_capacity_J_per_kg_K"`
	}
	Vessel struct {
		Area        float64 `json:"surface_area_m2"`
		Perimeter   float64 `json:"perimeter_m"`
		SurfaceLoss float64 `json:"surface_loss_W_per_m2_K"`
		WallLoss    float64 `json:"wall_loss_W_per_m2_K"`
	}
	Room, Jacket [][2]float64
	Initial      referenceState
	Steps        []referenceStep
	Limits       struct {
		Viscosity   float64 `json:"bath_viscosity_Pa_s"`
		Temperature float64 `json:"bath_temperature_K"`
	}
}

type referenceState struct {
	At          float64 `json:"t_s"`
	Alpha, Phi  float64
	Temperature float64  `json:"temperature_K"`
	Mass        float64  `json:"mass_kg"`
	Viscosity   *float64 `json:"viscosity_Pa_s"`
}

type referenceStep struct {
	Kind     string
	Duration float64 `json:"duration_s"`
	Draw     float64 `json:"draw_kg_per_s"`
	Tow      float64 `json:"tow_kg_per_s"`
	TowHeat  float64 `json:"tow_heat_capacity_J_per_kg_K"`
	referenceState
}

type referenceResult struct {
	Name             string
	InitialViscosity float64          `json:"initial_viscosity_Pa_s"`
	Viscosity        *float64         `json:"viscosity_limit_s"`
	Temperature      *float64         `json:"temperature_limit_s"`
	Gel              *float64         `json:"gel_s"`
	Doubled          *float64         `json:"doubled_s"`
	Peak             float64          `json:"peak_temperature_K"`
	PeakAt           float64          `json:"peak_at_s"`
	StepEnds         []referenceState `json:"step_ends"`
	Tenths           []referenceState
}

// forEachReference runs check on every case.
func forEachReference(t *testing.T, check func(t *testing.T, c referenceCase, r referenceResult)) {
	t.Helper()
	var cases struct{ Cases []referenceCase }
	var results struct{ Cases []referenceResult }
	for file, into := range map[string]any{"bath_cases.json": &cases, "bath_results.json": &results} {
		text, err := os.ReadFile("../../testdata/reference/" + file)
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(text, into); err != nil {
			t.Fatalf("%s: %v", file, err)
		}
	}
	if len(cases.Cases) < 20 || len(cases.Cases) != len(results.Cases) {
		t.Fatalf("%d cases and %d results", len(cases.Cases), len(results.Cases))
	}
	for i, c := range cases.Cases {
		if c.Name != results.Cases[i].Name {
			t.Fatalf("case %d is %s, its result %s", i, c.Name, results.Cases[i].Name)
		}
		t.Run(c.Name, func(t *testing.T) { check(t, c, results.Cases[i]) })
	}
}

func (c referenceCase) resin() kinetics.Resin {
	glass := kinetics.DiBenedetto{
		Uncured: quantity.Temperature(c.Glass.Uncured), Cured: quantity.Temperature(c.Glass.Cured), Lambda: c.Glass.Lambda,
	}
	flow := kinetics.Flow{
		At: quantity.Temperature(c.Viscosity.Ref), Value: quantity.Viscosity(c.Viscosity.Value),
		Activation: quantity.MolarEnergy(c.Viscosity.Activation),
	}
	r := kinetics.Resin{
		Name: c.Name,
		Cure: kinetics.KamalSourour{
			K1: kinetics.Arrhenius{A: quantity.Rate(c.Cure.A1), E: quantity.MolarEnergy(c.Cure.E1)},
			K2: kinetics.Arrhenius{A: quantity.Rate(c.Cure.A2), E: quantity.MolarEnergy(c.Cure.E2)},
			M:  c.Cure.M, N: c.Cure.N,
		},
		Glass:     glass,
		Viscosity: kinetics.CastroMacosko{Flow: flow, Gel: c.Viscosity.Gel, A: c.Viscosity.A, B: c.Viscosity.B},
		Gel:       c.Cure.Gel, Heat: quantity.SpecificEnergy(c.Cure.Heat),
		Density: quantity.Density(c.Thermal.Density), HeatCapacity: quantity.HeatCapacity(c.Thermal.HeatCapacity),
	}
	if c.Viscosity.Law == "dual-arrhenius" {
		r.Viscosity = kinetics.DualArrhenius{
			Flow:   flow,
			Growth: kinetics.Arrhenius{A: quantity.Rate(c.Viscosity.Growth), E: quantity.MolarEnergy(c.Viscosity.GrowthActivation)},
		}
	}
	if v := c.Vitrification; v != nil {
		r.Vitrification = kinetics.GlassShift{Glass: glass, Shift: quantity.TemperatureDifference(v.Shift), C: v.Sharpness}
	}
	return r
}

func (c referenceCase) bath(t *testing.T, p vessel.Precision) *vessel.Bath {
	t.Helper()
	v := vessel.Vessel{
		AreaM2: c.Vessel.Area, Perimeter: quantity.Length(c.Vessel.Perimeter),
		SurfaceLoss: quantity.HeatTransfer(c.Vessel.SurfaceLoss), WallLoss: quantity.HeatTransfer(c.Vessel.WallLoss),
		FloorLoss: quantity.HeatTransfer(c.Vessel.WallLoss),
	}
	room := referenceSeries(t, c.Room)
	wall := room
	if c.Jacket != nil {
		wall = referenceSeries(t, c.Jacket)
	}
	return vessel.New(c.resin(), v, room, wall, p)
}

func referenceSeries(t *testing.T, points [][2]float64) vessel.Series {
	t.Helper()
	var at []quantity.Time
	var is []quantity.Temperature
	for _, p := range points {
		at, is = append(at, quantity.Time(p[0])), append(is, quantity.Temperature(p[1]))
	}
	s, err := vessel.NewSeries(at, is)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func (s referenceState) state() vessel.State {
	return vessel.State{
		Mass: quantity.Mass(s.Mass), Temperature: quantity.Temperature(s.Temperature), Alpha: s.Alpha, Phi: s.Phi,
	}
}

func (s referenceStep) tow() vessel.Tow {
	return vessel.Tow{DrawKgPerS: s.Draw, FibreKgPerS: s.Tow, HeatCapacity: quantity.HeatCapacity(s.TowHeat)}
}

// poured is a pour of the reference, which leaves out that mixed ages are
// thicker than their mean.
func (s referenceStep) poured(r *kinetics.Resin, heel vessel.State) vessel.State {
	mixed := vessel.Pour(r, heel, s.state())
	mixed.LogExcess = 0
	return mixed
}
