package ensemble

import (
	"fmt"
	"path/filepath"
	"runtime"
	"strings"
)

// A Panic is one that was caught, with the place where it began. [Each] raises that of a worker
// again where it was called: nobody else could catch it, and the program would end with it.
type Panic struct {
	Value any
	Place string // file and line
}

func (p *Panic) Error() string { return fmt.Sprintf("%v at %s", p.Value, p.Place) }

// Caught is what recover has returned, not nil, with its place. It must be called while the
// deferred function runs that called recover.
func Caught(value any) *Panic {
	if p, ok := value.(*Panic); ok {
		return p
	}
	callers := make([]uintptr, 64)
	frames := runtime.CallersFrames(callers[:runtime.Callers(1, callers)])
	p := &Panic{Value: value, Place: "an unknown place"}
	for panicking := false; ; {
		frame, more := frames.Next()
		inRuntime := strings.HasPrefix(frame.Function, "runtime.")
		if panicking && !inRuntime && frame.File != "" {
			p.Place = fmt.Sprintf("%s:%d", filepath.Base(frame.File), frame.Line)
			return p
		}
		panicking = panicking || inRuntime
		if !more {
			return p
		}
	}
}
