package print_test

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/xml"
	"errors"
	"html/template"
	"io"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"hame/check/draw"
	"hame/check/print"
	"hame/check/sheet"
)

func asHTML(t *testing.T, o print.HTMLOptions, sheets ...*sheet.Sheet) string {
	t.Helper()
	var b strings.Builder
	if err := print.HTML(&b, sampleHead(), sheets, o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// elements lists all elements of a page, as a browser's parser has them.
func elements(t *testing.T, page string) []*html.Node {
	t.Helper()
	root, err := html.Parse(strings.NewReader(page))
	if err != nil {
		t.Fatal(err)
	}
	var list []*html.Node
	for n := range root.Descendants() {
		if n.Type == html.ElementNode {
			list = append(list, n)
		}
	}
	return list
}

func attribute(n *html.Node, name string) string {
	for _, a := range n.Attr {
		if a.Key == name {
			return a.Val
		}
	}
	return ""
}

func inside(n *html.Node) string {
	var b strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			b.WriteString(d.Data)
		}
	}
	return b.String()
}

func count(list []*html.Node, name string) int {
	n := 0
	for _, e := range list {
		if e.Data == name {
			n++
		}
	}
	return n
}

// hostileSheet has a hostile text wherever a text may stand.
func hostileSheet() *sheet.Sheet {
	s := &sheet.Sheet{Name: hostile, Title: hostile, Purpose: hostile}
	table := &sheet.Table{Name: hostile, Title: hostile, Columns: []sheet.Column{{Name: hostile, Title: hostile, Unit: hostile}}}
	table.Rows = []sheet.Row{{Name: hostile, Cells: []sheet.Cell{{Words: hostile, Swatch: []draw.Colour{hostile}}}}}
	picture := &draw.Picture{Name: hostile, Title: hostile, Describe: hostile, WidthMM: 10, HeightMM: 10}
	picture.Add(draw.Group{Sort: draw.Wire, Name: hostile, Tip: hostile, Items: []draw.Item{draw.Text{Words: hostile, SizeMM: 3}}})
	s.Add(sheet.Heading{Words: hostile}, sheet.Text{Words: hostile}, table, &sheet.Table{Title: hostile, Empty: hostile},
		sheet.Steps{Items: []sheet.Step{{Words: hostile, Detail: hostile}}}, sheet.Drawing{Pictures: []*draw.Picture{picture, picture}})
	return s
}

// TestHTMLHolds checks what is promised of every page: ids once, heads on every
// table, references to nothing outside, no script or style but what the policy
// allows by its hash, headings in order, and texts that stay texts.
func TestHTMLHolds(t *testing.T) {
	head := sampleHead()
	head.Title, head.File, head.Practice = hostile, hostile, hostile
	for name, o := range map[string]print.HTMLOptions{
		"bare": {}, "script": {Script: "document.title += ' & <i>';", Style: ".x > .y { color: red }", Controls: `<div class="screen" id="modes"></div>`},
	} {
		t.Run(name, func(t *testing.T) {
			var b strings.Builder
			if err := print.HTML(&b, head, []*sheet.Sheet{sample(), hostileSheet(), sample()}, o); err != nil {
				t.Fatal(err)
			}
			page := elements(t, b.String())
			holdsIDs(t, page)
			holdsTables(t, page)
			holdsPolicy(t, page)
			holdsHeadings(t, page)
			want := 0
			if o.Script != "" {
				want = 1
			}
			if n := count(page, "script"); n != want {
				t.Errorf("%d scripts, want %d", n, want)
			}
		})
	}
}

func holdsIDs(t *testing.T, page []*html.Node) {
	t.Helper()
	seen := map[string]bool{}
	for _, e := range page {
		if id := attribute(e, "id"); id != "" {
			if seen[id] {
				t.Errorf("the id %q stands twice", id)
			}
			seen[id] = true
		}
	}
	for _, e := range page {
		if id, inner := strings.CutPrefix(attribute(e, "href"), "#"); inner && !seen[id] {
			t.Errorf("a link leads to no id: %q", id)
		}
		if id := attribute(e, "aria-labelledby"); id != "" && !seen[id] {
			t.Errorf("a label is no id: %q", id)
		}
	}
}

func holdsTables(t *testing.T, page []*html.Node) {
	t.Helper()
	tables := 0
	for _, e := range page {
		if e.Data != "table" {
			continue
		}
		tables++
		captions, heads, columns, cells := 0, 0, 0, 0
		for d := range e.Descendants() {
			switch d.Data {
			case "caption":
				captions++
			case "thead":
				heads++
			case "th":
				if attribute(d, "scope") == "col" {
					columns++
				} else {
					cells++
				}
			case "td":
				cells++
			}
		}
		if captions != 1 || heads != 1 || columns == 0 || cells%columns != 0 {
			t.Errorf("%d captions, %d heads, %d columns and %d cells", captions, heads, columns, cells)
		}
	}
	if tables != 3 {
		t.Errorf("%d tables, want 3", tables)
	}
}

// holdsPolicy goes by CSP Level 3: a hash is the base64 of the SHA-256 of what
// stands in the element (from memory).
func holdsPolicy(t *testing.T, page []*html.Node) {
	t.Helper()
	policy := ""
	for _, e := range page {
		if attribute(e, "http-equiv") == "Content-Security-Policy" {
			policy = attribute(e, "content")
		}
	}
	if !strings.HasPrefix(policy, "default-src 'none';") || strings.Contains(policy, "unsafe") {
		t.Errorf("the policy is %q", policy)
	}
	for _, e := range page {
		if e.Data == "style" || e.Data == "script" {
			sum := sha256.Sum256([]byte(inside(e)))
			if want := e.Data + "-src 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"; !strings.Contains(policy, want) {
				t.Errorf("the policy %q does not allow %s", policy, want)
			}
		}
		for _, a := range e.Attr {
			switch {
			case a.Key == "style" || strings.HasPrefix(a.Key, "on"):
				t.Errorf("an attribute %s, which the policy forbids", a.Key)
			case a.Key == "src" || a.Key == "href" && !strings.HasPrefix(a.Val, "#"), strings.Contains(a.Val, "url("):
				t.Errorf("a reference to %q", a.Val)
			}
		}
	}
}

func holdsHeadings(t *testing.T, page []*html.Node) {
	t.Helper()
	level := 0
	for _, e := range page {
		if len(e.Data) == 2 && e.Data[0] == 'h' && e.Data[1] >= '1' && e.Data[1] <= '6' {
			if next := int(e.Data[1] - '0'); next > level+1 {
				t.Errorf("%s %q comes after a heading of level %d", e.Data, inside(e), level)
			} else {
				level = next
			}
		}
	}
	if level == 0 || count(page, "h1") != 1 || count(page, "main") != 1 {
		t.Errorf("%d h1 and %d main", count(page, "h1"), count(page, "main"))
	}
}

// TestHTMLSays: each sheet has the verdict, and the page what every paper says.
func TestHTMLSays(t *testing.T) {
	text := asHTML(t, print.HTMLOptions{}, sample(), long(2))
	page := elements(t, text)
	for _, e := range page {
		if e.Data == "section" {
			for _, words := range append([]string{"NOT FOR BUILD: 2 errors, 5 not judged", "0123456789ab", sheet.Defer}, sheet.Cautions...) {
				if !strings.Contains(inside(e), words) {
					t.Errorf("a sheet does not say %q", words)
				}
			}
		}
	}
	for _, words := range []string{`<html lang="en">`, `href="#main"`, "prefers-color-scheme: dark", "@media print", `type="checkbox"`} {
		if !strings.Contains(text, words) {
			t.Errorf("no %s in the page", words)
		}
	}
}

// TestHTMLEnds: nothing that a caller gives can end its own element.
func TestHTMLEnds(t *testing.T) {
	for _, o := range []print.HTMLOptions{{Script: "'</Script>'"}, {Style: "</style>"}} {
		if err := print.HTML(io.Discard, sampleHead(), nil, o); err == nil {
			t.Errorf("%+v is taken", o)
		}
	}
	if err := print.HTML(io.Discard, sampleHead(), nil, print.HTMLOptions{Controls: template.HTML("<p>")}); err != nil {
		t.Error(err)
	}
}

// TestHTMLDrawings: each drawing is well-formed XML by itself.
func TestHTMLDrawings(t *testing.T) {
	text := asHTML(t, print.HTMLOptions{}, sample(), hostileSheet())
	drawings := 0
	for {
		start := strings.Index(text, "<svg")
		if start < 0 {
			break
		}
		end := strings.Index(text, "</svg>") + len("</svg>")
		drawings++
		for d := xml.NewDecoder(strings.NewReader(text[start:end])); ; {
			if _, err := d.Token(); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				t.Fatalf("%v in %s", err, text[start:end])
			}
		}
		text = text[end:]
	}
	if drawings != 6 { // 3 swatches and 3 pictures
		t.Errorf("%d drawings, want 6", drawings)
	}
}

// TestIndex: the list of a pack has a link to every file, and to nothing else.
func TestIndex(t *testing.T) {
	entries := []print.Entry{{File: "wires.pdf", Title: "Cut list", Summary: "what to cut"}, {File: "wires-reels.csv", Title: "By reel"}}
	var page, text strings.Builder
	if err := print.HTMLIndex(&page, sampleHead(), entries); err != nil {
		t.Fatal(err)
	}
	var links []string
	for _, e := range elements(t, page.String()) {
		if href := attribute(e, "href"); e.Data == "a" && !strings.HasPrefix(href, "#") {
			links = append(links, href)
		}
	}
	if strings.Join(links, " ") != "./wires.pdf ./wires-reels.csv" {
		t.Errorf("links to %q", links)
	}
	if err := print.TextIndex(&text, sampleHead(), entries); err != nil {
		t.Fatal(err)
	}
	for _, words := range []string{"NOT FOR BUILD: 2 errors, 5 not judged", "wires.pdf", "wires-reels.csv", "certifies nothing"} {
		if !strings.Contains(text.String(), words) || !strings.Contains(page.String(), words) {
			t.Errorf("an index has no %q", words)
		}
	}
}
