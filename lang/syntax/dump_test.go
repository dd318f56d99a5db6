package syntax_test

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"hame/lang/syntax"
)

var update = flag.Bool("update", false, "rewrite the expected trees")

var kinds = [...]string{"Word", "Dotted", "Number", "Range", "Text", "Date", "Slashed", "Compare", "Comma"}

func dumpValue(v syntax.Value) string {
	out := fmt.Sprintf("%s(%s)", kinds[v.Kind], v.Text)
	if v.Kind == syntax.Number || v.Kind == syntax.Range {
		out += fmt.Sprintf("=%g", v.Lo.SI)
	}
	if v.Kind == syntax.Range {
		out += fmt.Sprintf("..%g", v.Hi.SI)
	}
	return out
}

func dumpBlock(b *strings.Builder, block *syntax.Block, indent string) {
	if block == nil {
		return
	}
	for _, s := range block.Settings {
		fmt.Fprintf(b, "%s%s", indent, s.Key.Text)
		for _, v := range s.Values {
			b.WriteString(" " + dumpValue(v))
		}
		if s.Broken {
			b.WriteString(" BROKEN")
		}
		b.WriteString("\n")
		dumpBlock(b, s.Block, indent+"  ")
	}
	if !block.Closed {
		fmt.Fprintf(b, "%sOPEN\n", indent)
	}
}

// optional shows values that may be missing.
func optional(values ...*syntax.Value) string {
	var out []string
	for _, v := range values {
		if v == nil {
			out = append(out, "-")
			continue
		}
		out = append(out, dumpValue(*v))
	}
	return strings.Join(out, " ")
}

func dumpDecl(d syntax.Decl) string {
	switch d := d.(type) {
	case *syntax.Places:
		var names []string
		for _, n := range d.Names {
			names = append(names, n.Text)
		}
		return strings.Join(names, "+") + " in " + d.Zone.Text
	case *syntax.Bundle:
		return d.From.Text + " to " + d.To.Text + " " + optional(d.Length)
	case *syntax.Device:
		return "kind " + d.Kind.Text
	case *syntax.Wire:
		words := ""
		for _, v := range d.Words {
			words += " " + dumpValue(v)
		}
		return optional(d.From, d.To, d.Gauge) + words + " " + optional(d.Length)
	case *syntax.Part:
		return "family " + d.Family.Text + " kind " + d.Kind.Text
	case *syntax.Use:
		return optional(d.Path)
	case *syntax.Require:
		return d.What.Text + " " + optional(d.Op, d.Limit) + " in " + d.Mode.Text
	case *syntax.Allow:
		return optional(d.Rule, d.On, d.Because, d.Until)
	}
	return ""
}

// dump writes a tree so that a person can judge it.
func dump(f *syntax.File) string {
	var b strings.Builder
	for _, d := range f.Decls {
		h := d.Header()
		for line := range strings.Lines(h.Doc) {
			fmt.Fprintf(&b, "# %s\n", strings.TrimSuffix(line, "\n"))
		}
		fmt.Fprintf(&b, "%s %q %s", h.Keyword.Text, h.Name.Text, dumpDecl(d))
		if h.Broken {
			b.WriteString(" BROKEN")
		}
		b.WriteString("\n")
		dumpBlock(&b, h.Block, "  ")
	}
	return b.String()
}

// What is read, of good texts and of broken ones, as a tree beside the fixture.
func TestTrees(t *testing.T) {
	for _, name := range []string{"good/forms", "bad/headers", "bad/settings", "bad/braces", "bad/ten"} {
		got := dump(syntax.Parse(read(t, "testdata/"+name+".hame")))
		golden := "testdata/" + name + ".tree"
		if *update {
			if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(want), got); diff != "" {
			t.Errorf("%s (-want +got; -update rewrites)\n%s", name, diff)
		}
	}
}
