package conduction_test

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"potlife/kinetics/conduction"
	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
)

// TestTransversePerfectFibres: W. T. Perrins, D. R. McKenzie, R. C. McPhedran, Proc. R.
// Soc. A 369 (1979) 207-225, table of square arrays of perfectly conducting cylinders
// (memory). Rayleigh's two terms fall short of the converged series by a share that
// grows as V¹²: the tolerances are what they leave out, 0.3 % at 0.6.
func TestTransversePerfectFibres(t *testing.T) {
	for _, c := range []struct {
		share   float64
		printed string
		within  float64
	}{
		{0.10, "1.2222", 1e-4},
		{0.20, "1.5003", 1e-4},
		{0.30, "1.8605", 1e-3},
		{0.40, "2.351", 1e-3},
		{0.50, "3.080", 1e-3},
		{0.60, "4.342", 4e-3},
	} {
		got := float64(conduction.Transverse(1, 1e12, quantity.Fraction(c.share)))
		printed, err := strconv.ParseFloat(c.printed, 64)
		if err != nil {
			t.Fatal(err)
		}
		outside.Check(t, outside.Row{
			ID: fmt.Sprintf("heat/transverse/%g", c.share), Subject: outside.Heat, Source: "perrins", Mark: outside.Memory,
			What:    fmt.Sprintf("conductivity across perfectly conducting fibres, square array, share %g", c.share),
			Printed: c.printed, Within: c.within * printed, Why: "what two terms of the series leave out, growing as the twelfth power of the share",
		}, got)
	}
}

// TestTransverseBounds: any two-phase medium that is isotropic across the fibres lies
// between Hashin's bounds (J. Compos. Mater. 4 (1970) 424-427, from memory), and the
// lower one is that of fibres in a matrix that conducts worse. Exact at both ends, and
// fibre and matrix of one conductivity are one material.
func TestTransverseBounds(t *testing.T) {
	for _, ratio := range []float64{0.3, 2, 5, 20, 200} {
		for _, v := range []float64{0, 0.1, 0.3, 0.5, 0.65, 0.75} {
			got := float64(conduction.Transverse(0.2, quantity.Conductivity(0.2*ratio), quantity.Fraction(v))) / 0.2
			inMatrix := 1 + v/(1/(ratio-1)+(1-v)/2)
			inFibre := ratio + (1-v)/(1/(1-ratio)+v/(2*ratio))
			low, high := math.Min(inMatrix, inFibre), math.Max(inMatrix, inFibre)
			if !(got >= low*(1-1e-12) && got <= high*(1+1e-12)) {
				t.Errorf("ratio %g, share %g: %.6f is outside %.6f to %.6f", ratio, v, got, low, high)
			}
		}
	}
	if got := conduction.Transverse(0.2, 0.2, 0.6); !(math.Abs(float64(got)-0.2) <= 1e-15) {
		t.Errorf("one material: %g", got)
	}
	if touching, beyond := conduction.Transverse(0.2, 4, 0.8), conduction.Transverse(0.2, 4, conduction.TouchingFibres); !(touching == beyond) {
		t.Errorf("beyond touching: %g and %g", touching, beyond)
	}
}
