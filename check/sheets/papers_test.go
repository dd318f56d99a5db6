package sheets

import (
	"bytes"
	"fmt"
	"math"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"hame/check"
	"hame/check/internal/yard"
	"hame/check/print"
	"hame/check/report"
	"hame/check/rules"
	"hame/check/sheet"
	"hame/lang/finding"
	"hame/lang/kinds"
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
	step := 1999 // a prime, so that the tears fall anywhere in a line
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
	for seed := range uint64(6) {
		text := yard.Make(seed).Print().Source
		t.Run(fmt.Sprintf("%s in yard %d", pattern, seed), func(t *testing.T) { f(t, packOf(t, "yard.hame", re.ReplaceAllString(text, with))) })
	}
}

// TestSurveyAsksEachFactOnce: every fact that a finding waits for is one line, and
// no line is of anything else.
func TestSurveyAsksEachFactOnce(t *testing.T) {
	asked := 0
	look := func(t *testing.T, p *Pack) {
		want := map[string]int{}
		for _, f := range p.Run.Findings {
			for _, n := range f.Needs {
				want[n.Name+" "+n.Setting] = 1
			}
		}
		got := map[string]int{}
		s, _ := Of(p, "survey")
		for _, table := range s.Tables() {
			if table.Name == "measured_by" {
				continue
			}
			for _, r := range table.Rows {
				asked++
				got[r.Cells[0].Words+" "+r.Cells[2].Words]++
				for k, name := range []string{"item", "kind", "setting", "find out", "unit", "how"} {
					if r.Cells[k].Words == "" && name != "kind" {
						t.Errorf("%s %s: %s is empty", r.Cells[0].Words, r.Cells[2].Words, name)
					}
				}
				if r.Cells[6].Words != "" || r.Cells[7].Words == "" {
					t.Errorf("%s: value %q, waits %q", r.Cells[0].Words, r.Cells[6].Words, r.Cells[7].Words)
				}
			}
		}
		if fmt.Sprint(want) != fmt.Sprint(got) {
			t.Errorf("the findings wait for %v, and asked is %v", want, got)
		}
	}
	under(t, "faulty", look)
	sound(t, look)
	badOnes(t, look)
	look(t, packOf(t, "half.hame", halfWritten))
	for _, setting := range []string{"idle", "clamp", "limit", "ambient", "coil", "at"} {
		altered(t, setting+` [^;}\n]*(;|\n|( }))`, "$2", look)
	}
	if asked < 120 {
		t.Errorf("only %d facts were asked for", asked)
	}
}

// TestSurveyKnowsHow: every setting of the table can be found out somehow, and has
// a unit or the words that it may be.
func TestSurveyKnowsHow(t *testing.T) {
	look := func(k *kinds.Kind) {
		for _, s := range k.Settings {
			l := report.Lack{Need: finding.Need{Name: "x", Setting: s.Name}, Kind: k, Row: s}
			if howTo(l) == "" || unitOf(l) == "" || findOut(l) == "" {
				t.Errorf("%s %s: %q, %q, %q", k.Title(), s.Name, howTo(l), unitOf(l), findOut(l))
			}
			if s.Required && ways[k.Name+" "+s.Name] == "" && ways[s.Name] == "" {
				t.Errorf("%s needs %s, and no way is named to find it out", k.Title(), s.Name)
			}
		}
	}
	for _, f := range kinds.Families {
		for _, k := range kinds.Of(f) {
			look(k)
		}
	}
	for _, name := range []string{"harness", "zone", "bundle", "wire"} {
		look(kinds.Form(name))
	}
}

// TestLoadsAddUp: a mode's loads come to what reports call its supply, and to the
// row that sums them up.
func TestLoadsAddUp(t *testing.T) {
	modes := 0
	sound(t, func(t *testing.T, p *Pack) {
		for n, m := range p.Harness.Modes {
			if p.unsolved(n) != "" {
				continue
			}
			modes++
			table := tableOf(t, p, "loads", "loads_"+m.Name)
			sum := 0.0
			for _, r := range table.Rows {
				if !r.Total && r.Cells[5].Words != unknown {
					sum += rawOf(t, r.Cells[5])
				}
			}
			want := *p.Figures.Modes[n].SupplyA
			const leaks = 2e-3 // what passes open contacts in the solver's eyes, and rounding
			if math.Abs(sum-want) > leaks+1e-4*want {
				t.Errorf("%s: the loads come to %g A, and the report says %g", m.Name, sum, want)
			}
			if rows := table.Rows; len(rows) > 0 && math.Abs(rawOf(t, rows[len(rows)-1].Cells[5])-sum) > leaks {
				t.Errorf("%s: the last row is no sum", m.Name)
			}
		}
	})
	if modes < 50 {
		t.Errorf("only %d modes were looked at", modes)
	}
}

// rawOf is a cell's figure as CSV has it.
func rawOf(t *testing.T, c sheet.Cell) float64 {
	t.Helper()
	if c.Raw == "" {
		t.Fatalf("%q has no figure", c.Words)
	}
	v, err := strconv.ParseFloat(c.Raw, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// TestHoursByPeukert: a battery monitor handbook (page 27, seen): 200 Ah drained at
// 50 A with an exponent of 1.25 give 67 %, 134 Ah; 100 Ah at 10, 25 and 50 A give
// 84, 67 and 56 % in its table, to a point. Nothing below the 20 hour rate gives more
// than is declared.
func TestHoursByPeukert(t *testing.T) {
	for _, c := range []struct{ capacityAh, amps, percent float64 }{
		{200, 50, 67}, {100, 10, 84}, {100, 25, 67}, {100, 50, 56}, {100, 5, 100}, {100, 0.02, 100},
	} {
		p := packOf(t, "drain.hame", fmt.Sprintf(`harness drain { system 12 V; wire gxl }
zone dry { ambient 20..20 degC }
place shelf in dry
supply battery main { at shelf; capacity %g Ah; resistance 1 mohm }
load motor pump { at shelf; draws %g A at 12 V }
wire w1 main.pos -> pump.pos 35 mm2 sgx red 0.1 m
wire w2 pump.neg -> main.neg 35 mm2 sgx black 0.1 m
mode run { charge 100 %% }
`, c.capacityAh, c.amps))
		rows := tableOf(t, p, "loads", "batteries").Rows
		if len(rows) != 1 {
			t.Fatalf("%d rows", len(rows))
		}
		want := c.percent / 100 * c.capacityAh / c.amps
		half, flat := rawOf(t, rows[0].Cells[5]), rawOf(t, rows[0].Cells[6])
		if math.Abs(flat-want) > want/c.percent || math.Abs(half-flat/2) > 1e-4*flat {
			t.Errorf("%g Ah at %g A: %g h to half and %g h to flat, want %g", c.capacityAh, c.amps, half, flat, want)
		}
		if got, figure := rawOf(t, rows[0].Cells[7]), *p.Figures.Modes[0].HoursToFlat; math.Abs(got-figure) > 1e-4*figure {
			t.Errorf("%g h, and the report says %g", got, figure)
		}
	}
}

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
	if met < 60 {
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

// TestProtectAgreesWithTheFindings: a device of which the schedule says NO is one
// that a rule speaks against, and the other way round.
func TestProtectAgreesWithTheFindings(t *testing.T) {
	said := 0
	look := func(t *testing.T, p *Pack) {
		slow, breaking := map[string]bool{}, map[string]bool{}
		for _, f := range p.Run.Findings {
			switch {
			case f.Severity == finding.Open:
			case f.Rule == "protection/slow":
				slow[f.Subject] = true
			case f.Rule == "protection/breaking" && f.Unit == "A":
				breaking[f.Subject] = true
			}
		}
		no := map[string]bool{}
		for _, r := range tableOf(t, p, "protect", "shorts").Rows {
			owner, _, _ := strings.Cut(r.Cells[0].Words, ".")
			if late := r.Cells[5].Words == "NO"; late != slow[r.Cells[0].Words] {
				t.Errorf("%s opens too late: %v, and a rule says so: %v", r.Cells[0].Words, late, !late)
			} else if late {
				said++
			}
			no[owner] = no[owner] || strings.HasPrefix(r.Cells[8].Words, "NO") || strings.Contains(r.Cells[8].Words, "warning")
		}
		for owner := range breaking {
			said++
			if !no[owner] {
				t.Errorf("a rule says that %s cannot break a short, and the schedule does not", owner)
			}
		}
	}
	under(t, "faulty", look)
	sound(t, look)
	badOnes(t, look)
	altered(t, `(way \d+ fuse) [\d.]+ A`, "$1 40 A", look)
	altered(t, `(cranking|resistance) [\d.]+ m?[Aohm]+`, "resistance 0.5 mohm", look)
	if said < 30 {
		t.Errorf("only %d were spoken of", said)
	}
}

// TestWalk: the walk comes by every place once.
func TestWalk(t *testing.T) {
	sound(t, func(t *testing.T, p *Pack) {
		seen := map[string]int{}
		for _, at := range walk(p.Harness) {
			seen[at.Name]++
		}
		for _, at := range p.Harness.Places {
			if seen[at.Name] != 1 {
				t.Errorf("%s is met %d times", at.Name, seen[at.Name])
			}
		}
	})
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
