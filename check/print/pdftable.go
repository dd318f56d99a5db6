package print

import (
	"slices"

	"hame/check/sheet"
)

// What columns of a printed table are held to, in mm.
const (
	padMM         = 1.3
	keptMM        = 34  // of a word that stays together if there is room
	leastMM       = 9   // of a column, whatever its words
	formMM        = 28  // the same of a form: its lines are the more on an upright page
	blankMM       = 20  // of a column to be written in, at least
	blankRowMM    = 7.5 // of the row of one
	wantMM        = 60  // of a column, when the page's way is chosen
	swatchMM      = 4.2
	smallColumnMM = 20 // of a column that is set small, at most
	mostColumns   = 30
)

// pdfTable is a table with its columns shared out.
type pdfTable struct {
	of      *sheet.Table
	columns []sheet.Column
	wide    []float64
	title   []string
	head    [][]string // the lines of each column's head
	units   []string
	blank   bool // it has a column to be written in
}

func (l *layout) table(b *sheet.Table) {
	b = b.OnPaper()
	if len(b.Rows) == 0 {
		words := orElse(b.Empty, "none")
		if b.Title != "" {
			words = b.Title + ": " + words
		}
		l.paragraph(words, face{sizeMM: bodyMM})
		return
	}
	l.rows(l.shared(b), rowsOf(b))
	l.y += betweenMM
	l.left(leftOut(len(b.Rows), mostRows, "rows"))
	l.left(leftOut(len(b.Columns), mostColumns, "columns"))
}

// rows sets a table's head and rows, the head on every page anew. None stands
// alone at the foot of a page.
func (l *layout) rows(t *pdfTable, rows []sheet.Row) {
	group := sheet.Row{} // that the rows stand under
	for i, r := range rows {
		row := l.row(t, r)
		high := row.high
		if r.Group != "" && i+1 < len(rows) {
			high += l.row(t, rows[i+1]).high
		}
		switch {
		case i == 0:
			l.room(t.headHigh() + high)
			l.tableHead(t)
		case l.y+high > l.bottom():
			l.turn()
			l.tableHead(t)
			if r.Group == "" && group.Group != "" {
				l.groupRow(t, l.row(t, sheet.Row{Group: group.Group + " (continued)"}))
			}
		}
		if r.Group != "" {
			group = r
			l.groupRow(t, row)
			continue
		}
		l.tableRow(t, row, r.Total && (i == 0 || !rows[i-1].Total))
	}
}

// natural is what each column wants, what its longest word does, and what the
// longest part of one.
func natural(b *sheet.Table) (want, word, part []float64) {
	for i, c := range b.Columns[:min(len(b.Columns), mostColumns)] {
		bold := face{bold: true, sizeMM: cellMM}
		head := inked(orElse(c.Title, c.Name))
		w := bold.measure().of(head)
		k, p := longestMM(head, bold)
		w = max(w, face{sizeMM: smallMM}.measure().of(inked(c.Unit)))
		for _, r := range rowsOf(b) {
			cell := cellOf(r, i)
			f, in, text := faceOf(c, cell, r), swatchOf(cell), inked(words(cell))
			if w = max(w, in+f.measure().of(text)); !c.Small {
				longest, longestPart := longestMM(text, f)
				k, p = max(k, in+longest), max(p, in+longestPart)
			}
		}
		if c.Blank {
			w, k, p = max(w, blankMM), max(k, blankMM), max(p, blankMM)
		}
		if c.Small {
			w = min(w, smallColumnMM)
		}
		want, word, part = append(want, w+2*padMM), append(word, k+2*padMM), append(part, p+2*padMM)
	}
	return want, word, part
}

func faceOf(column sheet.Column, c sheet.Cell, r sheet.Row) face {
	f := face{bold: c.Strong || r.Total, sizeMM: cellMM}
	if column.Small {
		f.sizeMM = tinyMM
	}
	return f
}

func swatchOf(c sheet.Cell) float64 {
	if len(c.Swatch) == 0 {
		return 0
	}
	return swatchMM
}

// longestMM is how wide the widest word is that no line may end in, and the widest
// part of one.
func longestMM(text string, f face) (word, part float64) {
	for _, w := range unbroken(text) {
		word = max(word, f.measure().of(w))
		for _, p := range parts(w) {
			part = max(part, f.measure().of(p))
		}
	}
	return word, part
}

// wantsLying reports whether a sheet has a table that is too wide for an upright
// page, long notes wrapped.
func (l *layout) wantsLying(s *sheet.Sheet) bool {
	for _, t := range s.Tables() {
		t = t.OnPaper()
		most := float64(wantMM)
		if isForm(t) {
			most = formMM
		}
		want, word, _ := natural(t)
		total := 0.0
		for i, w := range want {
			total += max(min(w, most), min(word[i], wantMM))
		}
		if total > l.paper.wide-2*marginMM && len(t.Rows) > 0 {
			return true
		}
	}
	return false
}

// shared shares the page's width out: what every column wants, less what the
// widest can do without; what is to spare goes to those that are written in.
func (l *layout) shared(b *sheet.Table) *pdfTable {
	want, word, part := natural(b)
	t := &pdfTable{of: b, columns: b.Columns[:len(want)]}
	for _, kept := range []struct {
		of     []float64
		mostMM float64
	}{{word, keptMM}, {part, keptMM}, {part, keptMM / 2}, {part, leastMM}} {
		floor := make([]float64, len(word))
		for i := range word {
			floor[i] = min(want[i], kept.of[i], kept.mostMM)
		}
		if t.wide = levelled(want, floor, l.width()); total(t.wide) <= l.width()+0.01 {
			break
		}
	}
	if over := total(t.wide) / l.width(); over > 1 {
		for i := range t.wide {
			t.wide[i] /= over
		}
	}
	t.spread(l.width())
	t.heads(l)
	return t
}

// levelled caps columns at the one width at which they fill the room, but none
// below its floor.
func levelled(want, floor []float64, room float64) []float64 {
	at := func(level float64) []float64 {
		wide := make([]float64, len(want))
		for i, w := range want {
			wide[i] = max(min(w, level), floor[i])
		}
		return wide
	}
	if total(want) <= room {
		return want
	}
	low, high := 0.0, room
	for range 40 {
		if mid := (low + high) / 2; total(at(mid)) > room {
			high = mid
		} else {
			low = mid
		}
	}
	return at(low)
}

func total(list []float64) float64 {
	sum := 0.0
	for _, v := range list {
		sum += v
	}
	return sum
}

// spread gives columns to be written in what is to spare.
func (t *pdfTable) spread(room float64) {
	var blanks []int
	for i, c := range t.columns {
		if c.Blank {
			blanks = append(blanks, i)
		}
	}
	t.blank = isForm(t.of)
	for _, i := range blanks {
		t.wide[i] += min(40, max(0, room-total(t.wide))/float64(len(blanks)))
	}
}

func (t *pdfTable) heads(l *layout) {
	bold := face{bold: true, sizeMM: cellMM}
	if t.of.Title != "" {
		t.title = wrap(inked(t.of.Title), l.width(), face{bold: true, sizeMM: bodyMM}.measure())
	}
	for i, c := range t.columns {
		t.head = append(t.head, held(wrap(inked(orElse(c.Title, c.Name)), t.wide[i]-2*padMM, bold.measure()), 8))
		t.units = append(t.units, fitted(c.Unit, face{sizeMM: smallMM}, t.wide[i]-2*padMM))
	}
}

// held keeps the first lines, with a mark where some are left out.
func held(lines []string, most int) []string {
	if len(lines) > most {
		lines = append(lines[:most-1:most-1], cutMark)
	}
	return lines
}

// isForm reports whether a table is written in by hand.
func isForm(t *sheet.Table) bool {
	return slices.ContainsFunc(t.Columns, func(c sheet.Column) bool { return c.Blank })
}
