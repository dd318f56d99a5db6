// Package print writes sheets: as text for a terminal, as CSV, as one HTML page
// and as PDF. It knows nothing of harnesses. What is written may come from a
// hostile file: every text is cleaned here and escaped by its writer, and what is
// too much is left out with a word that says so.
package print

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"hame/check/draw"
	"hame/check/sheet"
)

// What is written at most. CSV is for programs and has all rows.
const (
	mostLetters = 2000 // of one text
	mostRows    = 5000 // of one table
	mostSteps   = 5000 // of one list
	mostMarks   = 4    // accents on one letter
)

// cutMark stands where letters are left out.
const cutMark = "[...]"

// clean is a text on one line with nothing in it that could move a cursor or
// turn the writing round: such characters stand by their numbers. One that is
// too long is cut off, with a mark.
func clean(text string) string { return cleaned(text, mostLetters) }

func cleaned(text string, most int) string {
	if isPlain(text, most) {
		return text
	}
	var b strings.Builder
	letters, marks := 0, 0
	for i, r := range text {
		if letters++; letters > most {
			return b.String() + " " + cutMark
		}
		if marks++; !unicode.In(r, unicode.Mn, unicode.Me) {
			marks = 0
		}
		if marks <= mostMarks {
			b.WriteString(visible(r, text[i:]))
		}
	}
	return b.String()
}

func isPlain(text string, most int) bool {
	if len(text) > most {
		return false
	}
	for i := range len(text) {
		if text[i] < ' ' || text[i] > '~' {
			return false
		}
	}
	return true
}

// visible is how a character at the start of a text is shown.
func visible(r rune, text string) string {
	switch {
	case r == utf8.RuneError && !strings.HasPrefix(text, "\uFFFD"):
		return fmt.Sprintf(`\x%02x`, text[0])
	case r == '\n' || r == '\t':
		return " "
	case unicode.IsGraphic(r) && !unicode.In(r, unicode.Zl, unicode.Zp):
		return string(r)
	case r < 0x80:
		return fmt.Sprintf(`\x%02x`, r)
	}
	return fmt.Sprintf(`\u%04x`, r)
}

// words are a cell's words; a cell of colours alone is told by their names.
func words(c sheet.Cell) string {
	if c.Words != "" || len(c.Swatch) == 0 {
		return clean(c.Words)
	}
	names := make([]string, len(c.Swatch))
	for i, s := range c.Swatch {
		names[i] = clean(string(s))
	}
	return strings.Join(names, "/")
}

// cellOf is a row's cell under a column; an empty one where the row is short.
func cellOf(r sheet.Row, column int) sheet.Cell {
	if column < len(r.Cells) {
		return r.Cells[column]
	}
	return sheet.Cell{}
}

// rowsOf are the rows of a table that are printed.
func rowsOf(t *sheet.Table) []sheet.Row { return t.Rows[:min(len(t.Rows), mostRows)] }

// leftOut says how many of something are not printed, "" where all are.
func leftOut(all, most int, what string) string {
	if all <= most {
		return ""
	}
	return fmt.Sprintf("%d more %s are left out here.", all-most, what)
}

// titleOf heads a sheet: what it is, and of which harness.
func titleOf(h sheet.Head, s *sheet.Sheet) string {
	if h.Title == "" {
		return clean(s.Title)
	}
	return clean(s.Title) + ": " + clean(h.Title)
}

// hashDigits is how much of the hash is printed: enough to tell papers apart.
const hashDigits = 12

// originOf says what a sheet was made from.
func originOf(h sheet.Head) string {
	var parts []string
	for _, p := range []struct{ label, text string }{
		{"file ", h.File}, {"hash ", h.Hash[:min(hashDigits, len(h.Hash))]}, {"practice ", h.Practice}, {"", h.Date},
	} {
		if p.text != "" {
			parts = append(parts, p.label+clean(p.text))
		}
	}
	return strings.Join(parts, ", ")
}

// drawingLine stands for a picture where there are only letters.
func drawingLine(s *sheet.Sheet, p *draw.Picture) string {
	return fmt.Sprintf("drawing: %s (hame sheet %s --format pdf)", clean(p.Title), clean(s.Name))
}
