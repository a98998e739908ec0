package main

import (
	"potlife/cmd/potlife/internal/chart"
	"potlife/kinetics/quantity"
	"potlife/schedule"
	"potlife/schedule/batches"
)

// drawPlan draws the bath's viscosity over a plan.
func drawPlan(path string, w *schedule.Winding, s *batches.Solution) error {
	if s.Plan == nil {
		return nil // the answer says why there is nothing to draw
	}
	band, err := w.Band(s.Plan)
	if err != nil {
		return err
	}
	c := chart.Course{
		Title: w.Job.Name, At: band.At, Limit: w.Task.Limits.BathViscosity.In("mPa·s"),
		Likely: milli(band.Likely), Low: milli(band.Low), High: milli(band.High),
	}
	for i := range s.Plan.Pours {
		pour := &s.Plan.Pours[i]
		c.Pours = append(c.Pours, chart.Pour{At: w.Job.Clock(pour.At), Kind: string(pour.Into), Grams: pour.Mass().In("g")})
	}
	for u, unit := range w.Task.Units {
		start, end := w.Job.Clock(s.Plan.Start[u]), w.Job.Clock(s.Plan.End[u])
		if n := len(c.Layers); n > unit.Layer {
			c.Layers[n-1].End = end
			continue
		}
		c.Layers = append(c.Layers, chart.Layer{Name: w.Laid[unit.Layer].Name, Start: start, End: end})
	}
	return wrong(chart.Save(path, c))
}

func milli(list []quantity.Viscosity) []float64 {
	out := make([]float64, len(list))
	for i, v := range list {
		out[i] = v.In("mPa·s")
	}
	return out
}
