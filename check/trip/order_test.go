package trip

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"hame/lang/tables"
)

// By the gates of ISO 8820-3 (from memory): a 60 A maxi ahead of a 10 A blade
// stays, a 15 A blade ahead of it may go first in a short; beyond the last
// gate the I2t of that gate decides (15 A: 0.02 s at 90 A is 162 A2 s, below
// the 360 that the 10 A fuse may let through).
func TestOrderOfFuses(t *testing.T) {
	next := fuse(t, "blade", 10)
	if amps, out := OutOfOrder(fuse(t, "maxi", 60), 0, next, 2000); out {
		t.Errorf("60 A maxi may go first at %g A", amps)
	}
	amps, out := OutOfOrder(fuse(t, "blade", 15), 0, next, 2000)
	if !out || amps < 15*1.1 || amps > 30 {
		t.Errorf("15 A blade: %g A, %v", amps, out)
	}
	if !CanOpenFirst(fuse(t, "blade", 15), 2000, next, 2000) || CanOpenFirst(fuse(t, "maxi", 60), 2000, next, 2000) {
		t.Error("beyond the last gate the I2t decides")
	}
	if _, out := OutOfOrder(fuse(t, "blade", 15), 0, next, 10); out {
		t.Error("out of order below where the next one must open")
	}
}

// A smaller device upstream is out of order as soon as the other must open;
// what the upstream one carries besides brings it nearer.
func TestOrderWithOtherLoads(t *testing.T) {
	if amps, out := OutOfOrder(fuse(t, "blade", 10), 0, fuse(t, "blade", 20), 1000); !out || amps > 27.1 {
		t.Errorf("10 A ahead of 20 A: %g A, %v", amps, out)
	}
	up, next := fuse(t, "maxi", 40), fuse(t, "mini", 10)
	if amps, out := OutOfOrder(up, 0, next, 300); out {
		t.Errorf("idle: %g A", amps)
	}
	if amps, out := OutOfOrder(up, 38, next, 300); !out || amps > 14 {
		t.Errorf("with 38 A besides: %g A, %v", amps, out)
	}
	if _, out := OutOfOrder(up, 38, next, 0); out {
		t.Error("no current is out of order")
	}
}

// A breaker has no least time: ahead of a fuse it may always go first once it
// may open at all. A link of 10 AWG ahead of a 10 A fuse never does.
func TestOrderOfBreakersAndLinks(t *testing.T) {
	breaker, _ := NewBreaker("manual", 50)
	amps, out := OutOfOrder(breaker, 0, fuse(t, "blade", 10), 500)
	if !out || amps < 50 || amps > 50.1 {
		t.Errorf("breaker: %g A, %v", amps, out)
	}
	link, _ := NewLink(tables.Gauge(10), 80)
	if amps, out := OutOfOrder(link, 0, fuse(t, "blade", 10), 5000); out {
		t.Errorf("link: %g A", amps)
	}
	if amps, out := OutOfOrder(fuse(t, "blade", 10), 0, link, 5000); !out || amps < 300 {
		t.Errorf("ahead of a link: %g A, %v", amps, out)
	}
}

// ABYC E-11 Table V.A as quoted (read).
func TestInterrupting(t *testing.T) {
	for cca, want := range map[float64][2]float64{600: {1500, 750}, 651: {3000, 1500}, 1500: {5000, 2500}} {
		first, source := NeedsInterruptingA(cca, true)
		branch, _ := NeedsInterruptingA(cca, false)
		if first != want[0] || branch != want[1] || source.Mark != tables.Seen {
			t.Errorf("%g A: %g and %g", cca, first, branch)
		}
	}
	// From the definition of cold cranking amperes: 600 A are 9 mohm, and a
	// short of 12.6 V is 1400 A, within the table's 1500.
	ohm, _ := tables.BatteryOhmFromCranking(12, 600)
	if got := ProspectiveA(12.6, ohm); got < 1399 || got > 1401 {
		t.Errorf("short of %g A", got)
	}
	if ProspectiveA(12, 0) != inf {
		t.Error("nothing limits a short without resistance")
	}
}

func BenchmarkOutOfOrder(b *testing.B) {
	up, _ := NewFuse("maxi", 60)
	next, _ := NewFuse("blade", 10)
	for b.Loop() {
		OutOfOrder(up, 10, next, 2000)
	}
}

// The bounds that spare OutOfOrder most times leave out no current that is out
// of order, nor does the list of those to look at.
func TestOutOfOrderLeavesNothingOut(t *testing.T) {
	families := []string{"blade", "maxi", "mini"}
	rapid.Check(t, func(t *rapid.T) {
		up, _ := NewFuse(rapid.SampledFrom(families).Draw(t, "up"), rapid.Float64Range(1, 100).Draw(t, "rating"))
		next, _ := NewFuse(rapid.SampledFrom(families).Draw(t, "next"), rapid.Float64Range(1, 100).Draw(t, "next rating"))
		otherA, mostA := rapid.Float64Range(0, 50).Draw(t, "others"), rapid.Float64Range(1, 3000).Draw(t, "most")
		found, out := OutOfOrder(up, otherA, next, mostA)
		if out && !CanOpenFirst(up, found+otherA, next, found) {
			t.Fatalf("%g A is in order", found)
		}
		var room [trials]float64
		for _, amps := range trialCurrents(room[:0], up, otherA, next, mostA) {
			if (!out || amps < found) && CanOpenFirst(up, amps+otherA, next, amps) && !math.IsInf(next.SlowestSeconds(amps), 1) {
				t.Fatalf("%g A is out of order, and %g A (%v) was found", amps, found, out)
			}
		}
		for _, c := range next.corners(nil) {
			if c <= mostA && (!out || c < found) && CanOpenFirst(up, c+otherA, next, c) && !math.IsInf(next.SlowestSeconds(c), 1) {
				t.Fatalf("%g A, a corner, is out of order, and %g A (%v) was found", c, found, out)
			}
		}
	})
}
