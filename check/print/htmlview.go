package print

import (
	"fmt"
	"html/template"
	"net/url"
	"strconv"
	"strings"

	"hame/check/draw"
	"hame/check/sheet"
)

// The views have a sheet as the template wants it.
type sheetView struct {
	ID, Name, Title, Purpose string
	First                    bool
	Blocks                   []blockView
}

// blockView has one of its parts set.
type blockView struct {
	Heading            string
	Words, Lead, Class string
	Table              *tableView
	Steps              []sheet.Step
	Picture            *pictureView
}

type tableView struct {
	ID, Title, More string
	Unseen          bool // the title is the heading's above, for those who hear it
	Columns         []columnView
	Rows            []rowView
}

type columnView struct{ Title, Unit, Class string }

type rowView struct {
	Group, Detail string
	Across        int // columns that a group's heading goes over
	Name          string
	Total         bool
	Cells         []cellView
}

type cellView struct {
	Words, Class string
	Swatch       template.HTML
	Strong, Head bool
}

type pictureView struct {
	ID, Name, Title string
	TrueSize        bool
	SVG             template.HTML
}

// viewer keeps the page's ids apart.
type viewer struct {
	ids   map[string]bool
	above string // the heading that a block stands under
}

// id makes an id that no other element has, of words.
func (v *viewer) id(parts ...string) string {
	plain := strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r == '_' {
			return r
		}
		return '-'
	}, strings.Join(parts, "-"))
	id := plain
	for n := 2; v.ids[id] || v.ids[id+"-title"]; n++ {
		id = plain + "-" + strconv.Itoa(n)
	}
	v.ids[id], v.ids[id+"-title"] = true, true
	return id
}

func (v *viewer) sheet(s *sheet.Sheet) (sheetView, error) {
	view := sheetView{ID: v.id("sheet", s.Name), Name: clean(s.Name), Title: clean(s.Title), Purpose: clean(s.Purpose)}
	v.above = view.Title
	for _, b := range s.Blocks {
		blocks, err := v.block(view.ID, b)
		if err != nil {
			return view, err
		}
		view.Blocks = append(view.Blocks, blocks...)
	}
	return view, nil
}

func (v *viewer) block(in string, b sheet.Block) ([]blockView, error) {
	switch b := b.(type) {
	case sheet.Heading:
		v.above = clean(b.Words)
		return []blockView{{Heading: v.above}}, nil
	case sheet.Text:
		return []blockView{textView(b)}, nil
	case *sheet.Table:
		return v.table(in, b), nil
	case sheet.Steps:
		return stepsView(b), nil
	case sheet.Drawing:
		return v.drawing(in, b)
	}
	return nil, nil
}

func textView(b sheet.Text) blockView {
	view := blockView{Words: clean(b.Words)}
	switch b.Weight {
	case sheet.Small:
		view.Class = "small"
	case sheet.Warning:
		view.Class, view.Lead = "warning", "Warning:"
	}
	return view
}

func stepsView(b sheet.Steps) []blockView {
	var steps []sheet.Step
	for _, s := range b.Items[:min(len(b.Items), mostSteps)] {
		steps = append(steps, sheet.Step{Words: clean(s.Words), Detail: clean(s.Detail)})
	}
	return []blockView{{Steps: steps}, {Words: leftOut(len(b.Items), mostSteps, "steps"), Class: "small"}}
}

func (v *viewer) table(in string, b *sheet.Table) []blockView {
	b = b.OnPaper()
	title := clean(b.Title)
	if len(b.Rows) == 0 {
		words := orElse(clean(b.Empty), "none")
		if title != "" {
			title += ":"
		}
		return []blockView{{Lead: title, Words: words}}
	}
	t := &tableView{ID: v.id(in, b.Name), Title: orElse(title, v.above), Unseen: title == "", More: leftOut(len(b.Rows), mostRows, "rows")}
	classes := classesOf(b)
	for i, c := range b.Columns {
		t.Columns = append(t.Columns, columnView{clean(orElse(c.Title, c.Name)), clean(c.Unit), classes[i]})
	}
	for _, r := range rowsOf(b) {
		t.Rows = append(t.Rows, rowOf(b, r, classes))
	}
	return []blockView{{Table: t}}
}

// proseLetters is from how many letters on a cell is prose, which stays broad
// enough to be read on a narrow screen.
const proseLetters = 60

func classesOf(b *sheet.Table) []string {
	classes := make([]string, len(b.Columns))
	for i, c := range b.Columns {
		classes[i] = classOf(c)
		for _, r := range rowsOf(b) {
			if classes[i] == "" && len(cellOf(r, i).Words) >= proseLetters {
				classes[i] = "prose"
			}
		}
	}
	return classes
}

func classOf(c sheet.Column) string {
	switch {
	case c.Blank:
		return "blank"
	case c.Right:
		return "right"
	case c.Small:
		return "tiny"
	}
	return ""
}

func rowOf(b *sheet.Table, r sheet.Row, classes []string) rowView {
	row := rowView{Group: clean(r.Group), Detail: clean(r.Detail), Across: len(b.Columns), Name: clean(r.Name), Total: r.Total}
	for i, c := range b.Columns {
		cell := cellOf(r, i)
		row.Cells = append(row.Cells, cellView{
			Words: words(cell), Class: classes[i], Strong: cell.Strong, Swatch: swatch(cell.Swatch),
			Head: i == 0 && !c.Blank,
		})
	}
	return row
}

// swatch is a patch in a wire's colours. Its words stand beside it, so that it
// is hidden from who hears the page.
func swatch(colours []draw.Colour) template.HTML {
	if len(colours) == 0 {
		return ""
	}
	var b strings.Builder
	b.WriteString(`<svg class="swatch" aria-hidden="true" viewBox="0 0 22 16">`)
	high := 14 / float64(len(colours))
	for i, c := range colours {
		red, green, blue := c.RGB()
		fmt.Fprintf(&b, `<rect x="1" y="%.2f" width="20" height="%.2f" fill="#%02x%02x%02x"/>`, 1+float64(i)*high, high, red, green, blue)
	}
	b.WriteString(`<rect x="1" y="1" width="20" height="14" fill="none" stroke="#767676"/></svg>`)
	return template.HTML(b.String())
}

func (v *viewer) drawing(in string, b sheet.Drawing) ([]blockView, error) {
	var list []blockView
	for _, p := range b.Pictures {
		p, left := tidy(p)
		var svg strings.Builder
		if err := draw.SVG(&svg, p); err != nil {
			return nil, err
		}
		list = append(list, blockView{Picture: &pictureView{
			ID: v.id(in, "drawing", p.Name), Name: p.Name, Title: p.Title, TrueSize: p.TrueSize, SVG: template.HTML(svg.String()),
		}}, blockView{Words: left, Class: "small"})
	}
	return list, nil
}

// pathEscaped is a file's name as a link to it beside the page.
func pathEscaped(name string) string { return "./" + url.PathEscape(name) }
