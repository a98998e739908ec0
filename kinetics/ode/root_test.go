package ode_test

import (
	"math"
	"testing"

	"potlife/kinetics/ode"
)

// TestRoot takes functions that defeat a plain secant or a plain tolerance. The
// position is asked to a few bits where the function is steep enough to know it,
// and else to where |f| drowns in rounding, as the third column says.
func TestRoot(t *testing.T) {
	for _, c := range []struct {
		what        string
		f           func(float64) float64
		a, b, wants float64
		tol         float64
	}{
		{"linear", func(x float64) float64 { return 3*x - 1 }, 0, 1, 1. / 3, 4e-16},
		{"falling", func(x float64) float64 { return 1 - x*x }, 0, 5, 1, 1e-15},
		{"a cube, flat at its root", func(x float64) float64 { return (x - 1) * (x - 1) * (x - 1) }, 0, 3, 1, 1e-5},
		{"ninth power, flatter", func(x float64) float64 { return math.Pow(x-1, 9) }, -1, 4, 1, 1e-3},
		{"all but flat, then a wall", func(x float64) float64 { return math.Exp(40*(x-1)) - 1e-8 }, 0, 2, 1 + math.Log(1e-8)/40, 1e-14},
		{"steep step", func(x float64) float64 { return math.Tanh(1e9 * (x - 0.3)) }, 0, 1, 0.3, 1e-15},
		{"jump without a zero", func(x float64) float64 { return math.Copysign(1, x-0.7) }, 0, 1, 0.7, 1e-15},
		{"infinite slope", func(x float64) float64 { return math.Cbrt(x - 0.2) }, -1, 1, 0.2, 1e-15},
		{"pole next to the root", func(x float64) float64 { return 1/(x+1e-6) - 1e3 }, 0, 1, 1e-3 - 1e-6, 1e-15},
		{"bracket from right to left", func(x float64) float64 { return x*x - 2 }, 2, 0, math.Sqrt2, 1e-15},
		{"root at zero", func(x float64) float64 { return x + x*x*x }, -1, 2, 0, 1e-15},
		{"far from zero", func(x float64) float64 { return x - 123456789.5 }, 1e8, 2e8, 123456789.5, 1e-7},
	} {
		got := ode.Root(c.f, c.a, c.b, c.f(c.a), c.f(c.b))
		if !(math.Abs(got-c.wants) <= c.tol) {
			t.Errorf("%s: %.17g, want %.17g ± %g", c.what, got, c.wants, c.tol)
		}
	}
}

// TestRootWork: Brent needs few evaluations even where bisection has to help;
// three times the 55 rounds that bisection takes is his usual bound.
func TestRootWork(t *testing.T) {
	for _, f := range []func(float64) float64{
		func(x float64) float64 { return math.Pow(x-1, 9) },
		func(x float64) float64 { return math.Tanh(1e9 * (x - 0.3)) },
		func(x float64) float64 { return math.Exp(40*(x-1)) - 1e-8 },
	} {
		calls := 0
		counted := func(x float64) float64 { calls++; return f(x) }
		ode.Root(counted, -1, 4, f(-1), f(4))
		if calls > 165 {
			t.Errorf("%d evaluations", calls)
		}
	}
}

func TestRootAtAnEnd(t *testing.T) {
	f := func(x float64) float64 { return x * (x - 1) }
	for _, c := range []struct{ a, b, wants float64 }{{0, 0.5, 0}, {0.5, 1, 1}, {1, 2, 1}, {-1, 0, 0}} {
		if got := ode.Root(f, c.a, c.b, f(c.a), f(c.b)); got != c.wants {
			t.Errorf("between %g and %g: %g, want %g exactly", c.a, c.b, got, c.wants)
		}
	}
}

// TestRootWithoutABracket: the end nearer to zero, as documented, and no loop.
func TestRootWithoutABracket(t *testing.T) {
	f := func(x float64) float64 { return x*x + 1 }
	if got := ode.Root(f, -1, 3, f(-1), f(3)); got != -1 {
		t.Errorf("%g, want the end -1", got)
	}
	if got := ode.Root(f, -3, 1, f(-3), f(1)); got != 1 {
		t.Errorf("%g, want the end 1", got)
	}
}
