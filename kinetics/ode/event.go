package ode

import "math"

// Crossing finds the first moment of the last step at which g rises through
// zero. gBefore and gNow are the caller's values of g at the ends of the step,
// so that none is computed twice. A rise and fall inside one step is found when
// the parabola through both ends and the middle reaches zero, as it does on
// steps that resolve the solution. g receives a scratch state that it must not
// keep.
//
// found is false when g stays negative, or is not negative to begin with.
func (s *Solver) Crossing(g func(t float64, y []float64) float64, gBefore, gNow float64, scratch []float64) (t float64, found bool) {
	at := func(t float64) float64 {
		s.At(t, scratch)
		return g(t, scratch)
	}
	return Rising(at, s.tPrev, s.t, gBefore, gNow)
}

// Rising is [Solver.Crossing] for any function g of time between a and b, at
// which it has the values ga and gb.
func Rising(g func(float64) float64, a, b, ga, gb float64) (t float64, found bool) {
	if !(ga < 0) {
		return 0, false
	}
	if gb >= 0 {
		return Root(g, a, b, ga, gb), true
	}
	middle := (a + b) / 2
	gMiddle := g(middle)
	if gMiddle >= 0 {
		return Root(g, a, middle, ga, gMiddle), true
	}
	top, inside := vertex(ga, gMiddle, gb)
	if !inside {
		return 0, false
	}
	tTop := a + top*(b-a)
	if gTop := g(tTop); gTop >= 0 {
		return Root(g, a, tTop, ga, gTop), true
	}
	return 0, false
}

// Peak finds where component i has its highest value inside the last step, by
// the slope of the continuous extension; found is false when the component
// does not turn from rising to falling there.
func (s *Solver) Peak(i int, scratch []float64) (t, value float64, found bool) {
	slope := func(t float64) float64 {
		s.SlopeAt(t, scratch)
		return scratch[i]
	}
	before, now := slope(s.tPrev), slope(s.t)
	if !(before > 0 && now <= 0) {
		return 0, 0, false
	}
	t = Root(slope, s.tPrev, s.t, before, now)
	s.At(t, scratch)
	return t, scratch[i], true
}

// vertex is the place, 0 to 1, of the top of the parabola through values at
// 0, 1/2 and 1.
func vertex(y0, y1, y2 float64) (x float64, inside bool) {
	curve := 2 * (y0 - 2*y1 + y2)
	if !(curve < 0) {
		return 0, false
	}
	x = -(4*y1 - 3*y0 - y2) / (2 * curve)
	return x, x > 0 && x < 1
}

// Root finds a zero of f between a and b by Brent's method [3] to the last few
// bits of a and b. fa and fb are f(a) and f(b) and must not have the same sign;
// if they do, the end with the smaller magnitude is returned.
func Root(f func(float64) float64, a, b, fa, fb float64) float64 {
	if fa == 0 {
		return a
	}
	if math.Signbit(fa) == math.Signbit(fb) && fb != 0 {
		if math.Abs(fa) < math.Abs(fb) {
			return a
		}
		return b
	}
	c, fc := a, fa
	d := b - a
	e := d
	// Bisection alone would need about 60 rounds; Brent's bound is its square,
	// never seen: the loop is bounded all the same.
	for range 200 {
		if math.Abs(fc) < math.Abs(fb) {
			a, b, c = b, c, b
			fa, fb, fc = fb, fc, fb
		}
		tol := 2 * roundoff * math.Abs(b)
		m := (c - b) / 2
		if math.Abs(m) <= tol || fb == 0 {
			return b
		}
		if math.Abs(e) < tol || math.Abs(fa) <= math.Abs(fb) {
			d, e = m, m
		} else {
			d, e = interpolate(a, b, c, fa, fb, fc, m, tol, d, e)
		}
		a, fa = b, fb
		if math.Abs(d) > tol {
			b += d
		} else {
			b += math.Copysign(tol, m)
		}
		fb = f(b)
		if math.Signbit(fb) == math.Signbit(fc) && fb != 0 {
			c, fc = a, fa
			d = b - a
			e = d
		}
	}
	return b
}

// interpolate proposes Brent's next move: inverse quadratic or secant, or the
// bisection m when that would leave the bracket or converge too slowly.
func interpolate(a, b, c, fa, fb, fc, m, tol, d, e float64) (move, previous float64) {
	s := fb / fa
	var p, q float64
	if a == c {
		p, q = 2*m*s, 1-s
	} else {
		q = fa / fc
		r := fb / fc
		p = s * (2*m*q*(q-r) - (b-a)*(r-1))
		q = (q - 1) * (r - 1) * (s - 1)
	}
	if p > 0 {
		q = -q
	}
	p = math.Abs(p)
	if 2*p < math.Min(3*m*q-math.Abs(tol*q), math.Abs(e*q)) {
		return p / q, d
	}
	return m, m
}
