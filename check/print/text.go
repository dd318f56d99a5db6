package print

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"hame/check/sheet"
)

// TextOptions are for Text.
type TextOptions struct {
	Columns int // of the terminal; 0 takes 100, less than 40 is taken as 40
}

const (
	usualColumns = 100
	leastColumns = 40
	indent       = "    "
)

// Text writes sheets for a terminal.
func Text(to io.Writer, h sheet.Head, sheets []*sheet.Sheet, o TextOptions) error {
	if o.Columns == 0 {
		o.Columns = usualColumns
	}
	t := &text{w: bufio.NewWriter(to), wide: max(leastColumns, o.Columns)}
	for i, s := range sheets {
		if i > 0 {
			t.line("")
			t.line(strings.Repeat("=", t.wide))
			t.line("")
		}
		t.sheet(h, s)
	}
	return t.w.Flush() // which keeps the first error
}

type text struct {
	w    *bufio.Writer
	wide int
}

// line writes a line. A blank that holds words together is one like others here.
func (t *text) line(words string) {
	words = strings.TrimRight(strings.ReplaceAll(words, "\u00a0", " "), " ")
	_, _ = t.w.WriteString(words + "\n")
}

// wrapped writes words behind a lead, further lines as far in as the first.
func (t *text) wrapped(lead, words string) {
	in := columns(lead)
	for _, l := range wrap(words, float64(t.wide-in), columnsOf) {
		t.line(lead + l)
		lead = strings.Repeat(" ", in)
	}
}

func (t *text) sheet(h sheet.Head, s *sheet.Sheet) {
	if v := h.Verdict(); v != "" {
		t.wrapped("", v)
	}
	t.wrapped("", titleOf(h, s))
	t.wrapped("", originOf(h))
	if s.Purpose != "" {
		t.wrapped("", clean(s.Purpose))
	}
	for _, b := range s.Blocks {
		t.block(s, b)
	}
	t.foot()
}

func (t *text) block(s *sheet.Sheet, b sheet.Block) {
	t.line("")
	switch b := b.(type) {
	case sheet.Heading:
		t.wrapped("", strings.ToUpper(clean(b.Words)))
	case sheet.Text:
		t.words(b)
	case *sheet.Table:
		t.table(b)
	case sheet.Steps:
		t.steps(b)
	case sheet.Drawing:
		for _, p := range b.Pictures {
			t.wrapped("", drawingLine(s, p))
		}
	}
}

func (t *text) words(b sheet.Text) {
	lead := ""
	if b.Weight == sheet.Warning {
		lead = "WARNING: "
	}
	t.wrapped(lead, clean(b.Words))
}

func (t *text) steps(b sheet.Steps) {
	for i, s := range b.Items[:min(len(b.Items), mostSteps)] {
		lead := fmt.Sprintf("[ ] %2d. ", i+1)
		t.wrapped(lead, clean(s.Words))
		if s.Detail != "" {
			t.wrapped(strings.Repeat(" ", columns(lead)), clean(s.Detail))
		}
	}
	t.more(leftOut(len(b.Items), mostSteps, "steps"))
}

func (t *text) more(words string) {
	if words != "" {
		t.wrapped("", words)
	}
}

func (t *text) foot() {
	t.line("")
	t.line("CAUTIONS")
	for _, c := range sheet.Cautions {
		t.wrapped("  * ", clean(c))
	}
	t.wrapped("", sheet.Defer)
}
