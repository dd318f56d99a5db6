package tables

import (
	"math"
	"slices"
	"testing"
)

// The language's families. ISO 8820-3:2015 scope (read): 32 or 58 V, 1000 A;
// lists of ratings and the other families are from memory.
func TestFuseFamilies(t *testing.T) {
	want := []string{"blade", "cartridge", "glass", "maxi", "micro", "mini", "post", "strip"}
	if got := FuseNames(); !slices.Equal(got, want) {
		t.Fatalf("families %v", got)
	}
	for _, name := range want {
		f, ok := Fuse(name)
		if !ok || f.Breaker || f.Volts < 32 || !slices.IsSorted(f.RatingsA) || !slices.Contains(f.VoltsMade, f.Volts) {
			t.Errorf("%s: %+v", name, f)
		}
	}
	blade, _ := Fuse("blade")
	amps, source, ok := blade.BreaksA(12)
	if !ok || amps != 1000 || source.Mark != Seen || !blade.Made(7.5) || blade.Made(8) || blade.Made(50) {
		t.Errorf("blade breaks %g A (%s)", amps, source)
	}
	post, _ := Fuse("post")
	for volts, want := range map[float64]float64{12: 10000, 24: 5000, 48: 2000} {
		if amps, _, ok := post.BreaksA(volts); !ok || amps != want {
			t.Errorf("post at %g V breaks %g A", volts, amps)
		}
	}
	if _, _, ok := post.BreaksA(60); ok {
		t.Error("post above 58 V")
	}
	glass, _ := Fuse("glass")
	if _, _, ok := glass.BreaksA(12); ok {
		t.Error("no breaking capacity is published for glass fuses")
	}
	if _, ok := Fuse("breaker_manual"); ok {
		t.Error("a breaker isn't a family of fuses")
	}
}

// SAE J553 types I, II and III (reset types read, lists from memory).
func TestBreakers(t *testing.T) {
	for _, reset := range []string{"auto", "power", "manual"} {
		b, ok := Breaker(reset)
		if !ok || !b.Breaker || !b.Made(20) || b.Source.Document != "SAE J553" || len(b.Gates()) == 0 {
			t.Errorf("%s: %+v", reset, b)
		}
	}
	if _, ok := Breaker("never"); ok {
		t.Error("an unknown reset was found")
	}
}

// Gates must be usable: current rises, times fall, fastest below slowest.
func TestGatesAreInOrder(t *testing.T) {
	for family, list := range gates {
		for i, g := range list {
			if g.MinS > g.MaxS || g.MinS < 0 || g.MaxS <= 0 {
				t.Errorf("%s at %g %%: %g to %g s", family, g.Percent, g.MinS, g.MaxS)
			}
			if i > 0 && (g.Percent <= list[i-1].Percent || g.MinS > list[i-1].MinS || g.MaxS > list[i-1].MaxS) {
				t.Errorf("%s: gate at %g %% is out of order", family, g.Percent)
			}
		}
	}
	blade, _ := Fuse("blade")
	if g := blade.Gates()[1]; g.Percent != 135 || g.MinS != 0.75 || g.MaxS != 600 {
		t.Errorf("ISO 8820-3 type C (from memory): %+v", g)
	}
}

// Typical cold resistances of blade fuses and breakers (from memory).
func TestDeviceResistance(t *testing.T) {
	for rating, mohm := range map[float64]float64{10: 7.7, 30: 1.97, 60: 0.985, 0.5: 246} {
		got, _ := FuseOhm(rating)
		near(t, "fuse", got, mohm/1000, 1e-9)
	}
	between, _ := FuseOhm(12)
	if between >= 7.7e-3 || between <= 4.8e-3 {
		t.Errorf("12 A fuse: %g ohm", between)
	}
	for rating, mohm := range map[float64]float64{10: 15, 30: 5, 60: 2.5} {
		got, _ := BreakerOhm(rating)
		near(t, "breaker", got, mohm/1000, 1e-9)
	}
	if got, _ := FuseOhm(0); !math.IsInf(got, 1) {
		t.Errorf("a fuse of no rating has %g ohm", got)
	}
	for _, c := range []Contact{Crimp, RingOnStud, Tab, ConnectorContact, Splice, Chassis, SwitchContact, RelayContact} {
		if ohm, source, ok := ContactOhm(c); !ok || ohm <= 0 || ohm > 0.05 || source.Mark != Memory {
			t.Errorf("%s: %g ohm, %s", c, ohm, source)
		}
	}
	if _, _, ok := ContactOhm(breakerContact); ok {
		t.Error("a breaker needs its rating")
	}
}

// AC 43.13-1B Table 11-4 (factors read, products computed): 4 A of lamps at 12 V want
// 20 A, a 5 A motor at 28 V wants 15 A. 14 V reads the 12 V column.
func TestSwitchFactors(t *testing.T) {
	for _, c := range []struct {
		volts      float64
		load       string
		amps, want float64
	}{
		{12, "lamp", 4, 20},
		{28, "motor", 5, 15},
		{14, "inductive", 1, 2},
		{24, "lamp", 1, 8},
		{12, "resistive", 1, 1},
	} {
		f, _, ok := SwitchFactor(c.volts, c.load)
		if !ok || f*c.amps != c.want {
			t.Errorf("%g V %s: factor %g", c.volts, c.load, f)
		}
	}
	for _, volts := range []float64{0, 48, math.NaN()} {
		if _, _, ok := SwitchFactor(volts, "lamp"); ok {
			t.Errorf("the table has no column for %g V", volts)
		}
	}
	if m, _, ok := InrushMultiple("motor"); !ok || m != 6 {
		t.Errorf("motor inrush %g", m)
	}
	if _, _, ok := InrushMultiple("heater"); ok {
		t.Error("a heater has no inrush figure")
	}
}

// AC 43.13-1B Table 11-3 (read): 16 AWG wants a 15 A breaker or a 10 A fuse.
// Trade practice (read): a 10 AWG wire's link is 14 AWG, four gauge numbers.
func TestProtectorsAndLinks(t *testing.T) {
	breaker, fuse, _, ok := AC43Protector(16)
	if !ok || breaker != 15 || fuse != 10 {
		t.Errorf("16 AWG: %g and %g A", breaker, fuse)
	}
	if breaker, fuse, _, ok := AC43Protector(0); !ok || breaker != 0 || fuse != 150 {
		t.Errorf("1/0 AWG: %g and %g A", breaker, fuse)
	}
	// Practice ac43 judges by Table 11-9 (11-48: no device above the wire's current),
	// which for wire of 105 degC is below the chart's fuse in every gauge.
	for _, p := range protectors {
		if r, ok := AC43Ampacity(AWGAreaMM2(p.awg), 105, 70); !ok || r.Amps >= p.fuse || p.breaker != 0 && p.breaker < p.fuse {
			t.Errorf("%s: %g A, and the chart gives a fuse of %g A, a breaker of %g A", AWGName(p.awg), r.Amps, p.fuse, p.breaker)
		}
	}
	if link, _, ok := LinkFor(10); !ok || link != 14 {
		t.Errorf("the link of 10 AWG is %d AWG", link)
	}
	_, _, _, known := AC43Protector(3)
	if _, _, ok := LinkFor(2); ok || known {
		t.Error("a size that the tables leave out was found")
	}
}

// 33 CFR 183.455 (rules read, products computed): (c)(1), 150 % of 25 A is 37.5 A
// and of 35 A 52.5 A; (b), 5 in bare is near enough, 9 and 20 in are too far, 38 in
// sheathed is not. 33 CFR 183.425(e) (read): 18 AWG alone is too thin.
func TestLimitsAgainstCFR(t *testing.T) {
	limit := func(name, grade string) Limit {
		l, ok := LimitOf("cfr183", name, grade)
		if !ok {
			t.Fatalf("no limit %s", name)
		}
		return l
	}
	for awg, want := range map[int]float64{16: 37.5, 14: 52.5} {
		base, _, _ := Table5At(awg, 105)
		if got := base * limit("device_wire", "error").Value / 100; got != want {
			t.Errorf("%d AWG: %g A, want %g A", awg, got, want)
		}
	}
	bare, sheathed := limit("distance_bare", "").Value, limit("distance_sheathed", "").Value
	if !(9*25.4 > bare && 5*25.4 < bare && 20*25.4 > bare && 38*25.4 < sheathed) {
		t.Errorf("distances %g and %g mm", bare, sheathed)
	}
	if AWGAreaMM2(18) >= limit("gauge_alone", "").AreaMM2() || AWGAreaMM2(18) < limit("gauge_covered", "").AreaMM2() {
		t.Error("18 AWG is allowed in a sheath only")
	}
	if got := limit("distance_battery", "").Value; math.Abs(got-72*25.4) > 0.5 {
		t.Errorf("72 in are %g mm", got)
	}
}

// Each practice has its limits with a source; land warns before it fails.
// AC 43.13-1B 11-96 a (read): wires supported every 24 in at most.
func TestPractices(t *testing.T) {
	if got := Practices(); !slices.Equal(got, []string{"land", "cfr183", "ac43"}) {
		t.Fatalf("practices %v", got)
	}
	both := Limits("land", "device_wire")
	if len(both) != 2 || both[0].Grade != "warning" || both[0].Value != 100 || both[1].Value != 125 {
		t.Errorf("land device_wire: %+v", both)
	}
	if l, ok := LimitOf("ac43", "clamps", ""); !ok || l.Value != 610 || l.Source.Clause != "11-96 a" {
		t.Errorf("ac43 clamps: %+v", l)
	}
	if l, ok := LimitOf("land", "gauge_covered", ""); !ok || l.AreaMM2() != 0.75 {
		t.Errorf("land gauge_covered: %+v", l)
	}
	if _, ok := LimitOf("ac43", "distance_bare", ""); ok {
		t.Error("ac43 sets no distance")
	}
}

// A fuse selection guide (formulas and the 22 % read, products computed): a half
// sine of 60 A for 20 ms has 36 A2 s; a trapezoid of 50 to 10 A for 0.1 s 103.3;
// 100 000 pulses of 36 want a melting I2t of 163.6.
func TestPulses(t *testing.T) {
	half, _, ok := PulseA2S("half_sine", 60, 0, 0.02)
	trapezoid, _, known := PulseA2S("trapezoid", 50, 10, 0.1)
	share, _, listed := PulseShare(100000)
	if !ok || !known || !listed {
		t.Fatal("a shape or number isn't known")
	}
	near(t, "half sine", half, 36, 1e-9)
	near(t, "trapezoid", trapezoid, 103.3, 0.1)
	near(t, "melting I2t", half/share, 163.6, 0.1)
	if share, _, _ := PulseShare(101); share != 0.38 {
		t.Errorf("101 pulses take the share of 1000, got %g", share)
	}
	_, _, ok = PulseA2S("saw", 1, 0, 1)
	if _, _, listed := PulseShare(100001); ok || listed {
		t.Error("a shape or number outside the guide is known")
	}
}
