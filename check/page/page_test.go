package page_test

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"hame/check"
	"hame/check/page"
	"hame/check/sheets"
	"hame/lang/source"
)

func packOf(t *testing.T, path string) *sheets.Pack {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	run := check.File(source.New(filepath.Base(path), string(text)), check.Options{})
	if run.Harness == nil {
		t.Fatal(path, "has no harness")
	}
	return sheets.NewPack(run, sheets.Options{})
}

func write(t *testing.T, p *sheets.Pack) string {
	t.Helper()
	var out bytes.Buffer
	if err := page.Write(&out, p, nil); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// elements lists all elements of a page.
func elements(t *testing.T, text string) []*html.Node {
	t.Helper()
	root, err := html.Parse(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return slices.Collect(func(yield func(*html.Node) bool) {
		for n := range root.Descendants() {
			if n.Type == html.ElementNode && !yield(n) {
				return
			}
		}
	})
}

func attribute(n *html.Node, name string) string {
	for _, a := range n.Attr {
		if a.Key == name {
			return a.Val
		}
	}
	return ""
}

// TestPage: modes are offered, findings name what is drawn, and nothing comes
// from elsewhere.
func TestPage(t *testing.T) {
	p := packOf(t, "../../examples/sap_hauler/harness.hame")
	text := write(t, p)
	if again := write(t, packOf(t, "../../examples/sap_hauler/harness.hame")); again != text {
		t.Error("twice written, not the same bytes")
	}
	drawn, options := map[string]bool{}, 0
	for _, n := range elements(t, text) {
		switch n.Data {
		case "g":
			drawn[attribute(n, "data-name")] = true
		case "option":
			options++
		case "link", "iframe", "object", "embed", "img", "base":
			t.Errorf("a page of its own has a <%s>", n.Data)
		}
		for _, a := range n.Attr {
			if (a.Key == "src" || a.Key == "href") && !strings.HasPrefix(a.Val, "#") {
				t.Errorf("it reaches for %s", a.Val)
			}
			if strings.HasPrefix(a.Key, "on") || a.Key == "style" {
				t.Errorf("<%s> has %s, which its policy stops", n.Data, a.Key)
			}
		}
	}
	if options != 1+len(p.Harness.Modes) {
		t.Errorf("%d modes are offered, want %d and none", options, len(p.Harness.Modes))
	}
	for _, b := range p.Harness.Bundles {
		if !drawn[b.Name] {
			t.Errorf("bundle %s is not drawn", b.Name)
		}
	}
}

// TestHostile: what a harness says cannot leave the script or the page.
func TestHostile(t *testing.T) {
	const text = `harness x { title "</script><script>alert(1)</script>"; system 12 V }
supply battery main { capacity 70 Ah; cranking 500 A; label "<img src=x onerror=alert(1)>" }
mode m { key on; engine off }
allow wire/drop on main because "</script><b onclick=alert(1)>"
`
	run := check.File(source.New("</script>.hame", text), check.Options{})
	for _, n := range elements(t, write(t, sheets.NewPack(run, sheets.Options{}))) {
		if n.Data == "img" || n.Data == "b" && len(n.Attr) > 0 {
			t.Errorf("a user's <%s> got into the page", n.Data)
		}
	}
}

// TestScripts: the page has one script, of ours.
func TestScripts(t *testing.T) {
	for _, path := range []string{"../../examples/sap_hauler/harness.hame", "../../examples/forwarder/harness.hame"} {
		count := 0
		for _, n := range elements(t, write(t, packOf(t, path))) {
			if n.Data == "script" {
				count++
			}
		}
		if count != 1 {
			t.Errorf("%s: %d scripts, want one", path, count)
		}
	}
}
