package harness

import (
	"fmt"
	"runtime"
	"strings"
	"testing"

	"hame/lang/source"
	"hame/lang/syntax"
)

// TestReadingAhead: what is read ahead comes to the same as what is read in turn,
// with mistakes or without, and says them in the same order.
func TestReadingAhead(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	for name, options := range map[string]Options{"all": {}, "existing": {ExistingOnly: true}} {
		for _, every := range []int{0, 7} {
			runtime.GOMAXPROCS(1)
			alone := told(many(every), options)
			runtime.GOMAXPROCS(4)
			for range 5 {
				if got := told(many(every), options); got != alone {
					t.Fatalf("%s, a mistake each %d: read ahead\n%s\nread in turn\n%s", name, every, got, alone)
				}
			}
			if every > 0 != strings.Contains(alone, "value/range") {
				t.Errorf("%s, a mistake each %d, but the findings are\n%.2000s", name, every, alone)
			}
		}
	}
}

// mistakes go one after the other into what many writes.
var mistakes = []string{
	"load led NAME { draws 1 furlong }", "load lad NAME { at a; draws 1 W }", "load led NAME { at nowhere; draws 1 W; draws 2 W }",
	"wire NAME f.out -> f.nose 1 mm2 gxl", "wire NAME f.out -> f.out 3 mm2 pink purple", "load of NAME { colour red }",
	"load lamp NAME { least 20 V; most 10 V }", "load led lamp { draws -1 W }", "wire NAME f.out -> nowhere 1 mm2 0,5 m { via b, c }",
	"wire NAME capped -> f.out 1 mm2 { via c; note \"torn }", "load led NAME { at c; draws 1 W; input up 1 W }", "switch toggle capped { rating 5 A }",
	"protection panel NAME { at a; limit 5 A; way 1 fuse 3 A; each 9 A; way 2 fuse 11 A; way 1 spare }", "load lamp2 NAME { draws }",
}

// many writes a harness that is worth reading ahead, with a mistake at every so
// many lamps.
func many(every int) string {
	var b strings.Builder
	b.WriteString(`harness h { system 12 V; wire gxl; slack 20 mm }
zone dry { ambient -20..40 degC }
zone wet { ambient 0..80 degC }
place a in dry
place c in wet
bundle b a -> c 2 m { cover loom_pa 12 }
part lamp is load led { at c; draws 5 W; tabs 6.3; existing }
part lamp2 is load lamp { draws 3 A }
protection fuse f { at a; rating 10 A; existing }
`)
	for i := range 2 * worthwhile {
		kind := []string{"led", "lamp", "lamp2"}[i%3]
		fmt.Fprintf(&b, "load %s l%d { at c; draws %d W; least 9 V%s }\n", kind, i, i%50+1, []string{"", "; existing"}[i%2])
		fmt.Fprintf(&b, "wire w%d f.out -> l%d.pos 1.5 mm2 red/blue { label \"%d\"%s }\n", i, i, i, []string{"; via b", "; existing"}[i%2])
		if every > 0 && i%every == 0 {
			fmt.Fprintln(&b, strings.Replace(mistakes[i/every%len(mistakes)], "NAME", fmt.Sprint("x", i), 1))
		}
	}
	return b.String()
}

// told is all that binding a text comes to, in words.
func told(text string, o Options) string {
	var b strings.Builder
	r := Bind(syntax.Parse(source.New("t.hame", text)), o)
	for _, f := range r.Findings {
		fmt.Fprintln(&b, f.At.Span, f.Rule, f.Subject, f.Message, f.Figures, f.Needs)
		for _, x := range f.Related {
			fmt.Fprintln(&b, "\t", x.Span, x.Message)
		}
	}
	h := r.Harness
	for _, d := range h.Devices {
		fmt.Fprintln(&b, d.Name, d.Origin.Decl, nameOf(d.At), d.Existing)
		tellSettings(&b, d.settings)
		for _, p := range d.Terminals {
			fmt.Fprintln(&b, "\t", p.Index, p.Name, p.Fitting, len(p.Wires))
		}
	}
	for _, w := range h.Wires {
		fmt.Fprintln(&b, w.Name, w.Ends[0].Name(), w.Ends[1].Name(), w.Ends[1].Hardware, w.Size, w.Insulation, w.Colour, w.LengthM, w.HasLength, w.unsaid, w.Via)
		for _, z := range w.Zones() {
			fmt.Fprintln(&b, "\t", z.Name)
		}
		fmt.Fprintln(&b, "\t", bundleNames(w.Route))
		tellSettings(&b, w.settings)
	}
	fmt.Fprintln(&b, h.Hazy, h.Torn, h.mistaken)
	return b.String()
}

func tellSettings(b *strings.Builder, s settings) {
	for _, row := range s.kind.Settings {
		for _, a := range s.Given(row.Name) {
			fmt.Fprint(b, "\t", row.Name, a.Span)
			for _, v := range a.List {
				fmt.Fprint(b, " ", v.Word, v.Slot, v.Lo.SI, v.Hi().SI)
			}
			fmt.Fprintln(b)
		}
	}
}
