package network_test

import (
	"strings"
	"testing"

	"hame/check/network"
	"hame/lang/harness"
	"hame/lang/source"
	"hame/lang/syntax"
)

// TestSides: the network says what is feed and what is return, never the
// colour (language: meaning, return side).
func TestSides(t *testing.T) {
	for name, c := range map[string]struct{ text, want string }{
		"chassis return": {`ground chassis frame
wire f main.pos -> l.pos 1 mm2 black 1 m
wire r l.neg -> frame 1 mm2 red 1 m
wire b main.neg -> frame 1 mm2 red 1 m
`, "f feed, r return, b return"},
		"wired return": {`wire f main.pos -> l.pos 1 mm2 1 m
wire r l.neg -> main.neg 1 mm2 1 m
`, "f feed, r return"},
		"switched return": {`switch toggle s { rating 5 A }
wire f main.pos -> l.pos 1 mm2 1 m
wire m l.neg -> s.in 1 mm2 1 m
wire r s.out -> main.neg 1 mm2 1 m
`, "f feed, m between, r return"},
		"master in the negative": {`ground chassis frame
switch isolator s { rating 100 A; master }
wire f main.pos -> l.pos 1 mm2 1 m
wire r l.neg -> frame 1 mm2 1 m
wire n main.neg -> s.in 1 mm2 1 m
wire k s.out -> frame 1 mm2 1 m
`, "f feed, r return, n return, k return"},
		"positive earth": {`ground chassis frame
wire f main.neg -> l.neg 1 mm2 1 m
wire r l.pos -> frame 1 mm2 1 m
wire b main.pos -> frame 1 mm2 1 m
`, "f feed, r return, b return"},
		"two batteries in series": {`supply battery top { capacity 70 Ah; volts 12 V }
wire f top.pos -> l.pos 1 mm2 1 m
wire j main.pos -> top.neg 1 mm2 1 m
wire r l.neg -> main.neg 1 mm2 1 m
`, "f feed, j feed, r return"},
		"fused feed through a relay": {`switch relay k { contacts 5 A; coil 96 ohm }
protection fuse p { rating 5 A }
wire a main.pos -> p.in 1 mm2 1 m
wire b p.out -> k.30 1 mm2 1 m
wire c k.87 -> l.pos 1 mm2 1 m
wire d p.out -> k.86 1 mm2 1 m
wire e k.85 -> main.neg 1 mm2 1 m
wire r l.neg -> main.neg 1 mm2 1 m
`, "a feed, b feed, c feed, d feed, e return, r return"},
	} {
		r := harness.Bind(syntax.Parse(source.New("t.hame",
			"harness h { system 12 V }\nsupply battery main { capacity 70 Ah; volts 12 V }\nload led l { draws 5 W }\n"+c.text)), harness.Options{})
		if len(r.Findings) > 0 {
			t.Fatalf("%s: %s", name, r.Findings[0].Message)
		}
		n := network.Build(r.Harness)
		var got []string
		for _, w := range r.Harness.Wires {
			got = append(got, w.Name+" "+string(n.Side(w)))
		}
		if text := strings.Join(got, ", "); text != c.want {
			t.Errorf("%s: %s, want %s", name, text, c.want)
		}
	}
}
