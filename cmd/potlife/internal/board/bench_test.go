package board_test

import (
	"testing"
	"time"
)

// BenchmarkView is one look at the page as a phone asks for it, over the wire: the clock has
// gone on by a minute, so that the journal is replayed and the answer worked out anew.
func BenchmarkView(b *testing.B) {
	s := newShop(b, nil)
	b.ReportAllocs()
	for n := 1; b.Loop(); n++ {
		if n%240 == 0 {
			s.pass(-239 * time.Minute) // not beyond the day
		}
		s.pass(time.Minute)
		if a := s.get(""); a.status != 200 {
			b.Fatal(a.status, a.text)
		}
	}
}
