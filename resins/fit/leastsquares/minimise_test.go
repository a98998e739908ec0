package leastsquares_test

import (
	"errors"
	"math"
	"reflect"
	"testing"

	"potlife/resins/fit/leastsquares"
)

// line is y = x0 + x1·t at t = 0, 1, 2, 3 with y = 1, 3, 2, 5.
func line(x, r []float64) error {
	for i, y := range []float64{1, 3, 2, 5} {
		r[i] = x[0] + x[1]*float64(i) - y
	}
	return nil
}

// TestLine: a straight line has its closed form (derived): slope Sxy/Sxx = 5.5/5,
// ordinate 2.75 − 1.1·1.5, covariance σ²/Sxx of the slope, σ²(1/4 + 1.5²/5) of
// the ordinate and −1.5σ²/Sxx of both. Differences of a linear model err by
// rounding over step, some 1e-11.
func TestLine(t *testing.T) {
	got, err := leastsquares.Minimise(leastsquares.Problem{Residuals: line, Count: 4, Start: []float64{100, -30}}, leastsquares.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"ordinate", got.X[0], 1.1},
		{"slope", got.X[1], 1.1},
		{"variance of the ordinate", got.Covariance.At(0, 0), 0.7},
		{"variance of the slope", got.Covariance.At(1, 1), 0.2},
		{"covariance", got.Covariance.At(0, 1), -0.3},
	} {
		if !(math.Abs(c.got-c.want) <= 1e-8) {
			t.Errorf("%s %.12g, want %g", c.name, c.got, c.want)
		}
	}
	if !got.Converged || got.Rank != 2 {
		t.Errorf("converged %v, rank %d", got.Converged, got.Rank)
	}
}

// TestUntoldDirection: of x0 + x1 alone the residuals tell one direction; the
// second singular value is nothing, and the covariance is that of the sum, which
// n = 3 readings give with variance 1/3: the pseudo-inverse shares it out.
func TestUntoldDirection(t *testing.T) {
	sum := func(x, r []float64) error {
		for i, y := range []float64{1, 2, 3} {
			r[i] = x[0] + x[1] - y
		}
		return nil
	}
	got, err := leastsquares.Minimise(leastsquares.Problem{Residuals: sum, Count: 3, Start: []float64{5, 4}, Scale: []float64{1, 1}}, leastsquares.Options{})
	if err != nil {
		t.Fatal(err)
	}
	c := got.Covariance
	if variance := c.At(0, 0) + 2*c.At(0, 1) + c.At(1, 1); got.Rank != 1 || !(math.Abs(variance-1.0/3) <= 1e-8) {
		t.Errorf("rank %d of singular values %v, variance of the sum %g", got.Rank, got.Singular, variance)
	}
}

// TestStepsIntoNowhere: residuals that cannot be computed beyond a wall are
// stepped back from. ln x pulls to the left of 0 from 4 with the first full step.
func TestStepsIntoNowhere(t *testing.T) {
	refused := 0
	wall := func(x, r []float64) error {
		if x[0] <= 0 {
			refused++
			return errors.New("no logarithm")
		}
		r[0], r[1] = 10*math.Log(x[0]/0.1), 0
		return nil
	}
	for _, plain := range []bool{false, true} {
		got, err := leastsquares.Minimise(leastsquares.Problem{Residuals: wall, Count: 2, Start: []float64{4}}, leastsquares.Options{Plain: plain})
		if err != nil {
			t.Fatal(err)
		}
		if !(math.Abs(got.X[0]/0.1-1) <= 1e-9) {
			t.Errorf("x %g", got.X[0])
		}
	}
	if refused == 0 {
		t.Error("no step went beyond the wall")
	}
}

// TestParallel: the differences are the same on one goroutine and on all.
func TestParallel(t *testing.T) {
	p := leastsquares.Problem{Residuals: line, Count: 4, Start: []float64{3, 8}}
	alone, err := leastsquares.Minimise(p, leastsquares.Options{})
	if err != nil {
		t.Fatal(err)
	}
	p.Parallel = true
	together, err := leastsquares.Minimise(p, leastsquares.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(alone, together) {
		t.Errorf("%+v is not %+v", together, alone)
	}
}

// TestRefusals: what cannot be searched is an error; what did not end says so.
func TestRefusals(t *testing.T) {
	nan := func(_, r []float64) error { r[0], r[1] = math.NaN(), 0; return nil }
	if _, err := leastsquares.Minimise(leastsquares.Problem{Residuals: nan, Count: 2, Start: []float64{1}}, leastsquares.Options{}); !errors.Is(err, leastsquares.ErrStart) {
		t.Errorf("NaN at the start: %v", err)
	}
	for _, p := range []leastsquares.Problem{
		{Residuals: line, Count: 4},
		{Residuals: line, Count: 1, Start: []float64{1, 2}},
		{Residuals: line, Count: 4, Start: []float64{1, 2}, Scale: []float64{1, math.NaN()}},
		{Residuals: line, Count: 4, Start: []float64{1, 2}, Scale: []float64{-1, 1}},
	} {
		if got, err := leastsquares.Minimise(p, leastsquares.Options{}); err == nil {
			t.Errorf("%+v: %+v", p, got)
		}
	}
	got, err := leastsquares.Minimise(leastsquares.Problem{Residuals: line, Count: 4, Start: []float64{100, -30}}, leastsquares.Options{Iterations: 1})
	if err != nil || got.Converged {
		t.Errorf("after one iteration: %v, %v", got, err)
	}
}
