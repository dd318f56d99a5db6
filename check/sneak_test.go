package check_test

import (
	"slices"
	"strings"
	"testing"

	"hame/check"
	"hame/lang/source"
)

// bench is a battery with what a test hangs on it. Every wire is 2.5 mm2 and
// 1 m: "main.pos -> f1.in".
func bench(declared, wires, modes string) string {
	var b strings.Builder
	b.WriteString(`harness h { system 12 V; practice land; wire gxl }
zone dry { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1 { at shelf; rating 15 A }
wire w0 main.pos -> f1.in 2.5 mm2 red 0.15 m
` + declared + "\n")
	for i, line := range strings.Split(strings.TrimSpace(wires), "\n") {
		b.WriteString("wire x" + string(rune('a'+i)) + " " + strings.TrimSpace(line) + " 2.5 mm2 red 1 m\n")
	}
	return b.String() + modes
}

// subjects are those of one rule's findings.
func subjects(t *testing.T, text, rule string) []string {
	t.Helper()
	run := check.File(source.New("t.hame", text), check.Options{})
	list := []string{}
	for _, f := range run.Findings {
		if f.Rule == "text/syntax" || strings.HasPrefix(f.Rule, "name/unknown") || f.Rule == "setting/missing" {
			t.Fatalf("the harness is not right: %s", f.Message)
		}
		if f.Rule == rule {
			list = append(list, f.Subject)
		}
	}
	return list
}

// sneaks are the patterns of sneak circuit analysis, and circuits that look like
// them and are none. Power dome (Y), ground dome (inverted Y), H and X: general
// text on sneak circuit analysis (seen; the H in part from memory).
var sneaks = map[string]struct{ declared, wires, modes, want string }{
	// The owners' club article (seen): hazard lamps on, brake pressed, key off, and the
	// radio plays, its current coming backwards through the brake switch.
	"H: hazard lamps feed a radio through the brake switch": {`
switch key ign { at shelf; rating 16 A }
switch toggle hazard { at shelf; rating 16 A }
switch push brake { at shelf; rating 16 A }
join splice bus { at shelf }
load module radio { at shelf; draws 20 W }
load bulb lamp { at shelf; draws 21 W }`, `
f1.out -> ign.in
ign.ign -> bus
bus -> radio.pos
bus -> brake.in
f1.out -> hazard.in
hazard.out -> lamp.pos
brake.out -> lamp.pos
radio.neg -> main.neg
lamp.neg -> main.neg`, "mode m { key off; closed hazard, brake }", "radio"},
	"Y: two switches each turn on one load, and neither is the other's": {`
switch toggle front { at shelf; rating 16 A }
switch toggle rear { at shelf; rating 16 A }
load bulb lamp { at shelf; draws 21 W }`, `
f1.out -> front.in
f1.out -> rear.in
front.out -> lamp.pos
rear.out -> lamp.pos
lamp.neg -> main.neg`, "", ""},
	"Y: a lamp that joins two circuits without a diode feeds the other's load": {`
switch toggle left { at shelf; rating 16 A }
switch toggle right { at shelf; rating 16 A }
switch toggle join_both { at shelf; rating 16 A }
load bulb lamp_l { at shelf; draws 21 W }
load bulb lamp_r { at shelf; draws 21 W }`, `
f1.out -> left.in
f1.out -> right.in
left.out -> lamp_l.pos
right.out -> lamp_r.pos
left.out -> join_both.in
join_both.out -> right.out
lamp_l.neg -> main.neg
lamp_r.neg -> main.neg`, "", "lamp_l"},
	"diodes keep a lamp for both circuits from joining them": {`
switch toggle left { at shelf; rating 16 A }
switch toggle right { at shelf; rating 16 A }
switch diode d1 { at shelf; rating 6 A }
switch diode d2 { at shelf; rating 6 A }
join splice both { at shelf }
load bulb lamp_l { at shelf; draws 21 W }
load bulb lamp_r { at shelf; draws 21 W }
load bulb tell { at shelf; draws 2 W }`, `
f1.out -> left.in
f1.out -> right.in
left.out -> lamp_l.pos
right.out -> lamp_r.pos
left.out -> d1.anode
right.out -> d2.anode
d1.cathode -> both
d2.cathode -> both
both -> tell.pos
tell.neg -> main.neg
lamp_l.neg -> main.neg
lamp_r.neg -> main.neg`, "", ""},
	// A switch in the return: the load stays at supply potential, and others find
	// their return through it (from memory).
	"inverted Y: with the return switch open current goes on through the other load": {`
switch toggle a { at shelf; rating 16 A }
switch toggle b { at shelf; rating 16 A }
switch toggle back { at shelf; rating 16 A }
join splice low { at shelf }
load bulb la { at shelf; draws 21 W }
load bulb lb { at shelf; draws 21 W }
load bulb lc { at shelf; draws 21 W }`, `
f1.out -> a.in
f1.out -> b.in
a.out -> la.pos
b.out -> lb.pos
b.out -> lc.pos
la.neg -> low
lb.neg -> low
lc.neg -> main.neg
low -> back.in
back.out -> main.neg`, "", "lb"},
	"a motor reversed by two change-over relays is fed by both ends in turn": {`
switch toggle s1 { at shelf; rating 16 A }
switch toggle s2 { at shelf; rating 16 A }
switch relay k1 { at shelf; contacts 30 A; coil 90 ohm; form change }
switch relay k2 { at shelf; contacts 30 A; coil 90 ohm; form change }
load motor winch { at shelf; draws 8 A }`, `
f1.out -> k1.87
f1.out -> k2.87
k1.87a -> main.neg
k2.87a -> main.neg
k1.30 -> winch.pos
k2.30 -> winch.neg
f1.out -> s1.in
f1.out -> s2.in
s1.out -> k1.86
s2.out -> k2.86
k1.85 -> main.neg
k2.85 -> main.neg`, "", ""},
	"a change-over switch with its common end at the load takes either feed": {`
switch toggle pick { at shelf; rating 16 A; throws 2 }
switch toggle s1 { at shelf; rating 16 A }
switch key ign { at shelf; rating 16 A }
load bulb lamp { at shelf; draws 21 W }`, `
f1.out -> s1.in
s1.out -> pick.out1
f1.out -> ign.in
ign.ign -> pick.out2
pick.in -> lamp.pos
lamp.neg -> main.neg`, "", ""},
	"a switch wired the other way round still is its load's own": {`
switch toggle s1 { at shelf; rating 16 A }
load bulb lamp { at shelf; draws 21 W }`, `
f1.out -> s1.out
s1.in -> lamp.pos
lamp.neg -> main.neg`, "", ""},
	"a coasting fan keeps the relay's coil in that shares its feed": {`
switch toggle s1 { at shelf; rating 16 A }
switch relay k1 { at shelf; contacts 30 A; coil 90 ohm }
load motor fan { at shelf; draws 6 A; drives fan; coasts }
load bulb lamp { at shelf; draws 21 W }`, `
f1.out -> s1.in
s1.out -> fan.pos
s1.out -> k1.86
k1.85 -> main.neg
fan.neg -> main.neg
f1.out -> k1.30
k1.87 -> lamp.pos
lamp.neg -> main.neg`, "", "k1"},
	"a coasting fan behind its own relay feeds nothing else": {`
switch toggle s1 { at shelf; rating 16 A }
switch relay k1 { at shelf; contacts 30 A; coil 90 ohm }
load motor fan { at shelf; draws 6 A; drives fan; coasts }`, `
f1.out -> s1.in
s1.out -> k1.86
k1.85 -> main.neg
f1.out -> k1.30
k1.87 -> fan.pos
fan.neg -> main.neg`, "", ""},
	"X: each of two cross ties feeds a load backwards while the other is open": {`
switch toggle a { at shelf; rating 16 A }
switch toggle b { at shelf; rating 16 A }
switch toggle ab { at shelf; rating 16 A }
switch toggle ba { at shelf; rating 16 A }
load bulb la { at shelf; draws 21 W }
load bulb lb { at shelf; draws 21 W }`, `
f1.out -> a.in
f1.out -> b.in
a.out -> la.pos
b.out -> lb.pos
a.out -> ab.in
ab.out -> lb.pos
b.out -> ba.in
ba.out -> la.pos
la.neg -> main.neg
lb.neg -> main.neg`, "", "la, lb"},
	"an always live tap feeds a borrowed circuit backwards": {`
supply tap acc { at shelf; behind fuse 15 A; carries 3 A; live on; of main }
supply tap always { at shelf; behind fuse 15 A; carries 3 A; live always; of main }
load bulb lamp { at shelf; draws 21 W }`, `
acc.out -> lamp.pos
always.out -> lamp.pos
lamp.neg -> main.neg`, "", "acc"},
}

// TestSneakCircuits: what is fed from behind is found, and what merely looks
// like it is not.
func TestSneakCircuits(t *testing.T) {
	for name, c := range sneaks {
		t.Run(name, func(t *testing.T) {
			got := strings.Join(subjects(t, bench(c.declared, c.wires, c.modes), "graph/back-feed"), ", ")
			if got != c.want {
				t.Errorf("fed from behind: %q, want %q", got, c.want)
			}
		})
	}
}

// TestSneakWayIsShown: the way goes backwards through the brake switch.
func TestSneakWayIsShown(t *testing.T) {
	c := sneaks["H: hazard lamps feed a radio through the brake switch"]
	run := check.File(source.New("t.hame", bench(c.declared, c.wires, c.modes)), check.Options{})
	for _, f := range run.Findings {
		if f.Rule != "graph/back-feed" {
			continue
		}
		const way = "the way: main.pos, w0, f1, xe, hazard.in, hazard.out, xf, xg, brake.out, brake.in, xd, xc, radio.pos"
		if !slices.Contains(f.Figures, way) {
			t.Errorf("the way is not shown as %q: %q", way, f.Figures)
		}
		if !strings.Contains(f.Message, "`ign` open") {
			t.Errorf("the open switch is not named: %s", f.Message)
		}
		return
	}
	t.Error("not found")
}
