package sheets

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"hame/check"
	"hame/check/print"
	"hame/check/sheet"
	"hame/lang/source"
)

// plant writes a harness of about n wires: a battery, an alternator, and panels
// of six lamps each, every second one behind a switch; a mode in which all are
// on, one in which the engine rests, and one in which everything does.
func plant(n int) string {
	var b, all strings.Builder
	b.WriteString(`harness plant { system 12 V; practice land; wire gxl; slack 100 mm }
zone dry { ambient -20..40 degC }
place tray in dry
supply battery main { at tray; capacity 400 Ah; cranking 600 A; post M8; covered }
supply alternator alt { at tray; output 150 A; covered; studs M8 }
protection fuse af { at tray; rating 200 A; family strip; breaks 6 kA; covered }
ground chassis frame
wire wb main.neg -> frame 70 mm2 sgx black 0.4 m
wire wa alt.pos -> af.out 70 mm2 sgx red 0.1 m
wire wf main.pos -> af.in 70 mm2 sgx red 0.1 m
wire wn alt.neg -> frame 70 mm2 sgx black 0.4 m
`)
	for p := 0; p*17 < n-4; p++ {
		plantPanel(&b, &all, p)
	}
	closed := strings.TrimSuffix(all.String(), ", ")
	fmt.Fprintf(&b, "mode work { key on; engine running; closed %s; for 2 h }\n", closed)
	fmt.Fprintf(&b, "mode rest { key on; closed %s; for 5 min }\nmode parked { key off; for 72 h }\n", closed)
	return b.String()
}

func plantPanel(b, all *strings.Builder, p int) {
	fmt.Fprintf(b, `place p%[1]d in dry
bundle b%[1]d tray -> p%[1]d 1.2 m { cover loom_pa; clamp every 400 mm }
protection fuse f%[1]d { at tray; rating 40 A; family maxi; breaks 6 kA; covered }
protection panel aux%[1]d { at p%[1]d; feed stud M6; limit 80 A; each 20 A; tabs 6.3
`, p)
	for i := 1; i <= 6; i++ {
		fmt.Fprintf(b, "    way %d fuse 10 A\n", i)
	}
	fmt.Fprintf(b, `}
ground stud g%[1]d { at p%[1]d; to frame; size M8; holds 16 }
wire w%[1]d_a main.pos -> f%[1]d.in 10 mm2 sgx red 0.15 m
wire w%[1]d_b f%[1]d.out -> aux%[1]d.feed 10 mm2 sgx red
`, p)
	for i := 1; i <= 6; i++ {
		fmt.Fprintf(b, "load led l%[1]d_%[2]d { at p%[1]d; draws 0.5 W; least 9 V }\n", p, i)
		fmt.Fprintf(b, "wire w%[1]d_h%[2]d l%[1]d_%[2]d.neg -> g%[1]d 2.5 mm2 black\n", p, i)
		if i%2 != 0 {
			fmt.Fprintf(b, "wire w%[1]d_f%[2]d aux%[1]d.%[2]d -> l%[1]d_%[2]d.pos 2.5 mm2 blue\n", p, i)
			continue
		}
		fmt.Fprintf(b, `switch toggle s%[1]d_%[2]d { at p%[1]d; rating 20 A; for led; tabs 6.3 }
wire w%[1]d_f%[2]d aux%[1]d.%[2]d -> s%[1]d_%[2]d.in 2.5 mm2 blue
wire w%[1]d_g%[2]d s%[1]d_%[2]d.out -> l%[1]d_%[2]d.pos 2.5 mm2 blue
`, p, i)
		fmt.Fprintf(all, "s%d_%d, ", p, i)
	}
}

// TestPlantIsWhole: what the benchmark makes papers of is bound, and measured in
// its modes.
func TestPlantIsWhole(t *testing.T) {
	p := packOf(t, "plant.hame", plant(100))
	if h := p.Head(); h.Errors > 0 || len(p.Harness.Wires) < 100 || len(p.Harness.Modes) != 3 {
		t.Errorf("%d errors, %d wires, %d modes: %v", h.Errors, len(p.Harness.Wires), len(p.Harness.Modes), p.Run.Findings)
	}
}

// BenchmarkSheets makes each sheet, and the whole pack as PDF, of two examples and
// of two plants; the check before is not counted.
func BenchmarkSheets(b *testing.B) {
	check.OneOff()
	texts := map[string]string{"wires=500": plant(500), "wires=2400": plant(2400)}
	for _, name := range []string{"sap_hauler", "forwarder"} {
		text, err := fromExamples(name + "/harness.hame")
		if err != nil {
			b.Fatal(err)
		}
		texts[name] = text
	}
	for _, name := range []string{"sap_hauler", "forwarder", "wires=500", "wires=2400"} {
		run := check.File(source.New(name+"/harness.hame", texts[name]), check.Options{Today: "2026-01-01", Read: fromExamples})
		if run.Harness == nil {
			b.Fatalf("%s: no harness", name)
		}
		p := NewPack(run, Options{})
		for _, m := range All() {
			b.Run(name+"/"+m.Name, func(b *testing.B) {
				for b.Loop() {
					m.make(p)
				}
			})
		}
		b.Run(name+"/all_pdf", func(b *testing.B) {
			for b.Loop() {
				packAsPDF(b, p)
			}
		})
	}
}

func packAsPDF(b *testing.B, p *Pack) {
	var list []*sheet.Sheet
	for _, m := range All() {
		list = append(list, m.make(p))
	}
	var out bytes.Buffer
	if err := print.PDF(&out, p.Head(), list, print.PDFOptions{}); err != nil {
		b.Fatal(err)
	}
}
