package quantity_test

import (
	"testing"

	"potlife/kinetics/quantity"
)

// BenchmarkParse reads quantities as job files spell them.
func BenchmarkParse(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := quantity.Parse[quantity.Temperature]("22 °C"); err != nil {
			b.Fatal(err)
		}
		if _, err := quantity.Parse[quantity.HeatTransfer]("10 W/(m²·K)"); err != nil {
			b.Fatal(err)
		}
		if _, err := quantity.Parse[quantity.Viscosity]("1500mPas"); err != nil {
			b.Fatal(err)
		}
	}
}
