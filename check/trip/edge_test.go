package trip

import (
	"math"
	"testing"

	"hame/check/heat"
	"hame/lang/tables"
)

// Two devices that may both hold are in order: neither opens.
func TestNeitherOpens(t *testing.T) {
	ten := fuse(t, "blade", 10)
	if CanOpenFirst(ten, 5, ten, 5) {
		t.Error("a fuse at half its rating opens first")
	}
}

// A breaker holds at its rating and may open at any time above it (SAE J553,
// from memory): 50 A that carry 27 A besides are out of order from 23 A on.
func TestOtherLoadsAreTakenOff(t *testing.T) {
	breaker, _ := NewBreaker("manual", 50)
	amps, out := OutOfOrder(breaker, 27, fuse(t, "blade", 10), 500)
	if !out {
		t.Fatal("a breaker near its rating is in order")
	}
	near(t, "the least current", amps, 23, 1e-6)
}

// A link of 20 AWG melts from Preece's current on, and a 40 A blade fuse has
// minutes at that: so the least current out of order is just past it.
func TestLinkAheadFromItsMeltingCurrent(t *testing.T) {
	link, _ := NewLink(tables.Gauge(20), 60)
	amps, out := OutOfOrder(link, 0, fuse(t, "blade", 40), 500)
	if !out {
		t.Fatal("a thin link ahead is in order")
	}
	near(t, "the least current", amps, PreeceA(tables.AWGDiameterMM(20)), 1e-6)
}

// At most the current asked for counts: a blade fuse of 10 A must open from
// 135 % on, so 13.4 A are never out of order and 13.5 A are.
func TestGreatestCurrentCounts(t *testing.T) {
	upstream, next := fuse(t, "blade", 5), fuse(t, "blade", 10)
	if amps, out := OutOfOrder(upstream, 0, next, 13.4); out {
		t.Errorf("out of order at %g A, where the next one may hold", amps)
	}
	if amps, out := OutOfOrder(upstream, 0, next, 13.5); !out || amps != 13.5 {
		t.Errorf("%g A, %v; want 13.5 A", amps, out)
	}
}

// The adiabatic law ends at 5 s (IEC 60364-4-43, from memory): a wire that it
// gives 5.2 s is left to the heat model.
func TestAdiabaticEndsAtFiveSeconds(t *testing.T) {
	for _, size := range []tables.Size{tables.Gauge(20), tables.Gauge(10), tables.Gauge(-3)} {
		c := conductor(t, "gxl", size, 40)
		kS := math.Sqrt(c.WithstandA2S())
		near(t, "at 4.9 s", c.WithstandSeconds(kS/math.Sqrt(4.9)), 4.9, 1e-9)
		amps := kS / math.Sqrt(5.2)
		longer := heat.TransientSeconds(c.Wire, amps, c.InsulationC, c.FinalC, c.AmbientC)
		if longer <= 5.2 {
			t.Fatalf("%v: the heat model gives %g s", size, longer)
		}
		near(t, "past 5 s", c.WithstandSeconds(amps), longer, 1e-9)
	}
}
