package protect_test

import (
	"strings"
	"testing"

	"hame/check/network"
	"hame/check/protect"
	"hame/lang/harness"
	"hame/lang/source"
	"hame/lang/syntax"
)

const battery = `harness h { system 12 V; wire gxl }
supply battery main { capacity 70 Ah }
protection fuse a { rating 30 A }
protection fuse b { rating 20 A }
protection fuse c { rating 5 A }
join stud s { size M6 }
join stud u { size M6 }
load led l { draws 5 W }
load led k { draws 5 W }
wire back  l.neg -> main.neg 2.5 mm2 1 m
wire back2 k.neg -> main.neg 2.5 mm2 1 m
`

func find(t *testing.T, text string) (*network.Network, *protect.Result) {
	t.Helper()
	r := harness.Bind(syntax.Parse(source.New("t.hame", battery+text)), harness.Options{})
	if len(r.Findings) > 0 {
		t.Fatalf("%s", r.Findings[0].Message)
	}
	n := network.Build(r.Harness)
	return n, protect.Find(n)
}

func names(list []*network.Device) string {
	var all []string
	for _, d := range list {
		all = append(all, d.Name)
	}
	return strings.Join(all, " ")
}

// want says, for each wire: the devices from the source on, those that a fault
// cannot get round, and the bare length to its far end.
func want(t *testing.T, text, wires string) {
	t.Helper()
	n, found := find(t, text)
	for _, w := range n.Harness.Wires {
		c := found.Cover(w)
		got := w.Name + ":"
		for _, p := range c.Paths {
			got += " " + names(p.Chain) + "/" + names(p.Alone)
			if p.Bare {
				got += "bare"
			}
		}
		if strings.Contains(wires, w.Name+":") && !strings.Contains(wires+"\n", got+"\n") {
			t.Errorf("%s; want among\n%s", got, wires)
		}
	}
}

func TestSeries(t *testing.T) {
	want(t, `wire w1 main.pos -> a.in 6 mm2 0.1 m
wire w2 a.out -> b.in 6 mm2 1 m
wire w3 b.out -> l.pos 2.5 mm2 1 m
wire w4 a.out -> k.pos 2.5 mm2 1 m
`, `w1: /bare
w2: a/a
w3: a b/a b
w4: a/a
back:`)
}

// TestParallel: what two fuses feed side by side, neither protects alone.
func TestParallel(t *testing.T) {
	want(t, `wire w1 main.pos -> a.in 6 mm2 0.1 m
wire w2 main.pos -> b.in 6 mm2 0.1 m
wire w3 a.out -> s 6 mm2 1 m
wire w4 b.out -> s 6 mm2 1 m
wire w5 s -> c.in 6 mm2 1 m
wire w6 c.out -> l.pos 1 mm2 1 m
`, `w1: /bare
w2: /bare
w3: a/
w4: a/
w5: a/
w6: a c/c`)
}

// TestDiode: a fault is fed forwards through a diode and not backwards.
func TestDiode(t *testing.T) {
	want(t, `switch diode d { rating 5 A }
wire w1 main.pos -> a.in 6 mm2 0.1 m
wire w2 a.out -> d.anode 6 mm2 1 m
wire w3 d.cathode -> l.pos 2.5 mm2 1 m
wire w4 main.pos -> b.in 6 mm2 0.1 m
wire w5 b.out -> k.pos 2.5 mm2 1 m
`, `w2: a/a
w3: a/a
w5: b/b`)
}

// TestBare: what leads to devices alone, and what leads to a load.
func TestBare(t *testing.T) {
	n, found := find(t, `load starter m { draws 2 kW }
wire w1 main.pos -> s 6 mm2 0.1 m
wire w2 s -> a.in 6 mm2 0.2 m
wire w3 a.out -> l.pos 2.5 mm2 1 m
wire w4 s -> u 6 mm2 0.3 m
wire w5 u -> k.pos 2.5 mm2 1 m
wire w6 main.pos -> m.pos 35 mm2 1 m
wire w7 m.neg -> main.neg 35 mm2 1 m
`)
	wires, below := found.Sources[0].Bare()
	var got []string
	for _, w := range wires {
		b := below[w]
		line := w.Name
		if len(b.Loads) > 0 {
			line += " load"
		}
		if len(b.Fuses) > 0 {
			line += " fuse"
		}
		if b.Starter {
			line += " starter"
		}
		if b.Upstream != nil {
			line += " after " + b.Upstream.Name
		}
		got = append(got, line)
	}
	text := strings.Join(got, "\n")
	if text != `w1 load fuse
w2 fuse after w1
w4 load after w1
w6 starter
w5 load after w4` {
		t.Errorf("bare:\n%s", text)
	}
	for _, e := range n.Elements {
		if e.Name == "a" && e.Kind == network.Fuse {
			way, distM, known := found.Sources[0].WayTo(e.A)
			if len(way) != 2 || distM < 0.3-1e-12 || distM > 0.3+1e-12 || !known {
				t.Errorf("the way to a: %d wires, %g m, %t", len(way), distM, known)
			}
		}
	}
}

// TestOrderOfTwoSources: what stands behind the devices of both sources comes
// after both, whatever the order of the text.
func TestOrderOfTwoSources(t *testing.T) {
	n, found := find(t, `supply battery other { capacity 70 Ah }
wire w0 other.neg -> main.neg 6 mm2 1 m
wire w1 main.pos -> a.in 6 mm2 0.1 m
wire w2 other.pos -> b.in 6 mm2 0.1 m
wire w3 a.out -> s 6 mm2 1 m
wire w4 b.out -> s 6 mm2 1 m
wire w5 s -> c.in 6 mm2 1 m
wire w6 c.out -> l.pos 1 mm2 1 m
`)
	for _, w := range n.Harness.Wires {
		if w.Name == "w6" && names(found.Cover(w).By) != "a b c" {
			t.Errorf("protected by %s", names(found.Cover(w).By))
		}
	}
}
