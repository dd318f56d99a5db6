package core

import (
	"fmt"
	"strings"
	"testing"

	"hame/lang/source"
)

// switchboard is a harness with too many switches to solve all positions of.
func switchboard(n int) string {
	var b strings.Builder
	b.WriteString(`harness board { system 12 V; practice land; wire gxl; slack 100 mm }
zone z { ambient -20..50 degC }
place a in z
supply battery main { at a; capacity 70 Ah; cranking 620 A; post M8; covered }
ground chassis frame
join bus feed { at a; ways 100; size M8 }
protection fuse mf { at a; rating 80 A; family post; covered }
wire wm main.pos -> mf.in 16 mm2 sgx red 0.15 m
wire wn mf.out -> feed 16 mm2 sgx red 0.2 m
wire wg main.neg -> frame 16 mm2 sgx black 0.4 m
`)
	for i := range n {
		fmt.Fprintf(&b, `switch toggle s%[1]d { at a; rating 10 A; for led }
load led l%[1]d { at a; draws %[2]d W; least 9 V }
wire a%[1]d feed -> s%[1]d.in 1 mm2 red 1 m
wire b%[1]d s%[1]d.out -> l%[1]d.pos 1 mm2 blue 1 m
wire c%[1]d l%[1]d.neg -> frame 1 mm2 black 1 m
`, i, 3+i%7)
	}
	return b.String()
}

// A worst current that is a bound is called one wherever it is shown, and no
// other is: that of a few switches, which are all solved.
func TestBoundsAreCalledBounds(t *testing.T) {
	for n, bounds := range map[int]bool{2: false, 40: true} {
		if got := namedBounds(t, n); got > 0 != bounds {
			t.Errorf("%d switches: %d worst currents are bounds", n, got)
		}
	}
}

// namedBounds counts the bounds of a switchboard, and looks at how each is shown.
func namedBounds(t *testing.T, switches int) int {
	f := NewFile("/board.hame", switchboard(switches), 1)
	v := NewView().With(f)
	p := checked(v, f)
	everywhere := source.Span{End: len(f.Text)}
	hints := map[int]string{}
	for _, h := range p.WireHints(f.Path, everywhere) {
		hints[h.Offset] = h.Label
	}
	bounds := 0
	for _, w := range p.Run.Figures.Wires {
		is := w.Worst != nil && w.Worst.Bound
		if is {
			bounds++
		}
		note, _ := v.Hover(f, w.Wire.Origin.Name.Start, p)
		if got := strings.Contains(note.Plain(), "(bound)"); got != is {
			t.Errorf("%s: the hover calls its current a bound: %t\n%s", w.Wire.Name, got, note.Plain())
		}
		if got := strings.Contains(hints[lineEnd(w.Wire.Origin)], "(bound)"); got != is {
			t.Errorf("%s: the hint calls its current a bound: %t, %s", w.Wire.Name, got, hints[lineEnd(w.Wire.Origin)])
		}
	}
	main := p.device("mf")
	if title := p.lensOf(main); strings.Contains(title, "(bound)") != main.Worst.Bound {
		t.Errorf("the lens of the main fuse says %s", title)
	}
	return bounds
}
