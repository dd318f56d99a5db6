package tables

import (
	"math"
	"slices"
	"testing"
)

// A terminal maker's specification (read; that its column is UL 486A, from memory):
// 14 AWG must hold 50 lbf. 35 lbf on 16 AWG passes it and ABYC E-11 and fails
// MIL-T-7928 (the last two from memory).
func TestPullForce(t *testing.T) {
	force, _, ok := PullForceN("ul486a", 14)
	if !ok {
		t.Fatal("no figure")
	}
	near(t, "14 AWG", force, 222.5, 0.2)
	measured := 35 * newtonsPerPoundForce
	ul, _, _ := PullForceN("ul486a", 16)
	abyc, _, _ := PullForceN("abyc", 16)
	mil, _, _ := PullForceN("mil7928", 16)
	if !(measured >= ul && measured >= abyc && measured < mil) {
		t.Errorf("35 lbf are %g N against %g, %g, %g", measured, ul, abyc, mil)
	}
	if _, _, ok := PullForceN("nasa", 10); ok {
		t.Error("the NASA figures stop at 22 AWG")
	}
}

// Circular-mil windows of barrels (from memory): two 18 AWG wires, 3240 circular mils, fit red and blue.
func TestCrimpBarrels(t *testing.T) {
	var fit []string
	for _, b := range BarrelsFor(AWGAreaMM2(18), AWGAreaMM2(18)) {
		fit = append(fit, b.Colour)
	}
	if !slices.Equal(fit, []string{"red", "blue"}) {
		t.Errorf("fit %v", fit)
	}
	if got := BarrelsFor(50); got != nil {
		t.Errorf("50 mm2 fits %v", got)
	}
}

// The language's stud sizes; torque from memory.
func TestStuds(t *testing.T) {
	for _, name := range []string{"M3", "M16", "no8", "no10", "1/4 in", "5/16 in", "3/8 in", "1/2 in", "taper"} {
		if _, ok := StudNamed(name); !ok {
			t.Errorf("%s isn't known", name)
		}
	}
	m8, _ := StudNamed("M8")
	taper, _ := StudNamed("taper")
	if m8.DiameterMM != 8 || m8.TorqueLow != 8 || !math.IsNaN(taper.DiameterMM) || len(StudNames()) < 15 {
		t.Errorf("M8 %+v, taper %+v", m8, taper)
	}
	if _, ok := StudNamed("M7"); ok {
		t.Error("M7 was found")
	}
}

// IEC 60757:2021 (read): blue and red is RDBU, green with yellow GNYE.
func TestColours(t *testing.T) {
	for _, c := range []struct {
		names []string
		want  string
	}{
		{[]string{"blue", "red"}, "RDBU"},
		{[]string{"yellow", "green"}, "GNYE"},
		{[]string{"black"}, "BK"},
		{[]string{"red", "red"}, "RD"},
	} {
		if got, _, ok := ColourCode(c.names...); !ok || got != c.want {
			t.Errorf("%v: %q, want %q", c.names, got, c.want)
		}
	}
	if _, _, ok := ColourCode("beige"); ok {
		t.Error("beige has no letters")
	}
	// Blade fuse colours (read in two general pages; 1 A is black, 5 A tan).
	for rating, want := range map[float64]string{1: "black", 5: "tan", 10: "red", 30: "green"} {
		if got, _, ok := FuseColour("mini", rating); !ok || got != want {
			t.Errorf("%g A: %q", rating, got)
		}
	}
	if _, _, ok := FuseColour("strip", 100); ok {
		t.Error("strip fuse colours vary by maker")
	}
}

// UL 310 and UL 1659 test currents (read in one terminal maker's chart).
func TestTerminalCurrents(t *testing.T) {
	if a, _, ok := TabAmps(6.3, 1.5); !ok || a != 10 {
		t.Errorf("6.3 mm on 1.5 mm2: %g A", a)
	}
	if a, _, ok := TabAmps(2.8, AWGAreaMM2(18)); !ok || a != 4 {
		t.Errorf("2.8 mm on 18 AWG: %g A", a)
	}
	if a, _, ok := ConnectorAmps(2.5); !ok || a != 18 {
		t.Errorf("2.5 mm2: %g A", a)
	}
	_, _, thin := ConnectorAmps(0.5)
	_, _, tab := TabAmps(7, 1)
	if thin || tab {
		t.Error("a size outside the chart has a current")
	}
}
