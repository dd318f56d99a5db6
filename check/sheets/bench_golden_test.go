package sheets

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"hame/check"
	"hame/check/draw"
	"hame/check/print"
	"hame/check/sheet"
	"hame/lang/source"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden compares a text with its file below testdata.
func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s (go test ./check/sheets -update writes it anew):\n%s", file, diff)
	}
}

// asText is a sheet as a terminal shows it, then its pictures.
func asText(t *testing.T, p *Pack, s *sheet.Sheet) string {
	t.Helper()
	var out bytes.Buffer
	if err := print.Text(&out, p.Head(), []*sheet.Sheet{s}, print.TextOptions{Columns: 160}); err != nil {
		t.Fatal(err)
	}
	for _, b := range s.Blocks {
		if d, ok := b.(sheet.Drawing); ok {
			for _, pic := range d.Pictures {
				if err := draw.SVG(&out, pic); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
	return out.String()
}

// TestBenchGolden shows what a bench gets of a machine and of a trailer.
func TestBenchGolden(t *testing.T) {
	for _, name := range []string{"sap_hauler", "trailer"} {
		under(t, name, func(t *testing.T, p *Pack) {
			for _, s := range benchSheets {
				made, _ := Of(p, s)
				golden(t, filepath.Join(name, s+".txt"), withoutHash(p, asText(t, p, made)))
			}
		})
	}
}

// withoutHash: the hash changes with every word of the example.
func withoutHash(p *Pack, text string) string {
	return strings.ReplaceAll(text, p.Head().Hash[:12], "(hash)")
}

// The same harness gives the same bytes.
func TestBenchSameBytes(t *testing.T) {
	everyExample(t, func(t *testing.T, p *Pack) {
		for _, s := range benchSheets {
			first, _ := Of(p, s)
			again, _ := Of(p, s)
			if asText(t, p, first) != asText(t, p, again) {
				t.Errorf("%s differs from itself", s)
			}
		}
	})
}

// whole makes every bench sheet and looks that it is in order: a cell for each
// column, names for files and tables, each once.
func whole(t *testing.T, p *Pack) {
	t.Helper()
	for _, name := range benchSheets {
		s, ok := Of(p, name)
		if !ok || len(s.Blocks) == 0 {
			t.Fatalf("%s is empty", name)
		}
		seen := map[string]bool{}
		for _, table := range s.Tables() {
			if seen[table.Name] || len(table.Rows) == 0 && table.Empty == "" {
				t.Errorf("%s: table %q", name, table.Name)
			}
			seen[table.Name] = true
			for _, r := range table.Rows {
				if len(r.Cells) != len(table.Columns) {
					t.Errorf("%s, %s: %d cells for %d columns", name, table.Name, len(r.Cells), len(table.Columns))
				}
			}
		}
		asText(t, p, s)
	}
}

// Broken harnesses have papers too: every example of a fault, a harness of one
// line, and a sound one torn at any place.
func TestBenchOfBrokenHarnesses(t *testing.T) {
	under(t, "faulty", whole)
	everyExample(t, whole)
	whole(t, packOf(t, "line.hame", "harness line { system 12 V }\n"))
	text, err := fromExamples("sap_hauler/harness.hame")
	if err != nil {
		t.Fatal(err)
	}
	step := 997 // a prime, so that the tears fall anywhere in a line
	if testing.Short() {
		step = 4999
	}
	for end := strings.Index(text, "{"); end < len(text); end += step {
		whole(t, packOf(t, "sap_hauler/torn.hame", text[:end+1]))
	}
}

// BenchmarkBenchSheets makes all papers of the bench for the largest example.
func BenchmarkBenchSheets(b *testing.B) {
	text, err := fromExamples("forwarder/harness.hame")
	if err != nil {
		b.Fatal(err)
	}
	p := NewPack(check.File(source.New("forwarder/harness.hame", text), check.Options{Read: fromExamples}), Options{})
	for _, name := range benchSheets {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				Of(p, name)
			}
		})
	}
}
