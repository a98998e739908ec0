package vessel_test

import (
	"math"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// semenovResin reacts by the first order at the rate k at the room's temperature
// with E/(R·T) = 600 and a heat that would warm it by ten thousand kelvin: what
// of it burns off before ignition, and what an Arrhenius rate differs from the
// exponential of the theory, are then each below half a per cent.
func semenovResin(kelvin, k float64) kinetics.Resin {
	const steepness = 600
	r := medium()
	r.Cure = kinetics.NthOrder{
		K: kinetics.Arrhenius{A: quantity.Rate(k * math.Exp(steepness)), E: quantity.MolarEnergy(steepness * kinetics.GasConstant * kelvin)},
		N: 1,
	}
	r.Vitrification = nil
	r.Heat = quantity.SpecificEnergy(1e4 * float64(r.HeatCapacity))
	return r
}

const (
	semenovMass    = 0.5
	semenovCelsius = 23.0
)

// semenov is a mass at the Semenov number ψ = (E/(R·T²))·m·H·k/(h·S), and the unit
// R·T²/E of its rise in K.
func semenov(psi float64) (b *vessel.Bath, unit float64) {
	kelvin, v := float64(quantity.Celsius(semenovCelsius)), tray()
	unit = kelvin / 600
	r := semenovResin(kelvin, 1)
	depth := float64(v.Depth(semenovMass, r.Density))
	loss := float64(v.SurfaceLoss)*v.AreaM2 + float64(v.WallLoss)*(v.AreaM2+float64(v.Perimeter)*depth)
	k := psi * loss * unit / (semenovMass * float64(r.Heat))
	return inRoom(semenovResin(kelvin, k), v, semenovCelsius), unit
}

// ignites tells whether the mass passes θ = 3, from where nothing holds it.
func ignites(t *testing.T, psi float64) bool {
	t.Helper()
	b, unit := semenov(psi)
	start := fresh(semenovMass, semenovCelsius)
	at := until(t, b, start, vessel.EndPoint{Temperature: start.Temperature + quantity.Temperature(3*unit)})
	return !math.IsInf(float64(at), 1)
}

// stands is the θ at which a mass that does not ignite comes to rest.
func stands(t *testing.T, psi float64) float64 {
	t.Helper()
	b, unit := semenov(psi)
	start := fresh(semenovMass, semenovCelsius)
	m, err := b.Milestones(start, 0, 48*hour)
	if err != nil {
		t.Fatal(err)
	}
	return float64(m.Peak-start.Temperature) / unit
}

// TestSemenov checks the critical condition of a stirred self-heating mass,
//
//	F. A. Williams, Combustion Theory, 2nd ed., app. B: ψ = 1/e at θ = 1.
//
// The source's model keeps the reactant; ours burns it off, so activation energy
// and heat are raised until depletion moves ψ by less than the tolerance, 1 %.
func TestSemenov(t *testing.T) {
	const critical = 1 / math.E
	low, high := 0.5*critical, 2*critical
	for high-low > 1e-4*critical {
		if middle := (low + high) / 2; ignites(t, middle) {
			high = middle
		} else {
			low = middle
		}
	}
	const reason = "1 %: what depletion and Arrhenius's law leave of the theory"
	outside.Check(t, outside.Row{
		ID: "selfheating/semenov/critical", Subject: outside.SelfHeating, Source: "williams", Mark: outside.Seen,
		What: "critical Semenov number of a stirred mass, 1/e", Printed: "0.36788", Within: 0.01 * critical, Why: reason,
	}, low)
	t.Logf("critical ψ is %.5f, 1/e is %.5f", low, critical)
	// Next to the critical point θ moves with the square root of the distance:
	// 1 % below it stands at about 1 − √(2·0.01).
	if theta := stands(t, low*0.99); !(theta > 0.8 && theta < 1.1) {
		t.Errorf("just below, the mass warms to θ = %.3f, want near 1", theta)
	}
	// Well below it stands where θ·e^(−θ) = ψ, here θ = 1/2.
	outside.Check(t, outside.Row{
		ID: "selfheating/semenov/half", Subject: outside.SelfHeating, Source: "williams", Mark: outside.Derived,
		What: "where a stirred mass comes to rest at the Semenov number exp(-1/2)/2", Printed: "0.5", Within: 0.005, Why: reason,
	}, stands(t, math.Exp(-0.5)/2))
}
