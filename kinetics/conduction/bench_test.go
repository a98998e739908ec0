package conduction

import "testing"

// BenchmarkBand factors and solves with the matrix of a tray of 64 cells and of a cup of 16
// by 16, as each stage of a step does.
func BenchmarkBand(b *testing.B) {
	air := Face{Loss: 11}
	for name, n := range map[string]*Network{
		"tray of 64":     Slab(0.018, []Layer{resinLayer(0.07, 64)}, air, air, 0.54, air),
		"cup of 16 × 16": Cylinder(0.035, 16, resinLayer(0.07, 16), air, air, air),
	} {
		b.Run(name, func(b *testing.B) {
			band, plus, x := n.NewBand(), make([]float64, n.Cells()), make([]float64, n.Cells())
			for i, c := range n.Capacity {
				plus[i] = c / 10 // a step of some 10 s
			}
			b.ReportAllocs()
			for b.Loop() {
				n.Fill(band, plus)
				if !band.Factor() {
					b.Fatal("not positive definite")
				}
				for i := range x {
					x[i] = 1
				}
				band.Solve(x)
			}
		})
	}
}
