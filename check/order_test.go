package check_test

import (
	"fmt"
	"strings"
	"testing"

	"hame/check"
	"hame/lang/source"
)

// branches is a main device with branches of 10 A behind it, each with a lamp.
func branches(battery, main string, lampW float64, count int) string {
	var b strings.Builder
	fmt.Fprintf(&b, `harness branches { system 12 V; practice land; wire gxl; slack 100 mm }
zone dry { ambient 0..30 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; post M8; covered; %s }
protection %s
join bus pos { at shelf; ways 12; covered }
wire w1 main.pos -> m.in 16 mm2 red 0.15 m
wire w2 m.out -> pos 16 mm2 red 0.3 m
`, battery, main)
	for i := range count {
		fmt.Fprintf(&b, `protection fuse f%[1]d { at shelf; rating 10 A; covered }
load led l%[1]d { at shelf; draws %[2]g W; least 9 V; meant always }
wire a%[1]d pos -> f%[1]d.in 16 mm2 red 0.2 m
wire b%[1]d f%[1]d.out -> l%[1]d.pos 2.5 mm2 red 1 m
wire c%[1]d l%[1]d.neg -> main.neg 2.5 mm2 black 1 m
`, i, lampW)
	}
	return b.String()
}

// Gates from memory (ISO 8820-3 type C, ISO 8820-5, SAE J553): a branch of 10 A
// may take 5 s at 20 A. A main of the same blade may be gone in 0.15 s; one of 20 A
// holds at that, but not with 10 A of other lamps; a strip of 60 A holds at every
// current with them.
func TestOrder(t *testing.T) {
	const known, unknown = "resistance 12 mohm", "standby 1 mA"
	for name, c := range map[string]struct{ text, rule, subject, want string }{
		"the same rating":      {branches(known, "fuse m { at shelf; rating 10 A; covered }", 24, 1), "protection/order", "m", "warning"},
		"a strip":              {branches(known, "fuse m { at shelf; rating 60 A; family strip; covered }", 60, 6), "protection/order", "m", ""},
		"a maxi":               {branches(known, "fuse m { at shelf; rating 40 A; family maxi; covered }", 24, 1), "protection/order", "m", ""},
		"twice the rating":     {branches(known, "fuse m { at shelf; rating 40 A; covered }", 1, 1), "protection/order", "m", ""},
		"with other loads":     {branches(known, "fuse m { at shelf; rating 40 A; covered }", 60, 6), "protection/order", "m", "warning"},
		"a bigger breaker":     {branches(known, "breaker m { at shelf; rating 40 A; breaks 5 kA; covered }", 24, 1), "protection/order", "m", ""},
		"a breaker no bigger":  {branches(known, "breaker m { at shelf; rating 10 A; breaks 5 kA; covered }", 24, 1), "protection/order", "m", "warning"},
		"unknown, at any rate": {branches(unknown, "fuse m { at shelf; rating 60 A; family strip; covered }", 60, 6), "protection/order", "main", ""},
		"unknown":              {branches(unknown, "fuse m { at shelf; rating 10 A; covered }", 24, 1), "protection/order", "main", "open"},
	} {
		if got := ruled(t, c.text, c.rule, c.subject); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// Two branches behind one main give one finding, on the main.
func TestOrderIsSaidOnce(t *testing.T) {
	count := 0
	for _, f := range check.File(source.New("t.hame", branches("resistance 12 mohm", "fuse m { at shelf; rating 10 A; covered }", 6, 3)), check.Options{}).Findings {
		if f.Rule == "protection/order" {
			count++
		}
	}
	if count != 1 {
		t.Errorf("%d findings", count)
	}
}

// A panel's ways add up as they can be on together: a switch with two throws
// feeds one heater or the other, never both.
func TestPanelAddsWhatIsOnTogether(t *testing.T) {
	const text = `harness panel { system 12 V; practice land; wire gxl; slack 100 mm }
zone dry { ambient 0..30 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse m { at shelf; rating 60 A; family post; covered }
switch toggle s1 { at shelf; rating 60 A; throws 2; tabs 6.3 }
protection panel p1 { at shelf; feed stud M6; limit LIMIT; each 30 A; tabs 6.3; way 1 fuse 30 A; way 2 fuse 30 A; covered }
load heater a { at shelf; draws 18 A at 12.6 V; least 9 V; meant always }
load heater b { at shelf; draws 18 A at 12.6 V; least 9 V; meant always }
wire w1 main.pos -> m.in 16 mm2 red 0.15 m
wire w2 m.out -> p1.feed 16 mm2 red 0.3 m
wire w3 p1.1 -> a.pos 4 mm2 red 1 m
wire w4 p1.2 -> b.pos 4 mm2 red 1 m
wire w5 a.neg -> RETURN 4 mm2 black 1 m
wire w6 b.neg -> RETURN2 4 mm2 black 1 m
`
	straight := strings.NewReplacer("RETURN2", "main.neg", "RETURN", "main.neg").Replace(text)
	turned := strings.NewReplacer("RETURN2", "s1.out2", "RETURN", "s1.out1").Replace(text) + "wire w7 s1.in -> main.neg 16 mm2 black 0.3 m\n"
	for name, c := range map[string]struct{ text, limit, want string }{
		"both":         {straight, "30 A", "error"},
		"both, enough": {straight, "40 A", ""},
		"either":       {turned, "20 A", ""},
		"one":          {turned, "15 A", "error"},
	} {
		if got := ruled(t, strings.Replace(c.text, "LIMIT", c.limit, 1), "protection/panel", "p1"); got != c.want {
			t.Errorf("%s: %q", name, got)
		}
	}
}

// A cable from battery to battery has a fuse at each end, and each battery opens
// its own: neither is out of order with the other, nor with what the second
// battery feeds.
func TestTwoBatteriesAreNoSeries(t *testing.T) {
	text := `harness two { system 12 V; practice land; wire gxl; slack 100 mm }
zone dry { ambient 0..30 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
supply battery second { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse fa { at shelf; rating 60 A; family post; covered }
protection fuse fb { at shelf; rating 60 A; family post; covered }
protection fuse fc { at shelf; rating 60 A; family post; covered }
load led lamp { at shelf; draws 60 W; least 9 V; meant always }
wire w1 main.pos -> fa.in 16 mm2 red 0.15 m
wire w2 fa.out -> fb.in 16 mm2 red 2 m
wire w3 fb.out -> second.pos 16 mm2 red 0.15 m
wire w4 second.pos -> fc.in 16 mm2 red 0.15 m
wire w5 fc.out -> lamp.pos 16 mm2 red 1 m
wire w6 lamp.neg -> main.neg 16 mm2 black 1 m
wire w7 second.neg -> main.neg 16 mm2 black 1 m
`
	for _, device := range []string{"fa", "fb", "fc"} {
		if got := ruled(t, text, "protection/order", device); got != "" {
			t.Errorf("%s: %q", device, got)
		}
	}
}

// TestOrderOfExclusiveLoads: what a switch of two throws turns on instead of the
// circuit behind the second device is no load beside its fault.
func TestOrderOfExclusiveLoads(t *testing.T) {
	text := func(heater string) string {
		return post{more: `protection fuse fm { at shelf; rating 30 A; covered }
protection fuse fb { at shelf; rating 10 A; covered }
switch toggle dip { at shelf; rating 30 A; throws 2; covered }
load led mark   { at shelf; draws 3 A; least 9 V; meant always }
load heater pad { at shelf; draws 20 A at 12 V; least 9 V; meant always }
wire a1 main.pos -> fm.in    4 mm2 red   0.1 m
wire a2 fm.out   -> dip.in   4 mm2 red   1 m
wire a3 dip.out1 -> fb.in    4 mm2 red   1 m
wire a4 fb.out   -> mark.pos 4 mm2 red   1 m
wire a5 ` + heater + ` -> pad.pos 4 mm2 red 1 m
wire a6 mark.neg -> main.neg 4 mm2 black 0.2 m
wire a7 pad.neg  -> main.neg 4 mm2 black 0.2 m
`}.text()
	}
	for heater, want := range map[string]string{"dip.out2": "", "dip.in": "warning"} {
		if got := ruled(t, text(heater), "protection/order", "fm"); got != want {
			t.Errorf("with the heater on %s: %q, want %q", heater, got, want)
		}
	}
}

// TestUncoveredPostOfTheMachine: the machine's own post is bare before the first
// new wire lands on it.
func TestUncoveredPostOfTheMachine(t *testing.T) {
	text := post{battery: "resistance 20 mohm; existing"}.text()
	text = strings.Replace(text, "covered; resistance", "resistance", 1)
	if got := ruled(t, text, "terminal/uncovered", "main"); got != "advice" {
		t.Errorf("said as %q, want advice", got)
	}
}
