package ensemble

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// Together does several things at the same time and returns the error of the first, in order, that
// failed.
func Together(things ...func() error) error {
	return Each(len(things), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error { return things[i]() })
}

// Each calls work for every i below n, on as many goroutines as there are
// processors, and returns the error of the lowest i that failed. Each i runs
// exactly once, so a work that stores under its own i gives the same result in
// any order; newWorker makes what one goroutine needs for itself. A panic of a work ends all
// as it would have ended one loop: Each panics with a [*Panic].
func Each[W any](n int, newWorker func() W, work func(w W, i int) error) error {
	errs := make([]error, n)
	var next atomic.Int64
	var panicked atomic.Pointer[Panic]
	var group sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		group.Go(func() {
			defer func() {
				if value := recover(); value != nil {
					panicked.CompareAndSwap(nil, Caught(value))
					next.Store(int64(n)) // the others need not go on
				}
			}()
			w := newWorker()
			for {
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				errs[i] = work(w, i)
			}
		})
	}
	group.Wait()
	if p := panicked.Load(); p != nil {
		panic(p)
	}
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
