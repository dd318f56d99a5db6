package states_test

import (
	"bytes"
	"runtime"
	"runtime/debug"
	"sync/atomic"
	"testing"
	"time"

	"hame/check/states"
)

// A panic anywhere in a survey comes out of it in the goroutine that asked, where
// it can be caught, and nothing is left running.
func TestPanicComesOutOfTheSurvey(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(4))
	text := generate(7, 40, false)
	in := func(name string) bool { return bytes.Contains(debug.Stack(), []byte(name)) }
	var asked atomic.Int64
	for what, stop := range map[string]func() bool{
		"at once":    func() bool { panic("fault") },
		"in a visit": func() bool { return in(".visit(") && asked.Add(1) == 3 && fault() },
		"in a bound": func() bool { return in(".bounds.func") && fault() },
	} {
		before := runtime.NumGoroutine()
		s := solver(t, text)
		s.Stop = stop
		if got := caught(func() { states.FindBounded(s, nil) }); got != "fault" {
			t.Errorf("%s: caught %v", what, got)
		}
		settled(t, what, before)
	}
}

// A watcher that panics leaves nothing running either.
func TestPanicOfAWatcher(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(4))
	before := runtime.NumGoroutine()
	for after := range 5 {
		s := solver(t, generate(7, 40, false))
		seen := 0
		got := caught(func() {
			states.Find(s, func(*states.Point) {
				if seen++; seen > 3*after {
					panic("fault")
				}
			})
		})
		if got != "fault" {
			t.Errorf("after %d points: caught %v", 3*after, got)
		}
		settled(t, "a watcher", before)
	}
}

func fault() bool { panic("fault") }

func caught(f func()) (fault any) {
	defer func() { fault = recover() }()
	f()
	return nil
}

// settled waits until no more goroutines run than before.
func settled(t *testing.T, what string, before int) {
	t.Helper()
	for end := time.Now().Add(5 * time.Second); runtime.NumGoroutine() > before; time.Sleep(time.Millisecond) {
		if time.Now().After(end) {
			t.Fatalf("%s: %d goroutines run, %d did before", what, runtime.NumGoroutine(), before)
		}
	}
}
