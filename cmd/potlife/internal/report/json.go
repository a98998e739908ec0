package report

import (
	"encoding/json"
	"io"
	"math"

	"potlife/kinetics/quantity"
)

// WriteJSON writes v indented, with letters and signs as they are.
func WriteJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

// WriteLine writes a report as one line of JSON.
func WriteLine(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	return e.Encode(v)
}

// finite is nil for a value that never comes: JSON has no infinity.
func finite(x float64) *float64 {
	if math.IsInf(x, 0) || math.IsNaN(x) {
		return nil
	}
	return &x
}

func seconds(t quantity.Time) *float64 { return finite(float64(t)) }

// grams is the one conversion of masses to the g of the names.
func grams(m quantity.Mass) float64 { return m.In("g") }

// notNull makes an empty list of a nil one.
func notNull[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}
