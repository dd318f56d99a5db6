package beside

import (
	"runtime"
	"sync/atomic"
)

// Do calls all tasks, each once, as many at once as there are processors, and returns
// when all are done. They begin in their order, so the longest belongs first. Where
// one panics, those that have not begun are left out, and Do panics.
func Do(tasks ...func()) {
	Each(len(tasks), 1, func() func(int) { return func(k int) { tasks[k]() } })
}

// Each goes through the numbers below n with as many goroutines as there are
// processors, each of which takes a turn of so many at a time. Each begins with a
// worker of its own; what one number comes to must not hang on who works it out, or
// when. A panic is handed on, and what has not begun by then is left out.
func Each(n, turn int, begin func() func(k int)) {
	var next atomic.Int64
	g := New()
	for range min(runtime.GOMAXPROCS(0), (n+turn-1)/turn) {
		g.Go(func() {
			work := begin()
			for end := int(next.Add(int64(turn))); end-turn < n && !g.Ended(); end = int(next.Add(int64(turn))) {
				for k := end - turn; k < min(end, n); k++ {
					work(k)
				}
			}
		})
	}
	g.Wait()
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
