package print

import (
	"bufio"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"errors"
	"fmt"
	"html/template"
	"io"
	"strings"

	"hame/check/sheet"
)

// HTMLOptions are for HTML. What they hold is the caller's own, never a user's.
type HTMLOptions struct {
	// Script runs at the end of the page, allowed by its hash; "" has none. It
	// finds sections by data-sheet, figures by data-picture, and rows of tables and
	// groups of drawings by data-name.
	Script string
	// Style stands behind the page's own styles.
	Style string
	// Controls stand above the sheets, such as a picker of modes, in an element of
	// the class screen, that print leaves out.
	Controls template.HTML
}

//go:embed page.css
var pageStyle string

//go:embed page.html
var pageText string

var pageTemplate = template.Must(template.New("page").Parse(pageText))

// page is what the template is filled with.
type page struct {
	Policy          string
	Title, Heading  string
	Purpose         string
	Alone           bool // its one sheet has the head
	Verdict, Origin string
	Style           template.CSS
	Script          template.JS
	Controls        template.HTML
	Links           []link
	Sheets          []sheetView
	Cautions        []string
	Defer           string
}

type link struct {
	Href           template.URL
	Title, Summary string
}

// HTML writes sheets as one page that needs nothing else: no script, no network.
func HTML(to io.Writer, h sheet.Head, sheets []*sheet.Sheet, o HTMLOptions) error {
	p := newPage(h, o)
	v := &viewer{ids: map[string]bool{"main": true}}
	for i, s := range sheets {
		view, err := v.sheet(s)
		if err != nil {
			return err
		}
		view.First = i == 0
		p.Sheets = append(p.Sheets, view)
		p.Links = append(p.Links, link{template.URL("#" + view.ID), view.Title, view.Purpose})
	}
	if len(sheets) == 1 {
		p.Title, p.Links, p.Alone = titleOf(h, sheets[0]), nil, true
	}
	return p.write(to)
}

// HTMLIndex writes the index page of a pack, with links to its files.
func HTMLIndex(to io.Writer, h sheet.Head, entries []Entry) error {
	p := newPage(h, HTMLOptions{})
	p.Purpose = indexPurpose
	for _, e := range entries {
		p.Links = append(p.Links, link{template.URL(pathEscaped(e.File)), clean(e.Title) + " (" + clean(e.File) + ")", clean(e.Summary)})
	}
	return p.write(to)
}

func newPage(h sheet.Head, o HTMLOptions) *page {
	style := pageStyle + marginStyle(h) + o.Style
	title := orElse(clean(h.Title), indexTitle)
	p := &page{
		Title: title, Heading: title, Verdict: h.Verdict(), Origin: originOf(h),
		Style: template.CSS(style), Script: template.JS(o.Script), Controls: o.Controls,
		Defer: sheet.Defer,
	}
	for _, c := range sheet.Cautions {
		p.Cautions = append(p.Cautions, clean(c))
	}
	p.Policy = policy(style, o.Script)
	return p
}

// policy lets the page run its one style element and its one script, by their
// hashes, and nothing else, from nowhere.
func policy(style, script string) string {
	rules := "default-src 'none'; style-src " + hashed(style) + "; img-src data:; base-uri 'none'; form-action 'none'"
	if script != "" {
		rules += "; script-src " + hashed(script)
	}
	return rules
}

func hashed(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

var errEnds = errors.New("a style or script may not end its own element")

func (p *page) write(to io.Writer) error {
	if strings.Contains(strings.ToLower(string(p.Style)+string(p.Script)), "</s") {
		return errEnds
	}
	w := bufio.NewWriter(to)
	if err := pageTemplate.Execute(w, p); err != nil {
		return err
	}
	return w.Flush()
}

// marginStyle puts the verdict and the origin into the margins of every page
// that is printed.
func marginStyle(h sheet.Head) string {
	head := clean(h.Title) + ", " + originOf(h)
	if v := h.Verdict(); v != "" {
		head = v + "  " + head
	}
	return fmt.Sprintf(`@page {
  margin: 20mm 14mm 18mm;
  @top-left { content: %s; width: 100%%; font: bold 8pt sans-serif; }
  @bottom-left { content: %s; width: 85%%; font: 7pt sans-serif; }
  @bottom-right { content: counter(page) " of " counter(pages); font: 7pt sans-serif; }
}
`, cssString(head), cssString(sheet.Defer))
}

// cssString quotes any text for CSS: all but letters, digits and blanks stand by
// their numbers, each with the blank that ends it.
func cssString(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		if r == ' ' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' {
			b.WriteRune(r)
		} else {
			fmt.Fprintf(&b, `\%x `, r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
