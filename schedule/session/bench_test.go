package session

import "testing"

// BenchmarkJournal opens a journal of 500 lines, checks each and decodes it.
func BenchmarkJournal(b *testing.B) {
	text, logged, _ := history(b, 500)
	folder := b.TempDir()
	place(b, folder, text)
	placeFile(b, folder, CountName, countText(logged))
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		j, report, err := Open(folder)
		if err != nil || report != (Report{}) || len(j.Entries()) != 500 {
			b.Fatal(report, err)
		}
		if err := j.Close(); err != nil {
			b.Fatal(err)
		}
	}
}
