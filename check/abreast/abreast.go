// Package abreast shares work out over as many goroutines as there are processors.
// What panics in one of them panics again in who asked, where it can be caught.
package abreast

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// Do calls all tasks, each once, and returns when all are done. They begin in their
// order, so the longest belongs first. Where one panics, the others that have not
// begun are left out.
func Do(tasks ...func()) {
	var next atomic.Int64
	var fault atomic.Pointer[any]
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(tasks)) {
		wait.Go(func() {
			defer hold(&fault)
			for k := next.Add(1); int(k) <= len(tasks) && fault.Load() == nil; k = next.Add(1) {
				tasks[k-1]()
			}
		})
	}
	wait.Wait()
	if f := fault.Load(); f != nil {
		panic(*f)
	}
}

// hold keeps the first panic of several goroutines.
func hold(fault *atomic.Pointer[any]) {
	if f := recover(); f != nil {
		fault.CompareAndSwap(nil, &f)
	}
}

// pieces is how many parts a list is split into at most, for each processor: several,
// as some take longer, and others keep a processor busy meanwhile.
const pieces = 4

// Split makes tasks of a list of a length: each is called with where a part of it
// begins and ends, and the parts are no shorter than least, but for the last.
func Split(length, least int, part func(from, to int)) []func() {
	size := max(least, (length+pieces*runtime.GOMAXPROCS(0)-1)/(pieces*runtime.GOMAXPROCS(0)), 1)
	tasks := make([]func(), 0, (length+size-1)/size)
	for from := 0; from < length; from += size {
		tasks = append(tasks, func() { part(from, min(from+size, length)) })
	}
	return tasks
}
