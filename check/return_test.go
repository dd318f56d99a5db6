package check_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"hame/check"
	"hame/lang/finding"
	"hame/lang/source"
)

// ofArea are the findings of one area of rules in a text.
func ofArea(t *testing.T, text, area string) []finding.Finding {
	t.Helper()
	run := check.File(source.New("return.hame", text), check.Options{})
	var list []finding.Finding
	for _, f := range run.Findings {
		switch {
		case strings.HasPrefix(f.Rule, area):
			list = append(list, f)
		case strings.HasPrefix(f.Rule, "text/"), strings.HasPrefix(f.Rule, "name/unknown"), strings.HasPrefix(f.Rule, "setting/"), strings.HasPrefix(f.Rule, "value/"):
			t.Fatalf("%s: %s", f.Rule, f.Message)
		}
	}
	return list
}

// short is a finding as a test names it: "warning ground/thin back".
func short(list []finding.Finding) string {
	var words []string
	for _, f := range list {
		words = append(words, fmt.Sprintf("%s %s %s", f.Severity, f.Rule, f.Subject))
	}
	return strings.Join(words, ", ")
}

// simple is a fused load with its return, at 30 degC, where Table 5 needs no
// factor.
func simple(practice, fuse, feed, returns string) string {
	return `harness simple { system 12 V; practice ` + practice + `; wire gxl }
zone  room { ambient 30..30 degC }
place here in room
supply battery main { at here; capacity 70 Ah; resistance 20 mohm }
protection fuse f1  { at here; rating ` + fuse + ` }
load heater user    { at here; draws 24 W; meant always }
wire first main.pos -> f1.in    ` + feed + ` red 0.15 m
wire out   f1.out   -> user.pos ` + feed + ` red 1 m
` + returns
}

// TestThinReturns holds returns to 33 CFR 183.425 Table 5 (seen): 16 AWG of 90
// degC carries 25 A, of 125 degC 30 A, 14 AWG of 90 degC 30 A; and to 100 % of it
// (AC 43.13-1B 11-48, capped at 90 degC on land) or 150 % (33 CFR 183.455 (c)(1)).
func TestThinReturns(t *testing.T) {
	const thin, own = "warning ground/thin back", "wire back user.neg -> main.neg 16 AWG black 1 m\n"
	for _, c := range []struct{ what, text, want string }{
		{"just at the ampacity", simple("land", "25 A", "16 AWG", own), ""},
		{"thinner than the feed alone", simple("land", "25 A", "12 AWG", own), "advice ground/thin back"},
		{"above it", simple("land", "30 A", "12 AWG", own), thin},
		{"above it, as the feed is: its device is too large", simple("land", "30 A", "16 AWG", own), ""},
		{"150 % of it on a boat", simple("cfr183", "40 A", "10 AWG", own), "advice ground/thin back"},
		{"above that", simple("cfr183", "50 A; family maxi", "10 AWG", own), thin},
		{"the next size carries it", simple("land", "30 A", "14 AWG", "wire back user.neg -> main.neg 14 AWG black 1 m\n"), ""},
		{"shared: by the largest device behind it", simple("land", "30 A", "12 AWG", `protection fuse f2 { at here; rating 5 A }
load heater more   { at here; draws 6 W; meant always }
ground bus neg     { at here; limit 50 A }
wire m1 main.pos -> f2.in    12 AWG red 0.15 m
wire m2 f2.out   -> more.pos 16 AWG red 1 m
wire m3 more.neg -> neg      16 AWG black 1 m
wire m4 user.neg -> neg      12 AWG black 1 m
wire back neg    -> main.neg 16 AWG black 1 m
`), thin},
		{"in parallel none is judged by itself", simple("land", "30 A", "12 AWG", own+"wire other user.neg -> main.neg 16 AWG black 1 m\n"), ""},
	} {
		if got := short(ofArea(t, c.text, "ground/thin")); got != c.want {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
}

// TestThinReturnFix: the size that is proposed is clean.
func TestThinReturnFix(t *testing.T) {
	list := ofArea(t, simple("land", "30 A", "12 AWG", "wire back user.neg -> main.neg 16 AWG black 1 m\n"), "ground/thin")
	if len(list) != 1 || list[0].Fix == nil || list[0].Fix.Edits[0].Text != "12 AWG" {
		t.Fatalf("%+v", list)
	}
}

// far is a steady load on a return of 10 m and a feed so thick that it loses
// next to nothing.
func far(draws, more string) string {
	return `harness far { system 12 V; practice land; wire gxl }
zone  room { ambient 20..20 degC }
place here in room
supply battery main { at here; capacity 70 Ah; resistance 20 mohm }
protection fuse f1  { at here; rating 15 A }
load motor user     { at here; draws ` + draws + ` at 12 V; least 6 V; ` + more + `meant always }
wire first main.pos -> f1.in    35 mm2  red   0.15 m
wire out   f1.out   -> user.pos 35 mm2  red   1 m
wire back  user.neg -> main.neg 2.5 mm2 black 10 m
mode on { for 1 h }
`
}

// TestOffsets: 2.5 mm2 of class 5 copper has at most 7.98 mohm/m at 20 degC (IEC
// 60228, seen), so 10 m of it lift a load of 3 A by 0.24 V.
func TestOffsets(t *testing.T) {
	list := ofArea(t, far("3 A", "critical; "), "ground/offset")
	if short(list) != "warning ground/offset user" {
		t.Fatalf("3 A, critical: %q", short(list))
	}
	if got, want := *list[0].Measured, 3*10*7.98e-3; math.Abs(got/want-1) > 0.03 {
		t.Errorf("the offset is %g V, and %g V by hand", got, want)
	}
	if got, want := *list[0].Limit, 0.03*12/2; math.Abs(got-want) > 1e-9 {
		t.Errorf("the limit is %g V, want %g V", got, want)
	}
	for _, c := range []struct{ draws, more, want string }{
		{"2 A", "critical; ", ""}, // 0.16 V of 0.18 V
		{"7 A", "", ""},           // 0.56 V of 0.6 V, warm copper and all
		{"9 A", "", "warning ground/offset user"},
	} {
		if got := short(ofArea(t, far(c.draws, c.more), "ground/offset")); got != c.want {
			t.Errorf("%s %s: %q, want %q", c.draws, c.more, got, c.want)
		}
	}
}

// TestCrowdedStuds: four rings on a stud, aircraft and boat practice (seen; ABYC
// from memory), unless it says otherwise.
func TestCrowdedStuds(t *testing.T) {
	for _, c := range []struct {
		decl  string
		rings int
		want  string
	}{
		{"ground stud g { at here; size M6 }", 4, ""},
		{"ground stud g { at here; size M6 }", 5, "warning ground/crowded g"},
		{"ground stud g { at here; size M6; holds 6 }", 6, ""},
		{"ground stud g { at here; size M6; holds 2 }", 3, "warning ground/crowded g"},
		{"join stud g { at here; size M6 }", 5, "warning ground/crowded g"},
		{"ground bus g { at here; ways 8 }", 8, ""},
	} {
		text := simple("land", "10 A", "2.5 mm2", "wire back user.neg -> main.neg 2.5 mm2 black 1 m\n") + c.decl + "\n"
		for i := range c.rings {
			text += fmt.Sprintf("wire r%d g -> capped 2.5 mm2 black 1 m\n", i)
		}
		if got := short(ofArea(t, text, "ground/crowded")); got != c.want {
			t.Errorf("%s with %d rings: %q, want %q", c.decl, c.rings, got, c.want)
		}
	}
}

// TestUnbondedPoints: a point on a hinge is one fault, however many loads hang
// on it; strapped across it is none.
func TestUnbondedPoints(t *testing.T) {
	hinge := func(more string) string {
		return simple("land", "10 A", "2.5 mm2", `ground chassis frame
ground stud lid { at here; to frame; size M6; via ball }
wire back user.neg -> lid   2.5 mm2 black 1 m
wire base main.neg -> frame 2.5 mm2 black 1 m
`+more)
	}
	for _, c := range []struct{ what, text, want string }{
		{"on a ball", hinge(""), "error ground/unbonded lid"},
		{"strapped across", hinge("wire strap lid -> frame 2.5 mm2 black 1 m\n"), ""},
		{"bolted", strings.Replace(hinge(""), "; via ball", "", 1), ""},
	} {
		if got := short(append(ofArea(t, c.text, "ground/unbonded"), ofArea(t, c.text, "graph/no-return")...)); got != c.want {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
}

// TestLostBatteryStrap: with the battery's own strap open nothing has a way home.
// The circuit that is borrowed from returns to the chassis too, so no current of
// the clock goes through the relay's coil to it.
func TestLostBatteryStrap(t *testing.T) {
	const text = `harness strap { system 12 V; practice land; wire gxl }
zone  room { ambient 0..40 degC }
place here in room
supply battery main { at here; capacity 70 Ah; cranking 600 A }
supply tap lamps    { at here; behind fuse 15 A; carries 8.4 A; live on }
protection fuse f1  { at here; rating 15 A }
switch relay k1     { at here; contacts 30 A; coil 96 ohm }
load led user       { at here; draws 24 W; least 9 V }
load led clock      { at here; draws 12 W; least 9 V }
ground chassis frame
ground stud g1 { at here; to frame; size M6 }
wire a main.pos  -> f1.in     2.5 mm2 red   0.15 m
wire b f1.out    -> k1.30     2.5 mm2 red   1 m
wire c k1.87     -> user.pos  2.5 mm2 red   1 m
wire d lamps.out -> k1.86     1.5 mm2 red   1 m
wire e k1.85     -> g1        1.5 mm2 black 1 m
wire f user.neg  -> g1        2.5 mm2 black 1 m
wire g f1.out    -> clock.pos 2.5 mm2 red   1 m
wire h clock.neg -> g1        2.5 mm2 black 1 m
wire i main.neg  -> frame     16 mm2  black 0.4 m
mode parked { for 1 h }
`
	if got := short(ofArea(t, text, "ground/sneak")); got != "" {
		t.Error(got)
	}
}

// TestExclusiveReturns: what a switch of two throws never turns on together does
// not add up at the bus that gathers it (Kirchhoff's first law, position by
// position: 8 A each at 12 V).
func TestExclusiveReturns(t *testing.T) {
	text := func(limit string) string {
		return post{more: `switch toggle dip { at shelf; rating 20 A; throws 2; covered }
load heater low  { at shelf; draws 8 A at 12 V; least 9 V; meant always }
load heater high { at shelf; draws 8 A at 12 V; least 9 V; meant always }
ground bus home  { at shelf; ways 4; limit ` + limit + ` }
wire a1 f1.out   -> dip.in   2.5 mm2 red    1 m
wire a2 dip.out1 -> low.pos  2.5 mm2 yellow 1 m
wire a3 dip.out2 -> high.pos 2.5 mm2 white  1 m
wire a4 low.neg  -> home     2.5 mm2 black  1 m
wire a5 high.neg -> home     2.5 mm2 black  1 m
wire a6 home     -> main.neg 2.5 mm2 black  1 m
`}.text()
	}
	for limit, want := range map[string]string{"10 A": "", "7 A": "error"} {
		if got := ruled(t, text(limit), "ground/overloaded", "home"); got != want {
			t.Errorf("a limit of %s: %q, want %q", limit, got, want)
		}
	}
}
