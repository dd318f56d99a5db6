package print

import (
	"encoding/csv"
	"io"
	"math"
	"regexp"
	"strings"

	"hame/check/sheet"
)

// CSV writes a table by RFC 4180: a line of the columns' names, then the rows.
// Sums are left out, for programs sum up themselves, and so are headings within.
func CSV(to io.Writer, t *sheet.Table) error {
	w := csv.NewWriter(to)
	w.UseCRLF = true
	var columns []int
	var record []string
	for i, c := range t.Columns {
		if c.Name != "" {
			columns, record = append(columns, i), append(record, field(c.Name))
		}
	}
	if err := w.Write(record); err != nil {
		return err
	}
	for _, r := range t.Rows {
		if r.Total || r.Group != "" {
			continue
		}
		for k, i := range columns {
			record[k] = fieldOf(cellOf(r, i))
		}
		if err := w.Write(record); err != nil {
			return err
		}
	}
	w.Flush()
	return w.Error()
}

func fieldOf(c sheet.Cell) string {
	if c.Raw != "" {
		return field(c.Raw)
	}
	if c.Words == "" {
		return field(words(c))
	}
	return field(c.Words)
}

// formula is what a spreadsheet may take for a command; number is what it may.
var (
	formula = regexp.MustCompile("^[\\s\u00a0\ufeff]*[=+@＝＋－＠-]|^[\t\r]")
	number  = regexp.MustCompile(`^-?[0-9]+([.][0-9]+)?(e[+-]?[0-9]+)?$`)
)

// field is a text that no spreadsheet runs: an apostrophe before it keeps it a
// text. Figures stay figures, those below zero as well.
func field(text string) string {
	risky := formula.MatchString(text) && !number.MatchString(text)
	text = strings.ReplaceAll(cleaned(text, math.MaxInt), "\u00a0", " ")
	if risky {
		return "'" + text
	}
	return text
}
