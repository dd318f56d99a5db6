package beside_test

import (
	"sync/atomic"
	"testing"

	"hame/lang/beside"
)

func caught(f func()) (fault any) {
	defer func() { fault = recover() }()
	f()
	return nil
}

func TestAllRun(t *testing.T) {
	var sum atomic.Int64
	g := beside.New()
	for k := range int64(100) {
		g.Go(func() { sum.Add(k) })
	}
	g.Wait()
	if sum.Load() != 4950 || g.Ended() {
		t.Errorf("sum %d, ended %v", sum.Load(), g.Ended())
	}
}

// A panic ends what waits in the group, and comes out of Wait, once.
func TestPanicIsHandedOn(t *testing.T) {
	g := beside.New()
	for range 3 {
		g.Go(func() { <-g.Over() })
	}
	g.Go(func() { panic("fault") })
	if got := caught(g.Wait); got != "fault" {
		t.Errorf("caught %v", got)
	}
	if got := caught(g.Stop); got != nil {
		t.Errorf("caught %v again", got)
	}
}

func TestStopEndsWhatWaits(t *testing.T) {
	g := beside.New()
	g.Go(func() { <-g.Over() })
	g.Stop()
	g.Stop()
	if !g.Ended() {
		t.Error("not over")
	}
}
