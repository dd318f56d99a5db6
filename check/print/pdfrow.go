package print

import (
	"hame/check/draw"
	"hame/check/sheet"
)

// pdfRow is a row with its cells wrapped.
type pdfRow struct {
	of    sheet.Row
	lines [][]string // of each column; of a group's heading, of its words and their detail
	high  float64
}

// row wraps a row's cells. None is higher than a page below the table's head.
func (l *layout) row(t *pdfTable, r sheet.Row) pdfRow {
	most := int((l.bottom() - l.top() - t.headHigh() - 2*padMM) / lineMM(cellMM))
	if r.Group != "" {
		return l.groupOf(t, r, most)
	}
	row := pdfRow{of: r}
	lines := 1
	for i := range t.columns {
		cell := cellOf(r, i)
		room := t.wide[i] - 2*padMM - swatchOf(cell)
		wrapped := held(wrap(inked(words(cell)), room, faceOf(t.columns[i], cell, r).measure()), max(1, most))
		row.lines = append(row.lines, wrapped)
		lines = max(lines, len(wrapped))
	}
	if row.high = float64(lines)*lineMM(cellMM) + 2*padMM - 0.6; t.blank && !r.Total {
		row.high = max(row.high, blankRowMM)
	}
	return row
}

func (t *pdfTable) headHigh() float64 {
	return float64(len(t.title))*lineMM(bodyMM) + t.bandHigh() + 0.5
}

// bandHigh is how high the columns' heads are.
func (t *pdfTable) bandHigh() float64 {
	lines, unit := 1, 0.0
	for i := range t.columns {
		lines = max(lines, len(t.head[i]))
		if t.units[i] != "" {
			unit = lineMM(smallMM)
		}
	}
	return float64(lines)*lineMM(cellMM) + unit + 2*padMM - 0.6
}

// tableHead sets the title and the columns' heads, on every page anew.
func (l *layout) tableHead(t *pdfTable) {
	l.lines(marginMM, t.title, face{bold: true, sizeMM: bodyMM})
	l.y += 0.5
	high, wide := t.bandHigh(), total(t.wide)
	l.band(marginMM, l.y, wide, high, draw.Shade)
	x := float64(marginMM)
	for i, c := range t.columns {
		y := l.y + padMM
		for _, line := range t.head[i] {
			l.cell(x, y, t.wide[i], line, face{bold: true, sizeMM: cellMM}, c.Right)
			y += lineMM(cellMM)
		}
		l.cell(x, y, t.wide[i], t.units[i], face{sizeMM: smallMM}, c.Right)
		x += t.wide[i]
	}
	l.grid(t, high)
	l.rule(marginMM, l.y, marginMM+wide, l.y, 0.3)
	l.y += high
	l.rule(marginMM, l.y, marginMM+wide, l.y, 0.3)
}

// cell sets a line of a cell whose upper left corner is given.
func (l *layout) cell(x, y, wide float64, line string, f face, right bool) {
	if right {
		f.anchor = draw.End
		l.words(x+wide-padMM, y+f.sizeMM*0.9, line, f)
		return
	}
	l.words(x+padMM, y+f.sizeMM*0.9, line, f)
}

// grid draws the upright rules of a row.
func (l *layout) grid(t *pdfTable, high float64) {
	x := float64(marginMM)
	l.rule(x, l.y, x, l.y+high, 0.15)
	for _, w := range t.wide {
		x += w
		l.rule(x, l.y, x, l.y+high, 0.15)
	}
}

func (l *layout) tableRow(t *pdfTable, row pdfRow, sums bool) {
	if sums {
		l.rule(marginMM, l.y, marginMM+total(t.wide), l.y, 0.5)
	}
	x := float64(marginMM)
	for i, c := range t.columns {
		cell := cellOf(row.of, i)
		in, y := swatchOf(cell), l.y+padMM
		if in > 0 {
			l.swatch(x+padMM, y, cell.Swatch)
		}
		for _, line := range row.lines[i] {
			l.cell(x+in, y, t.wide[i]-in, line, faceOf(c, cell, row.of), c.Right)
			y += lineMM(cellMM)
		}
		x += t.wide[i]
	}
	l.grid(t, row.high)
	l.y += row.high
	l.rule(marginMM, l.y, marginMM+total(t.wide), l.y, 0.15)
}

// swatch is a patch in a wire's colours; their names stand beside it.
func (l *layout) swatch(x, y float64, colours []draw.Colour) {
	const wide, high = 3.2, 2.4
	each := high / float64(len(colours))
	for i, c := range colours {
		l.band(x, y+0.3+float64(i)*each, wide, each, c)
	}
	l.box(x, y+0.3, wide, high, 0.15)
}

// groupOf wraps a heading within a table over all columns.
func (l *layout) groupOf(t *pdfTable, r sheet.Row, most int) pdfRow {
	room := total(t.wide) - 2*padMM
	row := pdfRow{of: r, lines: [][]string{held(wrap(inked(r.Group), room, groupFace.measure()), max(1, most/2))}}
	row.high = float64(len(row.lines[0]))*lineMM(cellMM) + 2*padMM
	if r.Detail != "" {
		detail := held(wrap(inked(r.Detail), room, detailFace.measure()), max(1, most/2))
		row.lines = append(row.lines, detail)
		row.high += float64(len(detail)) * lineMM(smallMM)
	}
	return row
}

var groupFace, detailFace = face{bold: true, sizeMM: cellMM}, face{sizeMM: smallMM}

func (l *layout) groupRow(t *pdfTable, row pdfRow) {
	wide := total(t.wide)
	l.band(marginMM, l.y, wide, row.high, draw.Shade)
	l.box(marginMM, l.y, wide, row.high, 0.15)
	y := l.y + padMM
	for i, f := range []face{groupFace, detailFace}[:len(row.lines)] {
		for _, line := range row.lines[i] {
			l.cell(marginMM, y, wide, line, f, false)
			y += lineMM(f.sizeMM)
		}
	}
	l.y += row.high
}
