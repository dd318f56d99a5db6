package note_test

import (
	"strings"
	"testing"

	"hame/check"
	"hame/check/note"
	"hame/lang/source"
)

const hauler = "../../examples/sap_hauler/harness.hame"

// TestUnknownNames: what has no note is answered with what to ask for instead.
func TestUnknownNames(t *testing.T) {
	run := checked(t, hauler)
	for name, want := range map[string]string{
		"w16x":   "did you mean `w16`",
		"s_frnt": "did you mean `s_front`",
		"g2":     "the wires on it have the notes: w16, w18, w43",
		"aux":    "each of its ways has a note of its own: aux.1, aux.2, aux.3",
		"aux.9":  "did you mean `aux.1` or `aux.2` or `aux.3`",
		"nought": "a note is there for wires, loads",
		"":       "is named ``",
	} {
		if _, err := note.For(run, name, ""); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", name, err, want)
		}
	}
	if _, err := note.For(run, "w15", "day_hual"); err == nil || !strings.Contains(err.Error(), "did you mean `day_haul`") {
		t.Errorf("a wrong mode: %v", err)
	}
	library := check.File(source.New("parts.hame", "part lamp is load led { draws 27 W }\n"), check.Options{})
	if _, err := note.For(library, "lamp", ""); err == nil || !strings.Contains(err.Error(), "no harness") {
		t.Errorf("a library: %v", err)
	}
}

// TestModeDecidesTheWay: the way is that of the named mode, else of the one in
// which the name carries the most.
func TestModeDecidesTheWay(t *testing.T) {
	run := checked(t, hauler)
	for mode, want := range map[string]string{
		"":           "\nWay in day_haul: from alt to sap_pump and back\n",
		"night_haul": "\nWay in night_haul: from alt to sap_pump and back\n",
		"parked":     "\nWay in parked\n    carries nothing in this mode\n",
	} {
		n, err := note.For(run, "w15", mode)
		if err != nil {
			t.Fatal(err)
		}
		text := printed(t, n)
		if !strings.Contains(text, want) {
			t.Errorf("mode %q: no %q in\n%s", mode, want, text)
		}
	}
}

// TestUnknownFacts: a missing fact is said, never filled in without a word.
func TestUnknownFacts(t *testing.T) {
	run := check.File(source.New("t.hame", `harness h { system 12 V; practice land }
supply battery main { capacity 70 Ah }
protection fuse f1 { rating 10 A }
load led lamp { draws 20 W }
wire w1 main.pos -> f1.in 2.5 mm2
wire w2 f1.out -> lamp.pos 2.5 mm2 1 m
wire w3 lamp.neg -> main.neg 2.5 mm2 1 m
`), check.Options{})
	for name, wants := range map[string][]string{
		"w1": {
			"its ends have no route between them", "a stand-in: its length or gauge is not declared",
			"an ambient, gauge or insulation on its way is not declared",
		},
		"main": {"neither resistance nor cranking is declared"},
		"f1":   {"not known until `cranking` of `main` is declared"},
	} {
		n, err := note.For(run, name, "")
		if err != nil {
			t.Fatal(err)
		}
		for _, want := range wants {
			if text := oneLine(printed(t, n)); !strings.Contains(text, want) {
				t.Errorf("%s: no %q in %s", name, want, text)
			}
		}
	}
}

// TestLongNames: a name as long as a page breaks no line.
func TestLongNames(t *testing.T) {
	long := strings.Repeat("n", 5000)
	text := strings.ReplaceAll(`harness @h { system 12 V; practice land }
zone @z { ambient 0..40 degC }
place @p in @z
bundle @r @p -> @p 1 m { cover loom_pa }
supply battery @b { at @p; capacity 70 Ah; resistance 10 mohm }
protection fuse @f { at @p; rating 10 A }
switch toggle @s { at @p; rating 10 A }
load led @l { at @p; draws 20 W }
wire w1 @b.pos -> @f.in 2.5 mm2 gxl 1 m
wire w2 @f.out -> @s.in 2.5 mm2 gxl 1 m
wire w3 @s.out -> @l.pos 2.5 mm2 gxl 1 m
wire w4 @l.neg -> @b.neg 2.5 mm2 gxl 1 m
mode @m { key on; closed @s }
mode @k { closed @s }
`, "@", long)
	run := check.File(source.New("t.hame", text), check.Options{})
	for _, name := range []string{"w1", "w3", "w4", long + "b", long + "f", long + "s", long + "l"} {
		n, err := note.For(run, name, long+"m")
		if err != nil {
			t.Fatal(err)
		}
		looks(t, name[:2], printed(t, n))
	}
	if _, err := note.For(run, long, ""); err == nil {
		t.Error("a note of a name that isn't there")
	}
}
