package winding_test

import (
	"testing"

	"potlife/kinetics/quantity"
	"potlife/schedule/winding"
)

// BenchmarkLay lays a hundred layers, each a little thicker than the one below.
func BenchmarkLay(b *testing.B) {
	layers := make([]winding.Layer, 100)
	for i := range layers {
		layers[i].Angle = quantity.Angle(25+i%3*20) * degree
	}
	b.ReportAllocs()
	for b.Loop() {
		if laid := winding.Lay(example(), layers); len(laid) != len(layers) {
			b.Fatal(len(laid))
		}
	}
}
