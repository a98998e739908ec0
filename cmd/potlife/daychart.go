package main

import (
	"math"
	"time"

	"potlife/cmd/potlife/internal/chart"
	"potlife/cmd/potlife/internal/report"
	"potlife/kinetics/quantity"
	"potlife/schedule/session/replay"
)

// dayPage is the size of a day's charts: as wide as an A4 page within its edges, and so high
// that both stand on the first one; higher where many pours have their labels upright.
func dayPage(pours int) chart.Page {
	const few = 10
	if pours > few {
		return chart.Page{WidthMM: 186, HeightMM: 115}
	}
	return chart.Page{WidthMM: 186, HeightMM: 84}
}

// A course says nothing that is shorter, and is no day that is longer: it can be told, and not
// drawn.
const (
	shortestDay = time.Minute
	longestDay  = 30 * 24 * time.Hour
)

// drawable tells whether there is something to draw.
func drawable(day *report.Day) bool {
	n := len(day.Course)
	if n < 2 {
		return false
	}
	span := day.Course[n-1].At.Sub(day.Course[0].At)
	return span >= shortestDay && span <= longestDay
}

// dayPictures draw the bath of a day, viscosity and temperature; nothing where there was none.
func dayPictures(day *report.Day, course *replay.Course) ([]report.Picture, error) {
	if !drawable(day) {
		return nil, nil
	}
	thick, warm := withDay(dayViscosity(day, course), day), withDay(dayTemperature(day, course), day)
	thickAlone := thick
	thick.Beside, warm.Beside = &warm, &thickAlone
	var pictures []report.Picture
	for _, p := range []struct {
		caption string
		course  chart.Course
	}{{"Viscosity of the bath", thick}, {"Temperature of the bath", warm}} {
		svg, err := chart.Inline(p.course, p.caption+" over the day, with its limit, the band of 8 in 10 baths, what was read, the pours and the layers")
		if err != nil {
			return nil, err
		}
		pictures = append(pictures, report.Picture{Caption: p.caption, SVG: svg})
	}
	return pictures, nil
}

// withDay adds to a course of the bath what happened on its day.
func withDay(c chart.Course, day *report.Day) chart.Course {
	c.Pours = dayPours(day)
	c.Page = dayPage(len(c.Pours))
	for i := range day.Course {
		c.At = append(c.At, day.Course[i].At)
	}
	c.Layers = dayLayers(day, c.At[len(c.At)-1])
	return c
}

func dayViscosity(day *report.Day, course *replay.Course) chart.Course {
	c := chart.Course{Measure: chart.Viscosity, Limit: quantity.Viscosity(day.Limits.BathViscosity).In("mPa·s")}
	for _, v := range course.Viscosity {
		c.Likely, c.Low, c.High = append(c.Likely, v.Likely.In("mPa·s")), append(c.Low, v.Low.In("mPa·s")), append(c.High, v.High.In("mPa·s"))
	}
	for _, r := range day.Readings {
		if v := r.Viscosity; v != nil {
			c.Readings = append(c.Readings, chart.Reading{
				At: r.At, Is: quantity.Viscosity(v.Read).In("mPa·s"), Doubt: quantity.Viscosity(v.U).In("mPa·s"), Wrong: r.Verdict == report.Unlikely,
			})
		}
	}
	return c
}

func dayTemperature(day *report.Day, course *replay.Course) chart.Course {
	c := chart.Course{Measure: chart.Temperature, Limit: day.Limits.BathTemperature}
	for _, t := range course.Temperature {
		c.Likely, c.Low, c.High = append(c.Likely, report.Drawn(t.Likely)), append(c.Low, report.Drawn(t.Low)), append(c.High, report.Drawn(t.High))
	}
	for _, r := range day.Readings {
		if t := r.Temperature; t != nil {
			c.Readings = append(c.Readings, chart.Reading{At: r.At, Is: t.Read, Doubt: t.U, Wrong: r.Verdict == report.Unlikely})
		}
	}
	return c
}

// dayPours are the pots as they were poured; those of one moment are one pour.
func dayPours(day *report.Day) []chart.Pour {
	var pours []chart.Pour
	first := 0.0 // mass of the first cup of the last pour
	for _, p := range day.Pots {
		m := p.Mixed
		if m == nil || m.PouredAt == nil {
			continue
		}
		last := len(pours) - 1
		if last < 0 || !pours[last].At.Equal(*m.PouredAt) {
			pours = append(pours, chart.Pour{At: *m.PouredAt, Kind: m.Into, Grams: m.MassG, Cups: 1})
			first = m.MassG
			continue
		}
		pours[last].Grams += m.MassG
		if math.Abs(m.MassG-first) <= alike {
			pours[last].Cups++
		} else {
			pours[last].Cups, first = 1, math.NaN() // told as one mass
		}
	}
	return pours
}

// alike are cups that print the same grams.
const alike = 0.5 // g

// dayLayers are the layers that were begun; the one in hand reaches to the end.
func dayLayers(day *report.Day, end time.Time) []chart.Layer {
	var layers []chart.Layer
	for _, l := range day.Layers {
		if l.Start == nil {
			continue
		}
		layer := chart.Layer{Name: l.Name, Start: *l.Start, End: end}
		if l.End != nil {
			layer.End = *l.End
		}
		layers = append(layers, layer)
	}
	return layers
}
