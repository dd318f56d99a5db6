package print_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/ledongthuc/pdf"

	"hame/check/draw"
	"hame/check/print"
	"hame/check/sheet"
)

func asPDF(t *testing.T, h sheet.Head, paper string, sheets ...*sheet.Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := print.PDF(&b, h, sheets, print.PDFOptions{Paper: paper}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// page is a page as another library reads it: its box in points, and its words.
type page struct {
	wide, high float64
	words      string
}

func pagesOf(t *testing.T, data []byte) []page {
	t.Helper()
	r, err := pdf.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var list []page
	for i := 1; i <= r.NumPage(); i++ {
		p := r.Page(i)
		words, err := p.GetPlainText(nil)
		if err != nil {
			t.Fatal(err)
		}
		box := p.V.Key("MediaBox")
		if box.IsNull() { // it is inherited
			box = p.V.Key("Parent").Key("MediaBox")
		}
		list = append(list, page{box.Index(2).Float64(), box.Index(3).Float64(), strings.Join(strings.Fields(words), " ")})
	}
	return list
}

// long is a sheet of a table over many pages.
func long(rows int) *sheet.Sheet {
	s := &sheet.Sheet{Name: "ends", Title: "Crimps and seals"}
	table := &sheet.Table{Name: "ends", Title: "Every end", Columns: []sheet.Column{{Name: "end", Title: "end of wire"}, {Name: "pull_n", Title: "pull", Unit: "N", Right: true}}}
	for i := range rows {
		table.Rows = append(table.Rows, sheet.Cells(fmt.Sprintf("w%d.a", i), "90"))
	}
	s.Add(table)
	return s
}

// TestPDFEveryPage: whatever page lies on the bench, it says of what it is, that
// it is not for building, what to beware of, and whom to ask.
func TestPDFEveryPage(t *testing.T) {
	pages := pagesOf(t, asPDF(t, sampleHead(), "a4", sample(), long(100)))
	if len(pages) != 6 {
		t.Errorf("%d pages, want 3 of the sample and 3 of 100 rows", len(pages))
	}
	for i, p := range pages {
		want := append([]string{
			"NOT FOR BUILD: 2 errors, 5 not judged", "Tender's loom", "tender.hame", "0123456789ab", "2027-05-31",
			fmt.Sprintf("page %d of %d", i+1, len(pages)), "certifies nothing.",
		}, sheet.Cautions[0])
		for _, words := range want {
			if !strings.Contains(squeezed(p.words), squeezed(words)) {
				t.Errorf("page %d has no %q: %s", i+1, words, p.words)
			}
		}
		if strings.Contains(p.words, "0123456789abc") {
			t.Errorf("page %d has more than 12 digits of the hash", i+1)
		}
	}
	for _, p := range pages[3:] { // the table's head stands on each of its pages
		if !strings.Contains(squeezed(p.words), "endofwire") {
			t.Errorf("no head on a further page: %s", p.words)
		}
	}
}

// squeezed has no blanks: readers part letters as they like.
func squeezed(text string) string { return strings.ReplaceAll(text, " ", "") }

// TestPDFForBuild: a harness with nothing against it has no verdict at all, least
// of all a kind one.
func TestPDFForBuild(t *testing.T) {
	h := sampleHead()
	h.Errors, h.Open, h.Date = 0, 0, ""
	for _, p := range pagesOf(t, asPDF(t, h, "a4", sample())) {
		if strings.Contains(p.words, "BUILD") || strings.Contains(p.words, "2027") {
			t.Errorf("a verdict or date where there is none: %s", p.words)
		}
	}
}

// TestPDFPaper: A4 is 210 by 297 mm (ISO 216), Letter 8.5 by 11 in (ANSI/ASME
// Y14.1); a point is 1/72 in (ISO 32000-1, 8.3.2.3). All from memory. The picture
// of the sample lies.
func TestPDFPaper(t *testing.T) {
	for paper, want := range map[string][2]float64{"a4": {595.28, 841.89}, "letter": {612, 792}, "": {595.28, 841.89}} {
		pages := pagesOf(t, asPDF(t, sampleHead(), paper, sample()))
		for i, upright := range []bool{true, false, true} {
			wide, high := want[0], want[1]
			if !upright {
				wide, high = high, wide
			}
			if got := pages[i]; math.Abs(got.wide-wide) > 0.02 || math.Abs(got.high-high) > 0.02 {
				t.Errorf("%s page %d is %.2f x %.2f points, want %.2f x %.2f", paper, i+1, got.wide, got.high, wide, high)
			}
		}
	}
	if err := print.PDF(&bytes.Buffer{}, sampleHead(), nil, print.PDFOptions{Paper: "a3"}); err == nil {
		t.Error("a paper that nobody has is taken")
	}
}

func TestPDFLyingForWideTables(t *testing.T) {
	s := &sheet.Sheet{Title: "Wide"}
	table := &sheet.Table{}
	for i := range 12 {
		table.Columns = append(table.Columns, sheet.Column{Name: fmt.Sprintf("resistance_%d", i)})
	}
	table.Rows = []sheet.Row{sheet.Cells("x")}
	s.Add(table)
	if p := pagesOf(t, asPDF(t, sampleHead(), "", s))[0]; p.wide < p.high {
		t.Error("a table of twelve wide columns stands on an upright page")
	}
	if p := pagesOf(t, asPDF(t, sampleHead(), "", long(3)))[0]; p.wide > p.high {
		t.Error("a table of two columns lies")
	}
}

func TestPDFSameBytes(t *testing.T) {
	want := asPDF(t, sampleHead(), "a4", sample(), long(30))
	for range 5 {
		if !bytes.Equal(want, asPDF(t, sampleHead(), "a4", sample(), long(30))) {
			t.Fatal("the same sheets gave other bytes")
		}
	}
}

// lettersSheet has letters that the fonts have, and some that they lack.
func lettersSheet() *sheet.Sheet {
	s := &sheet.Sheet{Title: "電", Purpose: "µ ° é ½ Ω Ж ≤ \U0001f50b \U0010ffff \x00\xff"}
	s.Add(sheet.Text{Words: "電池"}, sheet.Drawing{Pictures: []*draw.Picture{{Title: "\U0001f50b", WidthMM: 10, HeightMM: 10, Items: []draw.Item{draw.Text{Words: "電\U0001f50b", SizeMM: 3}}}}})
	return s
}

// TestPDFLetters: letters that the fonts lack stand by their numbers. The reader
// of this test knows no letters above U+00FF.
func TestPDFLetters(t *testing.T) {
	pages := pagesOf(t, asPDF(t, sheet.Head{Title: "池", Hash: "ab"}, "", lettersSheet()))
	for _, words := range []string{"[U+96FB][U+6C60]", "µ", "°", "é", "½", "[U+1F50B]", `\u10ffff`, `\x00`, `\xff`} {
		if !strings.Contains(squeezed(pages[0].words), squeezed(words)) {
			t.Errorf("no %q on the page: %s", words, pages[0].words)
		}
	}
}

// TestPDFTooMuch: what is left out is said.
func TestPDFTooMuch(t *testing.T) {
	wide := &sheet.Table{}
	for i := range 100 {
		wide.Columns = append(wide.Columns, sheet.Column{Name: fmt.Sprint("c", i), Title: strings.Repeat("head ", 50)})
	}
	wide.Rows = []sheet.Row{sheet.Cells(strings.Repeat("long ", 3000), strings.Repeat("x", 9000))}
	picture := &draw.Picture{Title: "nothing", WidthMM: math.NaN()}
	s := long(5003)
	s.Add(wide, sheet.Text{Words: strings.Repeat("word ", 5000), Weight: sheet.Warning}, sheet.Drawing{Pictures: []*draw.Picture{picture}})
	var all strings.Builder
	for _, p := range pagesOf(t, asPDF(t, sampleHead(), "", s)) {
		all.WriteString(squeezed(p.words))
	}
	for _, words := range []string{"3 more rows are left out", "70 more columns are left out", "[...]", "has no size and is left out"} {
		if !strings.Contains(all.String(), squeezed(words)) {
			t.Errorf("it does not say %q", words)
		}
	}
}

// TestPDFTrueSize reads with another program where the words of a drawing stand
// on its pages: a millimetre is 72/25.4 points.
func TestPDFTrueSize(t *testing.T) {
	p := &draw.Picture{Name: "board", Title: "Formboard", WidthMM: 500, HeightMM: 100, TrueSize: true}
	for i, x := range []float64{20, 120, 220, 460} {
		p.Add(draw.Text{At: draw.Point{X: x, Y: 50}, Words: fmt.Sprint("peg", i), SizeMM: 5})
	}
	s := &sheet.Sheet{Title: "Board"}
	s.Add(sheet.Drawing{Pictures: []*draw.Picture{p}})
	data := asPDF(t, sampleHead(), "", s)
	pages := pagesOf(t, data)
	if len(pages) != 3 {
		t.Fatalf("%d pages, want the plan and two parts", len(pages))
	}
	if !strings.Contains(pages[0].words, "A1") || !strings.Contains(pages[0].words, "A2") {
		t.Errorf("the plan does not name its pages: %s", pages[0].words)
	}
	r, err := pdf.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	at := placed(t, r.Page(2), "peg")
	if len(at) != 3 || math.Abs(at[1]-at[0]-100*72/25.4) > 0.1 || math.Abs(at[2]-at[0]-200*72/25.4) > 0.1 {
		t.Errorf("pegs 100 mm apart stand at %v points", at)
	}
	for _, p := range pages[1:] {
		if !strings.Contains(squeezed(p.words), "100mm:measureit") {
			t.Errorf("no rule to check the printer by: %s", p.words)
		}
	}
}

// placed is where words that start so stand, from the left, in points.
func placed(t *testing.T, p pdf.Page, start string) []float64 {
	t.Helper()
	var list []float64
	line, from := "", 0.0
	for _, letter := range p.Content().Text {
		if letter.S == start[:1] {
			line, from = "", letter.X
		}
		if line += letter.S; line == start {
			list = append(list, from)
		}
	}
	return list
}

// TestPDFEndless: a drawing of kilometres is shown, but not on thousands of pages.
func TestPDFEndless(t *testing.T) {
	p := &draw.Picture{Name: "board", Title: "Formboard", WidthMM: 40_000, HeightMM: 2_000, TrueSize: true}
	p.Add(draw.Line{Points: []draw.Point{{X: 0, Y: 0}, {X: 40_000, Y: 2_000}}, Ink: draw.Ink{WidthMM: 1, Colour: draw.Black}})
	s := &sheet.Sheet{Title: "Board"}
	s.Add(sheet.Drawing{Pictures: []*draw.Picture{p}})
	pages := pagesOf(t, asPDF(t, sampleHead(), "", s))
	if len(pages) != 1 || !strings.Contains(squeezed(pages[0].words), "Atitstruesizeittakes") {
		t.Errorf("%d pages: %s", len(pages), pages[0].words)
	}
}

// TestPDFOtherReader holds the document against poppler, where that is there.
func TestPDFOtherReader(t *testing.T) {
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed")
	}
	path := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(path, asPDF(t, sampleHead(), "", sample(), lettersSheet()), 0o644); err != nil {
		t.Fatal(err)
	}
	var errs bytes.Buffer
	cmd := exec.Command(tool, "-layout", path, "-")
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil || errs.Len() > 0 {
		t.Fatalf("%v: %s", err, errs.String())
	}
	for _, words := range []string{"NOT FOR BUILD: 2 errors, 5 not judged", "engine_bay/left-panel.connector_17", "page 3 of 5", "WARNING: Cut nothing", "µ ° é ½ Ω Ж ≤ [U+1F50B]", "[U+96FB][U+6C60]", "□□"} {
		if !strings.Contains(string(out), words) {
			t.Errorf("no %q in:\n%s", words, out)
		}
	}
}

func BenchmarkPDF(b *testing.B) {
	sheets := []*sheet.Sheet{sample(), long(200)}
	for b.Loop() {
		if err := print.PDF(&bytes.Buffer{}, sampleHead(), sheets, print.PDFOptions{}); err != nil {
			b.Fatal(err)
		}
	}
}
