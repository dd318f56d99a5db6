package sheets

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"hame/lang/kinds"
)

// TestRoomAddsUp: what is used and what is left come to what may be carried; and a
// way is worth no more than any part on its feed or return has left.
func TestRoomAddsUp(t *testing.T) {
	parts, spare := 0, 0
	sound(t, func(t *testing.T, p *Pack) {
		left := map[string]float64{}
		for _, r := range tableOf(t, p, "room", "parts").Rows {
			if r.Cells[3].Words == unknown {
				continue
			}
			parts++
			may, used, rest := rawOf(t, r.Cells[3]), rawOf(t, r.Cells[4]), rawOf(t, r.Cells[5])
			if math.Abs(used+rest-may) > 1e-4*max(1, may) {
				t.Errorf("%s: %g used and %g left of %g", r.Cells[1].Words, used, rest, may)
			}
			left[r.Cells[1].Words] = rest
		}
		for _, r := range tableOf(t, p, "room", "ways").Rows {
			if r.Cells[3].Words == unknown {
				continue
			}
			spare++
			worth := rawOf(t, r.Cells[3])
			on := append(strings.Split(r.Cells[5].Words, ", "), strings.Split(r.Cells[6].Words, ", ")...)
			if slices.ContainsFunc(on, func(name string) bool { d := p.device(name); return d != nil && d.Is(kinds.Supply, "converter") }) {
				continue // amperes ahead of it are others
			}
			for _, name := range append(on, r.Cells[0].Words) {
				if rest, known := left[name]; known && worth > max(0, rest)*(1+1e-4)+1e-4 {
					t.Errorf("%s is worth %g A, and %s has %g left", r.Cells[0].Words, worth, name, rest)
				}
			}
		}
	})
	if parts < 500 || spare < 50 {
		t.Errorf("%d parts and %d ways were looked at", parts, spare)
	}
}

// TestRoomIsNoKinderThanTheRules: where a rule finds a device, contact, wire or tap
// with more than it may carry, the sheet has at least as much used, and less than
// nothing left where the practice's own limit is broken.
func TestRoomIsNoKinderThanTheRules(t *testing.T) {
	met := 0
	look := func(t *testing.T, p *Pack) {
		if !p.Facts.Judged() {
			return
		}
		used := map[string]float64{}
		for _, r := range tableOf(t, p, "room", "parts").Rows {
			owner, _, _ := strings.Cut(r.Cells[1].Words, ".")
			for _, name := range []string{owner, r.Cells[1].Words} {
				used[name] = max(used[name], rawOf(t, r.Cells[4]))
			}
		}
		for _, f := range p.Run.Findings {
			if !slices.Contains([]string{"switch/overloaded", "protection/loaded", "tap/overloaded", "ground/overloaded", "connector/overloaded"}, f.Rule) || f.Measured == nil || f.Unit != "A" {
				continue
			}
			met++
			if got, listed := used[f.Subject]; !listed || got < *f.Measured*(1-1e-4) {
				t.Errorf("%s of %s: %g A, and the sheet has %g used", f.Rule, f.Subject, *f.Measured, got)
			}
		}
	}
	under(t, "faulty", look)
	badOnes(t, look)
	altered(t, `(switch \w+ \w+ +\{[^}\n]*)(rating|contacts) [\d.]+ A`, "$1$2 1 A", look)
	altered(t, `draws ([\d.]+) `, "draws ${1}0 ", look)
	altered(t, `(limit|contacts|rating) [\d.]+ A`, "$1 1 A", look)
	altered(t, `(way \d+ fuse) [\d.]+ A`, "$1 1 A", look)
	if met < 40 {
		t.Errorf("only %d findings were met", met)
	}
}

// TestSpareWayIsCheckedByAdding: a load of what a spare way is worth passes every
// rule of current, and a load of a fifth more does not.
func TestSpareWayIsCheckedByAdding(t *testing.T) {
	const worth = 20 // the feed's 25 A at 80 %, less nothing
	for _, c := range []struct {
		amps   float64
		broken bool
	}{{worth - 0.2, false}, {worth * 1.2, true}} {
		p := packOf(t, "spare.hame", spareYard+fmt.Sprintf(`load heater pad { at shelf; draws %g A at 12.73 V; meant always }
wire w6 p1.2 -> pad.pos 6 mm2 red 1 m
wire w7 pad.neg -> g1 6 mm2 black 1 m
`, c.amps))
		broken := false
		for _, f := range p.Run.Findings {
			broken = broken || f.Rule == "protection/loaded" && f.Subject == "f1"
		}
		if broken != c.broken {
			t.Errorf("%g A more: %v", c.amps, broken)
		}
	}
	p := packOf(t, "spare.hame", spareYard)
	for _, r := range tableOf(t, p, "room", "ways").Rows {
		if r.Cells[0].Words == "p1.1" && (math.Abs(rawOf(t, r.Cells[3])-worth) > 0.01 || !strings.Contains(r.Cells[4].Words, "f1")) {
			t.Errorf("p1.1 is worth %s, bound by %s", r.Cells[3].Words, r.Cells[4].Words)
		}
	}
}

// spareYard is a panel of a great limit behind a small fuse.
const spareYard = `harness spare { system 12 V; practice land; wire gxl; slack 100 mm }
zone  dry   { ambient 0..30 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 25 A; covered }
protection panel p1 { at shelf; feed stud M6; limit 100 A; each 30 A; tabs 6.3; covered; way 1 spare; way 2 fuse 30 A }
ground chassis frame
ground stud g1 { at shelf; to frame; size M8; limit 100 A }
wire w1 main.pos -> f1.in   10 mm2 red 0.15 m
wire w2 f1.out   -> p1.feed 10 mm2 red 1 m
wire w3 main.neg -> frame   10 mm2 black 0.3 m
mode idle { for 1 h }
`
