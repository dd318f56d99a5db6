package check_test

import (
	"math"
	"strings"
	"testing"

	"hame/lang/finding"
)

// kept is a charged 12 V machine with a heater on a known wire: 10 m of 2.5 mm2
// there and back at 20 degC, in a mode with the engine running and one parked.
func kept(require string) string {
	return `harness h { system 12 V; practice land; wire gxl }
zone room { ambient 20..20 degC }
place spot in room
supply battery main { at spot; capacity 100 Ah; resistance 5 mohm; standby 10 mA }
supply alternator alt { at spot; output 100 A; idle 40 A; volts 14.4 V }
switch toggle s1 { at spot; rating 20 A }
protection fuse f1 { at spot; rating 20 A }
load motor winch { at spot; draws 10 A; drives other }
wire a alt.pos -> main.pos 50 mm2 0.1 m
wire b alt.neg -> main.neg 50 mm2 0.1 m
wire c main.pos -> f1.in 10 mm2 0.1 m
wire d f1.out -> s1.in 10 mm2 0.1 m
wire feed s1.out -> winch.pos 2.5 mm2 5 m
wire back winch.neg -> main.neg 2.5 mm2 5 m
mode work { key on; engine running; closed s1; for 1 h }
mode parked { key off; for 10 h }
` + require
}

// TestRequirements: signs and modes are those of the language (requirements). 10 A
// through 5 m of 2.5 mm2 lose about 0.35 V: 7.0 mohm/m (IEC 60228 class 5 gives
// 7.98 mohm/m at most, ISO 6722 7.6; seen).
func TestRequirements(t *testing.T) {
	for require, broken := range map[string]bool{
		"require main current <= 0 A in work":     false, // it's charged: below nothing
		"require main current > 0 A in work":      true,
		"require main current <= 9 mA in parked":  true,
		"require main current <= 10 mA in parked": false,
		"require alt current <= 100 A in work":    false,
		"require winch current > 9.9 A":           false,
		"require winch current > 10.1 A":          true,
		"require feed current < 9.9 A":            true,
		"require back current < 10.1 A":           false,
		"require f1 current < 9.9 A":              true,
		"require s1 current < 9.9 A":              true,
		"require feed drop < 250 mV":              true,
		"require feed drop < 450 mV":              false,
		"require winch drop < 4 %":                true,
		"require winch drop < 9 %":                false,
		"require winch volts > 13 V":              false, // in work alone is it on
		"require winch volts > 13 V in parked":    true,
		"require winch volts > 14 V in work":      true,
		"require feed warmth < 20 degC":           true,
		"require feed warmth < 60 degC":           false,
		"require s1 volts < 1 V":                  false, // a switch has none to promise: the binder says so
	} {
		f := find(t, kept(require), "require/broken")
		if (f != nil) != broken {
			t.Errorf("%s: %+v", require, f)
		}
	}
}

// TestRequirementSaysHowMuch: by how much, in which mode, in the limit's unit.
func TestRequirementSaysHowMuch(t *testing.T) {
	f := find(t, kept("require main current <= 4 mA"), "require/broken")
	if f == nil || f.Mode != "parked" || f.Unit != "A" || math.Abs(*f.Measured-0.01) > 1e-6 || *f.Limit != 0.004 {
		t.Fatalf("%+v", f)
	}
	if f.Severity != finding.Error || !strings.Contains(f.Message, "0.006 A off") {
		t.Errorf("%s: %s", f.Severity, f.Message)
	}
}

// TestRequirementNeverOn: what no mode puts to the test is open, not kept.
func TestRequirementNeverOn(t *testing.T) {
	text := kept("load led lamp { at spot; draws 5 W }\nswitch toggle s2 { at spot; rating 5 A }\n" +
		"wire e f1.out -> s2.in 2.5 mm2 1 m\nwire f s2.out -> lamp.pos 2.5 mm2 1 m\nwire g lamp.neg -> main.neg 2.5 mm2 1 m\nrequire lamp volts > 12 V")
	if f := find(t, text, "require/broken"); f == nil || f.Severity != finding.Open {
		t.Errorf("%+v", f)
	}
}

// TestStarved: just at `least` is enough; and a load of constant power that the
// line can't carry is a finding. A line of resistance R from V carries no more
// than V²/4R (arithmetic): 12.5 V and 40 m of 2.5 mm2, 0.3 ohm, carry 130 W.
func TestStarved(t *testing.T) {
	lamp := func(draws, least, length string) string {
		return `harness h { system 12 V; practice land; wire gxl }
supply battery main { capacity 100 Ah; resistance 5 mohm }
load led lamp { draws ` + draws + `; ` + least + `meant always }
wire a main.pos -> lamp.pos 2.5 mm2 ` + length + `
wire b lamp.neg -> main.neg 2.5 mm2 ` + length + `
mode lit { for 10 min }
`
	}
	for name, c := range map[string]struct {
		text string
		want bool
	}{
		"enough":                           {lamp("20 W", "least 11 V; ", "1 m"), false},
		"too little":                       {lamp("20 W", "least 12.49 V; ", "1 m"), true},
		"no least, and the feed holds":     {lamp("60 W", "", "20 m"), false},
		"no least, and more than it bears": {lamp("400 W", "", "20 m"), true},
		"a least, and more than it bears":  {lamp("400 W", "least 9 V; ", "20 m"), true},
	} {
		if f := find(t, c.text, "load/starved"); (f != nil) != c.want {
			t.Errorf("%s: %+v", name, f)
		}
	}
}

// TestOvervolted: 4/3 of the system's volts is the limit where none is declared
// (language: loads).
func TestOvervolted(t *testing.T) {
	lamp := func(volts, most string) string {
		return `harness h { system 12 V; practice land; wire gxl }
supply battery main { capacity 100 Ah; resistance 5 mohm; volts ` + volts + ` }
load bulb lamp { draws 20 W; ` + most + `meant always }
wire a main.pos -> lamp.pos 2.5 mm2 1 m
wire b lamp.neg -> main.neg 2.5 mm2 1 m
mode lit { for 10 min }
`
	}
	for text, want := range map[string]bool{
		lamp("12 V", ""): false, lamp("24 V", ""): true, lamp("24 V", "most 30 V; "): false, lamp("12 V", "most 12 V; "): true,
	} {
		if f := find(t, text, "load/overvolted"); (f != nil) != want {
			t.Errorf("%+v in\n%s", f, text)
		}
	}
}
