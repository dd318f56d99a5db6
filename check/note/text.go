package note

import (
	"bufio"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"hame/check/wording"
)

// columns is how wide a note is printed.
const columns = 100

// WriteText writes a note for a person: headings, figures in columns, black and
// white, no line above 100 columns.
func WriteText(to io.Writer, n *Note) error {
	out := bufio.NewWriter(to)
	p := &printer{out: out}
	p.wrapped("", n.Kind+" "+n.Name+": "+n.Title)
	p.wrapped("", "harness "+wording.Named(n.Harness)+", practice "+n.Practice+modeWords(n))
	for i := range n.Sections {
		p.section(&n.Sections[i])
	}
	p.sourceList()
	return out.Flush() // which keeps the first error
}

func modeWords(n *Note) string {
	if n.Mode == "" {
		return ""
	}
	return ", mode " + n.Mode
}

// printer counts the sources, which stand in a list at the end.
type printer struct {
	out     *bufio.Writer
	sources []string
}

// cite is a source's number.
func (p *printer) cite(source string) string {
	i := slices.Index(p.sources, source)
	if i < 0 {
		i = len(p.sources)
		p.sources = append(p.sources, source)
	}
	return "[" + strconv.Itoa(i+1) + "]"
}

func (p *printer) sourceList() {
	if len(p.sources) == 0 {
		return
	}
	p.line("")
	p.line("Sources")
	for i, s := range p.sources {
		p.wrapped(fmt.Sprintf("    [%d] ", i+1), s)
	}
}

func (p *printer) line(text string) {
	text = strings.ReplaceAll(text, held, " ")
	_, _ = p.out.WriteString(strings.TrimRight(text, " ") + "\n")
}

func (p *printer) section(s *Section) {
	p.line("")
	p.wrapped("", s.Title)
	p.rows(s.Rows)
	if len(s.Rows) > 0 && s.Table != nil {
		p.line("")
	}
	if s.Table != nil {
		p.table(s.Table)
	}
	for _, text := range s.Words {
		p.wrapped("    ", text)
	}
}

// rows writes figures: label, figure, and how it comes about, from where.
func (p *printer) rows(rows []Row) {
	label, figure := 0, 0
	for _, r := range rows {
		label = max(label, width(r.Label))
		if r.Figure != nil {
			figure = max(figure, width(r.Figure.String()))
		}
	}
	label = min(label, mostLabel)
	for _, r := range rows {
		head := "    " + padded(clipped(r.Label, mostLabel), label) + "  "
		if r.Figure != nil { // else words take its place
			head += strings.Repeat(" ", figure-width(r.Figure.String())) + r.Figure.String() + "  "
		}
		p.wrapped(head, p.rest(&r))
	}
}

// mostLabel is the widest that labels are.
const mostLabel = 34

// rest is what stands behind a row's figure.
func (p *printer) rest(r *Row) string {
	var parts []string
	if len(r.How) > 0 {
		parts = append(parts, "= "+written(r.How))
	}
	if r.Words != "" {
		parts = append(parts, r.Words)
	}
	if r.Source != nil {
		parts = append(parts, p.cite(wording.Cited(*r.Source)))
	}
	return strings.Join(parts, "  ")
}

// wrapped writes words behind a head, further lines as far in as the first.
func (p *printer) wrapped(head, text string) {
	indent := strings.Repeat(" ", width(head))
	line, at := head, width(head)
	for _, word := range strings.Split(visible(text), " ") {
		word = clipped(word, columns-len(indent))
		if n := width(word); at > len(indent) && at+n > columns {
			p.line(line)
			line, at = indent, len(indent)
		}
		if word == "" && line == indent {
			continue // a blank that the line's end has taken
		}
		line += word + " "
		at += width(word) + 1
	}
	p.line(line)
}

// table writes a table: figures to the right, on their points.
func (p *printer) table(t *Table) {
	grid := t.printed()
	wide := make([]int, len(t.Columns)+1)
	for _, cells := range grid {
		for i, c := range cells {
			wide[i] = max(wide[i], width(c))
		}
	}
	for k, cells := range grid {
		if k >= 2 && t.Rows[k-2].Sum {
			p.line("    " + strings.Repeat("-", ruled(wide)))
		}
		line := "    " + padded(cells[0], wide[0])
		for i, c := range cells[1:] {
			if t.Columns[i].Unit == "" {
				line += "  " + padded(c, wide[i+1])
			} else {
				line += "  " + strings.Repeat(" ", wide[i+1]-width(c)) + c
			}
		}
		p.line(line)
	}
}

func ruled(wide []int) int {
	sum := -2
	for _, n := range wide {
		sum += n + 2
	}
	return sum
}

// printed is a table as text: names, units, then the lines.
func (t *Table) printed() [][]string {
	names, units := []string{visible(t.Head)}, []string{""}
	places := make([]int, len(t.Columns))
	for i, c := range t.Columns {
		names, units = append(names, clipped(visible(c.Name), mostLabel)), append(units, c.unit())
		places[i] = c.places(t.Rows, i)
	}
	grid := [][]string{names, units}
	for _, r := range t.Rows {
		line := []string{clipped(visible(r.Label), mostLabel)}
		for i, c := range r.Cells {
			text := clipped(visible(c.Words), mostLabel)
			if c.Value != nil {
				text = t.Columns[i].written(*c.Value, places[i])
			}
			line = append(line, text)
		}
		grid = append(grid, line)
	}
	return grid
}

func padded(text string, n int) string {
	return text + strings.Repeat(" ", max(0, n-width(text)))
}

func width(text string) int { return utf8.RuneCountInString(text) }

// clipped cuts what is too long, such as a name of a thousand letters.
func clipped(text string, most int) string {
	if width(text) <= most {
		return text
	}
	return string([]rune(text)[:max(0, most-1)]) + "…"
}

// visible takes what could move a terminal's cursor out of a text.
func visible(text string) string {
	return strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) && string(r) != held {
			return '?'
		}
		return r
	}, text)
}
