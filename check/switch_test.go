package check_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"hame/lang/finding"
)

// of finds a rule's finding on a subject, or fails.
func of(t *testing.T, text, rule, subject string) finding.Finding {
	t.Helper()
	run := example(text, nil)
	for _, f := range run.Findings {
		if f.Rule == rule && f.Subject == subject {
			return f
		}
	}
	t.Fatalf("no %s on %s: %v", rule, subject, texts(run))
	return finding.Finding{}
}

// switched is one load behind a toggle of a given rating.
func switched(system, toggle, load string) string {
	return fmt.Sprintf(`harness worked { system %s; practice land; wire gxl }
zone dry { ambient 0..30 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 20 mohm; post M8; covered }
protection fuse f1 { at shelf; rating 20 A; covered }
switch toggle s1 { at shelf; %s }
load %s
wire w1 main.pos -> f1.in 4 mm2 red 0.15 m
wire w2 f1.out -> s1.in 4 mm2 red 1 m
wire w3 s1.out -> x.pos 4 mm2 red 1 m
wire w4 x.neg -> main.neg 4 mm2 black 1 m
mode lit { key on; closed s1; for 1 h }
`, system, toggle, load)
}

// Every cell of AC 43.13-1B Table 11-4, p. 11-17 (read): what is asked of the
// contact over what flows through it. The led's 2 is the project's own.
func TestSwitchTable(t *testing.T) {
	for _, c := range []struct {
		system, load string
		factor       float64
	}{
		{"12 V", "bulb x { at shelf; draws 50 W; meant always }", 5},
		{"12 V", "solenoid x { at shelf; draws 4 A; suppress resistor; meant always }", 2},
		{"12 V", "heater x { at shelf; draws 4 A; meant always }", 1},
		{"12 V", "motor x { at shelf; draws 4 A; meant always }", 2},
		{"12 V", "led x { at shelf; draws 50 W; meant always }", 2},
		{"24 V", "bulb x { at shelf; draws 50 W; meant always }", 8},
		{"24 V", "solenoid x { at shelf; draws 4 A; suppress resistor; meant always }", 4},
		{"24 V", "heater x { at shelf; draws 4 A; meant always }", 2},
		{"24 V", "motor x { at shelf; draws 4 A; meant always }", 3},
		{"24 V", "module x { at shelf; draws 50 W; meant always }", 2},
	} {
		// A rating for another type than the load's, and too small for any factor.
		rated := "for inductive"
		if strings.HasPrefix(c.load, "solenoid") {
			rated = "for motor"
		}
		text := switched(c.system, "rating 0.5 A; "+rated, c.load)
		f := of(t, text, "switch/overloaded", "s1")
		for _, d := range example(text, nil).Figures.Devices {
			if d.Device.Name == "s1" && math.Abs(*f.Measured-c.factor**d.WorstA) > 1e-6**f.Measured {
				t.Errorf("%s, %s: %.4f A asked of %.4f A, want × %v", c.system, c.load, *f.Measured, *d.WorstA, c.factor)
			}
		}
	}
}

// By the same table (factor read, product computed) a motor of 5 A asks 15 A of a
// contact at 28 V, and one that is just as good is allowed.
func TestSwitchOfMotorAt28V(t *testing.T) {
	for rating, want := range map[string]string{"15 A": "", "14.9 A": "error"} {
		text := switched("24 V", "rating "+rating, "motor x { at shelf; draws 5 A; meant always }")
		if got := ruled(t, text, "switch/overloaded", "s1"); got != want {
			t.Errorf("%s: %q, want %q", rating, got, want)
		}
	}
}

// A rating for the load's own type counts once, and a rating that is just met is
// allowed: a motor of 4 A asks 8 A of a resistive contact at 12 V.
func TestSwitchRating(t *testing.T) {
	for toggle, want := range map[string]string{
		"rating 8 A": "", "rating 7.9 A": "error", "rating 4 A; for motor": "", "rating 3.9 A; for motor": "error",
		"rating 7.9 A; for bulb": "error", "rating 8 A; for bulb": "",
	} {
		text := switched("12 V", toggle, "motor x { at shelf; draws 4 A; meant always }")
		if got := ruled(t, text, "switch/overloaded", "s1"); got != want {
			t.Errorf("%s: %q, want %q", toggle, got, want)
		}
	}
}

// coiled is a relay in a zone of a greatest ambient, straight on a battery.
func coiled(mostC, relay, more string) string {
	return fmt.Sprintf(`harness worked { system 12 V; practice land; wire gxl }
zone bay { ambient 0..%s degC }
place shelf in bay
supply battery main { at shelf; capacity 70 Ah; resistance 1 mohm; post M8; covered }
protection fuse f1 { at shelf; rating 10 A; covered }
switch relay k1 { at shelf; contacts 20 A; suppress resistor; %s }
load heater pad { at shelf; draws 1 A; least 5 V; meant always }
wire w1 main.pos -> f1.in 4 mm2 red 0.15 m
wire w2 f1.out -> k1.86 4 mm2 red 0.1 m
wire w3 k1.85 -> main.neg 4 mm2 black 0.1 m
wire w4 f1.out -> k1.30 4 mm2 red 0.1 m
wire w5 k1.87 -> pad.pos 4 mm2 red 0.1 m
wire w6 pad.neg -> main.neg 4 mm2 black 0.1 m
%s`, mostC, relay, more)
}

// A relay maker's curve (read): a coil of 100 ohm at 20 degC has 125 ohm at 85,
// and pulls in at a fixed current, so at 1.25 times the volts. The battery at
// 80 % gives 12.5 V (Table of open-circuit volts).
func TestCoilHeat(t *testing.T) {
	f := of(t, coiled("85", "coil 100 ohm; pulls 11 V", ""), "switch/coil-volts", "k1")
	if f.Severity != finding.Error || math.Abs(*f.Limit/11-1.25) > 0.01 {
		t.Errorf("%s: limit %.3f V, want 1.25 × 11 V", f.Severity, *f.Limit)
	}
	for relay, want := range map[string]string{
		"coil 100 ohm; pulls 8.8 V": "",        // × 1.255 × 1.1 = 12.15 V
		"coil 100 ohm; pulls 9.3 V": "warning", // 11.67 V, and 12.84 V with the margin
		"coil 100 ohm; pulls 10 V":  "error",   // 12.55 V
	} {
		if got := ruled(t, coiled("85", relay, ""), "switch/coil-volts", "k1"); got != want {
			t.Errorf("%s: %q, want %q", relay, got, want)
		}
	}
}

// A battery sags to 8 V while it cranks (language: `sags`): a coil that pulls in
// at 7.8 V, at 40 degC at 8.41 V, does not.
func TestCoilWhileCranking(t *testing.T) {
	crank := "mode start { key start; engine cranking; for 5 s }\nmode run { for 1 h }\n"
	for relay, want := range map[string]string{"coil 100 ohm; pulls 7.8 V": "error", "coil 100 ohm; pulls 6.5 V": ""} {
		if got := ruled(t, coiled("40", relay, crank), "switch/coil-volts", "k1"); got != want {
			t.Errorf("%s: %q, want %q", relay, got, want)
		}
	}
	f := of(t, coiled("40", "coil 100 ohm; pulls 7.8 V", crank), "switch/coil-volts", "k1")
	if f.Mode != "start" {
		t.Errorf("the mode is %q, want start", f.Mode)
	}
	// Copper's coefficient (computed): 7.2 V at 20 degC are 9.04 V at 85.
	f = of(t, coiled("85", "coil 100 ohm; pulls 7.2 V", crank), "switch/coil-volts", "k1")
	if math.Abs(*f.Limit-9.04) > 0.02 {
		t.Errorf("it pulls in from %.3f V, want 9.04 V", *f.Limit)
	}
}
