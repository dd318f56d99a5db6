package sheets

import (
	"math"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"

	"hame/check/draw"
	"hame/check/internal/yard"
	"hame/check/network"
	"hame/check/sheet"
	"hame/lang/kinds"
)

// benchSheets are the papers that things are made by.
var benchSheets = []string{"wires", "ends", "pins", "panel", "parts", "labels"}

// sound calls for a pack of every example and of some made harnesses.
func sound(t *testing.T, f func(*testing.T, *Pack)) {
	everyExample(t, func(t *testing.T, p *Pack) { f(t, p) })
	for seed := range uint64(40) {
		t.Run("yard "+strconv.Itoa(int(seed)), func(t *testing.T) {
			f(t, packOf(t, "yard.hame", yard.Make(seed).Print().Source))
		})
	}
}

// tableOf is a table of a sheet.
func tableOf(t *testing.T, p *Pack, name, table string) *sheet.Table {
	t.Helper()
	s, ok := Of(p, name)
	if !ok {
		t.Fatalf("no sheet %s", name)
	}
	for _, x := range s.Tables() {
		if x.Name == table {
			return x
		}
	}
	t.Fatalf("%s has no table %s", name, table)
	return nil
}

// wordsOf is a table's column, rows that sum up left out.
func wordsOf(t *testing.T, table *sheet.Table, name string) []string {
	t.Helper()
	i := slices.IndexFunc(table.Columns, func(c sheet.Column) bool { return c.Name == name })
	if i < 0 {
		t.Fatalf("%s has no column %s", table.Name, name)
	}
	var list []string
	for _, r := range table.Rows {
		if !r.Total {
			list = append(list, r.Cells[i].Words)
		}
	}
	return list
}

func number(t *testing.T, words string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(strings.TrimPrefix(words, "at least "), 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func sumOf(t *testing.T, list []string) float64 {
	sum := 0.0
	for _, words := range list {
		if words != "" {
			sum += number(t, words)
		}
	}
	return sum
}

// Every end of every new wire is on the crimp table once, and none of the
// machine's own.
func TestEveryEndOnce(t *testing.T) {
	sound(t, func(t *testing.T, p *Pack) {
		want := map[string]int{}
		for _, w := range p.Harness.Wires {
			for _, e := range w.Ends {
				if !w.Existing {
					want[w.Name+" on "+e.Name()]++
				}
			}
		}
		table := tableOf(t, p, "ends", "ends")
		lands := wordsOf(t, table, "lands_on")
		for i, wire := range wordsOf(t, table, "wire") {
			want[wire+" on "+lands[i]]--
		}
		for end, left := range want {
			if left != 0 {
				t.Errorf("%s: off by %d", end, left)
			}
		}
	})
}

// The reels hold what is cut: pieces and metres, all in all.
func TestReelsHoldTheCutList(t *testing.T) {
	sound(t, func(t *testing.T, p *Pack) {
		wantM, pieces := 0.0, 0.0
		for _, w := range p.Harness.Wires {
			if !w.Existing {
				pieces++
				if m, ok := p.CutM(w); ok {
					wantM += m
				}
			}
		}
		cuts := tableOf(t, p, "wires", "wires")
		onList := 0.0
		for _, mm := range wordsOf(t, cuts, "cut_mm") {
			if mm != unknown {
				onList += number(t, mm) / 1000
			}
		}
		reels := tableOf(t, p, "wires", "reels")
		for what, gotM := range map[string]float64{"cut list": onList, "reels": sumOf(t, wordsOf(t, reels, "cut_m"))} {
			if math.Abs(gotM-wantM) > 1e-6 {
				t.Errorf("%s: %g m of %g m", what, gotM, wantM)
			}
		}
		if got := sumOf(t, wordsOf(t, reels, "pieces")); got != pieces {
			t.Errorf("%g pieces of %g", got, pieces)
		}
		buy, cut := wordsOf(t, reels, "buy_m"), wordsOf(t, reels, "cut_m")
		for i := range buy {
			if more := number(t, buy[i]) - 1.1*number(t, cut[i]); more < -1e-9 || more >= 0.1 {
				t.Errorf("%s m for %s m: a tenth more, to a tenth of a metre", buy[i], cut[i])
			}
		}
	})
}

// The parts list and the other papers have the same totals.
func TestPartsAgree(t *testing.T) {
	sound(t, func(t *testing.T, p *Pack) {
		wires, parts := tableOf(t, p, "wires", "reels"), tableOf(t, p, "parts", "reels")
		for _, name := range []string{"gauge", "colour", "pieces", "cut_m", "buy_m"} {
			if !slices.Equal(wordsOf(t, wires, name), wordsOf(t, parts, name)) {
				t.Errorf("reels differ in %s", name)
			}
		}
		crimps, bare := p.crimps(), 0.0
		for _, c := range crimps {
			if c.form() == "bare" {
				bare++
			}
		}
		terminals := sumOf(t, wordsOf(t, tableOf(t, p, "parts", "terminals"), "quantity"))
		contacts := sumOf(t, wordsOf(t, tableOf(t, p, "parts", "contacts"), "quantity"))
		if terminals+contacts+bare != float64(len(crimps)) {
			t.Errorf("%g terminals, %g contacts and %g bare ends for %d crimps", terminals, contacts, bare, len(crimps))
		}
	})
}

// Fuses to be fitted are those of the network that are not the machine's own.
func TestFusesAgree(t *testing.T) {
	sound(t, func(t *testing.T, p *Pack) {
		want, cards := 0.0, map[string]int{}
		for _, e := range p.Facts.Network.Elements {
			if e.Kind != network.Fuse || e.Fuse.Of.Existing || e.Fuse.Of.Is(kinds.Supply, "tap") {
				continue
			}
			cards[e.Fuse.Name]++
			if e.Fuse.Sort == "fuse" || e.Fuse.Of.Is(kinds.Protection, "panel") {
				want++
			}
		}
		table := tableOf(t, p, "parts", "fuses")
		if got := sumOf(t, wordsOf(t, table, "fitted")); got != want {
			t.Errorf("%g fuses of %g", got, want)
		}
		fitted, spare, buy := wordsOf(t, table, "fitted"), wordsOf(t, table, "spares"), wordsOf(t, table, "quantity")
		for i := range buy {
			if number(t, fitted[i])+number(t, spare[i]) != number(t, buy[i]) {
				t.Errorf("%s and %s are not %s", fitted[i], spare[i], buy[i])
			}
		}
		for _, c := range p.cards() {
			for _, s := range c.Slots {
				cards[s.Name]--
			}
		}
		for name, left := range cards {
			if left > 0 {
				t.Errorf("%s is on no card", name)
			}
		}
	})
}

// Seals and plugs on the parts list are those of the connectors' tables.
func TestSealsAgree(t *testing.T) {
	sound(t, func(t *testing.T, p *Pack) {
		s, _ := Of(p, "pins")
		want := map[string]float64{}
		for _, table := range s.Tables() {
			for _, fill := range wordsOf(t, table, "filled_with") {
				switch {
				case fill == "cavity plug":
					want["plug"]++
				case strings.Contains(fill, "wire seal"):
					want["seal"]++
				}
			}
		}
		got := map[string]float64{}
		seals := tableOf(t, p, "parts", "seals")
		pieces := wordsOf(t, seals, "quantity")
		for i, what := range wordsOf(t, seals, "seal") {
			switch {
			case what == "cavity plug":
				got["plug"] += number(t, pieces[i])
			case strings.HasPrefix(what, "wire seal"):
				got["seal"] += number(t, pieces[i])
			}
		}
		if got["plug"] != want["plug"] || got["seal"] != want["seal"] {
			t.Errorf("%v on the parts list, %v in the connectors", got, want)
		}
	})
}

// What is the machine's own is on no list of what to make or buy.
func TestOwnIsLeftOut(t *testing.T) {
	everyExample(t, func(t *testing.T, p *Pack) {
		devices := strings.Join(wordsOf(t, tableOf(t, p, "parts", "devices"), "for"), ", ")
		bought := strings.Split(devices, ", ")
		for _, d := range p.Harness.Devices {
			if d.Is(kinds.Join, "splice") {
				continue // it is a barrel, on the list of terminals
			}
			if d.Existing == slices.Contains(bought, d.Name) {
				t.Errorf("%s: existing %v, and bought %v", d.Name, d.Existing, !d.Existing)
			}
		}
		cut := wordsOf(t, tableOf(t, p, "wires", "wires"), "wire")
		for _, w := range p.Harness.Wires {
			if w.Existing == slices.Contains(cut, w.Name) {
				t.Errorf("%s: existing %v, and cut %v", w.Name, w.Existing, !w.Existing)
			}
		}
	})
}

// Each wire has two labels, each naming the end that it is not on.
func TestWireLabels(t *testing.T) {
	sound(t, func(t *testing.T, p *Pack) {
		table := tableOf(t, p, "labels", "wire_labels")
		if got, want := len(table.Rows), 2*len(p.NewWires()); got != want {
			t.Fatalf("%d labels, want %d", got, want)
		}
		then := wordsOf(t, table, "second_line")
		for i, w := range p.NewWires() {
			for n := range w.Ends {
				if want := "to " + w.Ends[1-n].Name(); !strings.HasSuffix(then[2*i+n], want) {
					t.Errorf("%s: %q, want %q", w.Name, then[2*i+n], want)
				}
			}
		}
	})
}

// A half has live pins exactly where the rule connector/live-male says so.
func TestLiveHalvesAgreeWithTheRule(t *testing.T) {
	met := 0
	every := func(t *testing.T, p *Pack) {
		said := map[string]bool{}
		for _, f := range p.Run.Findings {
			if f.Rule == "connector/live-male" {
				said[f.Subject] = true
				met++
			}
		}
		for _, d := range p.connectors() {
			live := slices.ContainsFunc(d.Terminals, func(at *terminal) bool {
				return strings.HasPrefix(at.Name, "male.") && len(at.Wires) > 0 && p.liveApart(at)
			})
			if live != said[d.Name] {
				t.Errorf("%s: live pins %v, and the rule says %v", d.Name, live, said[d.Name])
			}
		}
	}
	sound(t, every)
	under(t, "faulty", every)
	if met == 0 {
		t.Error("no harness has live pins: nothing was compared")
	}
}

// Pictures of true size hold all that is drawn, whatever the names and labels,
// and fit on paper: A4 with margins of 10 mm is 190 mm wide.
func TestTrueSizePictures(t *testing.T) {
	check := func(t *testing.T, p *Pack) {
		seen := map[string]bool{}
		for _, name := range []string{"panel", "labels"} {
			s, _ := Of(p, name)
			for _, b := range s.Blocks {
				d, ok := b.(sheet.Drawing)
				if !ok {
					continue
				}
				for _, pic := range d.Pictures {
					box, some := draw.Bounds(pic.Items...)
					page := draw.Box{Right: pic.WidthMM, Bottom: pic.HeightMM}
					if !some || !box.Within(page) || pic.WidthMM > 190 || pic.HeightMM > 155 || !pic.TrueSize {
						t.Errorf("%s: %v in %v", pic.Name, box, page)
					}
					if seen[pic.Name] || path.Base(pic.Name) != pic.Name {
						t.Errorf("picture name %q", pic.Name)
					}
					seen[pic.Name] = true
				}
			}
		}
	}
	sound(t, check)
	check(t, packOf(t, "wide.hame", wide()))
}

// wide has a panel of many ways and labels that are too long for anything.
func wide() string {
	long := strings.Repeat("a very long label ", 20)
	var b strings.Builder
	b.WriteString("harness wide { wire gxl }\nplace place in z\nzone z { ambient 0..40 degC }\nprotection panel place_panel { limit 80 A; label \"" + long + "\"")
	for n := 1; n <= 50; n++ {
		b.WriteString("; way " + strconv.Itoa(n) + " fuse 10 A \"" + long + "\"")
	}
	b.WriteString(" }\nprotection fuse f1 { rating 10 A; label \"" + long + "\" }\n")
	b.WriteString("protection fuse f2 { at place; rating 10 A; volts 58 V }\nprotection breaker f3 { at place; rating 10 A; reset power }\nprotection link f4 { at place; gauge 2.5 mm2 }\n")
	b.WriteString("wire w1 f1.in -> place_panel.feed 4 mm2 red 1 m { label \"" + long + "\" }\n")
	return b.String()
}
