package check_test

import (
	"fmt"
	"strings"
	"testing"

	"hame/check"
	"hame/lang/finding"
	"hame/lang/source"
)

// heaters are n circuits of a size in one loom at an ambient, on one battery.
func heaters(n int, size string, watts, ambientC float64) string {
	var b strings.Builder
	fmt.Fprintf(&b, `harness hot { system 12 V; practice land; wire flry; slack 100 mm }
zone  bay { ambient 0..%g degC }
place shelf, block in bay
bundle b1 shelf -> block 0.6 m { cover loom_pa; clamp every 400 mm }
supply battery main { at shelf; capacity 300 Ah; resistance 6 mohm; post M8; covered }
`, ambientC)
	for i := range n {
		fmt.Fprintf(&b, "protection fuse f%d { at shelf; rating 30 A; family post; covered }\n", i)
		fmt.Fprintf(&b, "load heater h%d { at block; draws %g W; least 9 V; meant always }\n", i, watts)
		fmt.Fprintf(&b, "wire a%d main.pos -> f%d.in 6 mm2 red 0.1 m\nwire b_%d f%d.out -> h%d.pos %s red\nwire c%d h%d.neg -> main.neg %s black\n",
			i, i, i, i, i, size, i, i, size)
	}
	return b.String() + "mode warm { for 20 min }\n"
}

// One circuit is within the table and cool, twelve of them in one loom cook
// each other at the same current: the table (33 CFR 183.425 note 2) has no
// bundle factor below 50 V, and its note does not make large bundles safe.
func TestBundleCooksItself(t *testing.T) {
	const watts, ambientC = 190, 50
	if got := raised(heaters(1, "2.5 mm2", watts, ambientC), "wire/hot"); got != nil {
		t.Errorf("one circuit: %s", got[0].Message)
	}
	text := heaters(12, "2.5 mm2", watts, ambientC)
	if got := raised(text, "wire/undersized"); got != nil {
		t.Fatalf("not within the table: %s", got[0].Message)
	}
	got := raised(text, "wire/hot")
	if len(got) != 1 || got[0].Severity != finding.Error || !strings.Contains(got[0].Message, "in `b1`") {
		t.Fatalf("%d findings: %+v", len(got), got)
	}
	if *got[0].Limit != 105 || *got[0].Measured <= 105 || got[0].Unit != "degC" {
		t.Errorf("%g of %g %s", *got[0].Measured, *got[0].Limit, got[0].Unit)
	}
	if cured := raised(heaters(12, "6 mm2", watts, ambientC), "wire/hot"); cured != nil {
		t.Errorf("6 mm2: %s", cured[0].Message)
	}
}

// Within 10 K of the class it is a warning; without current at a hot place too.
func TestHotMargin(t *testing.T) {
	for _, c := range []struct {
		ambientC float64
		severity string
	}{{94, ""}, {96, "warning"}} {
		got := ""
		for _, f := range raised(heaters(1, "6 mm2", 1, c.ambientC), "wire/hot") {
			got = f.Severity.String()
		}
		if got != c.severity {
			t.Errorf("%g degC: %q, want %q", c.ambientC, got, c.severity)
		}
	}
}

// What the table finds, and an ambient above the class, are said once.
func TestHotSaysNothingTwice(t *testing.T) {
	overload := heaters(1, "1 mm2", 350, 50)
	if raised(overload, "wire/undersized") == nil || raised(overload, "wire/hot") != nil {
		t.Error("an overloaded wire is hot too")
	}
	furnace := heaters(1, "6 mm2", 60, 110)
	if raised(furnace, "wire/insulation") == nil || raised(furnace, "wire/hot") != nil || raised(furnace, "wire/undersized") != nil {
		t.Error("an ambient above the class is said by more than wire/insulation")
	}
}

// No figure is infinite, however mad the load: JSON has no word for it.
func TestHotIsFinite(t *testing.T) {
	for _, watts := range []float64{1, 1e3, 1e5, 1e7} {
		run := check.File(source.New("hot.hame", heaters(3, "0.35 mm2", watts, 50)), check.Options{})
		for _, w := range run.Figures.Wires {
			if w.TemperatureC == nil || !(*w.TemperatureC >= 50 && *w.TemperatureC <= 1083) {
				t.Errorf("%g W: %s is at %v", watts, w.Wire.Name, w.TemperatureC)
			}
		}
	}
}
