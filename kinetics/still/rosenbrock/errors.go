package rosenbrock

import "fmt"

func (s *Solver) fail(cause error) error { return &Error{Cause: cause, T: s.t, Steps: s.steps} }

// An Error names the time at which an integration failed; its cause is one of
// the sentinels of package ode.
type Error struct {
	Cause error
	T     float64 // time of the last good point, in the caller's unit
	Steps int     // steps tried since Start
}

func (e *Error) Error() string {
	return fmt.Sprintf("integration stopped at t = %g after %d steps: %v", e.T, e.Steps, e.Cause)
}

func (e *Error) Unwrap() error { return e.Cause }
