// Package note writes the calculation note of one wire, load, protective
// device, switch, relay or supply: every figure that a reviewer needs to redo it
// with a pocket calculator, with its unit and where it was published.
//
// A note is data. Text and JSON print it; neither computes.
package note

import (
	"hame/lang/tables"
)

// Note is one calculation note.
type Note struct {
	Harness  string
	Practice string
	Name     string // as it's written: w15, aux.2
	Kind     string // wire, load, protective device, switch, relay, supply
	Title    string // what it is, in a line
	Mode     string // the mode of what is worked out for one
	Sections []Section
}

// Section is a part of a note under a heading.
type Section struct {
	Title string
	Rows  []Row
	Table *Table
	Words []string // sentences, under the figures
}

// Row is one figure: how it comes about, what is to be said of it, and where it
// was published. A row without a figure has words alone.
type Row struct {
	Label  string
	Figure *Figure
	How    []Term // a calculation whose outcome is the figure
	Words  string
	Source *tables.Source
}

// Figure is a value in SI with degC, mm2 and Ah. One that is Milli is printed
// in thousandths of its unit, as a pocket calculator has it.
type Figure struct {
	Value float64
	Unit  string
	Milli bool
}

// Term is one figure of a calculation, read from the left. Op is empty of the
// first, then x, /, + or -.
type Term struct {
	Op string
	Figure
}

// Table is figures in columns. The first column is words.
type Table struct {
	Head    string // of the first column
	Columns []Column
	Rows    []Line
}

// Column is the heading of a column.
type Column struct {
	Name  string
	Unit  string // of its figures, in SI; empty where they are words
	Milli bool   // printed in thousandths
	Free  bool   // its figures span decades: each has its own places
}

// Line is one line of a table.
type Line struct {
	Label string
	Cells []Cell // as many as columns
	Sum   bool   // it sums the lines above
}

// Cell is a figure, or words, or nothing.
type Cell struct {
	Value *float64
	Words string
}

// figure and those below make figures as notes print them.
func figure(v float64, unit string) Figure { return Figure{Value: v, Unit: unit} }

func milli(v float64, unit string) Figure { return Figure{Value: v, Unit: unit, Milli: true} }

// ohms is a resistance: in thousandths below 1 ohm.
func ohms(v float64) Figure { return Figure{Value: v, Unit: "ohm", Milli: v < 1} }

// first and the others are terms of a calculation.
func first(f Figure) Term { return Term{"", f} }

func times(f Figure) Term { return Term{"x", f} }

func over(f Figure) Term { return Term{"/", f} }

func plus(f Figure) Term { return Term{"+", f} }

func minus(f Figure) Term { return Term{"-", f} }

// add puts a row with a figure in and gives it back for more to be said.
func (s *Section) add(label string, f Figure, how ...Term) *Row {
	s.Rows = append(s.Rows, Row{Label: label, Figure: &f, How: how})
	return &s.Rows[len(s.Rows)-1]
}

// say puts a row of words in.
func (s *Section) say(label, words string) *Row {
	s.Rows = append(s.Rows, Row{Label: label, Words: words})
	return &s.Rows[len(s.Rows)-1]
}

func (r *Row) words(text string) *Row {
	r.Words = text
	return r
}

func (r *Row) from(s tables.Source) *Row {
	if s != (tables.Source{}) {
		r.Source = &s
	}
	return r
}

// line puts a line into a table.
func (t *Table) line(label string, cells ...Cell) *Line {
	t.Rows = append(t.Rows, Line{Label: label, Cells: cells})
	return &t.Rows[len(t.Rows)-1]
}

func value(v float64) Cell { return Cell{Value: &v} }

func worded(text string) Cell { return Cell{Words: text} }

// known is a cell that is empty where the figure is not known.
func known(v *float64) Cell { return Cell{Value: v} }
