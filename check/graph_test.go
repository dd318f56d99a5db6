package check_test

import (
	"strings"
	"testing"

	"hame/check"
	"hame/lang/finding"
	"hame/lang/source"
)

// shorts: which harnesses have a way that nothing but conductors lies in.
var shorts = map[string]struct{ declared, wires, modes, want string }{
	"none":                        {`load bulb lamp { at shelf; draws 21 W }`, "f1.out -> lamp.pos\nlamp.neg -> main.neg", "", ""},
	"a switch across the battery": {`switch toggle s1 { at shelf; rating 16 A }`, "f1.out -> s1.in\ns1.out -> main.neg", "", "main"},
	"a relay that pulls in across its own feed": {`
switch toggle s1 { at shelf; rating 16 A }
switch relay k1 { at shelf; contacts 30 A; coil 90 ohm }`, `
f1.out -> s1.in
s1.out -> k1.86
k1.85 -> main.neg
f1.out -> k1.30
k1.87 -> main.neg`, "", "main"},
	"a diode forwards across the battery": {`switch diode d1 { at shelf; rating 6 A }`, "f1.out -> d1.anode\nd1.cathode -> main.neg", "", "main"},
	"a diode the other way round is none": {`switch diode d1 { at shelf; rating 6 A }`, "f1.out -> d1.cathode\nd1.anode -> main.neg", "", ""},
	"two throws of one switch are never closed together": {`switch toggle s1 { at shelf; rating 16 A; throws 2 }
load bulb lamp { at shelf; draws 21 W }`, `
s1.in -> lamp.pos
f1.out -> s1.out1
main.neg -> s1.out2
lamp.neg -> main.neg`, "", ""},
	"battery and alternator side by side agree": {`
supply alternator alt { at shelf; output 55 A }`, "f1.out -> alt.pos\nalt.neg -> main.neg", "", ""},
	"an alternator the wrong way round": {`
supply alternator alt { at shelf; output 55 A }`, "f1.out -> alt.neg\nalt.pos -> main.neg", "", "alt"},
	"two 12 V batteries in series are 24 V": {`
supply battery top { at shelf; capacity 70 Ah; resistance 12 mohm }
supply battery big { at shelf; capacity 70 Ah; resistance 12 mohm; volts 24 V }`, `
main.pos -> top.neg
top.pos -> big.pos
big.neg -> main.neg`, "", ""},
	"12 V and 24 V tied": {`
supply battery big { at shelf; capacity 70 Ah; resistance 12 mohm; volts 24 V }`, "main.pos -> big.pos\nbig.neg -> main.neg", "", "big"},
	"a 24 V rail through a diode into 12 V": {`
supply battery big { at shelf; capacity 70 Ah; resistance 12 mohm; volts 24 V }
switch diode d1 { at shelf; rating 6 A }`, `
big.pos -> d1.anode
d1.cathode -> main.pos
big.neg -> main.neg`, "", "main"},
	"a charger of 14.4 V on 12 V agrees": {`
supply battery big { at shelf; capacity 70 Ah; resistance 12 mohm; volts 24 V }
supply converter conv { at shelf; takes 24 V; gives 14.4 V; output 20 A }`, `
big.pos -> conv.in
conv.out -> main.pos
conv.neg -> main.neg
big.neg -> main.neg`, "", ""},
}

// TestDeadShorts checks the definition of the rule on the smallest harnesses.
func TestDeadShorts(t *testing.T) {
	for name, c := range shorts {
		t.Run(name, func(t *testing.T) {
			got := strings.Join(subjects(t, bench(c.declared, c.wires, c.modes), "graph/dead-short"), ", ")
			if got != c.want {
				t.Errorf("shorted: %q, want %q", got, c.want)
			}
		})
	}
}

// TestShortIsOneFinding: what flows in a shorted position is said of no wire, no
// device and no load.
func TestShortIsOneFinding(t *testing.T) {
	text := bench(`switch toggle s1 { at shelf; rating 16 A }
load led lamp { at shelf; draws 27 W; least 11 V }`, "f1.out -> s1.in\ns1.out -> main.neg\nf1.out -> lamp.pos\nlamp.neg -> main.neg",
		"mode on { closed s1; for 1 h }\nrequire lamp volts >= 11 V in on\n")
	for _, rule := range []string{"wire/undersized", "ground/overloaded", "protection/loaded", "wire/drop", "wire/hot", "load/starved", "require/broken", "supply/drain"} {
		if got := subjects(t, text, rule); len(got) > 0 {
			t.Errorf("%s follows from the short: %v", rule, got)
		}
	}
	if got := subjects(t, text, "graph/dead-short"); len(got) != 1 {
		t.Errorf("shorts: %v", got)
	}
}

// feeds: which loads no position powers.
var feeds = map[string]struct{ declared, wires, want string }{
	"a diode the wrong way round": {`
switch diode d1 { at shelf; rating 6 A }
load bulb lamp { at shelf; draws 21 W }`, "f1.out -> d1.cathode\nd1.anode -> lamp.pos\nlamp.neg -> main.neg", "lamp"},
	"a coil that cannot be fed is the cause, and its load is not said again": {`
switch relay k1 { at shelf; contacts 30 A; coil 90 ohm }
join splice dead { at shelf }
join splice dead2 { at shelf }
load bulb lamp { at shelf; draws 21 W }`, `
f1.out -> k1.30
k1.87 -> lamp.pos
dead -> k1.86
dead -> dead2
k1.85 -> main.neg
lamp.neg -> main.neg`, "k1"},
	"contacts that are never closed together": {`
switch relay k1 { at shelf; contacts 30 A; coil 90 ohm; form change }
switch relay k2 { at shelf; contacts 30 A; coil 90 ohm }
switch toggle s1 { at shelf; rating 16 A }
load bulb lamp { at shelf; draws 21 W }`, `
f1.out -> s1.in
s1.out -> k1.86
k1.85 -> main.neg
s1.out -> k2.86
k2.85 -> main.neg
f1.out -> k1.30
k1.87a -> k2.30
k2.87 -> lamp.pos
lamp.neg -> main.neg`, "lamp"},
	"a start solenoid is fed at start, which no survey makes": {`
switch key ign { at shelf; rating 16 A }
load solenoid sol { at shelf; draws 8 A; suppress resistor }`, "f1.out -> ign.in\nign.start -> sol.pos\nsol.neg -> main.neg", ""},
	"the other half of a connector brings the feed": {`
join connector x1 { at shelf; ways 1; half male }
load bulb lamp { at shelf; draws 21 W }`, "x1.male.1 -> lamp.pos\nlamp.neg -> main.neg", ""},
	"a relay that pulls in": {`
switch relay k1 { at shelf; contacts 30 A; coil 90 ohm }
switch toggle s1 { at shelf; rating 16 A }
load bulb lamp { at shelf; draws 21 W }`, `
f1.out -> s1.in
s1.out -> k1.86
k1.85 -> main.neg
f1.out -> k1.30
k1.87 -> lamp.pos
lamp.neg -> main.neg`, ""},
}

// TestNoFeed checks the definition of the rule on the smallest harnesses.
func TestNoFeed(t *testing.T) {
	for name, c := range feeds {
		t.Run(name, func(t *testing.T) {
			got := strings.Join(subjects(t, bench(c.declared, c.wires, ""), "graph/no-feed"), ", ")
			if got != c.want {
				t.Errorf("no feed: %q, want %q", got, c.want)
			}
		})
	}
}

// TestRing: three relays, each cut off by the one before, never come to rest; two
// of them do, as a latch.
func TestRing(t *testing.T) {
	ring := func(relays ...string) string {
		var declared, wires strings.Builder
		for i, k := range relays {
			next := relays[(i+1)%len(relays)]
			declared.WriteString("switch relay " + k + " { at shelf; contacts 30 A; coil 90 ohm; form change }\n")
			wires.WriteString("f1.out -> " + k + ".30\n" + k + ".87a -> " + next + ".86\n" + next + ".85 -> main.neg\n")
		}
		return bench(declared.String(), wires.String(), "")
	}
	if got := subjects(t, ring("k1", "k2", "k3"), "graph/unsettled"); strings.Join(got, ", ") != "k1" {
		t.Errorf("a ring of three: %v", got)
	}
	if got := subjects(t, ring("k1", "k2"), "graph/unsettled"); len(got) > 0 {
		t.Errorf("a latch of two: %v", got)
	}
	run := check.File(source.New("t.hame", ring("k1", "k2", "k3")), check.Options{})
	for _, f := range run.Findings {
		if f.Rule == "graph/unsettled" && (len(f.Related) != 2 || !strings.Contains(strings.Join(f.Figures, "\n"), "the loop: ")) {
			t.Errorf("the loop is not shown: %v, %v", f.Figures, f.Related)
		}
	}
}

// TestReversedCoil: a diode's cathode is at 86, so 86 must be the positive end
// (language: switch relay).
func TestReversedCoil(t *testing.T) {
	coil := func(plus, minus, suppress string) string {
		return bench("switch relay k1 { at shelf; contacts 30 A; coil 90 ohm; suppress "+suppress+" }\nload bulb lamp { at shelf; draws 21 W }",
			"f1.out -> "+plus+"\n"+minus+" -> main.neg\nf1.out -> k1.30\nk1.87 -> lamp.pos\nlamp.neg -> main.neg", "")
	}
	for text, want := range map[string]int{
		coil("k1.86", "k1.85", "diode"): 0, coil("k1.85", "k1.86", "diode"): 1, coil("k1.85", "k1.86", "resistor"): 0,
	} {
		if got := subjects(t, text, "graph/reversed"); len(got) != want {
			t.Errorf("reversed: %v, want %d in\n%s", got, want, text)
		}
	}
}

// find is the one finding of a rule.
func find(t *testing.T, text, rule string) *finding.Finding {
	t.Helper()
	run := check.File(source.New("t.hame", text), check.Options{})
	for i := range run.Findings {
		if run.Findings[i].Rule == rule {
			return &run.Findings[i]
		}
	}
	return nil
}
