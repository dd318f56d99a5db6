package print

import (
	"slices"
	"strings"

	"hame/check/sheet"
)

const (
	gap        = 2  // columns between the columns of a table
	blankWidth = 10 // of a column to be written in, at least
	longWord   = 24 // letters of a word that stay together if there is room
	shortWord  = 10 // letters of a word's part that stay together in any table
)

func (t *text) table(b *sheet.Table) {
	if b.Title != "" {
		t.wrapped("", clean(b.Title))
	}
	if len(b.Rows) == 0 {
		t.wrapped("", orElse(clean(b.Empty), "none"))
		return
	}
	g := gridOf(b.OnPaper())
	if wide, fits := g.widths(t.wide); fits {
		t.columns(g, wide)
	} else {
		t.records(g)
	}
	t.more(leftOut(len(b.Rows), mostRows, "rows"))
}

func orElse(words, other string) string {
	if words == "" {
		return other
	}
	return words
}

// grid is a table as text: its head, its units, and its rows.
type grid struct {
	of          *sheet.Table
	head, units []string
	rows        [][]string
}

func gridOf(b *sheet.Table) *grid {
	g := &grid{of: b}
	for _, c := range b.Columns {
		g.head, g.units = append(g.head, clean(orElse(c.Title, c.Name))), append(g.units, clean(c.Unit))
	}
	for _, r := range rowsOf(b) {
		if r.Group != "" {
			g.rows = append(g.rows, nil)
			continue
		}
		cells := make([]string, len(b.Columns))
		for i, c := range b.Columns {
			if cells[i] = words(cellOf(r, i)); c.Blank && cells[i] == "" && !r.Total {
				cells[i] = strings.Repeat("_", blankWidth)
			}
		}
		g.rows = append(g.rows, cells)
	}
	return g
}

// widths shares a line out among the columns: what each wants, less what the
// widest can do without. Prose gives way first, down to its longest word, then
// words that have parts, then their parts. It does not fit where these would be cut
// into too short pieces.
func (g *grid) widths(line int) ([]int, bool) {
	wide, floors := g.wants()
	spare := line - gap*(len(wide)-1)
	for _, floor := range floors {
		for sum(wide) > spare {
			i := widest(wide, floor)
			if i < 0 {
				break
			}
			wide[i]--
		}
	}
	return wide, sum(wide) <= spare
}

// wants is what each column wants, and what it can be narrowed to: first, next and
// at last.
func (g *grid) wants() (wide []int, floors [3][]int) {
	wide = make([]int, len(g.head))
	for k := range floors {
		floors[k] = make([]int, len(g.head))
	}
	for i := range g.head {
		for _, cell := range g.column(i) {
			wide[i] = max(wide[i], columns(cell))
			word, part := longest(cell)
			for k, n := range []int{min(word, longWord), min(part, longWord), min(part, shortWord)} {
				floors[k][i] = max(floors[k][i], n)
			}
		}
	}
	return wide, floors
}

// column lists all cells of a column, its head and unit first.
func (g *grid) column(i int) []string {
	list := []string{g.head[i], g.units[i]}
	for _, r := range g.rows {
		if r != nil {
			list = append(list, r[i])
		}
	}
	return list
}

// longest is how wide the widest word is that no line may end in, and the widest
// part of one.
func longest(cell string) (word, part int) {
	for _, w := range unbroken(cell) {
		word = max(word, columns(w))
		for _, p := range parts(w) {
			part = max(part, columns(p))
		}
	}
	return word, part
}

// widest is the column that is the widest of those that are wider than their
// floor; -1 for none.
func widest(wide, floor []int) int {
	best := -1
	for i, w := range wide {
		if w > floor[i] && (best < 0 || w > wide[best]) {
			best = i
		}
	}
	return best
}

func sum(list []int) int {
	n := 0
	for _, v := range list {
		n += v
	}
	return n
}

func (t *text) columns(g *grid, wide []int) {
	rule := strings.Repeat("-", sum(wide)+gap*(len(wide)-1))
	t.row(g, g.head, wide)
	if slices.ContainsFunc(g.units, func(u string) bool { return u != "" }) {
		t.row(g, g.units, wide)
	}
	t.line(rule)
	for i, r := range g.rows {
		if r == nil {
			t.group(g.of.Rows[i], i == 0)
			continue
		}
		if g.of.Rows[i].Total && (i == 0 || !g.of.Rows[i-1].Total) {
			t.line(rule)
		}
		t.row(g, r, wide)
	}
}

// row writes a row, over as many lines as its longest cell takes.
func (t *text) row(g *grid, cells []string, wide []int) {
	lines := make([][]string, len(cells))
	high := 0
	for i, c := range cells {
		lines[i] = wrap(c, float64(wide[i]), columnsOf)
		high = max(high, len(lines[i]))
	}
	for k := range high {
		var parts []string
		for i := range cells {
			part := ""
			if k < len(lines[i]) {
				part = lines[i][k]
			}
			parts = append(parts, filled(part, wide[i], g.of.Columns[i].Right))
		}
		t.line(strings.Join(parts, strings.Repeat(" ", gap)))
	}
}

// records writes a table that is too wide for the line: each row as a list.
func (t *text) records(g *grid) {
	for k, r := range g.rows {
		if r == nil {
			t.group(g.of.Rows[k], k == 0)
			continue
		}
		if k > 0 {
			t.line("")
		}
		for i, cell := range r {
			head := g.head[i]
			if g.units[i] != "" {
				head += " (" + g.units[i] + ")"
			}
			if cell != "" {
				t.wrapped("", head+": "+cell)
			}
		}
	}
}

// group writes a heading within a table.
func (t *text) group(r sheet.Row, first bool) {
	if !first {
		t.line("")
	}
	t.wrapped("* ", clean(r.Group))
	if r.Detail != "" {
		t.wrapped("  ", clean(r.Detail))
	}
}
