package lsp_test

import (
	"fmt"
	"strings"
)

// generated is a harness of about so many wires: lamps in groups of twelve,
// each behind its own fuse and switch, along branching bundles.
func generated(wires int) string {
	var b strings.Builder
	b.WriteString(generatedHead)
	const perGroup = 48
	groups := (wires + perGroup - 1) / perGroup
	from := "head"
	for g := range groups {
		fmt.Fprintf(&b, "place p%d in cab\n", g)
		fmt.Fprintf(&b, "bundle b%d %s -> p%d 0.5 m { cover loom_pa; clamp every 300 mm }\n", g, from, g)
		fmt.Fprintf(&b, "ground stud g%d { at p%d; to frame; size M6; holds 12 }\n", g, g)
		if from = fmt.Sprintf("p%d", g); g%8 == 0 {
			from = "head"
		}
	}
	const fixed = 3
	for i := range (wires - fixed) / 4 {
		fmt.Fprintf(&b, generatedLamp, i, i/(perGroup/4))
	}
	b.WriteString("mode run { key on; engine off; closed s0; for 1 h }\n")
	return b.String()
}

const generatedHead = `harness big { system 12 V; practice land; wire gxl; slack 100 mm }
zone cab { ambient -20..50 degC; exposure splash }
place head in cab
supply battery main { at head; capacity 70 Ah; cranking 620 A; post M8; covered }
ground chassis frame
join bus feed { at head; ways 100; size M8 }
protection fuse mf { at head; rating 80 A; family post; covered }
wire wm main.pos -> mf.in 16 mm2 sgx red 0.15 m
wire wn mf.out -> feed 16 mm2 sgx red 0.2 m
wire wg main.neg -> frame 16 mm2 sgx black 0.4 m
`

const generatedLamp = `protection fuse f%[1]d { at head; rating 5 A }
switch toggle s%[1]d { at p%[2]d; rating 10 A; for led }
load led l%[1]d { at p%[2]d; draws 6 W; least 9 V; polarity strict; sealed IP67 }
wire a%[1]d feed -> f%[1]d.in 1 mm2 red 0.2 m
wire c%[1]d f%[1]d.out -> s%[1]d.in 1 mm2 red
wire d%[1]d s%[1]d.out -> l%[1]d.pos 1 mm2 blue 0.3 m
wire e%[1]d l%[1]d.neg -> g%[2]d 1 mm2 black 0.3 m
`
