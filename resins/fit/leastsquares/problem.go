package leastsquares

import (
	"errors"
	"fmt"
	"math"

	"potlife/kinetics/ensemble"
)

// A Problem is what is to be made small: Count residuals of the parameters.
type Problem struct {
	// Residuals writes the residuals at x into r. With Parallel it is called from
	// several goroutines at once, each with an x and an r of its own. An error or
	// a residual that is not finite marks an x that cannot be.
	Residuals func(x, r []float64) error
	Count     int
	Start     []float64
	// Scale is the size of a change of each parameter that matters; nil: the
	// size of its start, or 1 where that is 0.
	Scale []float64
	// Step is the step of the differences over Scale, or over |x| where no scale
	// is given; 0: the cube root of the rounding error. Residuals that come from
	// a simulation of relative error ε want about ∛ε.
	Step     float64
	Parallel bool // differences on all processors
}

// Options bound the work and say when it is done; zero values mean the usual.
type Options struct {
	Iterations int     // at most; usually 200
	Reduction  float64 // relative, of the sum of squares; usually 1e-14
	Enough     float64 // absolute, of half the sum of squares; usually 0
	Move       float64 // relative, of the scaled parameters; usually 1e-10
	Slope      float64 // cosine between residuals and columns; usually 1e-12
	Plain      bool    // no acceleration: residuals that cost or that err much
	// Secant is for how many steps in a row J follows by (5) where it would be
	// differenced anew; a step that does not gain ends the row. The Jacobian of the
	// result, and what rests on it, may then be such a one. Usually 0.
	Secant int
	// Damping is the first μ of (1); usually 0.1. Little suits a start close by.
	Damping float64
	// Seen is told the number of each iteration as it begins; nil: nobody asks.
	Seen func(iteration int)
	// Even damps each parameter by its scale and not by its column: for residuals
	// that hold the parameters themselves, in units of their scales, among them.
	Even bool
}

func (o Options) withUsual() Options {
	or := func(value *float64, usual float64) {
		if *value == 0 {
			*value = usual
		}
	}
	or(&o.Reduction, 1e-14)
	or(&o.Move, 1e-10)
	or(&o.Slope, 1e-12)
	or(&o.Damping, 0.1)
	if o.Iterations == 0 {
		o.Iterations = 200
	}
	return o
}

// ErrStart tells that the residuals cannot be computed where the search starts.
var ErrStart = errors.New("the residuals at the start are not finite")

// cubeRoot of the rounding error is the step at which rounding and truncation of
// a central difference balance.
var cubeRoot = math.Cbrt(0x1p-52)

func (p *Problem) scale() ([]float64, error) {
	scale := make([]float64, len(p.Start))
	for i, x := range p.Start {
		scale[i] = math.Abs(x)
		if p.Scale != nil {
			scale[i] = p.Scale[i]
		}
		if scale[i] == 0 {
			scale[i] = 1
		}
		if !(scale[i] > 0) || math.IsInf(scale[i], 1) {
			return nil, fmt.Errorf("the scale of parameter %d is not positive and finite", i+1)
		}
	}
	return scale, nil
}

// differences fills columns with the derivatives of the residuals by each
// parameter, in its scale.
func (p *Problem) differences(x, scale []float64, columns [][]float64) error {
	step := p.Step
	if step == 0 {
		step = cubeRoot
	}
	type buffers struct{ x, low, high []float64 }
	one := func(b buffers, i int) error {
		size := scale[i]
		if p.Scale == nil && x[i] != 0 {
			size = math.Abs(x[i])
		}
		copy(b.x, x)
		b.x[i] = x[i] + step*size
		above := b.x[i]
		if err := p.at(b.x, b.high); err != nil {
			return err
		}
		b.x[i] = x[i] - step*size
		below := b.x[i]
		if err := p.at(b.x, b.low); err != nil {
			return err
		}
		for k := range columns[i] {
			columns[i][k] = (b.high[k] - b.low[k]) / (above - below) * scale[i]
		}
		return nil
	}
	newBuffers := func() buffers {
		return buffers{make([]float64, len(x)), make([]float64, p.Count), make([]float64, p.Count)}
	}
	if p.Parallel {
		return ensemble.Each(len(x), newBuffers, one)
	}
	b := newBuffers()
	for i := range x {
		if err := one(b, i); err != nil {
			return err
		}
	}
	return nil
}

var errNotFinite = errors.New("a residual is not finite")

// at computes the residuals and refuses those that are not finite.
func (p *Problem) at(x, r []float64) error {
	if err := p.Residuals(x, r); err != nil {
		return err
	}
	for _, v := range r {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return errNotFinite
		}
	}
	return nil
}
