package fit

import (
	"math"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// A Course is a cup of which there is a log, as read and as records have it. Times
// count from mixing.
type Course struct {
	Read   []Point
	Fitted []Point // the new record, from the first temperature that the fit found
	Prior  []Point // the nearest system, from the first reading
}

// A Point of a course.
type Point struct {
	At quantity.Time
	Is quantity.Temperature
}

// Course returns the course of statement i, nil if that is no cup log.
func (f *Result) Course(i int) (*Course, error) {
	t := f.model.tests[i]
	if t.log == nil {
		return nil, nil
	}
	begins := quantity.Time(t.log.begins)
	c := &Course{}
	for k, at := range t.Log.At {
		c.Read = append(c.Read, Point{begins + at, t.Log.Is[k]})
	}
	x := f.solution.X
	now, err := t.log.follow(&f.Record.Kinetics, t.Statement, math.Exp(f.model.value(loss, x)), f.model.value(t.first, x), t.log.last())
	if err != nil {
		return nil, err
	}
	before, err := t.log.follow(&f.Prior.Kinetics, t.Statement, 1, 0, t.log.last())
	if err != nil {
		return nil, err
	}
	c.Fitted, c.Prior = points(now, begins), points(before, begins)
	return c, nil
}

func points(samples []vessel.Sample, begins quantity.Time) []Point {
	list := make([]Point, len(samples))
	for i, s := range samples {
		list[i] = Point{begins + s.At, s.Temperature}
	}
	return list
}
