package check_test

import (
	"math"
	"strings"
	"testing"

	"hame/check"
	"hame/check/rules"
	"hame/lang/finding"
	"hame/lang/source"
)

// The fixes of the rules of contacts, terminals and coils put right what they
// are for, and raise nothing else.
func TestLandingFixes(t *testing.T) {
	for _, name := range []string{"switch/no-suppression", "switch/spare-live", "terminal/stud", "terminal/uncovered"} {
		r := rules.Find(name)
		found := example(r.Bad, nil).Findings
		if len(found) != 1 || found[0].Fix == nil {
			t.Errorf("%s: %d findings, or no fix", name, len(found))
			continue
		}
		for _, f := range check.File(source.New("t.hame", mend(r.Bad, found[0].Fix)), check.Options{}).Findings {
			t.Errorf("%s: after `%s`: %s: %s", name, found[0].Fix.Title, f.Rule, f.Message)
		}
	}
}

// with puts a rule's own bad example in another shape.
func with(rule, old, new string) string {
	return strings.ReplaceAll(rules.Find(rule).Bad, old, new)
}

// IEC 60529 (from memory): the second digit says what water it keeps out, and 0
// is none; X is not said.
func TestWaterDigit(t *testing.T) {
	for code, want := range map[string]string{
		"IP67": "", "IPX4": "", "IP6K9K": "", "IP50": "warning", "IP6X": "warning",
	} {
		text := with("device/unsealed", "for led }", "for led; sealed "+code+" }")
		if got := ruled(t, text, "device/unsealed", "s1"); got != want {
			t.Errorf("%s: %q, want %q", code, got, want)
		}
	}
}

// A stud is live with every switch open only where no switch stands before it
// (33 CFR 183.445 (b), read: a stud that is continuously energised).
func TestLiveAtRest(t *testing.T) {
	for before, want := range map[string]string{
		"join splice s { at shelf }\nwire w4 main.pos -> s 4 mm2 red 0.15 m\nwire w5 s -> p 4 mm2 red 0.1 m\n":                                                                  "warning",
		"switch isolator s { at shelf; rating 100 A; master }\nwire w4 main.pos -> s.in 4 mm2 red 0.15 m\nwire w5 s.out -> p 4 mm2 red 0.1 m\n":                                 "",
		"switch key s { at shelf; rating 20 A }\nwire w4 main.pos -> s.in 4 mm2 red 0.15 m\nwire w5 s.ign -> p 4 mm2 red 0.1 m\n":                                               "",
		"supply tap s { at shelf; behind fuse 20 A; carries 1 A; live always; serves accessory; gauge 4 mm2; run 1 m }\nwire w5 s.out -> p 4 mm2 red 0.1 m\n":                   "warning",
		"supply tap s { at shelf; behind fuse 20 A; carries 1 A; live acc; serves accessory; gauge 4 mm2; run 1 m }\nwire w5 s.out -> p 4 mm2 red 0.1 m\n":                      "",
		"switch relay s { at shelf; contacts 20 A; coil 100 ohm; form change; suppress diode }\nwire w4 main.pos -> s.30 4 mm2 red 0.1 m\nwire w5 s.87a -> p 4 mm2 red 0.1 m\n": "warning",
		"switch relay s { at shelf; contacts 20 A; coil 100 ohm; form change; suppress diode }\nwire w4 main.pos -> s.30 4 mm2 red 0.1 m\nwire w5 s.87 -> p 4 mm2 red 0.1 m\n":  "",
	} {
		text := with("terminal/uncovered", "post M8 }", "post M8; covered }") + "join stud p { at shelf; size M6 }\n" + before
		if got := ruled(t, text, "terminal/uncovered", "p"); got != want {
			t.Errorf("%q, want %q: %s", got, want, before)
		}
	}
}

// A borrowed circuit of 10 A may carry 8 A lastingly, and 6 A where its fuse sits
// in a zone of 60 degC or more (body-builder practice, no source).
func TestTapShare(t *testing.T) {
	for _, c := range []struct{ carries, at, want string }{
		{"5.5 A", "", ""},
		{"6.1 A", "", "warning"},
		{"8.1 A", "", "error"},
		{"3.5 A", " at hood", ""},
		{"4.1 A", " at hood", "warning"},
		{"8.1 A", " at hood", "error"},
	} {
		text := with("tap/overloaded", "fuse 10 A; carries 6 A", "fuse 10 A"+c.at+"; carries "+c.carries)
		text = strings.Replace(text, "place shelf", "zone hot { ambient 0..60 degC }\nplace hood in hot\nplace shelf", 1)
		text = strings.Replace(text, "led marker   { at shelf; draws 27 W", "motor marker { at shelf; draws 2 A", 1)
		if got := ruled(t, text, "tap/overloaded", "dash"); got != c.want {
			t.Errorf("%s%s: %q, want %q", c.carries, c.at, got, c.want)
		}
	}
}

// By hand: three heaters of 12 V in one loop, 1, 2 and 4 ohm, once the shared
// return is open: 12.5 V over 7 ohm and the copper is 1.78 A.
func TestSneakByHand(t *testing.T) {
	text := `harness worked { system 12 V; practice land; wire gxl }
zone dry { ambient 20..20 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 1 mohm; post M8; covered }
switch toggle s1 { at shelf; rating 50 A }
switch toggle s2 { at shelf; rating 50 A }
load heater one { at shelf; draws 144 W }
load heater two { at shelf; draws 72 W }
load heater four { at shelf; draws 36 W }
join splice j { at shelf }
wire w1 main.pos -> s1.in 35 mm2 red 0.1 m
wire w2 main.pos -> s2.in 35 mm2 red 0.1 m
wire w3 s1.out -> one.pos 35 mm2 red 0.1 m
wire w4 s2.out -> two.pos 35 mm2 red 0.1 m
wire w5 s2.out -> four.pos 35 mm2 red 0.1 m
wire w6 one.neg -> j 35 mm2 black 0.1 m
wire w7 two.neg -> j 35 mm2 black 0.1 m
wire w8 j -> main.neg 35 mm2 black 0.1 m
wire w9 four.neg -> main.neg 35 mm2 black 0.1 m
mode m { closed s1; for 1 min }
`
	f := of(t, text, "ground/sneak", "w8")
	if math.Abs(*f.Measured-12.5/7) > 0.02 || !strings.Contains(f.Message, "`four`") {
		t.Errorf("%s: %.3f A, want 12.5 V / 7 ohm", f.Message, *f.Measured)
	}
	own := strings.Replace(text, "one.neg -> j ", "one.neg -> main.neg ", 1)
	if got := ruled(t, own, "ground/sneak", "w8"); got != "" {
		t.Errorf("with a return of its own: %q", got)
	}
}

// Two straps share a starter's return; where the thick one opens, the thin one
// has it all.
func TestSneakThroughThinStrap(t *testing.T) {
	text := `harness worked { system 12 V; practice land; wire sgx }
zone dry { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 5 mohm; post M8; covered }
switch toggle s1 { at shelf; rating 200 A }
load heater pad { at shelf; draws 60 A }
ground bus block { at shelf; ways 4 }
wire w1 main.pos -> s1.in 35 mm2 red 0.1 m
wire w2 s1.out -> pad.pos 35 mm2 red 1 m
wire w3 pad.neg -> block 35 mm2 black 1 m
wire thick block -> main.neg 35 mm2 black 1 m
wire thin block -> main.neg 2.5 mm2 black 1 m
mode m { closed s1; for 1 min }
`
	if f := of(t, text, "ground/sneak", "thick"); !strings.Contains(f.Message, "`thin` carries") {
		t.Errorf("the message is %q", f.Message)
	}
	if got := ruled(t, strings.Replace(text, "2.5 mm2", "35 mm2", 1), "ground/sneak", "thick"); got != "" {
		t.Errorf("with two thick straps: %q", got)
	}
}

// A cavity is wrong in each of the ways that the rule names.
func TestMismatchedCavities(t *testing.T) {
	good := rules.Find("connector/mismatch").Good
	for change, want := range map[string]string{
		"ways 3; limit 10 A; way 1 \"lamp feed\"; way 2 \"return\"": "",
		"ways 3; limit 10 A; way 1 \"return of 2\"":                 "error",
		"ways 3; limit 10 A; way 2 \"permanent feed\"":              "error",
		"ways 3; limit 10 A; way 1 \"feed pump\"":                   "",
	} {
		if got := ruled(t, strings.Replace(good, "ways 3; limit 10 A", change, 1), "connector/mismatch", "x1"); got != want {
			t.Errorf("%s: %q, want %q", change, got, want)
		}
	}
	labelled := strings.Replace(good, "ways 3; limit 10 A", "ways 3; limit 10 A; way 1 \"lamp\"; way 3 \"pump\"", 1)
	labelled = strings.Replace(labelled, "x1.female.1 2.5 mm2 red   1 m", "x1.female.1 2.5 mm2 red   1 m { label \"pump\" }", 1)
	if got := ruled(t, labelled, "connector/mismatch", "x1"); got != "error" {
		t.Errorf("a wire labelled for another cavity: %q", got)
	}
}

// ISO 11446 (read): of a trailer's 13 contacts the ninth is a lasting feed, and the
// thirteenth its return. So they are in the library, and turned round they are wrong.
func TestThirteenContacts(t *testing.T) {
	const text = `use "hame:connectors"
harness worked { system 12 V; practice land; wire gxl }
zone dry { ambient 0..30 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 20 mohm; post M8; covered }
protection fuse f1 { at shelf; rating 10 A; covered }
join trailer_iso11446 x1 { at shelf }
load led lamp { at shelf; draws 24 W; least 5 V; meant always }
wire w1 main.pos -> f1.in 2.5 mm2 red 0.15 m
wire w2 f1.out -> x1.female.FEED 2.5 mm2 red 1 m
wire w3 x1.male.FEED -> lamp.pos 2.5 mm2 red 1 m
wire w4 lamp.neg -> x1.male.BACK 2.5 mm2 black 1 m
wire w5 x1.female.BACK -> main.neg 2.5 mm2 black 1 m
`
	for _, c := range []struct{ feed, back, want string }{{"9", "13", ""}, {"13", "9", "error"}, {"9", "1", ""}, {"11", "13", "error"}} {
		filled := strings.NewReplacer("FEED", c.feed, "BACK", c.back).Replace(text)
		if got := ruled(t, filled, "connector/mismatch", "x1"); got != c.want {
			t.Errorf("feed in %s, return in %s: %q, want %q", c.feed, c.back, got, c.want)
		}
	}
}

// On a device's own lead the bench puts the mating half of whatever ends the wire;
// a ring has no stud there, and a cap ends nothing (common practice, no source).
// With the lead and no more, nothing is asked and nothing found.
func TestOnALead(t *testing.T) {
	for ends, want := range map[string]string{
		"": "", "ends ring M8, butt": "", "ends ring M8, bullet 4 male": "", "ends ring M8, tab 6.3 male": "", "ends ring M8, pin": "",
		"ends ring M8, ferrule": "", "ends ring M8, bare": "", "ends ring M8, ring M6": "warning", "ends ring M8, cap": "warning",
	} {
		text := with("graph/loose-end", "switch toggle spare { at shelf; rating 20 A }", `load module box { at shelf; draws 1 A; least 9 V; lead 1 mm2; meant always }
protection fuse f2 { at shelf; rating 5 A; covered }
wire w4 main.pos -> f2.in   2.5 mm2 red   0.15 m
wire w5 f2.out   -> box.pos 2.5 mm2 red   1 m
wire w6 main.neg -> box.neg 2.5 mm2 black 1 m { `+ends+` }`)
		if got := ruled(t, text, "graph/loose-end", "w6"); got != want {
			t.Errorf("%q: %q, want %q", ends, got, want)
		}
		for _, f := range example(text, nil).Findings {
			if f.Rule != "graph/loose-end" || f.Severity == finding.Open {
				t.Errorf("%q: %s: %s", ends, f.Rule, f.Message)
			}
		}
	}
}
