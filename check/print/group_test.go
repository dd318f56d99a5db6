package print_test

import (
	"slices"
	"strings"
	"testing"

	"hame/check/print"
	"hame/check/sheet"
)

// form has headings within, a column for programs and one for paper, and so many
// lines under its second heading.
func form(lines int) *sheet.Sheet {
	t := &sheet.Table{Name: "tests", Columns: []sheet.Column{
		{Name: "id", Title: "line", Small: true},
		{Name: "low", Title: "low", Program: true},
		{Title: "accept"},
		{Name: "reading", Title: "reading", Blank: true},
	}, Rows: []sheet.Row{{Group: "Bench", Detail: "With no power, and all unplugged."}, sheet.Cells("cont:w1", "0.00", "at most 0.50"), {Group: "Drops"}}}
	for range lines {
		t.Rows = append(t.Rows, sheet.Cells("drop:w1:night_haul", "1.5", "1.5..2.5"))
	}
	return &sheet.Sheet{Name: "tests", Title: "Test sheet", Blocks: []sheet.Block{t}}
}

// TestGroupCSV: what is for paper alone is not in CSV, what is for programs is.
func TestGroupCSV(t *testing.T) {
	want := [][]string{{"id", "low", "reading"}, {"cont:w1", "0.00", ""}, {"drop:w1:night_haul", "1.5", ""}}
	if got := records(t, asCSV(t, form(1).Tables()[0])); !slices.EqualFunc(got, want, slices.Equal) {
		t.Errorf("%q, want %q", got, want)
	}
}

// TestGroupText: the heading and its detail stand across the table, and no figure
// for programs is there, whether it is set as a table or as lists.
func TestGroupText(t *testing.T) {
	golden(t, "groups.txt", asText(t, 60, form(2)))
	if lists := asText(t, 40, form(1)); !strings.Contains(lists, "* Drops") || strings.Contains(lists, "low") {
		t.Errorf("it has no heading, or a column that is for programs:\n%s", lists)
	}
}

// TestGroupHTML: a heading is that of a group of rows, over all columns on paper.
func TestGroupHTML(t *testing.T) {
	page := asHTML(t, print.HTMLOptions{}, form(1))
	for _, has := range []string{`<th scope="rowgroup" colspan="3">Bench<span class="how">With no power, and all unplugged.</span></th>`, `<th scope="rowgroup" colspan="3">Drops</th>`} {
		if !strings.Contains(page, has) {
			t.Errorf("the page has no %s", has)
		}
	}
	if strings.Contains(page, ">low<") {
		t.Error("it has a column that is for programs")
	}
}

// TestGroupPDF: no heading stands at the foot of a page without a row, and each
// page on which its rows go on says which they are.
func TestGroupPDF(t *testing.T) {
	for lines := 20; lines < 60; lines++ {
		pages := pagesOf(t, asPDF(t, sampleHead(), "a4", form(lines)))
		for i, p := range pages {
			words := squeezed(p.words)
			if heading := strings.Count(words, "Drops"); heading != 1 {
				t.Errorf("%d lines: page %d of %d has %d headings", lines, i+1, len(pages), heading)
			}
			if (i > 0) != strings.Contains(words, squeezed("Drops (continued)")) || !strings.Contains(words, "1.5..2.5") {
				t.Errorf("%d lines: page %d of %d: its heading or a row under it is missing", lines, i+1, len(pages))
			}
		}
	}
}
