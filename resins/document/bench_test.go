package document_test

import (
	"testing"

	"potlife/resins/document"
)

// BenchmarkRead reads a short file with every kind of field.
func BenchmarkRead(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		var j job
		if _, err := document.Read("job.yaml", []byte(whole), j.fields()); err != nil {
			b.Fatal(err)
		}
	}
}
