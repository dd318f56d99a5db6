package wanted_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"hame/lang/finding"
	"hame/lang/source"
	"hame/lang/wanted"
)

type recorder struct{ said []string }

func (*recorder) Helper() {}

func (r *recorder) Errorf(format string, args ...any) {
	r.said = append(r.said, fmt.Sprintf(format, args...))
}

func TestOf(t *testing.T) {
	f := source.New("t.hame", "a # want x/y \"one \\\"1\\\"\" x/z\nb\n# want above x/w\n# wanted: nothing\n")
	got, err := wanted.Of(f)
	if err != nil {
		t.Fatal(err)
	}
	want := []wanted.Want{{1, "x/y", `one "1"`}, {1, "x/z", ""}, {2, "x/w", ""}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	if _, err := wanted.Of(source.New("t.hame", "# want \"no rule\"")); err == nil {
		t.Error("a want without a rule is read")
	}
}

func TestCheckTellsBothWays(t *testing.T) {
	f := source.New("t.hame", "a # want x/y \"one\"\nb # want x/z\nc\n")
	at := func(text string) finding.Place {
		return finding.Place{File: f, Span: source.Span{Start: strings.Index(f.Text, text)}}
	}
	met := finding.Finding{Rule: "x/y", Message: "one of them", At: at("a #")}
	for _, c := range []struct {
		name  string
		found []finding.Finding
		said  int
	}{
		{"all met", []finding.Finding{met, {Rule: "x/z", At: at("b #")}}, 0},
		{"one missing", []finding.Finding{met}, 1},
		{"one twice", []finding.Finding{met, met, {Rule: "x/z", At: at("b #")}}, 1},
		{"wrong line", []finding.Finding{met, {Rule: "x/z", At: at("c")}}, 2},
		{"wrong message", []finding.Finding{{Rule: "x/y", Message: "two", At: at("a #")}, {Rule: "x/z", At: at("b #")}}, 2},
		{"other file", []finding.Finding{met, {Rule: "x/z", At: at("b #")}, {Rule: "q/q"}}, 0},
	} {
		var r recorder
		wanted.Check(&r, f, c.found)
		if len(r.said) != c.said {
			t.Errorf("%s: %d complaints, want %d: %v", c.name, len(r.said), c.said, r.said)
		}
	}
}
