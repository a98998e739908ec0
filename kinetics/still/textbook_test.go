package still_test

import (
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/conduction"
	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

// textbookCells are enough for every figure of the books: of a plate, and of a rod, which
// has its cells in a layer.
const textbookCells, rodCells = 17, 80

// heats follows an inert plate from a temperature in air or oil, both faces at once or
// one of them insulated, in °C.
func heats(t *testing.T, r kinetics.Resin, thickness, surface, floor, from, around, seconds float64) still.Profile {
	t.Helper()
	plate := still.Tray{
		Vessel: vessel.Vessel{AreaM2: 1, SurfaceLoss: quantity.HeatTransfer(surface), WallLoss: quantity.HeatTransfer(floor), FloorLoss: quantity.HeatTransfer(floor)},
		Mass:   quantity.Mass(thickness * float64(r.Density)),
	}
	p := still.Precision{Alpha: 1, Temperature: 1e-4, FirstStep: 1e-2, Cells: textbookCells}
	pot, err := still.New(r, plate, celsius(around), celsius(around), p)
	if err != nil {
		t.Fatal(err)
	}
	start, err := pot.Uniform(fresh(from))
	if err != nil {
		t.Fatal(err)
	}
	end, err := pot.Advance(start, 0, quantity.Time(seconds))
	if err != nil {
		t.Fatal(err)
	}
	return end
}

func metal(conductivity, density, heatCapacity float64) kinetics.Resin {
	r := inert()
	r.Conductivity, r.Density = quantity.Conductivity(conductivity), quantity.Density(density)
	r.HeatCapacity = quantity.HeatCapacity(heatCapacity)
	return r
}

// TestSteelPipeline: a wall of 40 mm insulated outside, 8 min after hot oil came. The
// companion reads λ from the book's table, 0.531, where 0.5318 solves λ·tan λ = Bi: with
// λ²·Fo in the exponent that is 0.5 % of what is left of the difference to the oil, so 0.1 K,
// 40 W/m² and 0.2 % of the heat.
func TestSteelPipeline(t *testing.T) {
	const loss, oil = 500.0, 60.0
	r := metal(63.9, 7832, 434)
	end := heats(t, r, 0.040, 0, loss, -20, oil, 480)
	outer, inner := end[0].Temperature.Celsius(), end[len(end)-1].Temperature.Celsius()
	if outer > inner {
		outer, inner = inner, outer
	}
	const where = "a steel pipeline, after 8 min"
	of := func(id, what, printed, unit string, within float64, why string, ours float64) {
		outside.Check(t, outside.Row{
			ID: "heat/pipeline/" + id, Subject: outside.Heat, Source: "incropera", Where: where, Mark: outside.Seen,
			What: what, Printed: printed, Unit: unit, Within: within, Why: why,
		}, ours)
	}
	const figures = "λ is read from the book's table there, 0.531, where 0.5318 solves its equation"
	of("outer", "insulated face of a steel wall of 40 mm, oil of 60 °C at the other face", "42.92", "°C", 0.1, figures, outer)
	of("flux", "heat flux into a steel wall of 40 mm from oil of 60 °C, the other face insulated", "-7362.49", "W/m²", 60, figures, loss*(inner-oil))
	stored := 7832 * 434 * 3.141592653589793 * 0.040 * (end.Mean().Temperature.Celsius() + 20)
	of("heat", "heat taken up by a metre of that pipe, 1 m wide", "2.72e7", "J/m", 0.01e7, figures, stored)
}

// TestLongCylinder: the full series of another program's manual, at Bi 1.02 and Fourier
// number 0.23. Its radius of 0.3 lies on a border of cells, whose mean is taken.
func TestLongCylinder(t *testing.T) {
	const biot, fourier = 1.02, 0.23
	r := inert()
	rod := still.Wall{
		Length: 1, Outside: quantity.HeatTransfer(biot * 0.2 / half),
		Layers: []conduction.Layer{{Thickness: half, Conductivity: 0.2, Density: 1110, HeatCapacity: 2200, Resin: 1110, Cells: rodCells}},
	}
	pot, err := still.New(r, rod, celsius(0), celsius(0), still.Precision{Alpha: 1, Temperature: 1e-4, FirstStep: 1e-2})
	if err != nil {
		t.Fatal(err)
	}
	start, err := pot.Uniform(fresh(100))
	if err != nil {
		t.Fatal(err)
	}
	end, err := pot.Advance(start, 0, quantity.Time(fourier*half*half*1110*2200/0.2))
	if err != nil {
		t.Fatal(err)
	}
	const border = 24 // cells are of one thickness: 0.3 of 80
	at := (end[border-1].Temperature.Celsius() + end[border].Temperature.Celsius()) / 200
	outside.Check(t, outside.Row{
		ID: "heat/cylinder/temperature", Subject: outside.Heat, Source: "nellis", Where: "Cylinder_T_ND", Mark: outside.Seen,
		What: "a long cylinder at 0.3 of its radius, Bi 1.02 and Fourier number 0.23", Printed: "0.8034",
		Within: 2e-4, Why: "half a unit of the last digit, and the grid",
	}, at)
	outside.Check(t, outside.Row{
		ID: "heat/cylinder/given-off", Subject: outside.Heat, Source: "nellis", Where: "Cylinder_Q_ND", Mark: outside.Seen,
		What: "share of its heat that a long cylinder has given off, Bi 1.02 and Fourier number 0.23", Printed: "0.319",
	}, 1-end.Mean().Temperature.Celsius()/100)
}
