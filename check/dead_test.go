package check_test

import (
	"fmt"
	"strings"
	"testing"

	"hame/check"
	"hame/lang/source"
)

// TestDeadAmongMany: a load whose contacts cannot be closed together has no
// feed, and is found among so many switches that not all positions are solved.
func TestDeadAmongMany(t *testing.T) {
	for _, lamps := range []int{1, 8, 40} {
		for throw, dead := range map[string]bool{"2": true, "1": false} {
			run := check.File(source.New("t.hame", amongMany(lamps, throw)), check.Options{})
			found := false
			for _, f := range run.Findings {
				if f.Rule == "graph/no-feed" {
					found = true
					if f.Subject != "dead" {
						t.Errorf("%d lamps: %s", lamps, f.Message)
					}
				}
			}
			if found != dead {
				t.Errorf("%d lamps, throw %s: found %t, want %t (%s)", lamps, throw, found, dead, run.Figures.Coverage.Method)
			}
		}
	}
}

// amongMany is a lamp behind the first throw of one pole and another of the
// second pole of the same switch, beside lamps with a switch each.
func amongMany(lamps int, throw string) string {
	var b strings.Builder
	b.WriteString(`harness many { system 12 V; practice land; wire gxl; slack 100 mm }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 90 Ah; resistance 15 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 40 A; family maxi; covered }
switch toggle both  { at shelf; rating 20 A; for led; poles 2; throws 2; tabs 6.3 }
load led dead       { at shelf; draws 3 W; least 9 V; meant always }
wire w1 main.pos -> f1.in     6 mm2 red   0.15 m
wire w2 f1.out   -> both.1.in 6 mm2 red   1 m
wire w3 both.1.out1 -> both.2.in 6 mm2 red 1 m
wire w5 dead.neg -> main.neg  6 mm2 black 1 m
`)
	fmt.Fprintf(&b, "wire w4 both.2.out%s -> dead.pos 6 mm2 red 1 m\n", throw)
	for i := range lamps {
		fmt.Fprintf(&b, `switch toggle s%[1]d { at shelf; rating 20 A; for led; tabs 6.3 }
load led l%[1]d { at shelf; draws 3 W; least 9 V; meant always }
wire a%[1]d f1.out -> s%[1]d.in 6 mm2 red 1 m
wire b%[1]d s%[1]d.out -> l%[1]d.pos 6 mm2 red 1 m
wire c%[1]d l%[1]d.neg -> main.neg 6 mm2 black 1 m
`, i)
	}
	return b.String()
}
