package sheets

import (
	"bytes"
	"fmt"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"hame/check"
	"hame/check/internal/yard"
	"hame/check/print"
	"hame/check/rules"
	"hame/check/sheet"
	"hame/lang/source"
	"hame/lang/tables"
)

// keptSheets are the papers that a machine is surveyed, fitted and kept by.
var keptSheets = []string{"survey", "protect", "loads", "live", "room", "install", "record"}

// TestKeptGolden shows them of a machine and a trailer, and of one with open
// findings.
func TestKeptGolden(t *testing.T) {
	for _, name := range []string{"sap_hauler", "trailer"} {
		under(t, name, func(t *testing.T, p *Pack) {
			for _, s := range keptSheets {
				made, _ := Of(p, s)
				golden(t, filepath.Join(name, s+".txt"), withoutHashes(printed(t, p, made)))
			}
		})
	}
	p := packOf(t, "half.hame", halfWritten)
	for _, s := range []string{"survey", "protect", "room", "record"} {
		made, _ := Of(p, s)
		golden(t, filepath.Join("half", s+".txt"), withoutHashes(printed(t, p, made)))
	}
}

// printed is a sheet as a terminal shows it: its drawings have tests of their own.
func printed(t *testing.T, p *Pack, s *sheet.Sheet) string {
	t.Helper()
	var out bytes.Buffer
	if err := print.Text(&out, p.Head(), []*sheet.Sheet{s}, print.TextOptions{Columns: 160}); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// withoutHashes: they change with every word of the examples and the libraries.
func withoutHashes(text string) string {
	return regexp.MustCompile(`\b([0-9a-f]{64}|[0-9a-f]{12})\b`).ReplaceAllString(text, "(hash)")
}

// TestKeptOfBrokenHarnesses: they come out whole whatever the harness is.
func TestKeptOfBrokenHarnesses(t *testing.T) {
	look := func(t *testing.T, p *Pack) { t.Helper(); inOrder(t, p, keptSheets) }
	under(t, "faulty", look)
	sound(t, look)
	badOnes(t, look)
	look(t, packOf(t, "line.hame", "harness line { system 12 V }\n"))
	look(t, packOf(t, "half.hame", halfWritten))
	text, err := fromExamples("forwarder/harness.hame")
	if err != nil {
		t.Fatal(err)
	}
	step := 3989 // a prime, so that the tears fall anywhere in a line
	if testing.Short() {
		step = 9973
	}
	for end := strings.Index(text, "{"); end < len(text); end += step {
		look(t, packOf(t, "forwarder/torn.hame", text[:end+1]))
	}
}

// inOrder makes sheets and looks that they are whole: a cell for each column, a
// name for each table once, and the same bytes again.
func inOrder(t *testing.T, p *Pack, names []string) {
	t.Helper()
	for _, name := range names {
		s, ok := Of(p, name)
		if !ok || len(s.Blocks) == 0 {
			t.Fatalf("%s is empty", name)
		}
		seen := map[string]bool{}
		for _, table := range s.Tables() {
			if seen[table.Name] || table.Name == "" {
				t.Errorf("%s: table %q comes twice", name, table.Name)
			}
			seen[table.Name] = true
			for _, r := range table.Rows {
				if len(r.Cells) != len(table.Columns) {
					t.Errorf("%s, %s: %d cells for %d columns", name, table.Name, len(r.Cells), len(table.Columns))
				}
			}
		}
		again, _ := Of(p, name)
		if text := printed(t, p, s); text != printed(t, p, again) || strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
			t.Errorf("%s differs from itself, or has a figure that is none", name)
		}
	}
}

// halfWritten lacks facts of many sorts, in two places and in none.
const halfWritten = `harness half { system 12 V; practice land; slack 100 mm }
zone  bay
zone  dry   { ambient 0..40 degC; exposure wet }
place tray in bay
place cab  in dry
bundle run tray -> cab 2 m { zone dry; cover loom_pa }
supply battery main { at tray; capacity 70 Ah; post M8 }
supply alternator alt { at tray; output 50 A }
supply tap lamps    { at cab; behind fuse 10 A; carries 4 A; live on; gauge 1 mm2 }
protection fuse f1  { at tray; rating 20 A; family glass; fitted 30 A }
protection panel p1 { at cab; limit 30 A; way 1 fuse 10 A "lamp"; way 2 spare "free"; tabs 6.3 }
switch relay k1     { at cab; contacts 30 A }
join connector x1   { at cab; ways 2 }
load led lamp       { at cab; draws 27 W }
load motor fan      { drives fan }
ground chassis frame
ground stud g1      { at cab; to frame; size M6 }
wire w1 main.pos  -> f1.in       4 mm2 red 0.15 m
wire w2 f1.out    -> k1.30       auto red
wire w3 k1.87     -> p1.feed     4 mm2 gxl red
wire w4 lamps.out -> k1.86       1 mm2 gxl yellow
wire w5 k1.85     -> g1          1 mm2 gxl black
wire w6 p1.1      -> x1.female.1 1 mm2 gxl blue
wire w7 x1.male.1 -> lamp.pos    1 mm2 gxl blue
wire w8 lamp.neg  -> g1          1 mm2 gxl black
wire w9 main.neg  -> frame       16 mm2 sgx black 0.3 m
wire w10 alt.pos  -> main.pos    16 mm2 sgx red 0.5 m
wire w11 alt.neg  -> frame       16 mm2 sgx black 0.5 m
mode going { key on; engine idle }
allow tap/unprotected on lamps because "its fuse is beside it" until 2027-05-31
`

// badOnes calls for what the rules give as examples of what they find.
func badOnes(t *testing.T, f func(*testing.T, *Pack)) {
	for _, r := range rules.All() {
		if len(r.BadWith) == 0 && strings.Contains(r.Bad, "harness ") {
			t.Run(r.Name, func(t *testing.T) { f(t, packOf(t, "bad.hame", r.Bad)) })
		}
	}
}

// altered calls for some sound harnesses in whose text a pattern is replaced.
func altered(t *testing.T, pattern, with string, f func(*testing.T, *Pack)) {
	re := regexp.MustCompile(pattern)
	for seed := range uint64(4) {
		text := yard.Make(seed).Print().Source
		t.Run(fmt.Sprintf("%s in yard %d", pattern, seed), func(t *testing.T) { f(t, packOf(t, "yard.hame", re.ReplaceAllString(text, with))) })
	}
}

// TestClamps: a run of 900 mm with a clamp every 300 mm has one at each end and two
// between (arithmetic).
func TestClamps(t *testing.T) {
	for _, c := range []struct {
		lengthM, everyM float64
		want            int
	}{{0.9, 0.3, 4}, {1, 0.3, 5}, {0.2, 0.3, 2}, {1.6, 0.4, 5}} {
		if got := clampsOn(c.lengthM, c.everyM); got != c.want {
			t.Errorf("%g m every %g m: %d, want %d", c.lengthM, c.everyM, got, c.want)
		}
	}
}

// TestThreads: the sheet quotes the table of tap drills and of torques.
func TestThreads(t *testing.T) {
	p := packOf(t, "spare.hame", spareYard)
	for _, r := range tableOf(t, p, "install", "threads").Rows {
		drills := tables.TapDrills(r.Cells[0].Words)
		if len(drills) != 1 || drills[0].Drill != r.Cells[2].Words {
			t.Errorf("%s: %s, and the table says %v", r.Cells[0].Words, r.Cells[2].Words, drills)
		}
	}
}

// BenchmarkKeptSheets makes each kept paper of the largest example.
func BenchmarkKeptSheets(b *testing.B) {
	text, err := fromExamples("forwarder/harness.hame")
	if err != nil {
		b.Fatal(err)
	}
	p := NewPack(check.File(source.New("forwarder/harness.hame", text), check.Options{Read: fromExamples}), Options{})
	for _, name := range keptSheets {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				Of(p, name)
			}
		})
	}
}
