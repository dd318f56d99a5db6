package harness

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// worthwhile is from how many things on a second goroutine gains more than it
// takes to wake it; a turn of one goroutine takes as many things as turn says.
const (
	worthwhile = 200
	turn       = 32
)

// beside goes through n things with as many goroutines as there are processors.
// Each begins with a worker of its own; what one thing comes to must not hang on
// who works it out, or when. A panic of any is handed on.
func beside(n int, begin func() func(i int)) {
	var next atomic.Int64
	var wait sync.WaitGroup
	var fault atomic.Pointer[any]
	run := func() {
		defer hold(&fault)
		work := begin()
		for end := int(next.Add(turn)); end-turn < n; end = int(next.Add(turn)) {
			for i := end - turn; i < min(end, n); i++ {
				work(i)
			}
		}
	}
	for range min(runtime.GOMAXPROCS(0), n/turn) - 1 {
		wait.Go(run)
	}
	run()
	wait.Wait()
	if f := fault.Load(); f != nil {
		panic(*f) // where the caller can catch it
	}
}

// hold keeps the first fault of several goroutines for who waits for them.
func hold(fault *atomic.Pointer[any]) {
	if f := recover(); f != nil {
		fault.CompareAndSwap(nil, &f)
	}
}

// several reports whether n things are worth more than one goroutine, and there
// is a processor for it.
func several(n int) bool { return n >= worthwhile && runtime.GOMAXPROCS(0) > 1 }
