package sheets

import (
	"slices"
	"strings"
	"testing"
)

// leads is a lamp, a pump and a fan on leads of their own: one outside, one sealed
// in the dry, one in the dry.
const leads = `
harness leads { title "Leads"; system 12 V; practice land; wire gxl; slack 100 mm }
zone  shed { ambient -10..40 degC }
zone  yard { ambient -10..40 degC; exposure wet }
place shelf in shed
place post  in yard
bundle run shelf -> post 1.2 m { cover loom_pa; clamp every 400 mm; through none }
supply battery main  { at shelf; capacity 60 Ah; cranking 500 A; post M8; covered }
protection fuse feed { at shelf; rating 10 A; lead 2.5 mm2; covered }
load led lamp        { at post;  draws 12 W; least 9 V; lead 0.75 mm2; sealed IP67; meant always }
load motor pump      { at shelf; draws 3 A;  least 9 V; lead 4 mm2; sealed IP67; meant always }
load motor fan       { at shelf; draws 3 A;  least 9 V; lead 1.5 mm2; meant always }
load module box      { at shelf; draws 1 A;  least 9 V; lead 1 mm2; sealed IP67; meant always }
load heater pad      { at post;  draws 1 A;  least 9 V; lead 10 mm2; meant always }
ground stud neg      { at shelf; to frame; size M6; holds 6 }
ground chassis frame { }
wire w1  main.pos -> feed.in  2.5 mm2 red   0.15 m
wire w2  feed.out -> lamp.pos 2.5 mm2 red
wire w3  feed.out -> pump.pos 1.5 mm2 red
wire w4  feed.out -> fan.pos  1.5 mm2 red
wire w5  feed.out -> box.pos  1.5 mm2 red   { ends butt, bullet 4 male }
wire w6  feed.out -> pad.pos  1.5 mm2 red
wire w7  lamp.neg -> neg      2.5 mm2 black
wire w8  pump.neg -> neg      1.5 mm2 black
wire w9  fan.neg  -> neg      1.5 mm2 black
wire w10 box.neg  -> neg      1.5 mm2 black
wire w11 pad.neg  -> neg      1.5 mm2 black
wire w12 neg      -> main.neg 2.5 mm2 black
`

// By hand, by SAE AS7928 (from memory): 1.5 mm2 is 2960 circular mils, red or blue;
// 2.5 mm2 is 4934, blue; 0.75 mm2 is 1480, red; 4 mm2 is 7894, yellow; 10 mm2 has no
// coloured barrel. The fuse's lead takes all five wires in one barrel: 8.5 mm2. A
// sleeve where the device is sealed or sits in the wet (common practice, no source).
func TestLeadsByHand(t *testing.T) {
	p := packOf(t, "leads.hame", leads)
	holdsRows(t, tableOf(t, p, "ends", "ends"), []string{"wire", "lands_on", "hardware", "takes", "seal", "strip_mm"},
		"w1 | feed.in | butt | blue barrel, lead 2.5 mm2 |  | 7",
		"w2 | feed.out | butt | for 8.5 mm2, lead 2.5 mm2 |  | 10",
		"w2 | lamp.pos | butt | step-down, blue to red, lead 0.75 mm2 | sealing sleeve | 7",
		"w3 | pump.pos | butt | step-down, yellow to blue, lead 4 mm2 | sealing sleeve | 7",
		"w4 | fan.pos | butt | red or blue barrel, lead 1.5 mm2 |  | 7",
		"w5 | box.pos | bullet 4 male | red or blue barrel |  | 6",
		"w6 | pad.pos | butt | for 1.5 mm2, lead 10 mm2 | sealing sleeve | 7")
	holdsRows(t, tableOf(t, p, "parts", "terminals"), []string{"terminal", "holds", "quantity"},
		"butt | 1.5 mm2 to a lead of 4 mm2 | 2", "butt | 2.5 mm2 to a lead of 0.75 mm2 | 2", "bullet 4 male | 1.5 mm2 | 1")
	// Both ends of lamp, pump and pad, and the return of the box.
	holdsRows(t, tableOf(t, p, "parts", "seals"), []string{"of", "seal", "quantity"}, "butts at devices' leads | sealing sleeve | 7")
}

// TestExamplesSayAll: what customers see first has nothing open on its crimp table.
func TestExamplesSayAll(t *testing.T) {
	everyExample(t, func(t *testing.T, p *Pack) {
		for _, name := range []string{"ends", "wires", "parts"} {
			s, _ := Of(p, name)
			for _, table := range s.Tables() {
				for _, r := range table.Rows {
					for _, c := range r.Cells {
						if slices.Contains(strings.Fields(c.Words), unknown) {
							t.Errorf("%s, %s: %s is %s", name, table.Name, r.Name, c.Words)
						}
					}
				}
			}
		}
	})
}
