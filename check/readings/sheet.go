package readings

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"
)

// What is read at most.
const (
	MaxBytes   = 4 << 20
	mostRows   = 20_000
	mostFields = 64
	mostCell   = 4096 // bytes
	mostBefore = 20   // lines above the head
)

// Row is a line of the form with what matters of it, as it was written.
type Row struct {
	Number                            int // in the file, from 1
	ID, Expect, Low, High, Unit, Read string
}

// Sheet is a filled-in form.
type Sheet struct {
	Rows []Row
	// Commas: decimals may be written with a comma, for semicolons part the cells.
	Commas bool
}

// Read takes a form apart, as spreadsheets write it: cells parted by commas,
// semicolons or tabs.
func Read(text []byte) (*Sheet, error) {
	switch {
	case len(text) > MaxBytes:
		return nil, fmt.Errorf("the form is larger than %d MiB", MaxBytes>>20)
	case bytes.HasPrefix(text, []byte{0xFF, 0xFE}), bytes.HasPrefix(text, []byte{0xFE, 0xFF}), bytes.IndexByte(text, 0) >= 0:
		return nil, errors.New("the form is no CSV in UTF-8; save it as such")
	}
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	separator, text := separatorOf(text)
	r := csv.NewReader(bytes.NewReader(text))
	r.Comma, r.FieldsPerRecord, r.LazyQuotes, r.ReuseRecord = separator, -1, true, true
	s := &Sheet{Commas: separator != ','}
	return s, s.rows(r)
}

// separatorOf is what parts the cells: what there is most of in the first line
// with the word id, or what a spreadsheet's own first line says.
func separatorOf(text []byte) (rune, []byte) {
	const said = "sep="
	line, rest, _ := bytes.Cut(text, []byte("\n"))
	line = bytes.TrimSpace(line)
	if len(line) == len(said)+1 && bytes.HasPrefix(line, []byte(said)) {
		if c := rune(line[len(said)]); c == ',' || c == ';' || c == '\t' {
			return c, rest
		}
	}
	for k, l := range bytes.SplitN(text, []byte("\n"), mostBefore+1) {
		if k == mostBefore || !bytes.Contains(l, []byte("id")) || !bytes.Contains(l, []byte("reading")) {
			continue
		}
		best := ','
		for _, c := range []rune{';', '\t'} {
			if bytes.Count(l, []byte(string(c))) > bytes.Count(l, []byte(string(best))) {
				best = c
			}
		}
		return best, text
	}
	return ',', text
}

// rows reads the head and what follows it.
func (s *Sheet) rows(r *csv.Reader) error {
	var columns map[string]int
	for number := 1; ; number++ {
		record, err := r.Read()
		switch {
		case errors.Is(err, io.EOF) && columns == nil:
			return errors.New("the form has no line with the columns `id` and `reading`: fill in what `hame sheet tests --format csv` writes")
		case errors.Is(err, io.EOF):
			return nil
		case err != nil:
			return fmt.Errorf("the form cannot be read: %w", err)
		case number > mostRows:
			return fmt.Errorf("the form has more than %d lines", mostRows)
		case len(record) > mostFields:
			return fmt.Errorf("line %d of the form has more than %d cells", number, mostFields)
		}
		line, _ := r.FieldPos(0)
		switch found := head(record); {
		case found != nil:
			columns = found
		case columns == nil && number > mostBefore:
			return fmt.Errorf("none of the first %d lines of the form has the columns `id` and `reading`", mostBefore)
		case columns != nil:
			if err := s.take(line, record, columns); err != nil {
				return err
			}
		}
	}
}

// head finds the columns by their names; nil where the line is no head.
func head(record []string) map[string]int {
	columns := map[string]int{}
	for i, cell := range record {
		name := strings.ToLower(plain(cell))
		if _, twice := columns[name]; !twice {
			columns[name] = i
		}
	}
	if _, ok := columns["id"]; !ok {
		return nil
	}
	if _, ok := columns["reading"]; !ok {
		return nil
	}
	return columns
}

// take notes a row that has an id.
func (s *Sheet) take(line int, record []string, columns map[string]int) error {
	cell := func(name string) string {
		if i, ok := columns[name]; ok && i < len(record) {
			return plain(record[i])
		}
		return ""
	}
	if slices.ContainsFunc(record, func(c string) bool { return len(c) > mostCell }) {
		return fmt.Errorf("line %d of the form has a cell of more than %d letters", line, mostCell)
	}
	row := Row{line, cell("id"), cell("expect"), cell("low"), cell("high"), cell("unit"), cell("reading")}
	if row.ID != "" || row.Read != "" {
		s.Rows = append(s.Rows, row)
	}
	return nil
}

// plain is a cell without what spreadsheets put round it: blanks, and the
// apostrophe that keeps a text a text. What is no UTF-8 is replaced.
func plain(cell string) string {
	if !utf8.ValidString(cell) {
		cell = strings.ToValidUTF8(cell, "\uFFFD")
	}
	cell = strings.TrimSpace(strings.ReplaceAll(strings.ReplaceAll(cell, "\u00a0", " "), "\u202f", " "))
	return strings.TrimSpace(strings.TrimPrefix(cell, "'"))
}
