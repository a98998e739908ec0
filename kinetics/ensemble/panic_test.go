package ensemble

import (
	"strings"
	"testing"
)

// TestEachPanicsTogether: a panic of one of many works reaches whoever called, once all have
// stopped, with the place where it began.
func TestEachPanicsTogether(t *testing.T) {
	caught := func() (p *Panic) {
		defer func() { p = Caught(recover()) }()
		var list []int
		_ = Each(100, func() int { return 0 }, func(_, i int) error {
			if i == 40 {
				list[i]++
			}
			return nil
		})
		return nil
	}()
	if caught == nil || !strings.Contains(caught.Error(), "index out of range [40]") || !strings.HasPrefix(caught.Place, "panic_test.go:") {
		t.Errorf("caught %v", caught)
	}
}

// TestCaught: a panic that somebody raised has its place, too.
func TestCaught(t *testing.T) {
	defer func() {
		if p := Caught(recover()); p.Error() != "out of resin at panic_test.go:34" {
			t.Error(p)
		}
	}()
	panic("out of resin")
}
