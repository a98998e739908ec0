package main

import (
	"errors"
	"fmt"
	"io/fs"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/chart"
	"potlife/cmd/potlife/internal/whole"
)

// An output is a file that a command writes beside its answer. One that may not be replaced is
// wrong input, which is refused before there is an answer; one that cannot be written when it is
// time costs the answer nothing, and is told after it.

// forceFlag lets a command replace what it would refuse to.
func forceFlag(cmd *cobra.Command, force *bool) {
	cmd.Flags().BoolVar(force, "force", false, "replace what stands there also where it is no earlier file of its kind")
}

// mayWrite refuses files that stand where others are to be written.
func mayWrite(targets ...whole.Target) error {
	for _, t := range targets {
		if err := t.Check(); err != nil {
			return wrong(err)
		}
	}
	return nil
}

// chartTarget is the file of a picture that may be written.
func chartTarget(path string, force bool) (whole.Target, error) {
	to, err := chart.Target(path, force)
	if err != nil {
		return to, wrong(err)
	}
	return to, mayWrite(to)
}

// unwritten says what to do about a file that could not be written beside its answer: the program
// failed at what it was asked for, which is no wrong input.
func unwritten(err error) error {
	return withPlace(err)
}

// withPlace says where else a file may go that cannot be written where it was to.
func withPlace(err error) error {
	switch {
	case err == nil:
		return nil
	case mayNot(err):
		return fmt.Errorf("%w\n   name a file in a folder that you may write to", err)
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%w\n   make its folder first, or name a file in another", err)
	}
	return err
}

// afterAnswer is what a command ends with: that its answer could not be given, then that a file
// beside it could not be written, then that a limit is broken.
func afterAnswer(answered, failed error, broken bool) error {
	switch {
	case answered != nil || failed != nil:
		return errors.Join(answered, failed)
	case broken:
		return errLimit
	}
	return nil
}
