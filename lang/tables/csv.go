package tables

import (
	"embed"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"
)

//go:embed data/*.csv
var data embed.FS

// file is one CSV file taken apart: its default source, columns and rows.
type file struct {
	name    string
	source  Source
	columns map[string]int
	rows    [][]string
}

// row is one line of a file that remembers the first thing wrong with it.
type row struct {
	file   *file
	number int
	fields []string
	err    error
}

// open reads a data file and checks its head.
func open(name string) (*file, error) {
	text, err := data.ReadFile("data/" + name)
	if err != nil {
		return nil, err
	}
	return parse(name, string(text))
}

// parse takes the text of a data file apart.
func parse(name, text string) (*file, error) {
	f := &file{name: name, source: head(text), columns: map[string]int{}}
	if f.source.Document == "" || !f.source.Mark.valid() {
		return nil, fmt.Errorf("%s: the head names no document or no known mark", name)
	}
	reader := csv.NewReader(strings.NewReader(text))
	reader.Comment = '#'
	lines, err := reader.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if len(lines) < 2 {
		return nil, fmt.Errorf("%s: no rows", name)
	}
	for i, column := range lines[0] {
		f.columns[column] = i
	}
	f.rows = lines[1:]
	return f, nil
}

// head reads the source from the comment lines of a file.
func head(text string) Source {
	var s Source
	for _, line := range strings.Split(text, "\n") {
		key, value, found := strings.Cut(strings.TrimPrefix(line, "# "), ": ")
		if !found || !strings.HasPrefix(line, "#") {
			continue
		}
		switch key {
		case "document":
			s.Document = value
		case "clause":
			s.Clause = value
		case "mark":
			s.Mark = Mark(value)
		}
	}
	return s
}

// load reads every row of a file with one function.
func load[T any](name string, read func(*row) T) ([]T, error) {
	f, err := open(name)
	if err != nil {
		return nil, err
	}
	return readRows(f, read)
}

// readRows turns the rows of a file into values; the first fault ends it.
func readRows[T any](f *file, read func(*row) T) ([]T, error) {
	values := make([]T, 0, len(f.rows))
	for i, fields := range f.rows {
		r := &row{file: f, number: i + 1, fields: fields}
		r.source()
		values = append(values, read(r))
		if r.err != nil {
			return nil, r.err
		}
	}
	return values, nil
}

// mustLoad is load for the package's own variables: a malformed file is a
// fault of the build and stops the program before it starts.
func mustLoad[T any](name string, read func(*row) T) []T {
	values, err := load(name, read)
	if err != nil {
		panic("tables: " + err.Error())
	}
	return values
}

// fail keeps the first fault of a row.
func (r *row) fail(format string, args ...any) {
	if r.err == nil {
		r.err = fmt.Errorf("%s row %d: %s", r.file.name, r.number, fmt.Sprintf(format, args...))
	}
}

// optional gives a column's text, or "" where the file has no such column.
func (r *row) optional(column string) string {
	if i, found := r.file.columns[column]; found {
		return r.fields[i]
	}
	return ""
}

// text gives a column that must be there.
func (r *row) text(column string) string {
	i, found := r.file.columns[column]
	if !found {
		r.fail("no column %q", column)
		return ""
	}
	return r.fields[i]
}

// num reads a column that must hold a finite number.
func (r *row) num(column string) float64 {
	value := r.numOrInf(column)
	if math.IsInf(value, 0) {
		r.fail("%s is not finite", column)
	}
	return value
}

// numOrInf reads a column that holds a number or "inf".
func (r *row) numOrInf(column string) float64 {
	value, err := strconv.ParseFloat(r.text(column), 64)
	if err != nil || math.IsNaN(value) {
		r.fail("%s holds no number: %q", column, r.optional(column))
	}
	return value
}

// numOr reads a column that may be blank.
func (r *row) numOr(column string, blank float64) float64 {
	if r.text(column) == "" {
		return blank
	}
	return r.num(column)
}

// nums reads a list of numbers parted by semicolons.
func (r *row) nums(column string) []float64 {
	var values []float64
	for _, part := range strings.Split(r.text(column), ";") {
		value, err := strconv.ParseFloat(part, 64)
		if err != nil {
			r.fail("%s holds no list of numbers: %q", column, r.optional(column))
		}
		values = append(values, value)
	}
	return values
}

// yes reads a column that holds "yes" or "no".
func (r *row) yes(column string) bool {
	value := r.text(column)
	if value != "yes" && value != "no" {
		r.fail("%s holds neither yes nor no: %q", column, value)
	}
	return value == "yes"
}

// gauge reads a column that holds an AWG gauge.
func (r *row) gauge(column string) int {
	n, ok := ParseAWG(r.text(column))
	if !ok {
		r.fail("%s holds no gauge: %q", column, r.optional(column))
	}
	return n
}

// source gives the file's source with what the row says of its own.
func (r *row) source() Source {
	s := r.file.source
	if document := r.optional("document"); document != "" {
		s.Document = document
	}
	if clause := r.optional("clause"); clause != "" {
		s.Clause = clause
	}
	if mark := r.optional("mark"); mark != "" {
		s.Mark = Mark(mark)
	}
	if !s.Mark.valid() {
		r.fail("mark %q is not known", s.Mark)
	}
	return s
}
