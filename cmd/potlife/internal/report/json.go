package report

import (
	"bytes"
	"encoding/json"
	"io"
	"math"

	"potlife/kinetics/quantity"
	"potlife/resins/document/visible"
)

// WriteJSON writes v indented, with letters and signs as they are; those that cannot be seen are escaped.
func WriteJSON(w io.Writer, v any) error {
	return writeJSON(w, v, "  ")
}

// WriteLine writes a report as one line of JSON.
func WriteLine(w io.Writer, v any) error {
	return writeJSON(w, v, "")
}

func writeJSON(w io.Writer, v any, indent string) error {
	var text bytes.Buffer
	e := json.NewEncoder(&text)
	e.SetEscapeHTML(false)
	e.SetIndent("", indent)
	if err := e.Encode(v); err != nil {
		return err
	}
	_, err := w.Write(visible.Escape(text.Bytes()))
	return err
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
