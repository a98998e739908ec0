package vessel

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"potlife/kinetics/quantity"
)

// A Series is a temperature over elapsed time: linear between its points,
// constant before the first and after the last. The zero Series is invalid.
type Series struct {
	at []float64 // s, ascending
	is []float64 // K
}

// Constant is a temperature that never changes.
func Constant(t quantity.Temperature) Series {
	return Series{at: []float64{0}, is: []float64{float64(t)}}
}

// NewSeries takes the points in ascending order of time. It refuses an empty
// list, times that do not ascend or are not finite and temperatures that are not
// above 0 K.
func NewSeries(at []quantity.Time, is []quantity.Temperature) (Series, error) {
	if len(at) == 0 || len(at) != len(is) {
		return Series{}, fmt.Errorf("a temperature series needs as many times as temperatures and at least one; got %d and %d", len(at), len(is))
	}
	var s Series
	for i := range at {
		if math.IsNaN(float64(at[i])) || math.IsInf(float64(at[i]), 0) {
			return Series{}, fmt.Errorf("the time of point %d of a temperature series is not finite; give each point a time", i+1)
		}
		if i > 0 && !(at[i] > at[i-1]) {
			return Series{}, fmt.Errorf("the times of a temperature series must ascend; point %d does not come after point %d: put them in order", i+1, i)
		}
		if !(is[i] > 0) || math.IsInf(float64(is[i]), 1) {
			return Series{}, fmt.Errorf("point %d of a temperature series is not a temperature above absolute zero", i+1)
		}
		s.at, s.is = append(s.at, float64(at[i])), append(s.is, float64(is[i]))
	}
	return s, nil
}

// At returns the temperature at elapsed time t.
func (s Series) At(t quantity.Time) quantity.Temperature {
	value, _ := s.line(float64(t))
	return quantity.Temperature(value)
}

// line returns the value in K at t and the slope in K/s just after t.
func (s Series) line(t float64) (value, slope float64) {
	if len(s.at) == 1 {
		return s.is[0], 0
	}
	i := sort.SearchFloat64s(s.at, math.Nextafter(t, math.Inf(1)))
	switch i {
	case 0:
		return s.is[0], 0
	case len(s.at):
		return s.is[i-1], 0
	}
	slope = (s.is[i] - s.is[i-1]) / (s.at[i] - s.at[i-1])
	return s.is[i-1] + slope*(t-s.at[i-1]), slope
}

// next returns the first point after t, +Inf if there is none.
func (s Series) next(t float64) float64 {
	if len(s.at) == 1 {
		return math.Inf(1)
	}
	i := sort.SearchFloat64s(s.at, math.Nextafter(t, math.Inf(1)))
	if i == len(s.at) {
		return math.Inf(1)
	}
	return s.at[i]
}

// IsConstant tells whether the temperature never changes.
func (s Series) IsConstant() bool { return len(s.at) == 1 }

// same tells whether two series are one.
func (s Series) same(t Series) bool { return slices.Equal(s.at, t.at) && slices.Equal(s.is, t.is) }

// Begins returns the time of the first point.
func (s Series) Begins() quantity.Time { return quantity.Time(s.at[0]) }

// Highest returns the highest temperature that the series ever has.
func (s Series) Highest() quantity.Temperature { return quantity.Temperature(slices.Max(s.is)) }

// Shifted returns the series with every temperature higher by rise.
func (s Series) Shifted(rise quantity.TemperatureDifference) Series {
	is := make([]float64, len(s.is))
	for i := range is {
		is[i] = s.is[i] + float64(rise)
	}
	return Series{at: s.at, is: is}
}

// Times returns the elapsed times of the points.
func (s Series) Times() []quantity.Time {
	times := make([]quantity.Time, len(s.at))
	for i, t := range s.at {
		times[i] = quantity.Time(t)
	}
	return times
}
