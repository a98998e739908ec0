package still_test

import (
	"cmp"
	"encoding/json"
	"os"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

// The cases of testdata/reference/still_cases.json and what still.py there makes
// of them with SciPy, on three times as many Chebyshev points and by Radau's method: in
// common with this package are the equations, and that a temperature is a polynomial.

type referenceCase struct {
	Name string
	Body string
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
		Conductivity float64 `json:"conductivity_W_per_m_K"`
	}
	Vessel struct {
		Area        float64 `json:"surface_area_m2"`
		Perimeter   float64 `json:"perimeter_m"`
		SurfaceLoss float64 `json:"surface_loss_W_per_m2_K"`
		WallLoss    float64 `json:"wall_loss_W_per_m2_K"`
		FloorLoss   float64 `json:"floor_loss_W_per_m2_K"` // 0: the wall's
	}
	Room    [][2]float64
	Initial struct {
		Mass        float64 `json:"mass_kg"`
		Temperature float64 `json:"temperature_K"`
		Alpha, Phi  float64
	}
	Duration float64 `json:"duration_s"`
	Limits   struct {
		Viscosity   float64 `json:"viscosity_Pa_s"`
		Temperature float64 `json:"temperature_K"`
	}
}

type referenceResult struct {
	Name        string
	Gel         *float64 `json:"gel_s"`
	Viscosity   *float64 `json:"viscosity_limit_s"`
	Temperature *float64 `json:"temperature_limit_s"`
	Peak        float64  `json:"peak_temperature_K"`
	PeakAt      float64  `json:"peak_at_s"`
	End         struct {
		Hottest   float64 `json:"hottest_K"`
		MostAlpha float64 `json:"most_alpha"`
		MeanAlpha float64 `json:"mean_alpha"`
		Mean      float64 `json:"mean_K"`
	}
}

type referenceResults struct {
	Critical struct {
		Cylinder float64 `json:"cylinder_high_as_wide"`
	}
	Cases []referenceResult
}

func readReference(t *testing.T, file string, into any) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/reference/" + file)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, into); err != nil {
		t.Fatalf("%s: %v", file, err)
	}
}

func (c referenceCase) resin() kinetics.Resin {
	glass := kinetics.DiBenedetto{
		Uncured: quantity.Temperature(c.Glass.Uncured), Cured: quantity.Temperature(c.Glass.Cured), Lambda: c.Glass.Lambda,
	}
	v := c.Viscosity
	flow := kinetics.Flow{At: quantity.Temperature(v.Ref), Value: quantity.Viscosity(v.Value), Activation: quantity.MolarEnergy(v.Activation)}
	r := kinetics.Resin{
		Name: c.Name,
		Cure: kinetics.KamalSourour{
			K1: kinetics.Arrhenius{A: quantity.Rate(c.Cure.A1), E: quantity.MolarEnergy(c.Cure.E1)},
			K2: kinetics.Arrhenius{A: quantity.Rate(c.Cure.A2), E: quantity.MolarEnergy(c.Cure.E2)},
			M:  c.Cure.M, N: c.Cure.N,
		},
		Glass: glass, Gel: c.Cure.Gel, Heat: quantity.SpecificEnergy(c.Cure.Heat),
		Density: quantity.Density(c.Thermal.Density), HeatCapacity: quantity.HeatCapacity(c.Thermal.HeatCapacity),
		Conductivity: quantity.Conductivity(c.Thermal.Conductivity),
	}
	if c.Vitrification != nil {
		r.Vitrification = kinetics.GlassShift{
			Glass: glass, Shift: quantity.TemperatureDifference(c.Vitrification.Shift), C: c.Vitrification.Sharpness,
		}
	}
	if v.Law == "dual-arrhenius" {
		r.Viscosity = kinetics.DualArrhenius{
			Flow: flow, Growth: kinetics.Arrhenius{A: quantity.Rate(v.Growth), E: quantity.MolarEnergy(v.GrowthActivation)},
		}
	} else {
		r.Viscosity = kinetics.CastroMacosko{Flow: flow, Gel: v.Gel, A: v.A, B: v.B}
	}
	return r
}

func (c referenceCase) body() still.Body {
	v := vessel.Vessel{
		AreaM2: c.Vessel.Area, Perimeter: quantity.Length(c.Vessel.Perimeter),
		SurfaceLoss: quantity.HeatTransfer(c.Vessel.SurfaceLoss), WallLoss: quantity.HeatTransfer(c.Vessel.WallLoss),
		FloorLoss: quantity.HeatTransfer(cmp.Or(c.Vessel.FloorLoss, c.Vessel.WallLoss)),
	}
	mass := quantity.Mass(c.Initial.Mass)
	if c.Body == "tray" {
		return still.Tray{Vessel: v, Mass: mass}
	}
	return still.CupOf(v, mass)
}

func (c referenceCase) pot(t *testing.T, p still.Precision) *still.Pot {
	t.Helper()
	var at []quantity.Time
	var is []quantity.Temperature
	for _, point := range c.Room {
		at, is = append(at, quantity.Time(point[0])), append(is, quantity.Temperature(point[1]))
	}
	room, err := vessel.NewSeries(at, is)
	if err != nil {
		t.Fatal(err)
	}
	p.From = c.start().Temperature
	pot, err := still.New(c.resin(), c.body(), room, room, p)
	if err != nil {
		t.Fatal(err)
	}
	return pot
}

func (c referenceCase) start() vessel.State {
	return vessel.State{
		Mass: quantity.Mass(c.Initial.Mass), Temperature: quantity.Temperature(c.Initial.Temperature),
		Alpha: c.Initial.Alpha, Phi: c.Initial.Phi,
	}
}
