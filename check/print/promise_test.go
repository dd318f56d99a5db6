package print_test

import (
	"io/fs"
	"os"
	"slices"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"

	"hame/check"
	"hame/check/print"
	"hame/check/sheet"
	"hame/check/sheets"
	"hame/lang/source"
)

// packs are the packs of whole harnesses, and of broken ones.
func packs(t *testing.T, dirs ...string) []*sheets.Pack {
	t.Helper()
	var list []*sheets.Pack
	root := os.DirFS("../../examples")
	for _, dir := range dirs {
		files, err := fs.Glob(root, dir+"/*.hame")
		if err != nil || len(files) == 0 {
			t.Fatalf("no example in %s: %v", dir, err)
		}
		for _, name := range files {
			text, err := fs.ReadFile(root, name)
			if err != nil {
				t.Fatal(err)
			}
			read := func(library string) (string, error) {
				b, err := fs.ReadFile(root, library)
				return string(b), err
			}
			if run := check.File(source.New(name, string(text)), check.Options{Read: read}); run.Harness != nil {
				list = append(list, sheets.NewPack(run, sheets.Options{}))
			}
		}
	}
	return list
}

func allOf(p *sheets.Pack) []*sheet.Sheet {
	var list []*sheet.Sheet
	for _, m := range sheets.All() {
		s, _ := sheets.Of(p, m.Name)
		list = append(list, s)
	}
	return list
}

// TestRealText: no line of a real sheet is wider than the terminal, but for a
// word that is.
func TestRealText(t *testing.T) {
	for _, p := range packs(t, "sap_hauler", "forwarder", "trailer", "launch", "faulty") {
		for _, columns := range []int{100, 60} {
			var b strings.Builder
			if err := print.Text(&b, p.Head(), allOf(p), print.TextOptions{Columns: columns}); err != nil {
				t.Fatal(err)
			}
			for line := range strings.Lines(b.String()) {
				if n := len([]rune(strings.TrimSuffix(line, "\n"))); n > columns {
					t.Errorf("%s: %d columns, at most %d: %s", p.Harness.Name, n, columns, line)
				}
			}
		}
	}
}

// TestRealHTML holds the pages of real packs to what the made-up one is held to.
func TestRealHTML(t *testing.T) {
	for _, p := range packs(t, "sap_hauler", "forwarder", "trailer", "launch", "faulty") {
		var b strings.Builder
		if err := print.HTML(&b, p.Head(), allOf(p), print.HTMLOptions{}); err != nil {
			t.Fatal(err)
		}
		page := elements(t, b.String())
		holdsIDs(t, page)
		holdsPolicy(t, page)
		holdsHeadings(t, page)
		if count(page, "table") != count(page, "caption") || count(page, "table") != count(page, "thead") {
			t.Errorf("%s: a table without its caption or head", p.Harness.Name)
		}
	}
}

// TestRealCSV reads back every table of real packs: a line for each row, no two
// tables of a sheet of the same name, and no two columns of a table.
func TestRealCSV(t *testing.T) {
	for _, p := range packs(t, "sap_hauler", "forwarder", "trailer", "launch", "faulty") {
		for _, s := range allOf(p) {
			seen := map[string]bool{}
			for _, table := range s.Tables() {
				if seen[table.Name] || table.Name == "" {
					t.Errorf("%s of %s: two tables are named %q", s.Name, p.Harness.Name, table.Name)
				}
				seen[table.Name] = true
				lines := records(t, asCSV(t, table))
				rows := 0
				for _, r := range table.Rows {
					if !r.Total && r.Group == "" {
						rows++
					}
				}
				if len(lines) != rows+1 {
					t.Errorf("%s of %s, %s: %d lines for %d rows", s.Name, p.Harness.Name, table.Name, len(lines), rows)
				}
				if names := slices.Sorted(slices.Values(lines[0])); len(slices.Compact(names)) != named(table) {
					t.Errorf("%s of %s, %s: two columns of one name in %v", s.Name, p.Harness.Name, table.Name, lines[0])
				}
			}
		}
	}
}

// named counts the columns that CSV has.
func named(t *sheet.Table) int {
	n := 0
	for _, c := range t.Columns {
		if c.Name != "" {
			n++
		}
	}
	return n
}

// TestRealPDF: every page of a whole pack says what it has to.
func TestRealPDF(t *testing.T) {
	for _, p := range packs(t, "launch", "faulty")[:6] {
		for i, page := range pagesOf(t, asPDF(t, p.Head(), "letter", allOf(p)...)) {
			for _, words := range []string{p.Head().Verdict(), p.Head().Hash[:12], sheet.Defer} {
				if !strings.Contains(squeezed(page.words), squeezed(words)) {
					t.Errorf("%s, page %d has no %q", p.Harness.Name, i+1, words)
				}
			}
		}
	}
}

// TestAnyText: whatever the words, nothing panics, and no line of a text is wider
// than the terminal or has a character that moves the cursor.
func TestAnyText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.OneOf(rapid.String(), rapid.StringMatching(`[ -~]{0,200}`), rapid.SampledFrom([]string{hostile, "電池", strings.Repeat("x", 3000)}))
		table := &sheet.Table{Name: "a", Title: words.Draw(t, "title")}
		for range rapid.IntRange(1, 8).Draw(t, "columns") {
			table.Columns = append(table.Columns, sheet.Column{Name: words.Draw(t, "name"), Unit: words.Draw(t, "unit"), Right: rapid.Bool().Draw(t, "right"), Blank: rapid.Bool().Draw(t, "blank")})
		}
		for range rapid.IntRange(0, 4).Draw(t, "rows") {
			row := sheet.Row{Total: rapid.Bool().Draw(t, "total")}
			for range rapid.IntRange(0, len(table.Columns)).Draw(t, "cells") {
				row.Cells = append(row.Cells, sheet.Is(words.Draw(t, "words")))
			}
			table.Rows = append(table.Rows, row)
		}
		s := &sheet.Sheet{Name: "a", Title: words.Draw(t, "sheet")}
		s.Add(sheet.Heading{Words: words.Draw(t, "heading")}, table, sheet.Steps{Items: []sheet.Step{{Words: words.Draw(t, "step"), Detail: words.Draw(t, "detail")}}})
		var b strings.Builder
		if err := print.Text(&b, sheet.Head{Title: words.Draw(t, "harness")}, []*sheet.Sheet{s}, print.TextOptions{Columns: 72}); err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(b.String()) {
			line = strings.TrimSuffix(line, "\n")
			if strings.ContainsAny(line, "\r\x1b\x00\u202e\u2028") || letters(line) > 72 {
				t.Fatalf("the line %q", line)
			}
		}
		if err := print.PDF(&b, sheet.Head{Title: words.Draw(t, "paper")}, []*sheet.Sheet{s}, print.PDFOptions{}); err != nil {
			t.Fatal(err)
		}
	})
}

// letters counts what takes room on a line: accents take none.
func letters(line string) int {
	n := 0
	for _, r := range line {
		if !unicode.In(r, unicode.Mn, unicode.Me) {
			n++
		}
	}
	return n
}
