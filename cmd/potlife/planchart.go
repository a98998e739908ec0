package main

import (
	"errors"
	"io/fs"
	"syscall"

	"potlife/cmd/potlife/internal/chart"
	"potlife/cmd/potlife/internal/whole"
	"potlife/kinetics/quantity"
	"potlife/schedule"
	"potlife/schedule/batches"
)

// drawPlan draws the bath's viscosity over a plan.
func drawPlan(to whole.Target, title string, w *schedule.Winding, s *batches.Solution) error {
	band, err := w.Band(s.Plan)
	if err != nil {
		return err
	}
	c := chart.Course{
		Title: title, At: band.At, Limit: w.Task.Limits.BathViscosity.In("mPa·s"),
		Likely: milli(band.Likely), Low: milli(band.Low), High: milli(band.High),
	}
	for i := range s.Plan.Pours {
		pour := &s.Plan.Pours[i]
		if len(pour.Pots) == 0 {
			continue // it goes on with what is in the bath
		}
		c.Pours = append(c.Pours, chart.Pour{At: w.Job.Clock(pour.At), Kind: string(pour.Into), Grams: pour.Mass().In("g"), Cups: len(pour.Pots)})
	}
	for u, unit := range w.Task.Units {
		start, end := w.Job.Clock(s.Plan.Start[u]), w.Job.Clock(s.Plan.End[u])
		if n := len(c.Layers); n > 0 && u > 0 && w.Task.Units[u-1].Layer == unit.Layer {
			c.Layers[n-1].End = end
			continue
		}
		c.Layers = append(c.Layers, chart.Layer{Name: w.Laid[unit.Layer].Name, Start: start, End: end})
	}
	return unwritten(chart.Save(to, c))
}

// unwritable sorts why a file cannot be written: a full disk is not the user's fault, a place
// that may not be written to is one that the user can change.
func unwritable(err error) error {
	if errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT) {
		return err
	}
	return wrong(withPlace(err))
}

// mayNot tells whether a place is one that may not be written to, or read.
func mayNot(err error) bool {
	return errors.Is(err, fs.ErrPermission) || errors.Is(err, syscall.EROFS)
}

func milli(list []quantity.Viscosity) []float64 {
	out := make([]float64, len(list))
	for i, v := range list {
		out[i] = v.In("mPa·s")
	}
	return out
}
