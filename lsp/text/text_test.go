package text_test

import (
	"strings"
	"testing"
	"unicode/utf16"
	"unicode/utf8"

	"pgregory.net/rapid"

	"hame/lsp/text"
)

// The example of the Language Server Protocol 3.17, "Position": in a𐐀b the
// offset of b is 3 in UTF-16, and by the same text 5 in UTF-8 and 2 in UTF-32.
func TestTheProtocolsExample(t *testing.T) {
	l := text.NewLines("a𐐀b")
	for e, want := range map[text.Encoding]int{text.UTF16: 3, text.UTF8: 5, text.UTF32: 2} {
		if p := l.Point(5, e); p != (text.Point{Char: want}) {
			t.Errorf("encoding %d: b stands at %v, want %d", e, p, want)
		}
		if o := l.Offset(text.Point{Char: want}, e); o != 5 {
			t.Errorf("encoding %d: character %d is byte %d, want 5", e, want, o)
		}
	}
}

// Line ends are \n, \r\n and \r; a point behind a line's end is its end.
func TestLines(t *testing.T) {
	l := text.NewLines("ab\r\nc\rd\n")
	want := []struct{ start, end int }{{0, 2}, {4, 5}, {6, 7}, {8, 8}}
	if l.Count() != len(want) {
		t.Fatalf("%d lines, want %d", l.Count(), len(want))
	}
	for i, w := range want {
		if l.Start(i) != w.start || l.End(i) != w.end {
			t.Errorf("line %d: %d to %d, want %v", i, l.Start(i), l.End(i), w)
		}
		if o := l.Offset(text.Point{Line: i, Char: 99}, text.UTF16); o != w.end {
			t.Errorf("behind line %d is %d, want %d", i, o, w.end)
		}
	}
	if p := l.Point(3, text.UTF16); p != (text.Point{Line: 0, Char: 2}) {
		t.Errorf("between \\r and \\n: %v", p)
	}
	if o := l.Offset(text.Point{Line: 7}, text.UTF16); o != 8 {
		t.Errorf("behind the last line: %d", o)
	}
	if o := text.NewLines("").Offset(text.Point{Line: 3, Char: 4}, text.UTF8); o != 0 {
		t.Errorf("in an empty text: %d", o)
	}
	if o := text.NewLines("x😀y").Offset(text.Point{Char: 3}, text.UTF8); o != 1 {
		t.Errorf("within a character: %d", o)
	}
	if o := text.NewLines("x😀y").Offset(text.Point{Char: 2}, text.UTF16); o != 1 {
		t.Errorf("within a pair of units: %d", o)
	}
}

// Where lines start, counted byte by byte.
func TestLineStarts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := strings.Join(rapid.SliceOf(rapid.SampledFrom([]string{"\r", "\n", "\r\n", "a", "😀"})).Draw(t, "pieces"), "")
		want := []int{0}
		for i := range len(s) {
			if s[i] == '\n' || s[i] == '\r' && !strings.HasPrefix(s[i+1:], "\n") {
				want = append(want, i+1)
			}
		}
		l := text.NewLines(s)
		if l.Count() != len(want) {
			t.Fatalf("%q has %d lines, not %d", s, len(want), l.Count())
		}
		for i, start := range want {
			if l.Start(i) != start {
				t.Fatalf("line %d of %q starts at %d, not %d", i, s, start, l.Start(i))
			}
		}
	})
}

func texts() *rapid.Generator[string] {
	return rapid.StringOf(rapid.SampledFrom([]rune("aé😀𐐀\n\t\r#→")))
}

var encodings = rapid.SampledFrom([]text.Encoding{text.UTF8, text.UTF16, text.UTF32})

// There and back for every character, and units as the standard library counts
// them.
func TestThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, e := texts().Draw(t, "text"), encodings.Draw(t, "encoding")
		l := text.NewLines(s)
		for offset, r := range s {
			p := l.Point(offset, e)
			if r == '\n' && offset > 0 && s[offset-1] == '\r' {
				continue // within a line break
			}
			if back := l.Offset(p, e); back != offset {
				t.Fatalf("%d became %v became %d in %q", offset, p, back, s)
			}
			if want := count(s[strings.LastIndexAny(s[:offset], "\r\n")+1:offset], e); p.Char != want {
				t.Fatalf("%d is character %d of its line, want %d", offset, p.Char, want)
			}
		}
	})
}

func count(s string, e text.Encoding) int {
	switch e {
	case text.UTF8:
		return len(s)
	case text.UTF16:
		return len(utf16.Encode([]rune(s)))
	}
	return utf8.RuneCountInString(s)
}

// TestApplyKeepsStep plays an editor that holds its text as runes and tells of
// every edit by lines and characters.
func TestApplyKeepsStep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := encodings.Draw(t, "encoding")
		mine := texts().Draw(t, "text")
		theirs := []rune(mine)
		for range rapid.IntRange(1, 8).Draw(t, "edits") {
			l := text.NewLines(string(theirs))
			from := rapid.IntRange(0, len(theirs)).Draw(t, "from")
			to := rapid.IntRange(from, len(theirs)).Draw(t, "to")
			if splits(theirs, from) || splits(theirs, to) {
				continue // no editor cuts a line break in two
			}
			put := texts().Draw(t, "put")
			c := text.Change{From: l.Point(len(string(theirs[:from])), e), To: l.Point(len(string(theirs[:to])), e), Text: put}
			theirs = append(append(append([]rune{}, theirs[:from]...), []rune(put)...), theirs[to:]...)
			mine = text.Apply(text.NewLines(mine), []text.Change{c}, e)
			if mine != string(theirs) {
				t.Fatalf("%q is not %q", mine, string(theirs))
			}
		}
		if whole := text.Apply(text.NewLines(mine), []text.Change{{Whole: true, Text: "x"}}, e); whole != "x" {
			t.Fatalf("a whole text became %q", whole)
		}
	})
}

func splits(r []rune, at int) bool {
	return at > 0 && at < len(r) && r[at-1] == '\r' && r[at] == '\n'
}

func FuzzApply(f *testing.F) {
	f.Add("a\r\nb", 0, 1, 1, 9, "x", uint8(1))
	f.Fuzz(func(t *testing.T, s string, line, char, toLine, toChar int, put string, e uint8) {
		c := text.Change{From: text.Point{Line: line, Char: char}, To: text.Point{Line: toLine, Char: toChar}, Text: put}
		got := text.Apply(text.NewLines(s), []text.Change{c}, text.Encoding(e%3))
		if len(got) > len(s)+len(put) || !strings.Contains(got, put) {
			t.Fatalf("%q became %q", s, got)
		}
	})
}
