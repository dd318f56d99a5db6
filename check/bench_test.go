package check_test

import (
	"fmt"
	"strings"
	"testing"

	"hame/check"
	"hame/lang/source"
)

// machine writes a harness of about n wires: a battery, an alternator, and
// panels, each behind a relay that a key of its own works, with seven lamps on
// ways of their own, every second one behind a switch. The lamps are signal
// lamps, so that one battery stands for any number of them.
func machine(n int) string {
	var b strings.Builder
	b.WriteString(`harness machine { system 12 V; practice land; wire gxl; slack 100 mm }
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
	for p := 0; p*25 < n; p++ {
		block(&b, p)
	}
	return b.String()
}

func block(b *strings.Builder, p int) {
	fmt.Fprintf(b, `place p%[1]d in dry
bundle b%[1]d tray -> p%[1]d 1.2 m { cover loom_pa; clamp every 400 mm }
protection fuse f%[1]d { at tray; rating 40 A; family maxi; breaks 6 kA; covered }
protection fuse c%[1]d { at p%[1]d; rating 5 A; breaks 6 kA; covered }
switch key y%[1]d { at p%[1]d; rating 10 A; for inductive; tabs 6.3 }
protection panel aux%[1]d { at p%[1]d; feed stud M6; limit 80 A; each 20 A; tabs 6.3
`, p)
	for i := 1; i <= 7; i++ {
		fmt.Fprintf(b, "    way %d fuse 10 A\n", i)
	}
	fmt.Fprintf(b, `}
switch relay k%[1]d { at p%[1]d; contacts 70 A; coil 900 ohm; suppress resistor; tabs 9.5 }
ground stud g%[1]d { at p%[1]d; to frame; size M8; holds 16 }
wire w%[1]d_a main.pos -> f%[1]d.in 10 mm2 sgx red 0.15 m
wire w%[1]d_b f%[1]d.out -> k%[1]d.30 10 mm2 sgx red
wire w%[1]d_c k%[1]d.87 -> aux%[1]d.feed 10 mm2 sgx red
wire w%[1]d_i f%[1]d.out -> c%[1]d.in 10 mm2 sgx red
wire w%[1]d_j c%[1]d.out -> y%[1]d.in 1 mm2 red
wire w%[1]d_d y%[1]d.ign -> k%[1]d.86 1 mm2 yellow
wire w%[1]d_e k%[1]d.85 -> g%[1]d 1 mm2 black
`, p)
	for i := 1; i <= 7; i++ {
		fmt.Fprintf(b, "load led l%[1]d_%[2]d { at p%[1]d; draws 0.05 W; least 9 V }\n", p, i)
		if i%2 == 0 {
			fmt.Fprintf(b, `switch toggle s%[1]d_%[2]d { at p%[1]d; rating 20 A; for led; tabs 6.3 }
wire w%[1]d_f%[2]d aux%[1]d.%[2]d -> s%[1]d_%[2]d.in 2.5 mm2 blue
wire w%[1]d_g%[2]d s%[1]d_%[2]d.out -> l%[1]d_%[2]d.pos 2.5 mm2 blue
`, p, i)
		} else {
			fmt.Fprintf(b, "wire w%[1]d_f%[2]d aux%[1]d.%[2]d -> l%[1]d_%[2]d.pos 2.5 mm2 blue\n", p, i)
		}
		fmt.Fprintf(b, "wire w%[1]d_h%[2]d l%[1]d_%[2]d.neg -> g%[1]d 2.5 mm2 black\n", p, i)
	}
}

// The machine is sound, so that the benchmark tells what a check takes and not
// what it takes to write thousands of findings.
func TestMachineIsSound(t *testing.T) {
	for _, n := range []int{50, 500} {
		for _, f := range check.File(source.New("machine.hame", machine(n)), check.Options{}).Findings {
			t.Errorf("%d wires: %s: %s [%s]", n, f.Subject, f.Message, f.Rule)
		}
	}
}

// BenchmarkCheck is a full check of machines of many sizes, with the collector set
// as the command sets it (check.OneOff); the metric is the time for each wire.
func BenchmarkCheck(b *testing.B) {
	check.OneOff()
	for _, n := range []int{50, 500, 5_000, 50_000} {
		text := machine(n)
		wires := strings.Count(text, "\nwire ")
		b.Run(fmt.Sprintf("wires=%d", wires), func(b *testing.B) {
			b.ReportAllocs()
			b.SetBytes(int64(len(text)))
			for b.Loop() {
				check.File(source.New("machine.hame", text), check.Options{})
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(wires), "ns/wire")
		})
	}
}
