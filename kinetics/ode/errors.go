package ode

import (
	"errors"
	"fmt"
)

// The ways in which an integration can fail; test with [errors.Is].
var (
	ErrBudget    = errors.New("the step budget ran out")
	ErrStep      = errors.New("the step size shrank to nothing")
	ErrNotFinite = errors.New("the state or its slope is not finite")
)

// An Error names the time and the state at which an integration failed.
type Error struct {
	Cause error     // one of the sentinels above
	T     float64   // time of the last good point, in the caller's unit
	Y     []float64 // state there
	Steps int       // steps tried since Start
}

func (e *Error) Error() string {
	return fmt.Sprintf("integration stopped at t = %g after %d steps, state %.6g: %v", e.T, e.Steps, e.Y, e.Cause)
}

func (e *Error) Unwrap() error { return e.Cause }
