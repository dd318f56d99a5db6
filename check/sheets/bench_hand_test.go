package sheets

import (
	"strings"
	"testing"

	"hame/check/sheet"
	"hame/lang/harness"
)

type terminal = harness.Terminal

// bench is a harness that can be worked by hand: two places 1.2 m apart, 100 mm
// slack, a plug with a spare cavity, a shared tab, a capped spare.
const bench = `
harness bench { title "Bench"; system 12 V; practice land; wire gxl; slack 100 mm }
zone  shed { ambient -10..40 degC }
place shelf, post in shed
bundle run shelf -> post 1.2 m { cover loom_pa; clamp every 400 mm; through bulkhead }
supply battery main  { at shelf; capacity 60 Ah; cranking 500 A; post M8; covered }
protection fuse feed { at shelf; rating 30 A; family post; covered }
protection panel aux { at shelf; feed stud M6; limit 30 A; tabs 6.3; way 1 fuse 10 A "lamps"; way 2 spare }
switch key ks        { at shelf; rating 30 A; tabs 6.3 }
switch toggle s1     { at post; rating 20 A; for led; tabs 6.3 }
join connector plug  { at post; ways 3; limit 20 A; seal IP67; lock; takes 1 mm2..4 mm2; way 1 "lamps" }
load led left        { at post; draws 27 W; least 9 V; tabs 6.3 }
load led right       { at post; draws 27 W; least 9 V; tabs 6.3 }
ground bus neg       { at post; ways 6; size M6 }
wire w1 main.pos      -> feed.in       6 mm2   red    0.15 m
wire w2 feed.out      -> ks.in         6 mm2   red    0.301 m
wire w3 ks.ign        -> aux.feed      6 mm2   red
wire w4 aux.1         -> plug.female.1 2.5 mm2 blue   { label "lamps" }
wire w5 plug.male.1   -> s1.in         2.5 mm2 blue
wire w6 s1.out        -> left.pos      1.5 mm2 blue
wire w7 s1.out        -> right.pos     1.5 mm2 blue
wire w8 left.neg      -> neg           1.5 mm2 black
wire w9 right.neg     -> neg           1.5 mm2 black
wire w10 neg          -> main.neg      6 mm2   black
wire w11 capped       -> capped        1 mm2   white  { via run }
`

// cells are a table's rows by the words of some columns.
func cells(t *testing.T, table *sheet.Table, names ...string) []string {
	t.Helper()
	rows := make([][]string, len(wordsOf(t, table, names[0])))
	for _, name := range names {
		for i, words := range wordsOf(t, table, name) {
			rows[i] = append(rows[i], words)
		}
	}
	var lines []string
	for _, r := range rows {
		lines = append(lines, strings.Join(r, " | "))
	}
	return lines
}

func holdsRows(t *testing.T, table *sheet.Table, columns []string, want ...string) {
	t.Helper()
	got := "\n" + strings.Join(cells(t, table, columns...), "\n") + "\n"
	for _, w := range want {
		if !strings.Contains(got, "\n"+w+"\n") {
			t.Errorf("%s lacks %q:%s", table.Name, w, got)
		}
	}
}

// By hand: w4 is 1.2 m + 2 x 0.1 m, w2 is 301 mm up to 310, w3 lies in one place
// and is two times the slack. All blue 2.5 mm2: 1.4 m + 0.2 m = 1.6 m; a tenth more
// is 1.76 m, to a tenth of a metre 1.8 m.
func TestCutListByHand(t *testing.T) {
	p := packOf(t, "bench.hame", bench)
	holdsRows(t, tableOf(t, p, "wires", "wires"), []string{"wire", "cut_mm", "hardware_a", "hardware_b", "label"},
		"w4 | 1400 | tab 6.3 female | socket | lamps", "w2 | 310 | ring M8 | tab 6.3 female | w2",
		"w3 | 200 | tab 6.3 female | ring M6 | w3", "w10 | 1400 | ring M6 | ring M8 | w10", "w11 | 1400 | cap | cap | w11")
	holdsRows(t, tableOf(t, p, "wires", "reels"), []string{"gauge", "colour", "pieces", "cut_m", "buy_m"},
		"2.5 mm2 | blue | 2 | 1.60 | 1.80", "6 mm2 | red | 3 | 0.66 | 0.80")
}

// By hand: w6 and w7 share the tab of s1.out, 3 mm2 in all: by SAE AS7928 (from
// memory) a yellow barrel, 5180 to 13100 circular mils. The battery is lead, so it
// gets no torque; 6 mm2 lies between 10 and 8 AWG.
func TestCrimpsByHand(t *testing.T) {
	p := packOf(t, "bench.hame", bench)
	holdsRows(t, tableOf(t, p, "ends", "ends"), []string{"wire", "lands_on", "hardware", "takes", "shares_with", "seal", "pull_table", "torque_nm"},
		"w6 | s1.out | tab 6.3 female | yellow barrel | w7 |  | UL 486A, 16..14 AWG | ",
		"w7 | s1.out | tab 6.3 female | yellow barrel | w6 |  | UL 486A, 16..14 AWG | ",
		"w1 | main.pos | ring M8 | yellow barrel |  |  | UL 486A, 10..8 AWG | maker's",
		"w1 | feed.in | ring M8 | yellow barrel |  |  | UL 486A, 10..8 AWG | 8..12",
		"w4 | plug.female.1 | socket | 1 mm2..4 mm2 |  | wire seal 3.4 mm | UL 486A, 14..12 AWG | ",
		"w11 | capped | cap | for 1 mm2 |  |  |  | ")
	holdsRows(t, tableOf(t, p, "ends", "pulls"), []string{"gauge", "ul486a_n", "nasa_n"}, "2.5 mm2 | 253 | none")
}

// By hand: the female half hangs on the key; pulled apart nothing feeds the male
// one. Two cavities of three are empty in each half.
func TestConnectorByHand(t *testing.T) {
	p := packOf(t, "bench.hame", bench)
	holdsRows(t, tableOf(t, p, "pins", "plug_female"), []string{"cavity", "wire", "far_end", "function", "filled_with", "live_apart"},
		"1 | w4 | aux.1 | lamps | socket, wire seal 3.4 mm | live, key on", "2 |  |  |  | cavity plug | ")
	holdsRows(t, tableOf(t, p, "pins", "plug_male"), []string{"cavity", "wire", "live_apart"}, "1 | w5 | ", "3 |  | ")
	holdsRows(t, tableOf(t, p, "parts", "seals"), []string{"of", "seal", "quantity"}, "plug | wire seal 3.4 mm | 2", "plug | cavity plug | 4")
}

// By hand: 1.2 m every 0.4 m is three stretches and four clamps; every 12 in it is
// four stretches and five ties. Two fuses have a spare each.
func TestPartsByHand(t *testing.T) {
	p := packOf(t, "bench.hame", bench)
	fixings := tableOf(t, p, "parts", "fixings")
	holdsRows(t, fixings, []string{"fixing", "quantity"}, "clamp | 4", "tie | 5", "grommet | 1")
	holdsRows(t, tableOf(t, p, "parts", "fuses"), []string{"device", "rating_a", "rated_v", "colour", "fitted", "spares", "quantity"},
		"blade fuse | 10 | 32 | red | 1 | 1 | 2", "post fuse | 30 | 58 |  | 1 | 1 | 2")
	holdsRows(t, tableOf(t, p, "parts", "terminals"), []string{"terminal", "holds", "quantity"},
		"tab 6.3 female | 1.5 mm2 + 1.5 mm2 | 1", "cap | 1 mm2 | 2", "tab 6.3 female | 1.5 mm2 | 4")
	holdsRows(t, tableOf(t, p, "panel", "fuses"), []string{"card", "way", "label", "device", "rating_a", "colour", "volts_v"},
		"aux | 1 | lamps | blade fuse | 10 | red | 32", "aux | 2 |  | spare |  |  | ", "shelf | feed |  | post fuse | 30 |  | 58")
}

// Spare fuses: a quarter, and at least one.
func TestSpares(t *testing.T) {
	for fitted, want := range map[int]int{1: 1, 4: 1, 5: 2, 8: 2, 9: 3} {
		if got := spares(fitted); got != want {
			t.Errorf("%d fitted: %d spare, want %d", fitted, got, want)
		}
	}
}

// By hand: ahead of the key all is unswitched, behind it nothing is.
func TestUnswitchedByHand(t *testing.T) {
	p := packOf(t, "bench.hame", bench)
	holdsRows(t, tableOf(t, p, "labels", "device_labels"), []string{"on", "second_line"},
		"feed | "+unswitchedWords, "ks | "+unswitchedWords, "aux | ", "s1 | ", "left | ", "neg | ",
		"plug female | stays live when pulled apart", "plug male | ",
		"main.pos | battery positive", "main.neg | battery negative: off first, on last")
}

// What is not known is shown and counted, never left out or guessed.
func TestUnknownFacts(t *testing.T) {
	p := packOf(t, "thin.hame", `harness thin { system 12 V }
supply battery main { capacity 60 Ah; cranking 500 A }
load led lamp { draws 9 W }
wire w1 main.pos -> lamp.pos auto
wire w2 lamp.neg -> main.neg 2.5 mm2 1 m
`)
	holdsRows(t, tableOf(t, p, "wires", "wires"), []string{"wire", "gauge", "insulation", "colour", "cut_mm", "strip_a_mm", "hardware_a"},
		"w1 | auto | ? | ? | ? | ? | ?", "w2 | 2.5 mm2 | ? | ? | 1000 | ? | ?")
	holdsRows(t, tableOf(t, p, "wires", "reels"), []string{"gauge", "pieces", "pieces_without_length", "cut_m"},
		"auto | 1 | 1 | at least 0.00", "2.5 mm2 | 1 |  | 1.00")
	s, _ := Of(p, "wires")
	var notes []string
	for _, b := range s.Blocks {
		if text, ok := b.(sheet.Text); ok {
			notes = append(notes, text.Words)
		}
	}
	all := strings.Join(notes, "\n")
	for _, want := range []string{"a gauge in place of auto of w1", "bundles between them, of w1", "tabs, studs, lead, size or post of lamp, main", "the colour of w2, w1", "the insulation of w2, w1"} {
		if !strings.Contains(all, want) {
			t.Errorf("no foot note has %q:\n%s", want, all)
		}
	}
}
