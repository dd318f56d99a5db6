// Package sheet has a printed sheet as data: headings, paragraphs, tables, lists
// to tick off, and drawings. What makes a sheet knows nothing of paper, screens
// or files; what prints it knows nothing of harnesses.
package sheet

import "hame/check/draw"

// Sheet is one paper.
type Sheet struct {
	Name    string // the word that it is asked for by: wires
	Title   string // Cut list
	Purpose string // what it is for, in a sentence
	Blocks  []Block
}

// Add puts blocks at the end.
func (s *Sheet) Add(blocks ...Block) { s.Blocks = append(s.Blocks, blocks...) }

// Tables lists the tables of the sheet, in order.
func (s *Sheet) Tables() []*Table {
	var list []*Table
	for _, b := range s.Blocks {
		if t, ok := b.(*Table); ok {
			list = append(list, t)
		}
	}
	return list
}

// Block is a Heading, Text, Table, Steps or Drawing.
type Block interface{ block() }

// Heading starts a part of the sheet.
type Heading struct{ Words string }

// Weight is how much a paragraph matters.
type Weight uint8

// The weights.
const (
	Plain   Weight = iota
	Small          // sources and marks
	Warning        // what can hurt people; set in a frame
)

// Text is a paragraph.
type Text struct {
	Words  string
	Weight Weight
}

// Table is rows of cells under columns.
type Table struct {
	Name    string // a word for file names, unique in its sheet: wires, reels
	Title   string // above it; may be empty
	Columns []Column
	Rows    []Row
	Empty   string // what is said where there are no rows
}

// Row is a row of a table, a cell for each column.
type Row struct {
	Cells []Cell
	Total bool   // it sums up the rows above; left out of CSV
	Name  string // what of the harness it tells of, for pages that link to it; may be empty
	// Group, where it is not empty, heads the rows that follow, across the table and
	// in place of cells, with Detail smaller under it; left out of CSV.
	Group, Detail string
}

// Column is a column of a table.
type Column struct {
	Name  string // its header in CSV, with the unit: length_m; "" leaves it out there
	Title string // its header in print: cut length
	Unit  string // set small under the title: m; may be empty
	Right bool   // figures stand to the right
	// Blank: to be written in by hand; it gets room, and no cell has words.
	Blank bool
	Small bool // set small, and its words parted where they must
	// Program: for CSV alone, because on paper it stands elsewhere, as in a group's
	// heading.
	Program bool
}

// Cell is one cell: its words in print, and in CSV too unless Raw says otherwise.
type Cell struct {
	Words  string
	Raw    string        // what CSV has in place of the words, such as a figure unrounded; may be empty
	Strong bool          // set heavy
	Swatch []draw.Colour // colours of a wire, shown as a small patch before its words
}

// Is makes a cell of words.
func Is(words string) Cell { return Cell{Words: words} }

// OnPaper is the table as it is printed: without the columns for programs.
func (t *Table) OnPaper() *Table {
	p := *t
	p.Columns, p.Rows = nil, nil
	for _, c := range t.Columns {
		if !c.Program {
			p.Columns = append(p.Columns, c)
		}
	}
	if len(p.Columns) == len(t.Columns) {
		return t
	}
	for _, r := range t.Rows {
		p.Rows = append(p.Rows, r.onPaper(t.Columns))
	}
	return &p
}

func (r Row) onPaper(columns []Column) Row {
	var cells []Cell
	for i, c := range r.Cells {
		if i >= len(columns) || !columns[i].Program {
			cells = append(cells, c)
		}
	}
	r.Cells = cells
	return r
}

// Cells makes a row of words.
func Cells(words ...string) Row {
	r := Row{}
	for _, w := range words {
		r.Cells = append(r.Cells, Is(w))
	}
	return r
}

// Steps is a list to tick off, in order.
type Steps struct{ Items []Step }

// Step is one thing to do.
type Step struct {
	Words  string
	Detail string // smaller, under it; may be empty
}

// Drawing is pictures, one under the other.
type Drawing struct{ Pictures []*draw.Picture }

func (Heading) block() {}
func (Text) block()    {}
func (*Table) block()  {}
func (Steps) block()   {}
func (Drawing) block() {}
