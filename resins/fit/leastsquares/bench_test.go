package leastsquares_test

import (
	"testing"

	"potlife/resins/fit/leastsquares"
)

// BenchmarkThurber is the largest of NIST's problems here, seven parameters from far away.
func BenchmarkThurber(b *testing.B) {
	for _, p := range strdProblems(b) {
		if p.name != "Thurber" {
			continue
		}
		b.ReportAllocs()
		for b.Loop() {
			if _, err := leastsquares.Minimise(p.problem(p.starts[0]), leastsquares.Options{}); err != nil {
				b.Fatal(err)
			}
		}
		return
	}
	b.Fatal("no such problem")
}
