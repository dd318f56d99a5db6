package print

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"time"

	"github.com/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"hame/check/sheet"
)

// PDFOptions are for PDF.
type PDFOptions struct {
	Paper string // a4 or letter; "" takes a4
}

// size is a page's, in mm, as it is held upright.
type size struct{ wide, high float64 }

// papers are A4 by ISO 216 and Letter by ANSI/ASME Y14.1, 8.5 by 11 inches.
var papers = map[string]size{"": {210, 297}, "a4": {210, 297}, "letter": {215.9, 279.4}}

var errPaper = errors.New("the paper is a4 or letter")

// PDF writes sheets as one document. The same sheets give the same bytes.
func PDF(to io.Writer, h sheet.Head, sheets []*sheet.Sheet, o PDFOptions) error {
	paper, ok := papers[o.Paper]
	if !ok {
		return errPaper
	}
	l := newLayout(h, paper)
	for _, s := range sheets {
		l.sheet(s)
	}
	l.close()
	return l.output(to)
}

// output draws the pages, now that it is known how many they are.
func (l *layout) output(to io.Writer) error {
	f, err := newFile(l.head, l.paper)
	if err != nil {
		return err
	}
	for i, p := range l.pages {
		f.AddPageFormat(orientation(p.lying), fpdf.SizeType{Wd: l.paper.wide, Ht: l.paper.high})
		if p.first {
			f.Bookmark(inked(p.of.Title), 0, 0)
		}
		l.frame(p, fmt.Sprintf("page %d of %d", i+1, len(l.pages)))
		for _, draw := range p.marks {
			draw(f)
		}
	}
	return f.Output(to)
}

func orientation(lying bool) string {
	if lying {
		return "L"
	}
	return "P"
}

// fontName is the family of both fonts.
const fontName = "go"

// newFile is an empty document, with no clock and nothing unsorted in it.
func newFile(h sheet.Head, paper size) (*fpdf.Fpdf, error) {
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: paper.wide, Ht: paper.high}})
	f.SetCatalogSort(true)
	f.SetCreationDate(dated(h))
	f.SetModificationDate(dated(h))
	f.SetProducer("hame", false)
	f.SetTitle(inked(h.Title), true)
	f.SetLang("en")
	f.SetAutoPageBreak(false, 0)
	f.SetLineJoinStyle("round")
	// Copies, for fpdf writes into a font when it takes a part of it.
	f.AddUTF8FontFromBytes(fontName, "", slices.Clone(goregular.TTF))
	f.AddUTF8FontFromBytes(fontName, "B", slices.Clone(gobold.TTF))
	return f, f.Error()
}

// dated is the day that was asked for. A PDF wants one: without it, a fixed one.
func dated(h sheet.Head) time.Time {
	if day, err := time.Parse(time.DateOnly, h.Date); err == nil {
		return day
	}
	return time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
}
