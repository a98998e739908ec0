package batches

import (
	"potlife/kinetics/quantity"
	"potlife/resins"
)

// ReserveOf is what must be left at every moment after a pour at which the bath had the
// working life given.
func (t *Task) ReserveOf(life quantity.Time) quantity.Time {
	return quantity.Time(t.reserve(float64(life) * t.shortBy()))
}

// Split divides a mass to be mixed into as few equal pots as their bounds allow.
func (t *Task) Split(mass quantity.Mass) []resins.Pot { return t.split(float64(mass)) }
