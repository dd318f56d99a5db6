package syntax_test

import (
	"strings"
	"testing"

	"hame/lang/source"
	"hame/lang/syntax"
)

const walked = `# Not this one.

# The cowl's
# own harness.
harness h { title "t"; practice land { drop critical 2 %; drop other 6 % }; wire gxl } # nor this
place a in z
load led x
`

func TestDocIsTheCommentAbove(t *testing.T) {
	f := syntax.Parse(source.New("t.hame", walked))
	for i, want := range []string{"The cowl's\nown harness.", "", ""} {
		if got := f.Decls[i].Header().Doc; got != want {
			t.Errorf("declaration %d: %q, want %q", i, got, want)
		}
	}
}

func TestDeclAt(t *testing.T) {
	f := syntax.Parse(source.New("t.hame", walked))
	for _, c := range []struct{ at, want string }{
		{"# Not", ""},
		{"harness h", "harness"},
		{"title", "harness"},
		{"# nor", ""},
		{"in z", "place"},
		{"x\n", "load"},
	} {
		d, got := f.DeclAt(strings.Index(walked, c.at)), ""
		if d != nil {
			got = d.Header().Keyword.Text
		}
		if got != c.want {
			t.Errorf("at %q is %q, want %q", c.at, got, c.want)
		}
	}
	if end := f.DeclAt(len(walked) - 1); end == nil || end.Header().Name.Text != "x" {
		t.Error("the end of a declaration does not belong to it")
	}
}

func TestTokensAndSettingsAtAnOffset(t *testing.T) {
	f := syntax.Parse(source.New("t.hame", walked))
	at := strings.Index(walked, "other")
	if got := f.TokenText(f.Tokens[f.TokenAt(at+2)]); got != "other" {
		t.Errorf("token %q", got)
	}
	s, holder := f.Decls[0].Header().Block.SettingAt(at)
	if s == nil || s.Key.Text != "drop" || s.Values[0].Text != "other" || len(holder.Settings) != 2 {
		t.Errorf("setting %+v in %+v", s, holder)
	}
	if s, _ := f.Decls[1].Header().Block.SettingAt(at); s != nil {
		t.Errorf("setting %v of no block", s.Key)
	}
}

func TestBlocksAreSearched(t *testing.T) {
	block := syntax.Parse(source.New("t.hame", walked)).Decls[0].Header().Block
	var keys []string
	block.Walk(func(s *syntax.Setting) { keys = append(keys, s.Key.Text) })
	if got := strings.Join(keys, " "); got != "title practice drop drop wire" {
		t.Errorf("walked %s", got)
	}
	practice, drops := block.First("practice"), 0
	for range practice.Block.Each("drop") {
		drops++
	}
	var none *syntax.Block
	if drops != 2 || block.First("drop") != nil || none.First("title") != nil {
		t.Errorf("%d drops; settings of inner blocks or of no block are found", drops)
	}
}

// Every statement form is taught: its line starts with its keyword.
func TestFormLines(t *testing.T) {
	words := syntax.Keywords()
	if len(words) != 16 {
		t.Errorf("%d keywords: %v", len(words), words)
	}
	for _, word := range words {
		if !strings.HasPrefix(syntax.FormLine(word), word+" ") {
			t.Errorf("%s is written %q", word, syntax.FormLine(word))
		}
	}
	if syntax.FormLine("fuse") != "" {
		t.Error("fuse starts a statement")
	}
}
