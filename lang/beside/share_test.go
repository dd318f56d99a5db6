package beside_test

import (
	"sync/atomic"
	"testing"

	"hame/lang/beside"
)

// TestSplit: the parts cover a list once, whatever its length.
func TestSplit(t *testing.T) {
	for _, length := range []int{0, 1, 7, 100, 1000} {
		seen := make([]atomic.Int32, length)
		beside.Do(beside.Split(length, 3, func(from, to int) {
			if from >= to {
				t.Errorf("of %d: a part from %d to %d", length, from, to)
			}
			for k := from; k < to; k++ {
				seen[k].Add(1)
			}
		})...)
		for k := range seen {
			if n := seen[k].Load(); n != 1 {
				t.Errorf("of %d: %d came %d times", length, k, n)
			}
		}
	}
}

// TestPanic: a panic reaches who asked, and no task is still running then.
func TestPanic(t *testing.T) {
	var running atomic.Int32
	defer func() {
		if fault := recover(); fault != "fault" {
			t.Errorf("caught %v", fault)
		}
		if n := running.Load(); n != 0 {
			t.Errorf("%d tasks are still running", n)
		}
	}()
	tasks := beside.Split(100, 1, func(from, _ int) {
		running.Add(1)
		defer running.Add(-1)
		if from > 10 {
			panic("fault")
		}
	})
	beside.Do(tasks...)
	t.Error("no panic")
}

// TestEach: every number comes once, and what panics reaches who asked.
func TestEach(t *testing.T) {
	const turn = 32
	for _, n := range []int{0, 1, turn, turn + 1, 10*turn - 1} {
		times := make([]atomic.Int32, n)
		beside.Each(n, turn, func() func(int) { return func(k int) { times[k].Add(1) } })
		for k := range times {
			if got := times[k].Load(); got != 1 {
				t.Errorf("of %d numbers %d came %d times", n, k, got)
			}
		}
	}
	if got := caught(func() {
		beside.Each(8*turn, turn, func() func(int) { return func(int) { panic("a fault") } })
	}); got != "a fault" {
		t.Errorf("caught %v", got)
	}
}
