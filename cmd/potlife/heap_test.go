package main

import (
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"testing"
)

// TestCollectLate: garbage is collected late once, and then as usual; and not at all late where somebody set
// how.
func TestCollectLate(t *testing.T) {
	percent := func() uint64 {
		sample := []metrics.Sample{{Name: "/gc/gogc:percent"}}
		metrics.Read(sample)
		return sample[0].Value.Uint64()
	}
	limit := debug.SetMemoryLimit(-1)
	t.Cleanup(func() { debug.SetMemoryLimit(limit) })
	t.Setenv("GOGC", "")
	t.Setenv("GOMEMLIMIT", "")
	usual := percent()
	collectLate()
	if got := percent(); got == usual {
		t.Errorf("GOGC is %d, as before", got)
	}
	for range 10_000 {
		if runtime.GC(); percent() == usual && debug.SetMemoryLimit(-1) == limit {
			break
		}
	}
	if got := percent(); got != usual || debug.SetMemoryLimit(-1) != limit {
		t.Errorf("GOGC is %d after a collection, before it was %d; the limit %d, before %d", got, usual, debug.SetMemoryLimit(-1), limit)
	}
	t.Setenv("GOGC", "50")
	if collectLate(); percent() != usual {
		t.Error("GOGC of the environment is overruled")
	}
}
