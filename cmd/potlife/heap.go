package main

import (
	"math"
	"os"
	"runtime"
	"runtime/debug"
)

// firstCollection is the memory, in bytes, up to which no garbage is collected: most commands are done
// before, and looking through a heap that is small and grows took a tenth of their work.
const firstCollection = 48 << 20

// collectLate puts off the first collection; after it all is as usual. Whoever set GOGC is not overruled.
func collectLate() {
	if os.Getenv("GOGC") != "" || os.Getenv("GOMEMLIMIT") != "" {
		return
	}
	usual := debug.SetGCPercent(-1)
	debug.SetMemoryLimit(firstCollection)
	type garbage struct{ _ *garbage }
	runtime.SetFinalizer(&garbage{}, func(*garbage) {
		debug.SetGCPercent(usual)
		debug.SetMemoryLimit(math.MaxInt64)
	})
}
